"""Whatever is wrong with a recipe's text is said in one sentence: the place, the value, the repair."""

import json
from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import MakingError, RecipeError
from piecewright.making.given import Given
from piecewright.making.plain import MOST_BYTES, MOST_DEPTH
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.run import facts
from piecewright.making.verbs import VERBS
from tests.core.making.recipe_spoiling import Plain, change, drop, sample, spoiled_recipes, values

START = 'A recipe is a JSON object that begins {"recipe": 1, "name": ...'
PART = 'Write one part, such as "col.1"; in a list, "col.*" stands for all.'
NAME = "A name is a letter, then letters, digits and _; it is not in, cm, mm or yd."
USED_ONCE = "A piece is used once; make another."
LETTER = "Write a fabric letter, such as A; digits and _ may follow it."
MORE = "A piece of cloth is wider and longer than nothing."
ONE_WAY = 'Give "every" with "count", or "widths", or "into".'


def step(index: int, **keys: object) -> Callable[[Plain], None]:
    return lambda plain: plain["steps"][index].update(keys)


def both(*changes: Callable[[Plain], None]) -> Callable[[Plain], None]:
    def changed(plain: Plain) -> None:
        for change_one in changes:
            change_one(plain)

    return changed


FAULTS: list[tuple[Callable[[Plain], None], str]] = [
    # keys
    (change("sise", to={}), 'sise: This key has no meaning here. Did you mean "sizes"?'),
    (
        change("zzz", to=1),
        (
            "zzz: This key has no meaning here. Known here: about, block, finished, let, name, note, recipe, "
            "seam, sizes, stack, steps and vary."
        ),
    ),
    (step(3, evry="F"), 'steps[3].evry: This key has no meaning here. Did you mean "every"?'),
    (
        change("steps", 0, "lay", "lenght", to="3"),
        'steps[0].lay.lenght: This key has no meaning here. Did you mean "length"?',
    ),
    (drop("steps", 3, "axis"), 'steps[3].axis: This key is missing. It wants "across" or "down".'),
    (drop("steps", 0, "make"), "steps[0].make: This key is missing. It wants text in quotation marks."),
    (drop("block"), "block: This key is missing. It wants a list of 1 or more entries."),
    (change("name", to=7), "name: 7 can not stand here. Write text in quotation marks."),
    (change("name", to=""), 'name: "" can not stand here. Write text in quotation marks.'),
    (change("about", to=None), "about: null says nothing in a recipe. Leave the key out."),
    (change("steps", to=[]), "steps: The list has 0 entries. Write a list of 1 or more entries."),
    (change("steps", 2, to="sew"), 'steps[2]: "sew" can not stand here. Write an object in braces.'),
    (change("finished", to=["F"]), "finished: The list has 1 entry. Write a list of 2 entries."),
    (change("stack", to=0), "stack: 0 can not stand here. Write a whole number from 1 to 100."),
    # versions
    (drop("recipe"), f'This is not a recipe: it has no "recipe" key. {START}'),
    (change("recipe", to="1"), 'recipe: "1" is not a version of the recipe format. Write 1.'),
    (change("recipe", to=True), "recipe: true is not a version of the recipe format. Write 1."),
    (
        change("recipe", to=2),
        (
            "recipe: This recipe is of version 2; this program knows up to 1. "
            "It is kept as it is; open it with a newer Piecewright."
        ),
    ),
    # verbs and choices
    (
        step(4, cut="col.1"),
        "steps[4]: This step has the verbs turn and cut; a step has one. Make a step of each.",
    ),
    (
        change("steps", 2, to={"make": "set", "sow": ["a", "b"], "axis": "down"}),
        'steps[2]: This step has no verb. Did you mean "sew" in place of "sow"?',
    ),
    (
        change("steps", 2, to={"make": "set"}),
        f"steps[2]: This step has no verb. Verbs are {', '.join([*VERBS][:-1])} and {[*VERBS][-1]}.",
    ),
    (step(4, by=450), "steps[4].by: 450 can not stand here. Write a number of degrees between 0 and 360."),
    (
        step(4, by="180"),
        'steps[4].by: "180" can not stand here. Write a number of degrees between 0 and 360.',
    ),
    (step(4, by=0), "steps[4].by: 0 can not stand here. Write a number of degrees between 0 and 360."),
    (step(2, axis="dwn"), 'steps[2].axis: "dwn" can not stand here. Did you mean "down"?'),
    (step(2, axis="x"), 'steps[2].axis: "x" can not stand here. Write "across" or "down".'),
    (
        step(3, count="five"),
        'steps[3].count: "five" can not stand here. Write a whole number from 1 up or "fit".',
    ),
    (step(3, count=2.5), 'steps[3].count: 2.5 can not stand here. Write a whole number from 1 up or "fit".'),
    (step(3, count=0), 'steps[3].count: 0 can not stand here. Write a whole number from 1 up or "fit".'),
    (
        change("steps", 0, "lay", "least", to="yes"),
        'steps[0].lay.least: "yes" can not stand here. Write true or false.',
    ),
    # lengths and names
    (
        change("sizes", "F", to=["12 furlongs"]),
        (
            'sizes.F[0]: "12 furlongs" has the unit "furlongs", which recipes do not use. '
            "Units are in, cm, mm and yd; without one a length is in inches."
        ),
    ),
    (
        change("sizes", "F", to=["12", 9]),
        'sizes.F[1]: 9 is not a length. Write it as text in quotation marks: "9".',
    ),
    (
        change("sizes", "F", to=["twelve"]),
        'sizes.F[0]: "twelve" is not a length. Write it like "6 1/2", "6.5", "16.5 cm" or "1/4 yd".',
    ),
    (change("sizes", "F", to="12"), 'sizes.F: "12" can not stand here. Write a list of 1 or more entries.'),
    (change("sizes", "F", to=[]), "sizes.F: The list has 0 entries. Write a list of 1 or more entries."),
    (
        step(3, every="F + 1 cm"),
        (
            'steps[3].every: "F + 1 cm" has the unit cm inside a sum. '
            "Give that length a name under sizes, or write it in inches without a unit."
        ),
    ),
    (step(3, every=13), 'steps[3].every: 13 is not a length. Write it as text in quotation marks: "13".'),
    (
        step(3, every="G"),
        (
            'steps[3].every: "G" uses G, and nothing has that name here. '
            "Names known here: seam, usable, F, t and w."
        ),
    ),
    (
        step(3, every="+".join("1" * 42)),
        (
            'steps[3].every: "' + "1+" * 30 + '..." has more than 40 operations. '
            'Work parts of it out under "let" and use their names.'
        ),
    ),
    (
        step(3, every="1" * 201),
        (
            "steps[3].every: This length is 201 characters long; 200 is the most. "
            'Work parts of it out under "let" and use their names.'
        ),
    ),
    (
        step(3, every="(" * 30 + "1" + ")" * 30),
        (
            'steps[3].every: "' + "(" * 30 + "1" + ")" * 29 + '..." has parentheses more than 20 deep. '
            'Work parts of it out under "let" and use their names.'
        ),
    ),
    (
        change("let", "w", to="z + 1"),
        'let.w: "z + 1" uses z, and nothing has that name here. Names known here: seam, usable, F and t.',
    ),
    (change("let", "v", to="w + 1"), ""),
    (
        change("let", to={"v": "w + 1", "w": "F"}),
        'let.v: "w + 1" uses w, and nothing has that name here. Names known here: seam, usable, F and t.',
    ),
    (change("let", "F", to="3"), 'let.F: The name "F" is given twice. Choose another name.'),
    (
        change("vary", "F", to={"from": "1", "to": "2", "step": "1"}),
        'vary.F: The name "F" is given twice. Choose another name.',
    ),
    (change("let", "cm", to="3"), f'let: "cm" can not be a name. {NAME}'),
    (change("let", "2w", to="3"), f'let: "2w" can not be a name. {NAME}'),
    (
        change("sizes", "seam", to=["1"]),
        (
            'sizes.seam: The name "seam" is taken (seam: the allowance in force; usable: the usable width). '
            "Choose another name."
        ),
    ),
    (
        change("seam", to="0"),
        'seam: A seam allowance of 0 in holds nothing. Leave "seam" out to use the allowance of the design.',
    ),
    (
        change("seam", to="F"),
        'seam: "F" is not a length. Write it like "6 1/2", "6.5", "16.5 cm" or "1/4 yd".',
    ),
    (change("vary", "t", "stp", to="1"), 'vary.t.stp: This key has no meaning here. Did you mean "step"?'),
    # pieces
    (
        step(2, sew=["a", "zz"]),
        'steps[2].sew[1]: No step before this one makes a piece "zz". Made so far: a and b.',
    ),
    (
        step(4, turn="cal.2"),
        'steps[4].turn: No step before this one makes a piece "cal". Did you mean "col"?',
    ),
    (
        step(2, sew=["a", "block"]),
        'steps[2].sew[1]: No step before this one makes a piece "block". Made so far: a and b.',
    ),
    (
        change("steps", to=[{"make": "a", "turn": "b", "by": 90}]),
        'steps[0].turn: No step before this one makes a piece "b". Lay cloth first.',
    ),
    (
        step(1, make="a"),
        'steps[1].make: The name "a" is given twice, first at steps[0]. Choose another name.',
    ),
    (step(1, make="yd"), f'steps[1].make: "yd" can not be a name. {NAME}'),
    (step(1, make="b.1"), f'steps[1].make: "b.1" can not be a name. {NAME}'),
    (step(2, sew=["a", "a"]), f'steps[2].sew[1]: "a" is used up already at steps[2].sew[0]. {USED_ONCE}'),
    (
        step(6, sew=["col.1", "col.2", "mid"]),
        f'steps[6].sew[1]: "col.2" is used up already at steps[4].turn. {USED_ONCE}',
    ),
    (
        step(6, sew=["mid", "col.*"]),
        f'steps[6].sew[1]: "col.*" is used up already at steps[4].turn. {USED_ONCE}',
    ),
    (
        change("block", to=["block", "mid"]),
        f'block[1]: "mid" is used up already at steps[6].sew[1]. {USED_ONCE}',
    ),
    (
        step(2, sew=["a"]),
        "steps[2].sew: Sewing takes two pieces or more, and this list has 1. Name every piece in its order.",
    ),
    (
        change("steps", 0, "lay", "fabric", to=""),
        f'steps[0].lay.fabric: "" can not stand for a fabric. {LETTER}',
    ),
    # parts and wildcards
    (step(4, turn="col"), f'steps[4].turn: "col" is cut in parts, and this does not say which. {PART}'),
    (step(4, turn="col.4"), 'steps[4].turn: "col.4" can not be: "col" has 3 parts. The last one is "col.3".'),
    (step(4, turn="col.0"), f'steps[4].turn: "col.0" names no part. {PART}'),
    (step(4, turn="col.two"), f'steps[4].turn: "col.two" names no part. {PART}'),
    (step(3, cut="set.1"), 'steps[3].cut: "set.1" stands for a part, and "set" is one piece. Write "set".'),
    (step(2, sew=["a.*", "b"]), 'steps[2].sew[0]: "a.*" stands for parts, and "a" is one piece. Write "a".'),
    (
        change("steps", 4, to={"make": "mid", "cut": "col.*", "axis": "down", "into": 2}),
        'steps[4].cut: "col.*" stands for all its parts, and this verb works on one piece at a time. ' + PART,
    ),
    (
        step(4, which="odd"),
        (
            "steps[4].which: Nothing here is in parts, so there is nothing to pick. "
            'Name all parts, such as "col.*", beside "which"; or leave "which" out.'
        ),
    ),
    (
        step(4, turn="col.*", which=[1, 4]),
        "steps[4].which[1]: There is no part 4 to pick. Parts are numbered from 1 to 3.",
    ),
    (step(4, turn="col.*", which=[2, 2]), "steps[4].which: Pick each part once, and at least one."),
    (
        step(4, turn="col.*", which="evn"),
        'steps[4].which: "evn" can not stand here. Write "even" or "odd" or a list of 1 or more entries.',
    ),
    # pressing
    (
        change("steps", 5, "press", "seam", to="set.2"),
        (
            'steps[5].press.seam: "set.2" can not be: "set" was sewn with 1 seam. '
            'Write "set" for all its seams or "set.1" for the first.'
        ),
    ),
    (
        change("steps", 5, "press", "seam", to="a"),
        (
            'steps[5].press.seam: "a" was not made by sewing, so it has no seam of its own '
            "to press. Name the step that sewed the seam."
        ),
    ),
    (
        change("steps", 5, "press", "toward", to="dark"),
        'steps[5].press.toward: "dark" can not stand here. Did you mean "darker"?',
    ),
]


@pytest.mark.parametrize(
    ("spoil", "sentence"), FAULTS, ids=[sentence[:60] or "none" for _, sentence in FAULTS]
)
def test_a_fault_is_said_with_place_value_and_repair(spoil: Callable[[Plain], None], sentence: str) -> None:
    plain = sample()
    spoil(plain)
    if not sentence:
        assert Recipe.from_plain(plain).name
        return
    with pytest.raises(RecipeError) as refusal:
        Recipe.from_plain(plain)
    assert refusal.value.sentence() == sentence


AT_THE_TABLE: list[tuple[Callable[[Plain], None], str]] = [
    (
        change("steps", 0, "lay", "length", to="F - 12"),
        f"steps[0].lay.length: 0 in is no length of cloth. {MORE}",
    ),
    (
        change("steps", 0, "lay", "length", to="F - 13"),
        f"steps[0].lay.length: -1 in is no length of cloth. {MORE}",
    ),
    (
        change("steps", 0, "lay", "width", to="10000.5"),
        "steps[0].lay.width: 10000 1/2 in is longer than any cloth. Use at most 10000 in.",
    ),
    (
        step(3, count="fit", every="41"),
        "steps[3].every: 41 in is more than the 40 in of cloth left: 1 in is missing. Cut at most 40 in.",
    ),
    (
        drop("steps", 3, "count"),
        f'steps[3].every: "every" and "count" go together. {ONE_WAY}',
    ),
    (
        step(3, widths=["1"]),
        f"steps[3].cut: A cut says one way to cut, and this says every and widths. {ONE_WAY}",
    ),
    (
        both(step(3, count="fit"), step(4, turn="col.4")),
        "steps[4].turn: There is no piece col.4. col has 3 parts.",
    ),
    (
        both(step(3, count="fit"), step(4, turn="col.*", which=[1, 4]), step(6, sew=["mid.*"])),
        "steps[4].which[1]: There is no part 4 to pick. Parts are numbered from 1 to 3.",
    ),
    (
        both(step(3, count="fit"), step(4, turn="col.3"), step(6, sew=["col.*"], which=[1, 9])),
        "steps[6].which[1]: There is no part 9 to pick. Parts are numbered from 1 to 3.",
    ),
]


@pytest.mark.parametrize(("spoil", "sentence"), AT_THE_TABLE)
def test_what_the_cloth_does_not_allow_is_said_the_same_way(
    spoil: Callable[[Plain], None], sentence: str
) -> None:
    plain = sample()
    spoil(plain)
    recipe = Recipe.from_plain(plain)
    with pytest.raises((RecipeError, MakingError)) as refusal:
        facts(recipe, Given())
    assert refusal.value.sentence() == sentence


BYTES: list[tuple[bytes, str]] = [
    (
        b'{"recipe": 1 "name": "x"}',
        "This is not JSON: line 1, column 14: Expecting ',' delimiter. Mend the text just before that place.",
    ),
    (b"", "This is not JSON: line 1, column 1: Expecting value. Mend the text just before that place."),
    (b"[1, 2]", f"[...] is not a recipe. {START}"),
    (b'"recipe"', f'"recipe" is not a recipe. {START}'),
    (
        b'{"recipe": 1, "name": "a", "name": "b"}',
        'The key "name" stands twice in one object. Keep one of the two.',
    ),
    (b'{"recipe": NaN}', "NaN is not a number."),
    (b'{"recipe": -Infinity}', "-Infinity is not a number."),
    (b'{"recipe": 1e999}', "recipe: inf is not a number."),
    (b'{"recipe": ' + b"9" * 5000 + b"}", "This number is far too large for a recipe."),
    (b'{"recipe": 99999999999}', "recipe: This number is far too large for a recipe."),
    (b'{"recipe": 1, "name": "\xff"}', "Byte 24 is not UTF-8 text. Save the recipe as UTF-8."),
    (b'{"recipe": 1, "name": "\\ud800"}', 'name: "\\ud800" holds half a character.'),
    (b"[" * 100_000, f"Lists and objects lie more than {MOST_DEPTH} deep in each other."),
    (b"[" * 42 + b"]" * 42, f"Lists and objects lie more than {MOST_DEPTH} deep in each other."),
    (
        b'{"a":' * 5000 + b"1" + b"}" * 5000,
        f"Lists and objects lie more than {MOST_DEPTH} deep in each other.",
    ),
    (b"[" + b"1," * 30_000 + b"1]", "This has more than 20000 values."),
    (b" " * (MOST_BYTES + 1), "This file is 257 kB large; a recipe has at most 256 kB."),
]


@pytest.mark.parametrize(("data", "sentence"), BYTES, ids=[sentence[:50] for _, sentence in BYTES])
def test_broken_and_hostile_bytes_are_refused_in_one_sentence(data: bytes, sentence: str) -> None:
    with pytest.raises(RecipeError) as refusal:
        read_recipe(data)
    assert refusal.value.sentence() == sentence


def read_or_refuse(read: Callable[[], Recipe]) -> Recipe | None:
    """What is read, or None for what is refused in one printable line."""
    found, sentence = None, "read"
    try:
        found = read()
    except RecipeError as fault:
        sentence = fault.sentence()
    assert sentence.strip()
    assert sentence.isprintable()
    return found


@given(values)
def test_of_any_value_only_a_recipe_fault_escapes(value: object) -> None:
    read_or_refuse(lambda: Recipe.from_plain(value))
    read_or_refuse(lambda: Recipe.from_plain({"recipe": 1, "name": "x", "steps": value, "block": ["a"]}))
    read_or_refuse(lambda: Recipe.from_plain({**sample(), "steps": [value]}))


@given(st.binary(max_size=60))
def test_of_any_bytes_only_a_recipe_fault_escapes(data: bytes) -> None:
    read_or_refuse(lambda: read_recipe(data))


@given(spoiled_recipes())
def test_of_a_spoiled_recipe_only_a_recipe_fault_escapes(plain: Plain) -> None:
    found = read_or_refuse(lambda: Recipe.from_plain(plain))
    if found is not None:
        assert Recipe.from_plain(found.plain) == found


@given(st.data())
def test_of_spoiled_bytes_only_a_recipe_fault_escapes(data: st.DataObject) -> None:
    source = bytearray(json.dumps(sample()).encode())
    for _ in range(data.draw(st.integers(1, 4))):
        at = data.draw(st.integers(0, len(source) - 1))
        source[at : at + data.draw(st.integers(0, 3))] = data.draw(st.binary(max_size=3))
    read_or_refuse(lambda: read_recipe(bytes(source)))

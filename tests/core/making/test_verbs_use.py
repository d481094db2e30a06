"""Whole recipes as pieces of another."""

from fractions import Fraction
from typing import Any

import pytest

from piecewright.errors import RecipeError
from piecewright.making import shipped
from piecewright.making.events import Used, first
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts as facts_of_recipe
from piecewright.making.run import run
from piecewright.making.shipped import shipped_recipe, shipped_recipes
from tests.core.making.building import (
    Plain,
    cut,
    facts,
    lay,
    press,
    rails,
    recipe,
    refusal,
    sew,
    shuffle,
    the_kind,
    turn,
    use,
)

RAILS: dict[str, Any] = {
    "recipe": 1,
    "name": "Two rails",
    "sizes": {"F": ["4", "6"]},
    "let": {"w": "F/2 + 2*seam"},
    "steps": [
        {"make": "a", "lay": {"fabric": "A", "width": "w", "length": "F + 2*seam"}},
        {"make": "b", "lay": {"fabric": "B", "width": "w", "length": "F + 2*seam"}},
        {"make": "set", "sew": ["a", "b"], "axis": "down"},
        {"press": {"seam": "set", "toward": "down"}},
    ],
    "block": ["set"],
    "finished": ["F", "F"],
}
FOUR = [
    use("one", RAILS),
    use("two", RAILS, fabrics={"A": "C", "B": "A"}),
    turn("t", "two", 90),
    sew("block", ["one", "t"], "across"),
]


def test_a_recipe_is_a_piece_with_its_outer_allowance_on() -> None:
    found = facts(FOUR)
    assert (found.unfinished.width, found.unfinished.height) == (Fraction(17, 2), Fraction(9, 2))
    assert sorted(the_kind(found).area_by_fabric.items()) == [("A", 16), ("B", 8), ("C", 8)]
    assert recipe(FOUR).letters == ("A", "B", "C")


def test_strips_beds_and_cloth_join_those_of_the_recipe_around() -> None:
    found = facts(FOUR)
    told = [(strip.fabric, strip.width, strip.length, strip.count) for strip in found.strips]
    length = Fraction(9, 2)
    assert told == [
        ("A", Fraction(5, 2), length, 2),
        ("B", Fraction(5, 2), length, 1),
        ("C", Fraction(5, 2), length, 1),
    ]
    beds = ["".join(lane.fabric for lane in bed.lanes) for bed in found.beds]
    assert beds == ["AB", "AC"]
    ledger = found.ledger
    assert ledger.laid == 4 * Fraction(5, 2) * length
    assert ledger.seen + ledger.allowance + ledger.waste == ledger.laid
    assert {patch.strip for patch in the_kind(found).patches} == {0, 1, 2, 3}


def test_a_used_recipe_gives_what_its_steps_would() -> None:
    inside = [step for step in RAILS["steps"] if "press" not in step]
    plain = {**RAILS, "steps": [*inside, {"make": "t", "turn": "set", "by": 90}], "block": ["t"]}
    alone = facts_of_recipe(Recipe.from_plain(plain), Given())
    used = facts([use("u", RAILS), turn("block", "u", 90)])
    assert [patch.points for patch in the_kind(used).patches] == [
        patch.points for patch in the_kind(alone).patches
    ]
    assert used.ledger == alone.ledger


def test_sizes_are_worked_out_from_names_outside_and_others_have_their_first_choice() -> None:
    steps = [use("u", RAILS, sizes={"F": "G / 2"}), use("v", RAILS), turn("block", "u", 90)]
    found = facts(steps, sizes={"G": ["12"]})
    assert found.finished.width == 6
    strips = {strip.length for strip in found.strips}
    assert strips == {Fraction(13, 2), Fraction(9, 2)}
    assert found.ledger.waste == 2 * Fraction(5, 2) * Fraction(9, 2)


def test_the_seam_in_force_holds_inside_but_a_recipes_own_wins() -> None:
    inside = facts([use("u", RAILS), turn("block", "u", 180)], seam="1/8")
    assert (inside.unfinished.width, inside.finished.width) == (Fraction(17, 4), 4)
    own = {**RAILS, "seam": "1/4"}
    outside = facts([use("u", own), turn("block", "u", 180)], seam="1/8")
    assert (outside.unfinished.width, outside.finished.width) == (Fraction(9, 2), Fraction(17, 4))


def test_several_blocks_are_parts() -> None:
    halves = shipped_recipes()["two-halves-from-thirds"]
    steps = [use("h", "two-halves-from-thirds"), sew("block", ["h.*"], "across")]
    found = facts(steps)
    assert halves.block == ("half.*",) or len(halves.block) > 1
    assert (found.finished.width, found.finished.height) == (Fraction(12), 12)
    assert refusal([use("h", "two-halves-from-thirds"), turn("block", "h", 90)]).startswith(
        'steps[1].turn: "h" is cut in parts, and this does not say which.'
    )


def test_left_overs_and_waste_inside_are_waste_outside() -> None:
    plain = {
        **RAILS,
        "steps": [
            *RAILS["steps"][:3],
            {"make": "p", "cut": "set", "axis": "across", "every": "2", "count": 2},
            {"make": "x", "lay": {"fabric": "X", "width": "1", "length": "7"}},
        ],
        "block": ["p.1"],
    }
    del plain["finished"]
    found = facts([use("u", plain), turn("block", "u", 90)])
    assert found.ledger.laid == 2 * Fraction(5, 2) * Fraction(9, 2) + 7
    assert found.ledger.waste == 7 + 2 * Fraction(5, 2) * Fraction(5, 2)
    assert "X" in [strip.fabric for strip in found.strips]


def test_pressing_inside_is_kept_and_names_inside_are_no_ones_else() -> None:
    steps = [
        lay("set", "D", "4 1/2", "4 1/2"),
        use("u", RAILS),
        turn("t", "u", 90),
        sew("block", ["set", "t"], "across"),
        press("block", "left"),
    ]
    seams = the_kind(facts(steps)).seams
    assert {(seam.step, seam.pressed) for seam in seams} == {("u.set", "left"), ("block", "left")}


def test_recipes_in_recipes_in_recipes() -> None:
    pair: Plain = {
        "recipe": 1,
        "name": "Pair",
        "steps": [
            {"make": "one", "use": RAILS, "fabrics": {"A": "P", "B": "Q"}},
            {"make": "two", "use": RAILS, "fabrics": {"A": "Q", "B": "P"}},
            {"make": "pair", "sew": ["one", "two"], "axis": "across"},
        ],
        "block": ["pair"],
    }
    steps = [
        use("u", pair, fabrics={"P": "R"}),
        use("v", pair),
        sew("block", ["u", "v"], "down"),
    ]
    made = recipe(steps)
    assert made.letters == ("R", "Q", "P")
    found = facts(steps)
    assert (found.finished.width, found.finished.height) == (8, 8)
    assert len(the_kind(found).patches) == 8
    assert {seam.step for seam in the_kind(found).seams} == {
        *("block", "u.pair", "v.pair"),
        *(f"{outer}.{inner}.set" for outer in "uv" for inner in ("one", "two")),
    }


def test_stacks_inside_and_outside() -> None:
    found = facts([use("u", RAILS), shuffle("block", "u", 1)], stack=3)
    assert {patch.layer for patch in the_kind(found).patches} == {1}
    assert found.blocks == 3
    stacked = {
        **RAILS,
        "stack": 2,
        "steps": [*RAILS["steps"][:2], shuffle("c", "b", 1), sew("set", ["a", "c"], "down")],
    }
    kind = the_kind(facts([use("u", stacked), turn("block", "u", 180)], stack=2))
    assert [(patch.fabric, patch.layer) for patch in kind.patches] == [("B", 1), ("A", 0)]
    assert refusal([use("block", stacked)]) == (
        "steps[0].use: Two rails is made in 2 layers, and this recipe is not. "
        "Use a recipe without a stack, or with one of 1."
    )


def test_the_full_width_used_inside_makes_a_whole_bed() -> None:
    wide = {
        **RAILS,
        "sizes": {"L": ["10"]},
        "steps": [
            {"make": "a", "lay": {"fabric": "A", "width": "2", "length": "L"}},
            {"make": "b", "lay": {"fabric": "A", "width": "2", "length": "usable"}},
        ],
        "block": ["a"],
        "let": {},
    }
    del wide["finished"]
    (kept, spare) = facts([use("u", wide), turn("block", "u", 180)]).beds
    assert (kept.whole, spare.whole) == (False, True)
    (both,) = facts([use("u", wide, sizes={"L": "usable"}), turn("block", "u", 180)]).beds
    assert (both.whole, both.count) == (True, 2)


def test_what_was_done_inside_is_told() -> None:
    making = run(recipe(FOUR), Given())
    used = first(making.outcomes[0].events, Used)
    assert (used.made, used.recipe) == (("one",), "Two rails")
    assert str(making.outcomes[1].sentence) == (
        "Make 1 block of Two rails (C for A, A for B): two measures 4 1/2 x 4 1/2 in unfinished."
    )
    sized = run(recipe([use("block", RAILS, sizes={"F": "6"})]), Given())
    assert str(sized.outcomes[0].sentence) == (
        "Make 1 block of Two rails (F: 6 in): block measures 6 1/2 x 6 1/2 in unfinished."
    )


TOO_WIDE = cut("p", "set", "across", every="9", count=1)


def without(key: str) -> Plain:
    return {name: value for name, value in RAILS.items() if name != key}


REFUSED: dict[str, tuple[Plain, str]] = {
    "no such": (
        use("block", "rail-fence-of-thre"),
        'steps[0].use: No recipe that ships has the name "rail-fence-of-thre". Did you mean "rail-fence-of-three"?',
    ),
    "unlike all": (
        use("block", "x"),
        'steps[0].use: No recipe that ships has the name "x". Write the recipe itself in place of its name.',
    ),
    "a number": (
        {"make": "block", "use": 7},
        "steps[0].use: 7 can not stand here. Write the name of a recipe that ships, or a whole recipe in braces.",
    ),
    "a fault inside": (
        use("block", {**RAILS, "steps": [{"make": "a", "lay": {"fabric": "A", "width": "w"}}]}),
        (
            "steps[0].use.steps[0].lay.length: This key is missing. "
            'It wants a length as text, such as "2 1/2" or "F + 2*seam".'
        ),
    ),
    "no name": (
        use("block", without("name")),
        "steps[0].use.name: This key is missing. It wants text in quotation marks.",
    ),
    "newer": (
        use("block", {**RAILS, "recipe": 2}),
        ("steps[0].use.recipe: This recipe is of version 2; this program knows up to 1. "
        "It is kept as it is; open it with a newer Piecewright."),
    ),
    "size": (
        use("block", RAILS, sizes={"G": "6"}),
        'steps[0].sizes.G: The recipe has no size "G". Its sizes are F.',
    ),
    "name": (
        use("block", RAILS, sizes={"F": "G"}),
        "steps[0].sizes.F: \"G\" uses G, and nothing has that name here. Names known here: seam and usable.",
    ),
    "letter": (
        use("block", RAILS, fabrics={"C": "A"}),
        'steps[0].fabrics.C: The recipe used has no fabric "C". Its fabrics are A and B.',
    ),
    "no letter": (
        use("block", RAILS, fabrics={"A": "1"}),
        (
            'steps[0].fabrics.A: "1" can not stand for a fabric. '
            "Write a fabric letter, such as A; digits and _ may follow it."
        ),
    ),
    "cloth": (
        use("block", {**RAILS, "steps": [*RAILS["steps"], TOO_WIDE], "block": ["p.1"]}),
        ("steps[0].use.steps[4].every: 9 in is more than the 4 1/2 in of cloth left: 4 1/2 in is missing. "
        "Cut at most 4 1/2 in."),
    ),
    "claim": (
        use("block", {**RAILS, "finished": ["F", "F + 1"]}),
        "steps[0].use.finished: The recipe claims blocks of 4 x 5 in finished. The making gives 4 x 4 in finished.",
    ),
    "too small": (
        use("block", RAILS, sizes={"F": "0 - 1"}),
        "steps[0].sizes.F: -1 in can not be a size: it is from nothing to 10000 in.",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", REFUSED)
def test_what_can_not_be_used_is_refused(name: str) -> None:
    assert refusal([REFUSED[name][0]]) == REFUSED[name][1]


def test_a_given_recipe_is_written_out_so_that_the_whole_stands_for_itself() -> None:
    given = {"mine": Recipe.from_plain(RAILS)}
    plain = {"recipe": 1, "name": "Outer", "steps": [use("block", "mine")], "block": ["block"]}
    made = Recipe.from_plain(plain, given)
    assert made.plain["steps"][0]["use"] == RAILS
    assert Recipe.from_plain(made.plain) == made
    assert facts_of_recipe(made, Given()).finished.width == 4
    with pytest.raises(RecipeError, match="No recipe that ships"):
        Recipe.from_plain(plain)


def test_a_recipe_that_uses_itself_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """By name, through another: what ships is read by name, so that a circle could be written there."""
    texts = {
        "here": b'{"recipe": 1, "name": "Here", "steps": [{"make": "a", "use": "there"}], "block": ["a"]}',
        "there": b'{"recipe": 1, "name": "There", "steps": [{"make": "a", "use": "here"}], "block": ["a"]}',
    }
    monkeypatch.setattr(shipped, "shipped_names", lambda: tuple(texts))
    monkeypatch.setattr(shipped, "_bytes_of", texts.__getitem__)
    with pytest.raises(RecipeError) as caught:
        shipped_recipe("here")
    assert str(caught.value) == ('steps[0].use.steps[0].use: The recipe "here" uses itself. Use another.')


def test_rails_are_the_same_by_name_and_written_out() -> None:
    by_name = recipe([use("block", "rail-fence-of-two")])
    written = recipe([use("block", shipped_recipes()["rail-fence-of-two"].plain)])
    assert by_name != written
    assert hash(by_name.steps) == hash(recipe([use("block", "rail-fence-of-two")]).steps)
    assert (
        the_kind(facts_of_recipe(by_name, Given())).patches
        == the_kind(facts_of_recipe(written, Given())).patches
    )
    assert len(rails(2, "9")) == 3

"""The recipes that ship make what they claim at every size they offer; so do those of the page of help."""

import itertools
import json
import re
from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction
from importlib.resources import files
from itertools import product
from typing import Any

import pytest

from piecewright.making.expressions import Expression
from piecewright.making.facts import Kind, SeenPatch
from piecewright.making.given import Given
from piecewright.making.names import resolve_names
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.run import facts
from piecewright.making.shipped import dark_to_light, families, shipped_recipes
from tests.tools.test_word_list import closed_in

QUARTER, THREE_EIGHTHS, SIX_MILLIMETERS = Fraction(1, 4), Fraction(3, 8), Fraction(6, 1) * Fraction(5, 127)
SHIPPED = sorted(shipped_recipes())
PAGE = (files("piecewright_data") / "help" / "recipes.md").read_text("utf-8")
TAUGHT = [json.loads(text) for text in re.findall(r"```json\n(.*?)```", PAGE, re.DOTALL)]


def at_every_size(recipe: Recipe, seam: Fraction) -> list[Given]:
    """Every combination of a recipe's choices."""
    return [
        Given(dict(zip(recipe.sizes, choice, strict=True)), seam)
        for choice in product(*recipe.sizes.values())
    ]


def claimed(recipe: Recipe, given: Given) -> tuple[Fraction, ...]:
    """The width and height that a recipe claims for its blocks."""
    assert recipe.finished
    names = resolve_names(recipe, given)
    return tuple(side.evaluate(names) for side in recipe.finished)


def inches(text: str) -> Fraction:
    return sum((Fraction(part) for part in text.split()), Fraction(0))


def test_every_recipe_has_a_name_of_its_own_a_word_about_it_sizes_and_a_claim() -> None:
    recipes = shipped_recipes()
    assert len({recipe.name for recipe in recipes.values()}) == len(recipes)
    assert all(40 < len(recipe.about) < 300 and recipe.about.endswith(".") for recipe in recipes.values())
    assert all(len(recipe.sizes["F"]) >= 2 for recipe in recipes.values())
    assert all(recipe.finished for recipe in recipes.values())


def test_no_word_of_a_recipe_is_one_that_is_not_said() -> None:
    for name, recipe in shipped_recipes().items():
        notes = [step.get("note", "") for step in recipe.plain["steps"]]
        assert closed_in(" ".join([recipe.name, recipe.about, recipe.note, *notes])) == [], name


def test_every_recipe_is_in_one_family() -> None:
    listed = [name for names in families().values() for name in names]
    assert sorted(listed) == SHIPPED
    assert all(families())


def test_the_page_lists_every_recipe_in_its_family() -> None:
    for family, names in families().items():
        assert f"| {family} | {', '.join(f'`{name}`' for name in names)} |" in PAGE


def test_recipes_laid_from_dark_to_light_ship_and_have_several_fabrics() -> None:
    assert all(len(recipe.letters) > 2 for recipe in dark_to_light())
    assert shipped_recipes()["rail-fence-of-six"] in dark_to_light()


@pytest.mark.parametrize("seam", [QUARTER, THREE_EIGHTHS, SIX_MILLIMETERS])
@pytest.mark.parametrize("name", SHIPPED)
def test_every_size_finishes_as_claimed_without_a_warning(name: str, seam: Fraction) -> None:
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, seam):
        found = facts(recipe, given)
        assert (found.finished.width, found.finished.height) == claimed(recipe, given)
        assert not found.warnings
        ledger = found.ledger
        assert float(ledger.seen + ledger.allowance + ledger.waste) == pytest.approx(float(ledger.laid))


@pytest.mark.parametrize("name", SHIPPED)
def test_every_size_at_a_quarter_inch_seam_is_cut_by_eighths_from_one_width_of_cloth(name: str) -> None:
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, QUARTER):
        for strip in facts(recipe, given).strips:
            assert strip.width * 8 == int(strip.width * 8)
            assert strip.length * 8 == int(strip.length * 8)
            assert strip.length <= 42


@pytest.mark.parametrize("name", SHIPPED)
def test_every_number_to_cut_by_is_on_a_ruler(name: str) -> None:
    """Cuts, slices, steps and trims at a quarter inch seam: whole sixteenths of an inch."""
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, QUARTER):
        names = resolve_names(recipe, given)
        for length in lengths_to_cut(recipe):
            assert (16 * Expression.parse(length).evaluate(names)).denominator == 1, length


def lengths_to_cut(recipe: Recipe) -> Iterator[str]:
    """What stands in a recipe's steps as a length after the cloth is laid."""
    for step in recipe.plain["steps"]:
        yield from (step[key] for key in ("every", "trim", "step", "width", "height") if key in step)
        yield from (step[key][1] for key in ("from", "to") if isinstance(step.get(key), list))
        yield from step.get("widths", ())


@pytest.mark.parametrize("name", SHIPPED)
def test_what_is_laid_is_used_but_for_what_slants_and_corners_cost(name: str) -> None:
    """What is not squared up leaves nothing; a slant costs what its triangles do, never more than half the cloth."""
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, QUARTER):
        found = facts(recipe, given)
        wasted = float(found.ledger.waste / found.ledger.laid)
        slanted = any(patch_slants(patch) for kind in found.kinds for patch in kind.patches)
        squared = any("square" in step for step in recipe.plain["steps"])
        assert 0 < wasted < 0.52 if slanted or squared else wasted == 0


def patch_slants(patch: SeenPatch) -> bool:
    """Whether an edge of a patch is neither level nor upright."""
    return any(
        abs(float(x1 - x0)) > 1e-6 and abs(float(y1 - y0)) > 1e-6
        for (x0, y0), (x1, y1) in itertools.pairwise([*patch.points, patch.points[0]])
    )


@pytest.mark.parametrize("name", [name for name in SHIPPED if shipped_recipes()[name].vary])
def test_whatever_is_drawn_can_be_sewn_and_finishes_as_claimed(name: str) -> None:
    """The ends of every range, each with each: what lies between leans no more."""
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, QUARTER):
        names = resolve_names(recipe, given)
        ends = [(varied.start.evaluate(names), varied.end.evaluate(names)) for varied in recipe.vary.values()]
        for drawn in product(*ends):
            found = facts(recipe, replace(given, draws=dict(zip(recipe.vary, drawn, strict=True))))
            assert (found.finished.width, found.finished.height) == claimed(recipe, given)
            assert not found.warnings


# What the first size is cut from and gives: length of cloth by its width, over all strips of a layer; finished size;
# blocks of a batch; patches of a block. A seam of 1/4 in, strips of 2 1/2 in where that is natural. What is square is
# the trade's arithmetic (common practice, no source); what is squared up from a slant is pinned.
AT_FIRST_SIZE = {
    "basket-weave-of-rails": ({"2 1/2": "78"}, "12 x 12", 1, 12),
    "bow-tie": ({"2 1/2": "5", "4 1/2": "18"}, "8 x 8", 1, 6),
    "braid": ({"5": "37 1/2"}, "8 x 8", 1, 10),
    "brick-wall": ({"2 1/2": "10", "4 1/2": "15"}, "8 x 8", 1, 10),
    "broken-dishes": ({"3": "12"}, "4 x 4", 1, 8),
    "checkerboard-of-sixteen": ({"2 1/2": "40"}, "8 x 8", 1, 16),
    "checkerboard-of-twenty-five": ({"2 1/2": "62 1/2"}, "10 x 10", 1, 25),
    "churn-dash": ({"2 1/2": "36", "4 1/2": "4 1/2", "5": "20"}, "12 x 12", 1, 17),
    "coins-in-a-column": ({"2 1/2": "35"}, "8 x 8", 1, 6),
    "color-stairs": ({"2 1/2": "90"}, "12 x 12", 1, 36),
    "color-wave": ({"2 1/2": "90"}, "12 x 12", 1, 36),
    "corner-logs": ({"2 1/2": "35 1/2"}, "8 x 8", 1, 7),
    "corner-logs-from-a-stack": ({"2 1/2": "35 1/2"}, "8 x 8", 7, 7),
    "courthouse-steps": ({"2 1/2": "54 1/2"}, "10 x 10", 1, 9),
    "cut-turn-sew": ({"2 1/2": "21"}, "6 x 6", 1, 6),
    "double-nine-patch": ({"2 1/2": "112 1/2", "6 1/2": "26"}, "18 x 18", 1, 49),
    "every-other-column": ({"2 1/2": "40"}, "8 x 8", 1, 16),
    "flying-goose": ({"2 1/2": "9 1/2"}, "4 x 2", 1, 3),
    "four-patch": ({"2 1/2": "10"}, "4 x 4", 1, 4),
    "four-patch-from-a-stack": ({"2 1/2": "10"}, "4 x 4", 4, 4),
    "frame-with-corner-squares": ({"2 1/2": "19", "4 1/2": "9 1/2"}, "8 x 8", 1, 9),
    "framed-four-patch": ({"2 1/2": "36"}, "8 x 8", 5, 8),
    "framed-square": ({"2 1/2": "26", "4 1/2": "4 1/2"}, "8 x 8", 1, 5),
    "hourglass": ({"5": "10"}, "3 1/2 x 3 1/2", 2, 4),
    "leaning-checkerboard": ({"2 1/2": "80"}, "8 x 8", 1, 20),
    "log-cabin": ({"2 1/2": "54 1/2"}, "10 x 10", 1, 9),
    "middle-end-for-end": ({"2 1/2": "81"}, "12 x 12", 1, 18),
    "mitered-rails": ({"2 1/2": "19 1/2"}, "5 x 5", 2, 6),
    "nine-patch": ({"2 1/2": "22 1/2"}, "6 x 6", 1, 9),
    "piano-keys": ({"2 1/2": "27"}, "12 x 4", 1, 6),
    "pinwheel": ({"3": "12"}, "4 x 4", 1, 8),
    "rail-fence-of-five": ({"2 1/2": "52 1/2"}, "10 x 10", 1, 5),
    "rail-fence-of-four": ({"2 1/2": "34"}, "8 x 8", 1, 4),
    "rail-fence-of-six": ({"2 1/2": "75"}, "12 x 12", 1, 6),
    "rail-fence-of-three": ({"2 1/2": "19 1/2"}, "6 x 6", 1, 3),
    "rail-fence-of-two": ({"2 1/2": "9"}, "4 x 4", 1, 2),
    "rail-windmill": ({"2 1/2": "36"}, "8 x 8", 1, 8),
    "rails-with-clipped-corners": ({"2 1/2": "24 1/2"}, "6 x 6", 1, 5),
    "row-of-geese": ({"2 1/2": "38"}, "4 x 8", 1, 12),
    "six-rails-from-a-stack": ({"2 1/2": "39"}, "12 x 6", 6, 6),
    "slanted-exchange": ({"2 1/2": "36 1/2"}, "8 x 8", 2, 8),
    "snowball": ({"2 1/2": "10", "6 1/2": "6 1/2"}, "6 x 6", 1, 5),
    "square-in-a-square": ({"2 1/2": "10", "4 1/2": "4 1/2"}, "4 x 4", 1, 5),
    "square-in-two-frames": ({"2 1/2": "54 1/2"}, "10 x 10", 1, 9),
    "squares-on-point-in-a-band": ({"2 1/2": "15", "3 5/8": "30"}, "12 x 4", 1, 16),
    "string-block": ({"2 1/2": "34 3/4"}, "6 x 6", 1, 5),
    "strip-let-in": ({"2 1/2": "11", "9 1/2": "7 1/4"}, "8 x 8", 1, 3),
    "swelling-wave": ({"2 1/2": "90"}, "12 x 12", 1, 36),
    "three-slanted-parts": ({"10": "10"}, "8 x 8", 3, 3),
    "tilted-checks": ({"2 1/2": "52 1/2"}, "12 x 4", 1, 21),
    "triangles-from-a-tube": ({"2 1/2": "15"}, "2 1/2 x 2 1/2", 2, 2),
    "triangles-two-at-a-time": ({"2 1/2": "5"}, "1 1/2 x 1 1/2", 2, 2),
    "two-halves-from-thirds": ({"2 1/2": "78"}, "6 x 12", 2, 6),
    "windmill-from-a-stack": ({"2 1/2": "36"}, "8 x 8", 8, 8),
    "wonky-cross": ({"1 1/2": "18", "7 1/2": "7 1/2"}, "6 x 6", 1, 7),
    "wonky-exchange": ({"2 1/2": "37"}, "8 x 8", 2, 8),
    "wonky-four-patch": ({"10": "10"}, "8 x 8", 4, 4),
    "wonky-halves": ({"10": "10"}, "8 1/2 x 8 1/2", 2, 2),
    "wonky-log-cabin": ({"3": "31", "5": "5"}, "8 x 8", 1, 5),
    "woven-thirds": ({"2 1/2": "81"}, "12 x 12", 1, 18),
    "zigzag-columns": ({"2 1/2": "80"}, "8 x 8", 1, 16),
}


@pytest.mark.parametrize("name", SHIPPED)
def test_the_first_size_is_what_the_trade_makes_of_its_strips(name: str) -> None:
    laid, finished, blocks, patches = AT_FIRST_SIZE[name]
    found = facts(shipped_recipes()[name], Given())
    lengths: dict[Fraction, Fraction] = {}
    for strip in found.strips:
        lengths[strip.width] = lengths.get(strip.width, Fraction(0)) + strip.length * strip.count
    assert lengths == {inches(width): inches(length) for width, length in laid.items()}
    assert (found.finished.width, found.finished.height) == tuple(map(inches, finished.split(" x ")))
    assert found.blocks == blocks
    assert {len(kind.patches) for kind in found.kinds} == {patches}


# A finished size, and the cut sizes that the trade gives for it (common practice, no source): a goose from a
# rectangle and two squares, triangles and hourglasses cut large and trimmed, corners a third or a half of the side.
CUT_BY_THE_RULES = {
    "flying-goose": ("6", {("3 1/2", "6 1/2"), ("3 1/2", "7")}),
    "triangles-two-at-a-time": ("3", {("4", "4")}),
    "hourglass": ("4", {("5 1/2", "5 1/2")}),
    "pinwheel": ("6", {("4", "4")}),
    "snowball": ("6", {("6 1/2", "6 1/2"), ("2 1/2", "10")}),
    "square-in-a-square": ("6", {("6 1/2", "6 1/2"), ("3 1/2", "14")}),
    "churn-dash": ("9", {("4", "4"), ("2", "14"), ("3 1/2", "3 1/2")}),
    "nine-patch": ("9", {("3 1/2", "7"), ("3 1/2", "3 1/2")}),
    "framed-square": ("6", {("3 1/2", "3 1/2"), ("2", "20")}),
}


@pytest.mark.parametrize("name", CUT_BY_THE_RULES)
def test_cut_sizes_are_those_of_the_trade(name: str) -> None:
    size, cut = CUT_BY_THE_RULES[name]
    found = facts(shipped_recipes()[name], Given({"F": inches(size)}))
    assert {(strip.width, strip.length) for strip in found.strips} == {
        (inches(width), inches(length)) for width, length in cut
    }


@pytest.mark.parametrize("name", [name for name in SHIPPED if shipped_recipes()[name].stack > 2])
def test_every_block_of_a_stack_has_the_fabrics_of_all_its_layers(name: str) -> None:
    """Common practice, no source: as many fabrics stacked as layers give as many blocks with all of them."""
    recipe = shipped_recipes()[name]
    for kind in facts(recipe, Given()).kinds:
        assert {patch.layer for patch in kind.patches} == set(range(recipe.stack))


def making_sequence(recipe: Recipe) -> tuple[str, ...]:
    """The verbs in order, each with its kind; what is done several times in a row counts once."""
    kinds = [step_kind(step) for step in recipe.plain["steps"] if "press" not in step]
    return tuple(kind for kind, _ in itertools.groupby(kinds))


def step_kind(step: dict[str, Any]) -> str:
    """A verb and what makes it another way of doing: its axis, a lean, a step, a shared or a cut edge."""
    kinds = ("axis", "edge", "match", "level")
    marks = [str(step[key]) for key in kinds if key in step]
    marks += [key for key in ("angle", "step", "widths", "which", "flush", "layers") if key in step]
    verb = next(key for key in step if key not in ("make", "note"))
    return " ".join([verb, *marks])


def test_the_recipes_are_of_many_makings() -> None:
    assert len({making_sequence(recipe) for recipe in shipped_recipes().values()}) >= 45


Pattern = tuple[tuple[tuple[tuple[float, float], ...], int], ...]


def pattern(kind: Kind, width: Fraction | float, height: Fraction | float) -> Pattern:
    """A block's patches whatever its size, its turn and the names of its fabrics."""
    found = []
    for turn in range(4):
        patches = sorted(
            (turned_points(patch, turn, float(width), float(height)), (patch.fabric, patch.layer))
            for patch in kind.patches
        )
        numbers: dict[tuple[str, int], int] = {}
        found.append(tuple((points, numbers.setdefault(fabric, len(numbers))) for points, fabric in patches))
    return min(found)


def turned_points(
    patch: SeenPatch, turn: int, width: float, height: float
) -> tuple[tuple[float, float], ...]:
    """A patch's corners, the block's longer side being 1, after so many quarter turns clockwise."""
    points = [(float(x), float(y)) for x, y in patch.points]
    for _ in range(turn):
        points = [(height - y, x) for x, y in points]
        width, height = height, width
    longer = max(width, height)
    return tuple(sorted((round(x / longer, 4) + 0.0, round(y / longer, 4) + 0.0) for x, y in points))


def test_the_recipes_give_many_patterns() -> None:
    patterns = set()
    for recipe in shipped_recipes().values():
        found = facts(recipe, Given())
        patterns |= {pattern(kind, found.finished.width, found.finished.height) for kind in found.kinds[:1]}
    assert len(patterns) >= 58


def test_a_pattern_is_the_same_at_another_size_turned_and_in_other_letters() -> None:
    """And not the same where fabrics change places within it."""
    two = shipped_recipes()["rail-fence-of-two"]
    wheel = shipped_recipes()["rail-windmill"]
    small, large = (facts(wheel, Given({"F": Fraction(size)})) for size in (6, 8))
    assert pattern(small.kinds[0], 6, 6) == pattern(large.kinds[0], 8, 8)
    plain = two.plain
    plain["steps"].append({"make": "turned", "turn": "segment.1", "by": 270})
    plain["steps"][0]["lay"]["fabric"] = "Q"
    plain["block"] = ["turned"]
    turned = facts(Recipe.from_plain(plain), Given())
    assert pattern(turned.kinds[0], 4, 4) == pattern(facts(two, Given()).kinds[0], 4, 4)
    four, sixteen = (shipped_recipes()[name] for name in ("every-other-column", "checkerboard-of-sixteen"))
    assert pattern(facts(four, Given()).kinds[0], 8, 8) != pattern(facts(sixteen, Given()).kinds[0], 8, 8)


@pytest.mark.parametrize("plain", TAUGHT, ids=[plain["name"] for plain in TAUGHT])
def test_every_recipe_of_the_page_makes_what_it_claims(plain: dict[str, object]) -> None:
    recipe = Recipe.from_plain(plain)
    for given in at_every_size(recipe, QUARTER):
        assert facts(recipe, given).finished.width == given.sizes["F"]


def full_width(**cut: object) -> Recipe:
    """Rails of two from the full width of the cloth, cut up as told."""
    return read_recipe(
        json.dumps(
            {
                "recipe": 1,
                "name": "Two rails from a full width",
                "sizes": {"F": ["4"]},
                "steps": [
                    {"make": "a", "lay": {"fabric": "A", "width": "F/2 + 2*seam", "length": "usable"}},
                    {"make": "b", "lay": {"fabric": "B", "width": "F/2 + 2*seam", "length": "usable"}},
                    {"make": "set", "sew": ["a", "b"], "axis": "down"},
                    {"make": "segment", "cut": "set", "axis": "across", "every": "F + 2*seam", **cut},
                ],
                "block": ["segment.*"],
                "finished": ["F", "F"],
            }
        ).encode()
    )


@pytest.mark.parametrize(
    ("usable", "blocks", "left"), [("40", 8, "3 1/2"), ("42", 9, "1"), ("41", 9, "0"), ("40 1/2", 8, "4")]
)
def test_a_full_width_gives_as_many_as_fit_after_truing(usable: str, blocks: int, left: str) -> None:
    """Worked by hand: 1/2 in trimmed off, then segments of 4 1/2 in."""
    whole, _, part = usable.partition(" ")
    recipe = full_width(trim="1/2", count="fit")
    found = facts(recipe, Given(usable=int(whole) + Fraction(part or 0)))
    assert found.blocks == blocks
    whole, _, part = left.partition(" ")
    scrap = int(whole) + Fraction(part or 0) + Fraction(1, 2)
    (bed,) = found.beds
    assert bed.whole
    assert (bed.trims, bed.trim) == (True, Fraction(1, 2))
    assert bed.length - sum(bed.cuts) == scrap


def test_the_page_counts_its_blocks_right() -> None:
    assert "Eight blocks come from 40 inches: 1/2 inch is trimmed off, eight times 4 1/2 makes 36" in PAGE
    assert facts(Recipe.from_plain(TAUGHT[-1]), Given()).blocks == 8

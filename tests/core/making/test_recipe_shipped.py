"""The recipes that ship make what they claim at every size they offer; so do those of the page of help."""

import json
import re
from fractions import Fraction
from importlib.resources import files
from itertools import product

import pytest

from piecewright.making.given import Given
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes

QUARTER, THREE_EIGHTHS, SIX_MILLIMETERS = Fraction(1, 4), Fraction(3, 8), Fraction(6, 1) * Fraction(5, 127)
SHIPPED = {
    "cut-turn-sew",
    "framed-four-patch",
    "middle-end-for-end",
    "rail-fence-of-four",
    "rail-fence-of-three",
    "rail-fence-of-two",
    "slanted-exchange",
    "two-halves-from-thirds",
}
PAGE = (files("piecewright_data") / "help" / "recipes.md").read_text("utf-8")
TAUGHT = [json.loads(text) for text in re.findall(r"```json\n(.*?)```", PAGE, re.DOTALL)]


def at_every_size(recipe: Recipe, seam: Fraction) -> list[Given]:
    """Every combination of a recipe's choices."""
    return [
        Given(dict(zip(recipe.sizes, choice, strict=True)), seam)
        for choice in product(*recipe.sizes.values())
    ]


def test_eight_recipes_ship_each_with_a_name_and_a_word_about_it() -> None:
    recipes = shipped_recipes()
    assert set(recipes) == SHIPPED
    assert len({recipe.name for recipe in recipes.values()}) == len(SHIPPED)
    assert all(len(recipe.about) > 40 for recipe in recipes.values())
    assert all(len(recipe.sizes["F"]) >= 3 for recipe in recipes.values())
    assert all(recipe.finished for recipe in recipes.values())


@pytest.mark.parametrize("seam", [QUARTER, THREE_EIGHTHS, SIX_MILLIMETERS])
@pytest.mark.parametrize("name", sorted(SHIPPED))
def test_every_size_finishes_as_claimed_without_a_warning(name: str, seam: Fraction) -> None:
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, seam):
        found = facts(recipe, given)
        width = given.sizes["F"] / 2 if name == "two-halves-from-thirds" else given.sizes["F"]
        assert (found.finished.width, found.finished.height) == (width, given.sizes["F"])
        assert not found.warnings


@pytest.mark.parametrize("name", sorted(SHIPPED))
def test_every_size_at_a_quarter_inch_seam_is_cut_by_eighths_from_one_width_of_cloth(name: str) -> None:
    recipe = shipped_recipes()[name]
    for given in at_every_size(recipe, QUARTER):
        for strip in facts(recipe, given).strips:
            assert strip.width * 8 == int(strip.width * 8)
            assert strip.length * 8 == int(strip.length * 8)
            assert strip.length <= 42


# Length to lay, strips per layer, finished size, blocks of a batch, patches of a block; strips of 2 1/2 in,
# a seam of 1/4 in. Common practice, no source.
AT_FIRST_SIZE = {
    "rail-fence-of-two": ("4 1/2", 2, "4 x 4", 1, 2),
    "rail-fence-of-three": ("6 1/2", 3, "6 x 6", 1, 3),
    "rail-fence-of-four": ("8 1/2", 4, "8 x 8", 1, 4),
    "cut-turn-sew": ("7", 3, "6 x 6", 1, 6),
    "slanted-exchange": ("9 1/8", 4, "8 x 8", 2, 8),
    "two-halves-from-thirds": ("39", 2, "6 x 12", 2, 6),
    "middle-end-for-end": ("40 1/2", 2, "12 x 12", 1, 18),
    "framed-four-patch": ("36", 1, "8 x 8", 5, 8),
}


@pytest.mark.parametrize("name", sorted(SHIPPED))
def test_the_first_size_is_the_one_of_a_two_and_a_half_inch_strip(name: str) -> None:
    length, laid, finished, blocks, patches = AT_FIRST_SIZE[name]
    found = facts(shipped_recipes()[name], Given())
    whole, _, part = length.partition(" ")
    assert {strip.width for strip in found.strips} == {Fraction(5, 2)}
    assert {strip.length for strip in found.strips} == {int(whole) + Fraction(part or 0)}
    assert sum(strip.count for strip in found.strips) == laid
    assert f"{found.finished.width} x {found.finished.height}" == finished
    assert found.blocks == blocks
    assert [len(kind.patches) for kind in found.kinds] == [patches]


def test_the_four_patch_has_all_five_fabrics_in_every_block() -> None:
    """Common practice, no source: five fabrics stacked give five blocks with five fabrics each."""
    (kind,) = facts(shipped_recipes()["framed-four-patch"], Given()).kinds
    assert sorted({patch.layer for patch in kind.patches}) == [0, 1, 2, 3, 4]


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

"""Stitch and flip: a square sewn over a corner and folded open."""

from fractions import Fraction
from math import sqrt

import pytest
from shapely import Polygon  # type: ignore[import-untyped]  # it ships without types

from piecewright.making.events import Cornered, first
from piecewright.making.given import Given
from piecewright.making.run import run
from tests.core.making.building import (
    Plain,
    corner,
    facts,
    lay,
    press,
    recipe,
    refusal,
    sew,
    sliced,
    square,
    the_kind,
    turn,
)

BASE, SQUARE = lay("a", "A", "4", "6"), lay("s", "S", "2 1/2", "2 1/2")
TWO = [lay("u", "U", "1 1/2", "2 1/2"), lay("v", "V", "1 1/2", "2 1/2"), sew("s", ["u", "v"], "down")]
"""A square of two strips, U over V."""


@pytest.mark.parametrize(
    ("at", "triangle"),
    [
        ("top left", [(0, 0), (2, 0), (0, 2)]),
        ("top right", [(5.5, 0), (5.5, 2), (3.5, 0)]),
        ("bottom right", [(5.5, 3.5), (3.5, 3.5), (5.5, 1.5)]),
        ("bottom left", [(0, 3.5), (0, 1.5), (2, 3.5)]),
    ],
)
def test_the_square_ends_as_a_triangle_over_its_corner(at: str, triangle: list[tuple[float, float]]) -> None:
    found = facts([BASE, SQUARE, corner("block", "a", "s", at)])
    assert (found.unfinished.width, found.unfinished.height) == (6, 4)
    shapes = {patch.fabric: Polygon(patch.points) for patch in the_kind(found).patches}
    assert shapes["S"].symmetric_difference(Polygon(triangle)).area < 1e-9
    assert shapes["A"].area == pytest.approx(5.5 * 3.5 - 2)
    (seam,) = the_kind(found).seams
    assert seam.length == pytest.approx(2 * sqrt(2))


def test_both_cloths_are_trimmed_one_allowance_beyond_the_seam() -> None:
    making = run(recipe([BASE, SQUARE, corner("block", "a", "s", "top left")]), Given())
    event = first(making.outcomes[-1].events, Cornered)
    leg = Fraction(5, 2) - Fraction(1, 4) * Fraction(sqrt(2))
    assert [float(scrap.raw.area) for scrap in event.scraps[0]] == pytest.approx([float(leg * leg / 2)] * 2)
    ledger = facts([BASE, SQUARE, corner("block", "a", "s", "top left")]).ledger
    assert float(ledger.waste) == pytest.approx(float(leg * leg))


@pytest.mark.parametrize(
    ("at", "quarters", "outer"),
    [("top left", 1, "V"), ("top right", 3, "V"), ("bottom left", 3, "U"), ("bottom right", 1, "U")],
)
def test_the_square_is_turned_over_like_a_page_and_folded_back(at: str, quarters: int, outer: str) -> None:
    """U lies on top: over the top left corner folding brings it to the right, where the seam is."""
    making = run(recipe([BASE, *TWO, corner("block", "a", "s", at)]), Given())
    (cloth,) = making.table.piles["block"]
    patches = [patch for patch in cloth.patches if patch.letter in "UV"]
    assert {(patch.came.quarters, patch.came.degrees, patch.came.faced) for patch in patches} == {
        (quarters, 0.0, False)
    }
    near = {"left": 0.0, "right": 6.0}[at.split()[1]]
    at_side = max(patches, key=lambda patch: sum(abs(float(x) - near) < 1e-9 for x, _ in patch.seen.points))
    assert at_side.letter == outer


def test_a_goose_is_a_rectangle_with_two_corners() -> None:
    steps = [
        lay("sky", "A", "2 1/2", "4 1/2"),
        *(lay(name, "B", "2 1/2", "2 1/2") for name in ("l", "r")),
        corner("half", "sky", "l", "top left"),
        corner("goose", "half", "r", "top right"),
    ]
    found = facts(steps, ["goose"])
    goose = next(patch for patch in the_kind(found).patches if patch.fabric == "A")
    assert Polygon(goose.points).equals_exact(Polygon([(2, 0), (4, 2), (0, 2)]), 1e-9)
    assert float(the_kind(found).area_by_fabric["B"]) == pytest.approx(4)


def test_a_corner_seam_is_pressed_in_or_out_or_to_a_side() -> None:
    steps = [BASE, SQUARE, corner("c", "a", "s", "top left")]
    for toward, pressed in (("out", "left"), ("in", "right"), ("up", "up"), ("open", "open")):
        (seam,) = the_kind(facts([*steps, press("c", toward)], ["c"])).seams
        assert seam.pressed == pressed
    (seam,) = the_kind(facts([*steps, press("c.1", "out"), turn("block", "c", 90)])).seams
    assert seam.pressed == "up"


@pytest.mark.parametrize(("side", "warnings"), [("1 3/4", ["hidden-in-seam"]), ("2 1/2", [])])
def test_a_patch_of_which_only_allowance_is_left_warns_and_is_waste(side: str, warnings: list[str]) -> None:
    """A patch seen 3/4 in square lies in the corner: the larger square's cut takes all of it off."""
    steps = [
        lay("p", "P", "1", "1"),
        lay("q", "Q", "6", "1"),
        sew("column", ["p", "q"], "down"),
        lay("r", "R", "6 1/2", "6"),
        sew("a", ["column", "r"], "across"),
        lay("s", "S", side, side),
        corner("block", "a", "s", "top left"),
    ]
    found = facts(steps)
    assert [warning.code for warning in found.warnings] == warnings
    assert "P" not in the_kind(found).area_by_fabric
    ledger = found.ledger
    assert float(ledger.seen + ledger.allowance + ledger.waste) == pytest.approx(float(ledger.laid))


@pytest.mark.parametrize(
    ("steps", "sentence"),
    [
        (
            [BASE, lay("s", "S", "2", "2 1/2"), corner("block", "a", "s", "top left")],
            (
                "steps[2].with: s measures 2 1/2 x 2 in unfinished; only a square folds over so that it covers "
                "a corner. Square s up to as high as wide."
            ),
        ),
        (
            [BASE, lay("s", "S", "4 1/8", "4 1/8"), corner("block", "a", "s", "top left")],
            "steps[2].with: s is 4 1/8 in wide, larger than a, which has 4 in there. Use a square of at most 4 in.",
        ),
        (
            [
                BASE,
                sliced("p", "a", ("top", "3"), ("left", "2")),
                SQUARE,
                corner("block", "p.2", "s", "top left"),
            ],
            "steps[3].at: The top left corner of p.2 is not wholly cloth. Square p.2 up first.",
        ),
        (
            [
                BASE,
                SQUARE,
                corner("block", "a", "s", "top left"),
                press("block", "in"),
                press("block.2", "in"),
            ],
            (
                'steps[4].press.seam: "block.2" can not be: "block" was sewn with 1 seam. '
                'Write "block" for all its seams or "block.1" for the first.'
            ),
        ),
        (
            [BASE, SQUARE, corner("block", "a", "s", "middle")],
            'steps[2].at: "middle" can not stand here. Write "bottom left", "bottom right", "top left" or "top right".',
        ),
        (
            [BASE, corner("block", "a", "a", "top left")],
            'steps[1].with: "a" is used up already at steps[1].corner. A piece is used once; make another.',
        ),
    ],
)
def test_what_can_not_be_a_corner_is_refused(steps: list[Plain], sentence: str) -> None:
    assert refusal(steps) == sentence


def test_a_corner_is_said_in_words() -> None:
    making = run(recipe([BASE, SQUARE, corner("block", "a", "s", "bottom right")]), Given())
    assert str(making.outcomes[-1].sentence) == (
        "Lay s face down on the bottom right corner of a, edges even, and sew from corner to corner. "
        "Trim 1/4 in beyond the seam and fold s open: block measures 6 x 4 in unfinished."
    )


def test_a_squared_corner_keeps_exact_sizes() -> None:
    steps = [BASE, SQUARE, corner("c", "a", "s", "top left"), square("block", "c", "5", "3")]
    found = facts(steps)
    assert (found.unfinished.width, found.unfinished.height) == (5, 3)
    assert isinstance(found.unfinished.width, Fraction)

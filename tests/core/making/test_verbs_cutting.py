"""Cutting, slicing and squaring up: what is cut off, what stays exact, and what is refused in words."""

from fractions import Fraction

import pytest

from piecewright.making.events import Severed, first
from piecewright.making.given import Given
from piecewright.making.run import attempt, run
from tests.core.making.building import (
    CORNER,
    PAIR,
    A,
    Plain,
    boxes,
    cut,
    facts,
    lay,
    rails,
    recipe,
    refusal,
    sew,
    sliced,
    square,
    the_kind,
)

ONE_WAY = 'Give "every" with "count", or "widths", or "into".'


def test_cuts_run_from_the_left_or_from_the_top() -> None:
    wide = facts(
        [*PAIR, cut("p", "pair", "across", widths=["2", "3"]), sew("block", ["p.2", "p.1"], "across")]
    )
    assert [box[2:] for box in boxes(the_kind(wide))][:2] == [(0, 0, 2.5, 2.5), (2.5, 0, 4, 2.5)]
    assert (wide.ledger.waste, wide.ledger.laid) == (5, 30)
    high = facts([*PAIR, cut("p", "pair", "down", every="2", count=2)], ["p.1"])
    assert [patch.fabric for patch in the_kind(high).patches] == ["A"]


def test_into_cuts_equal_parts_rounded_down_to_a_step() -> None:
    exact = run(recipe([A, cut("p", "a", "across", into=5)], ["p.*"]), Given())
    rounded = run(recipe([A, cut("p", "a", "across", into=5, step="1/8")], ["p.*"]), Given())
    assert first(exact.outcomes[1].events, Severed).widths == (Fraction(6, 5),) * 5
    assert first(rounded.outcomes[1].events, Severed).widths == (Fraction(9, 8),) * 5


def test_fit_cuts_as_many_as_there_are_after_the_trim() -> None:
    steps = [*PAIR, cut("p", "pair", "across", every="1 1/2", count="fit", trim="1/4")]
    found = facts(steps, ["p.*"])
    assert (found.blocks, found.ledger.waste) == (3, 5 * Fraction(3, 2))
    lost = the_kind(facts([*PAIR, cut("p", "pair", "across", every="5", count="fit", trim="1")], ["p.*"]))
    assert lost.blocks == ("p.1",)


@pytest.mark.parametrize(
    ("keys", "sentence"),
    [
        (
            {"every": "7", "count": 1},
            "steps[3].every: 7 in is more than the 6 in of cloth left: 1 in is missing. Cut at most 6 in.",
        ),
        (
            {"every": "7", "count": "fit"},
            "steps[3].every: 7 in is more than the 6 in of cloth left: 1 in is missing. Cut at most 6 in.",
        ),
        (
            {"every": "2 1/2", "count": 3},
            (
                "steps[3].every: 3 x 2 1/2 in is 7 1/2 in, more than the 6 in of cloth left: 1 1/2 in is missing. "
                "Cut 2 of that width, or cut at most 2 in each."
            ),
        ),
        (
            {"widths": ["4", "3"]},
            "steps[3].widths: 7 in is more than the 6 in of cloth left: 1 in is missing. Cut at most 6 in.",
        ),
        (
            {"widths": ["4", "0"]},
            "steps[3].widths[1]: 0 in is no length of cloth. A piece of cloth is wider and longer than nothing.",
        ),
        (
            {"every": "2", "count": 2, "into": 2},
            f"steps[3].cut: A cut says one way to cut, and this says every and into. {ONE_WAY}",
        ),
        (
            {},
            f"steps[3].cut: A cut says one way to cut, and this says none. {ONE_WAY}",
        ),
        (
            {"every": "2"},
            'steps[3].every: "every" and "count" go together. Give "every" with "count", or "widths", or "into".',
        ),
        (
            {"every": "2", "count": 2, "trim": "-1"},
            'steps[3].trim: -1 in is no length of cloth. Leave "trim" out to trim nothing.',
        ),
        (
            {"into": 3, "step": "8"},
            (
                "steps[3].into: 6 in of cloth can not be cut into 3 parts of this step. "
                "Cut fewer parts, or round to a smaller step."
            ),
        ),
    ],
)
def test_a_cut_that_can_not_be_says_why(keys: Plain, sentence: str) -> None:
    assert refusal([*PAIR, cut("p", "pair", "across", **keys)], "p.1") == sentence


def test_a_part_must_be_wholly_cloth() -> None:
    stairs = [
        *rails(2, "20"),
        cut("p", "set", "across", every="4", count=4),
        sew("s", ["p.*"], "across", step="1"),
    ]
    said = refusal([*stairs, cut("q", "s", "down", every="3", count=1)], "q.1")
    assert said.startswith("steps[5].every: q.1 would not be wholly cloth: the piece is ragged there.")
    found = facts([*stairs, cut("q", "s", "down", every="1 1/2", count=1, trim="3")], ["q.1"])
    assert found.unfinished.height == Fraction(3, 2)


@pytest.mark.parametrize(
    ("start", "end", "area_of_first"),
    [
        (("top", "3"), ("bottom", "5"), 32),
        (("bottom", "5"), ("top", "3"), 32),
        (("left", "2"), ("right", "4"), 24),
        (("right", "4"), ("left", "2"), 24),
        (("top", "6"), ("right", "2"), 2),
        (("left", "5"), ("bottom", "2"), 3),
        (("top", "3"), ("bottom", "3"), 24),
    ],
)
def test_part_one_of_a_slice_is_the_left_the_upper_or_the_corner(
    start: tuple[str, str], end: tuple[str, str], area_of_first: int
) -> None:
    making = attempt(recipe([*CORNER, sliced("p", "a", start, end)], ["p.1"]), Given())
    areas = [float(making.table.piles[name][0].patches[0].raw.area) for name in ("p.1", "p.2")]
    assert areas == pytest.approx([area_of_first, 64 - area_of_first])


def test_a_slice_square_to_the_frame_stays_exact() -> None:
    steps = [
        *PAIR,
        sliced("p", "pair", ("top", "2"), ("bottom", "2")),
        sew("block", ["p.1", "p.2"], "across", match="points"),
    ]
    found = facts(steps)
    assert (found.unfinished.width, found.unfinished.height) == (Fraction(11, 2), Fraction(9, 2))
    assert all(
        isinstance(value, Fraction)
        for patch in the_kind(found).patches
        for point in patch.points
        for value in point
    )


def test_a_sliced_part_may_be_sliced_again_in_the_frame_it_came_from() -> None:
    steps = [
        *rails(2, "12"),
        sliced("p", "set", ("top", "3"), ("bottom", "4")),
        sliced("q", "p.2", ("top", "8"), ("bottom", "7")),
        sew("block", ["p.1", "q.1", "q.2"], "across", match="points"),
    ]
    found = facts(steps)
    slant = Fraction(2, 9)
    assert float(found.unfinished.width) == pytest.approx(12 - 2 * 0.5 * float(1 + slant**2) ** 0.5)
    assert found.unfinished.height == Fraction(9, 2)


def test_two_blocks_sliced_alike_may_be_exchanged_without_a_stack() -> None:
    other = [lay("c", "C", "2 1/2", "9"), lay("d", "D", "2 1/2", "9"), sew("two", ["c", "d"], "down")]
    cuts = [
        sliced(part, piece, ("top", "4"), ("bottom", "5")) for part, piece in (("p", "set"), ("q", "two"))
    ]
    steps = [*rails(2, "9"), *other, *cuts, sew("block", ["p.1", "q.2"], "across", match="points")]
    found = facts(steps)
    assert [patch.fabric for patch in the_kind(found).patches] == ["A", "C", "B", "D"]
    unlike = [*cuts[:1], sliced("q", "two", ("top", "4"), ("bottom", "6")), steps[-1]]
    assert refusal([*rails(2, "9"), *other, *unlike]).startswith(
        "steps[8].match: The slanted edges of p.1 and q.2 do not lie on one line."
    )


@pytest.mark.parametrize(
    ("start", "end", "sentence"),
    [
        (
            ("top", "3"),
            ("top", "5"),
            "steps[1].to: A slice can not begin and end on the same side (top). Let it end on another side.",
        ),
        (
            ("top", "9"),
            ("bottom", "5"),
            "steps[1].from[1]: 9 in is not on the top side of the piece. The top side runs from 0 in to 8 in.",
        ),
        (
            ("top", "8"),
            ("right", "0"),
            "steps[1].to: This slice takes nothing off. Move one of its ends into the piece.",
        ),
        (
            ("top", "0"),
            ("bottom", "0"),
            "steps[1].to: This slice takes nothing off. Move one of its ends into the piece.",
        ),
    ],
)
def test_a_slice_that_can_not_be_says_why(
    start: tuple[str, str], end: tuple[str, str], sentence: str
) -> None:
    assert refusal([*CORNER, sliced("p", "a", start, end)], "p.1") == sentence


def test_a_slice_through_ragged_cloth_into_more_than_two_is_refused() -> None:
    wide = [lay("a", "A", "4", "9"), lay("b", "B", "4", "3"), lay("c", "C", "4", "9")]
    steps = [*wide, sew("s", ["a", "b", "c"], "down", align="start")]
    said = refusal([*steps, sliced("p", "s", ("top", "6"), ("bottom", "7"))], "p.1")
    assert said == "steps[4].slice: This slice would part s in more than two. Square the piece up first."
    making = run(recipe([*steps, sliced("p", "s", ("top", "1"), ("bottom", "2"))], ["p.1"]), Given())
    assert len(making.table.piles["p.1"][0].patches) == 3


def test_square_trims_from_the_middle_or_a_corner() -> None:
    for start, left, top in (
        ("centre", 1, 1),
        ("top left", 0, 0),
        ("top right", 2, 0),
        ("bottom left", 0, 2),
        ("bottom right", 2, 2),
    ):
        making = run(recipe([*CORNER, square("block", "a", "6", "6", **{"from": start})]), Given())
        (patch,) = making.table.piles["block"][0].patches
        assert (patch.came.dx, patch.came.dy) == (-left, -top)
    assert refusal([*CORNER, square("block", "a", "9", "6")]) == (
        "steps[1].width: 9 in is more than a measures there: 8 in. Square up to at most 8 in."
    )
    assert refusal([*CORNER, square("block", "a", "fit", "6")]).startswith(
        'steps[1].height: "fit" finds width and height'
    )
    assert refusal([*CORNER, square("block", "a", "5", "6", shape="square")]).startswith("steps[1].shape:")


def test_square_keeps_a_claim_exact_after_a_slant() -> None:
    found = facts(
        [
            *rails(2, "9"),
            sliced("p", "set", ("left", "2"), ("right", "3")),
            square("block", "p.1", "8", "2", **{"from": "top left"}),
        ]
    )
    assert (found.unfinished.width, found.unfinished.height) == (8, 2)
    assert isinstance(found.unfinished.width, Fraction)
    said = refusal(
        [
            *rails(2, "9"),
            sliced("p", "set", ("left", "2"), ("right", "3")),
            square("block", "p.1", "9", "2 1/2"),
        ]
    )
    assert said.startswith(
        "steps[4].square: p.1 is not wholly cloth where 9 x 2 1/2 in unfinished is to be trimmed."
    )


def test_fit_finds_the_largest_rectangle_in_a_slanted_piece() -> None:
    """A right triangle 8 by 8 holds no rectangle larger than half of it: 4 by 4."""
    steps = [
        *CORNER,
        sliced("p", "a", ("left", "0"), ("bottom", "8")),
        square("block", "p.1", "fit", "fit", step="1/2"),
    ]
    found = facts(steps)
    assert found.unfinished.width * found.unfinished.height == 16
    squares = facts([*steps[:2], square("block", "p.2", "fit", "fit", shape="square", step="1/2")])
    assert (squares.unfinished.width, squares.unfinished.height) == (4, 4)

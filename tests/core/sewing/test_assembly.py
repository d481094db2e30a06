"""How rectangles are sewn together, held against trying every straight seam of every part."""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry.shapes import Rect
from piecewright.sewing.assembly import (
    Assembly,
    Knot,
    Piece,
    SeamCount,
    Section,
    assemble,
    parts_in_order,
    seam_count,
)
from tests.core.sewing.tilings import Box, overlap, rects, scattered, tiling

Set = frozenset[Box]
Name = tuple[bool, tuple[int, ...], tuple[int, ...]]
"""A seam of a knot: upright or not, and the parts on its sides."""
seeds = st.integers(0, 2**32).map(Random)


def splits(boxes: Set) -> Iterator[tuple[bool, Set, Set]]:
    """Every way to part a set along a straight line that runs through no rectangle: upright or not, both sides."""
    for upright, near, far in ((True, 0, 2), (False, 1, 3)):
        for place in sorted({box[far] for box in boxes}):
            before = frozenset(box for box in boxes if box[far] <= place)
            after = frozenset(box for box in boxes if box[near] >= place)
            if before and after and len(before) + len(after) == len(boxes):
                yield upright, before, after


@cache
def can_be_sewn(boxes: Set) -> bool:
    """Whether straight seams alone will do: some way to part the set leaves two that can be sewn."""
    return len(boxes) == 1 or any(
        can_be_sewn(before) and can_be_sewn(after) for _, before, after in splits(boxes)
    )


def extent(boxes: Set) -> Box:
    return (
        min(box[0] for box in boxes),
        min(box[1] for box in boxes),
        max(box[2] for box in boxes),
        max(box[3] for box in boxes),
    )


@cache
def shortest_longest(boxes: Set) -> int:
    """The length of the longest seam where it is as short as any way of straight seams makes it."""
    if len(boxes) == 1:
        return 0
    left, top, right, bottom = extent(boxes)
    return min(
        max(bottom - top if upright else right - left, shortest_longest(before), shortest_longest(after))
        for upright, before, after in splits(boxes)
        if can_be_sewn(before) and can_be_sewn(after)
    )


def plainly(boxes: Set) -> object:
    """The nicest way by its definition: all seams through of the shorter kind at once, level ones where equal."""
    if len(boxes) == 1:
        return next(iter(boxes))
    left, top, right, bottom = extent(boxes)
    through = {way: [split for split in splits(boxes) if split[0] == way] for way in (True, False)}
    upright = bool(through[True]) and not (through[False] and right - left <= bottom - top)
    parts, rest = [], boxes
    for _, before, after in through[upright]:
        parts.append(plainly(before & rest))
        rest = after
    return ("across" if upright else "down", *parts, plainly(rest))


def plain(part: Assembly, boxes: Sequence[Box]) -> object:
    if isinstance(part, Piece):
        return boxes[part.index]
    assert isinstance(part, Section)
    return (part.axis, *(plain(inner, boxes) for inner in part.parts))


def knots(whole: Assembly) -> list[Knot]:
    return [part for part in parts_in_order(whole) if isinstance(part, Knot)]


def pieces(part: Assembly) -> list[int]:
    return [inner.index for inner in parts_in_order(part) if isinstance(inner, Piece)]


def area(box: Rect) -> Fraction:
    return Fraction(box.area)


@pytest.mark.parametrize("seed", range(8))
def test_straight_seams_are_found_wherever_there_is_a_way(seed: int) -> None:
    random = Random(seed)
    found = 0
    for _ in range(1000):
        kind = random.random()
        boxes = (
            scattered(random, random.randint(1, 8))
            if kind < 0.6
            else tiling(random, random.randint(1, 9), pinwheels=0.3, side=6)
        )
        sewable = can_be_sewn(frozenset(boxes))
        assert (not knots(assemble(rects(boxes)))) == sewable, boxes
        found += not sewable
    assert found > 50


@given(seeds, st.integers(1, 40), st.sampled_from([0.0, 0.2]), st.booleans())
def test_each_rectangle_is_sewn_in_once_and_no_seam_runs_through_one(
    random: Random, count: int, pinwheels: float, gaps: bool
) -> None:
    boxes = scattered(random, min(count, 12)) if gaps else tiling(random, count, pinwheels)
    whole = assemble(rects(boxes))
    assert sorted(pieces(whole)) == list(range(len(boxes)))
    for part in parts_in_order(whole):
        if isinstance(part, Section):
            assert len(part.parts) > 1
            ends = [
                (inner.box.left, inner.box.right, inner.box.top, inner.box.bottom) for inner in part.parts
            ]
            near, far = (0, 1) if part.axis == "across" else (2, 3)
            assert all(one[far] <= other[near] for one, other in pairwise(ends))
            assert all(not isinstance(inner, Section) or inner.axis != part.axis for inner in part.parts)


@given(seeds, st.integers(1, 40), st.sampled_from([0.0, 0.2]))
def test_every_part_of_a_tiling_is_a_rectangle_and_seams_add_up(
    random: Random, count: int, pinwheels: float
) -> None:
    """Every inch of every edge but the outer ones is sewn once."""
    boxes = rects(tiling(random, count, pinwheels))
    whole = assemble(boxes)
    for part in parts_in_order(whole):
        assert area(part.box) == sum(area(boxes[index]) for index in pieces(part))
    around = [2 * Fraction(box.width + box.height) for box in (*boxes, whole.box)]
    assert seam_count(whole).length == (sum(around[:-1]) - around[-1]) / 2


@given(seeds, st.integers(1, 16))
def test_straight_seams_are_taken_in_the_nicest_order(random: Random, count: int) -> None:
    boxes = tiling(random, count, side=5)
    assert plain(assemble(rects(boxes)), boxes) == plainly(frozenset(boxes))


@given(seeds, st.integers(2, 8))
def test_the_longest_seam_is_as_short_as_can_be_and_there_is_one_less_than_pieces(
    random: Random, count: int
) -> None:
    boxes = tiling(random, count, side=5)
    counted = seam_count(assemble(rects(boxes, Fraction(1))))
    assert counted.longest == shortest_longest(frozenset(boxes))
    assert (counted.seams, counted.partial) == (count - 1, 0)


@given(seeds, st.integers(5, 40))
def test_knots_have_no_straight_seam_and_their_seams_come_in_an_order_that_can_be_sewn(
    random: Random, count: int
) -> None:
    whole = assemble(rects(tiling(random, count, pinwheels=0.4)))
    for knot in knots(whole):
        assert not list(splits(frozenset(bounds(part.box) for part in knot.parts)))
        assert len(knot.parts) >= 5
        sewable_in_order(knot)


def bounds(box: Rect) -> Box:
    return (int(box.left * 2), int(box.top * 2), int(box.right * 2), int(box.bottom * 2))


def sewable_in_order(knot: Knot) -> None:
    """Whatever ends on a seam is sewn before it, except where it is begun; what was begun is finished."""
    begun: set[Name] = set()
    whole: set[Name] = set()
    for seam in knot.seams:
        name = (seam.upright, seam.before, seam.after)
        if seam.doing == "begin":
            begun.add(name)
            continue
        for side in (seam.before, seam.after):
            for one in side:
                for other in side:
                    if one < other and touch(knot.parts[one].box, knot.parts[other].box, not seam.upright):
                        assert any(
                            one in (*before, *after) and other in (*before, *after)
                            for _, before, after in whole | begun
                        )
        if seam.doing == "finish":
            begun.remove(name)
        whole.add(name)
    assert not begun
    assert any(seam.doing == "begin" for seam in knot.seams)


def touch(one: Rect, other: Rect, upright: bool) -> bool:
    """Whether two rectangles share a stretch of an upright edge, or of a level one."""
    if upright:
        return one.right == other.left or other.right == one.left
    return one.bottom == other.top or other.bottom == one.top


def test_a_pinwheel_takes_one_partial_seam() -> None:
    """Common practice, no source: four rectangles round a square are sewn with one partial seam."""
    boxes = rects([(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3), (1, 1, 2, 2)], Fraction(4))
    whole = assemble(boxes)
    assert isinstance(whole, Knot)
    assert [seam.doing for seam in whole.seams] == ["begin", "sew", "sew", "sew", "finish"]
    counted = seam_count(whole)
    assert counted == SeamCount(4, 1, Fraction(32), Fraction(8))


def test_arms_of_a_pinwheel_are_sewn_first() -> None:
    first = [(0, 0, 2, 1), (2, 0, 3, 2), (1, 2, 3, 3), (0, 1, 1, 3), (1, 1, 2, 2)]
    halves = [(2 * left, 2 * top, 2 * right, 2 * bottom) for left, top, right, bottom in first]
    arms = [part for left, top, right, bottom in halves[:4] for part in cut_in_two(left, top, right, bottom)]
    whole = assemble(rects([*arms, halves[4]]))
    assert isinstance(whole, Knot)
    assert sorted(type(part).__name__ for part in whole.parts) == ["Piece"] + ["Section"] * 4
    assert seam_count(whole).seams == 8


def cut_in_two(left: int, top: int, right: int, bottom: int) -> list[Box]:
    if right - left > bottom - top:
        return [(left, top, left + 1, bottom), (left + 1, top, right, bottom)]
    return [(left, top, right, top + 1), (left, top + 1, right, bottom)]


def test_a_grid_is_sewn_in_rows_where_they_are_no_longer_than_columns() -> None:
    """Common practice, no source: rows first; but columns where the quilt is wider than high."""
    tall = assemble(rects([(x, y, x + 1, y + 1) for y in range(5) for x in range(4)]))
    wide = assemble(rects([(x, y, x + 1, y + 1) for y in range(4) for x in range(5)]))
    square = assemble(rects([(x, y, x + 1, y + 1) for y in range(4) for x in range(4)]))
    assert [part.axis for part in (tall, wide, square) if isinstance(part, Section)] == [
        "down",
        "across",
        "down",
    ]
    assert [len(part.parts) for part in (tall, wide, square) if isinstance(part, Section)] == [5, 5, 4]


def test_a_thousand_turns_of_a_spiral_are_no_trouble() -> None:
    boxes: list[Rect] = []
    left, top, right, bottom = Fraction(0), Fraction(0), Fraction(1000), Fraction(1000)
    quarter = Fraction(1, 4)
    for turn in range(999):
        if turn % 4 == 0:
            boxes.append(Rect(left, top, left + quarter, bottom))
            left += quarter
        elif turn % 4 == 1:
            boxes.append(Rect(left, top, right, top + quarter))
            top += quarter
        elif turn % 4 == 2:
            boxes.append(Rect(right - quarter, top, right, bottom))
            right -= quarter
        else:
            boxes.append(Rect(left, bottom - quarter, right, bottom))
            bottom -= quarter
    whole = assemble([*boxes, Rect(left, top, right, bottom)])
    assert seam_count(whole).seams == 999


def test_knots_within_knots_are_no_trouble() -> None:
    random = Random(5)
    boxes = tiling(random, 400, pinwheels=0.9)
    whole = assemble(rects(boxes))
    assert sorted(pieces(whole)) == list(range(len(boxes)))
    assert len(knots(whole)) > 30


def test_nothing_can_not_be_sewn() -> None:
    with pytest.raises(ValueError, match="nothing"):
        assemble([])


@given(seeds)
def test_the_sets_tried_do_not_overlap(random: Random) -> None:
    for boxes in (scattered(random, 8), tiling(random, 12, 0.3)):
        assert not any(overlap(one, other) for i, one in enumerate(boxes) for other in boxes[:i])

"""Groups: made, taken apart, kept by copies as groups of their own, and never one with what was there."""

from random import Random

import pytest
from hypothesis import given, settings

from piecewright.edit.filling import repeat_blocks, replace_blocks
from piecewright.edit.footprint import all_laid
from piecewright.edit.grouping import group_blocks, ungroup_blocks, with_groups
from piecewright.edit.pasting import clip_of, paste_blocks
from piecewright.edit.placing import copy_blocks, move_blocks
from piecewright.edit.registry import Cell
from piecewright.edit.turning import turn_blocks
from piecewright.errors import EditError
from piecewright.model.design import Design
from tests.core.edit.quilts import OTHER, at, drawn, laid
from tests.core.strategies import designs, randoms


def groups(made: Design) -> dict[int, set[tuple[int, int]]]:
    """The top left cells of each group, by its number."""
    found: dict[int, set[tuple[int, int]]] = {}
    for one in all_laid(made, made.quilt):
        if one.placement.group:
            found.setdefault(one.placement.group, set()).add(one[:2])
    return found


def test_blocks_are_grouped_and_taken_apart_again() -> None:
    free = laid("ro.r..", "......")
    grouped = group_blocks(free, cells=at((0, 0), (1, 0)))
    assert groups(grouped) == {1: {(0, 0), (1, 0)}}
    assert with_groups(grouped.quilt, at((1, 0), (3, 0))) == at((1, 0), (0, 0), (3, 0))
    assert ungroup_blocks(grouped, cells=at((1, 0))) == free


def test_one_block_is_no_group_and_what_is_in_none_can_not_be_taken_apart() -> None:
    with pytest.raises(EditError, match="two blocks or more"):
        group_blocks(laid("ro...."), cells=at((0, 0)))
    with pytest.raises(EditError, match="in a group"):
        ungroup_blocks(laid("ro...."), cells=at((0, 0)))


def test_a_block_is_in_one_group_only() -> None:
    first = group_blocks(laid("rrr..."), cells=at((0, 0), (1, 0)))
    assert groups(group_blocks(first, cells=at((1, 0), (2, 0)))) == {1: {(0, 0)}, 2: {(1, 0), (2, 0)}}


def test_a_group_is_moved_and_turned_as_it_is() -> None:
    grouped = group_blocks(laid("ro....", "......"), cells=at((0, 0), (1, 0)))
    moved = move_blocks(grouped, cells=at((0, 0), (1, 0)), columns=2, rows=0)
    assert groups(moved) == {1: {(2, 0), (3, 0)}}
    turned = turn_blocks(moved, cells=at((2, 0), (3, 0)), by=90, together=True)
    assert drawn(turned) == ("..R...", "..O...")
    assert groups(turned) == {1: {(2, 0), (2, 1)}}


def test_copies_of_a_group_are_a_group_of_their_own() -> None:
    grouped = group_blocks(laid("ro....", "......", "......"), cells=at((0, 0), (1, 0)))
    copied = copy_blocks(grouped, cells=at((0, 0), (1, 0)), columns=0, rows=1)
    assert groups(copied) == {1: {(0, 0), (1, 0)}, 2: {(0, 1), (1, 1)}}
    pasted = paste_blocks(copied, clip=clip_of(copied, at((0, 0), (1, 0))), cell=Cell(0, 2))
    assert groups(pasted)[3] == {(0, 2), (1, 2)}


def test_repeated_blocks_are_in_no_group_and_a_replaced_one_stays_in_its_own() -> None:
    grouped = group_blocks(laid("ro....", "......"), cells=at((0, 0), (1, 0)))
    repeated = repeat_blocks(grouped, cells=at((0, 0), (1, 0)), cell=Cell(0, 0), columns=6, rows=2)
    assert drawn(repeated) == ("rororo", "rororo")
    assert groups(repeated) == {1: {(0, 0), (1, 0)}}
    assert groups(replace_blocks(grouped, cells=at((0, 0)), block=OTHER)) == {1: {(0, 0), (1, 0)}}


@settings(max_examples=60, deadline=None)
@given(before=designs(), random=randoms)
def test_grouping_moves_nothing_and_apart_again_groups_none_of_them(before: Design, random: Random) -> None:
    there = [Cell(*one[:2]) for one in all_laid(before, before.quilt)]
    if len(there) < 2:
        return
    chosen = tuple(random.sample(there, random.randint(2, len(there))))
    grouped = group_blocks(before, cells=chosen)
    assert drawn(grouped) == drawn(before)
    assert {(cell.column, cell.row) for cell in chosen} in groups(grouped).values()
    assert set(with_groups(grouped.quilt, chosen[:1])) == set(chosen)
    apart = ungroup_blocks(grouped, cells=chosen[:1])
    assert all(not places & {(cell.column, cell.row) for cell in chosen} for places in groups(apart).values())

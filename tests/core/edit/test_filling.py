"""Filling, repeating and replacing: every place is found, and nothing that lies there is harmed."""

from random import Random

import pytest
from hypothesis import given, settings

from piecewright.edit.filling import fill_cells, repeat_blocks, replace_blocks
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import Cell, apply
from piecewright.errors import EditError
from piecewright.model.design import Design
from tests.core.edit.quilts import MIDDLE, OTHER, RAILS, THIRDS, at, design, drawn, laid
from tests.core.edit_strategies import random_call
from tests.core.strategies import designs, randoms


def test_a_block_fills_a_rectangle_edge_to_edge() -> None:
    after = fill_cells(design(6, 3), block=THIRDS, cell=Cell(1, 0), columns=4, rows=3)
    assert drawn(after) == (".tttt.", ".----.", "......")


def test_every_other_block_is_turned_as_on_a_checkerboard() -> None:
    after = fill_cells(design(4, 2), block=RAILS, cell=Cell(0, 0), columns=4, rows=2, alternate=90)
    assert drawn(after) == ("rRrR", "RrRr")


def test_what_lies_there_stays_or_gives_way_where_it_covers_the_same_cells() -> None:
    before = laid("o.....", ".m-...", ".--...")
    after = fill_cells(before, block=RAILS, cell=Cell(0, 0), columns=4, rows=3)
    assert drawn(after) == ("orrr..", "rm-r..", "r--r..")
    after = fill_cells(before, block=RAILS, cell=Cell(0, 0), columns=4, rows=3, replace=True)
    assert drawn(after) == ("rrrr..", "rm-r..", "r--r..")


def test_filling_more_than_the_quilt_fills_the_quilt() -> None:
    after = fill_cells(design(3, 2), block=RAILS, cell=Cell(0, 0), columns=1000, rows=1000)
    assert drawn(after) == ("rrr", "rrr")


@settings(max_examples=60, deadline=None)
@given(before=designs(), random=randoms)
def test_filling_and_repeating_only_add(before: Design, random: Random) -> None:
    call = random_call(random, before, random.choice(("fill-cells", "repeat-blocks")))
    try:
        after = apply(before, call)
    except EditError:
        return
    old, new = set(all_laid(before, before.quilt)), set(all_laid(after, after.quilt))
    assert len(new) > len(old) or call.arguments.plain["replace"]
    if not call.arguments.plain["replace"]:
        assert old <= new


def test_a_pattern_repeats_in_step_with_itself() -> None:
    before = laid("......", "..ro..", "..m-..", "..--..", "......")
    after = repeat_blocks(before, cells=at((2, 1), (3, 1), (2, 2)), cell=Cell(0, 0), columns=6, rows=5)
    assert drawn(after) == ("......", "rororo", "m-m-m-", "------", "rororo")


def test_other_blocks_take_the_places_of_those_of_their_size() -> None:
    after = replace_blocks(laid("rRo..."), cells=at((0, 0), (1, 0)), block=OTHER)
    assert drawn(after) == ("oOo...",)
    with pytest.raises(EditError) as refusal:
        replace_blocks(laid("r.....", "......"), cells=at((0, 0)), block=MIDDLE)
    assert refusal.value.sentence() == (
        '"Rails" covers 1 x 1 cells and "Middle" 2 x 2. Only blocks that cover equally many can take each '
        "other's place."
    )


def test_no_room_at_all_is_said() -> None:
    with pytest.raises(EditError) as refusal:
        fill_cells(laid("rrr...", "......"), block=MIDDLE, cell=Cell(0, 0), columns=3, rows=2)
    assert refusal.value.sentence() == (
        '"Middle" covers 2 x 2 cells, and there is no free place for it there. Choose more cells, or clear some.'
    )
    with pytest.raises(EditError, match="There is no free place there for one more of the selected blocks"):
        repeat_blocks(laid("rr....", "......"), cells=at((0, 0)), cell=Cell(0, 0), columns=2, rows=1)
    with pytest.raises(EditError, match="These cells do not begin in the quilt of 6 x 1 cells"):
        fill_cells(laid("r....."), block=RAILS, cell=Cell(6, 0), columns=1, rows=1)

"""Turning: exact, back and forth, about the middle where whole cells allow it."""

from random import Random

import pytest
from hypothesis import assume, given, settings

from piecewright.edit.footprint import all_laid
from piecewright.edit.turning import QuarterTurn, turn_blocks
from piecewright.edit.wall import Wall
from piecewright.errors import EditError
from piecewright.model.design import Design
from tests.core.cell_strategies import random_cells
from tests.core.edit.quilts import at, drawn, laid
from tests.core.strategies import designs, randoms

BACK: dict[int, QuarterTurn] = {90: 270, 180: 180, 270: 90}


@settings(max_examples=200, deadline=None)
@given(design=designs(), random=randoms)
def test_turning_back_undoes_a_turn(design: Design, random: Random) -> None:
    cells = random_cells(random, design)
    by = random.choice((90, 180, 270))
    together = random.random() < 0.5
    try:
        after = turn_blocks(design, cells=cells, by=by, together=together)  # type: ignore[arg-type]
    except EditError:
        return
    were = set(all_laid(design, design.quilt))
    turned = [one for one in all_laid(after, after.quilt) if one not in were]
    assume(
        len(turned) == len(Wall(design).all_at(cells))
    )  # none came to lie just as an equal block lay before
    back = turn_blocks(after, cells=at(*(one[:2] for one in turned)), by=BACK[by], together=together)
    assert back == design


def test_a_square_block_turns_where_it_lies() -> None:
    after = turn_blocks(laid("m-....", "......"), cells=at((0, 0)), by=90)
    assert drawn(after) == ("M-....", "--....")


def test_a_block_of_one_by_two_keeps_its_top_left() -> None:
    before = laid("t.....", "......")
    after = turn_blocks(before, cells=at((0, 0)), by=90)
    assert drawn(after) == ("T-....", "......")
    assert turn_blocks(after, cells=at((0, 0)), by=270) == before


def test_neighbors_turn_as_one_where_each_alone_has_no_room() -> None:
    before = laid("tt....", "--....")
    with pytest.raises(EditError, match='"Thirds" does not fit at column 2, row 1: "Thirds" lies there'):
        turn_blocks(before, cells=at((0, 0), (1, 0)), by=90)
    after = turn_blocks(before, cells=at((0, 0), (1, 0)), by=90, together=True)
    assert drawn(after) == ("T-....", "T-....")


def test_a_selection_turned_clockwise_keeps_its_picture() -> None:
    before = laid("ro....", "f.....", "......")
    after = turn_blocks(before, cells=at((0, 0), (1, 0), (0, 1)), by=90, together=True)
    assert drawn(after) == ("FR....", ".O....", "......")
    turned = turn_blocks(before, cells=at((0, 0), (1, 0), (0, 1)), by=180, together=True)
    assert drawn(turned) == (".f....", "or....", "......")


def test_a_long_block_turns_only_where_it_fits() -> None:
    with pytest.raises(EditError, match='"Thirds" does not fit at column 1, row 1: "Rails" lies there'):
        turn_blocks(laid("tr....", "......"), cells=at((0, 0)), by=90)
    with pytest.raises(EditError, match="it would stick out of the quilt of 6 x 2 cells"):
        turn_blocks(laid(".....t", "......"), cells=at((5, 0)), by=90)

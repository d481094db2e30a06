"""Laying, moving, copying, swapping, removing: what happens, and why a drop is refused."""

from collections.abc import Callable

import pytest

from piecewright.edit.placing import (
    Offset,
    copy_blocks,
    move_blocks,
    nudge_blocks,
    place_block,
    remove_blocks,
    swap_blocks,
)
from piecewright.edit.registry import Cell
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.value import Letters
from tests.core.edit.quilts import FOUR_PATCH, MIDDLE, OTHER, RAILS, THIRDS, at, design, drawn, laid


def test_blocks_of_unlike_size_lie_beside_each_other() -> None:
    assert drawn(laid("rtm-..", "......", "T-r...")) == ("rtm-..", ".---..", "T-r...")


def test_a_block_is_laid_with_its_turn_layer_and_fabrics() -> None:
    own = Letters({"A": ("f3",)})
    after = place_block(
        design(), block=FOUR_PATCH, cell=Cell(2, 1), turn=270, layer=4, fabrics=own
    ).quilt.rows[0]
    assert after.row == 1
    (placement,) = after.placements
    assert (placement.column, placement.turn, placement.layer, placement.fabrics) == (2, 270, 4, own)


def test_a_block_of_the_same_cells_gives_way_only_when_told() -> None:
    before = laid("rm-...", "......")
    after = place_block(before, block=OTHER, cell=Cell(0, 0), replace=True)
    assert drawn(after) == ("om-...", ".--...")
    with pytest.raises(EditError, match='"Other rails" does not fit at column 2, row 1: "Middle" lies there'):
        place_block(before, block=OTHER, cell=Cell(1, 0), replace=True)


def test_blocks_move_together() -> None:
    before = laid("rtm-..", "......", "......")
    after = move_blocks(before, cells=at((0, 0), (1, 0), (2, 0)), columns=1, rows=1)
    assert drawn(after) == ("......", ".rtm-.", "..---.")


def test_any_covered_cell_names_a_block() -> None:
    before = laid("m-....", "......")
    assert drawn(remove_blocks(before, cells=at((1, 1), (0, 1)))) == ("......", "......")


def test_a_block_dropped_on_one_of_its_size_changes_places_with_it() -> None:
    after = move_blocks(laid("r....o"), cells=at((0, 0)), columns=5, rows=0)
    assert drawn(after) == ("o....r",)


def test_a_turned_block_changes_places_with_an_unturned_one_that_covers_the_same_cells() -> None:
    before = place_block(laid("t..", "...", columns=3), block=THIRDS, cell=Cell(2, 0), turn=180)
    after = move_blocks(before, cells=at((0, 0)), columns=2, rows=0)
    assert [one.turn for one in after.quilt.rows[0].placements] == [180, 0]


def test_a_row_that_moves_on_by_one_sends_the_displaced_block_to_its_free_end() -> None:
    after = move_blocks(laid("rrro.."), cells=at((0, 0), (1, 0), (2, 0)), columns=1, rows=0)
    assert drawn(after) == ("orrr..",)


def test_nudges_change_places_at_every_step() -> None:
    before = laid("rof...")
    right = Offset(1, 0)
    assert drawn(nudge_blocks(before, cells=at((0, 0)), path=(right, right))) == ("ofr...",)
    assert drawn(move_blocks(before, cells=at((0, 0)), columns=2, rows=0)) == ("for...",)


def test_copies_keep_their_fabrics_and_turns() -> None:
    before = place_block(design(), block=RAILS, cell=Cell(0, 0), turn=90, fabrics=Letters({"A": ("f3",)}))
    after = copy_blocks(before, cells=at((0, 0)), columns=0, rows=1)
    assert after.quilt.rows[1].placements == before.quilt.rows[0].placements == after.quilt.rows[0].placements


def test_two_blocks_swap_and_a_block_swapped_with_itself_stays() -> None:
    before = laid("t.m-..", "......")
    assert drawn(swap_blocks(laid("r.o..."), first=Cell(0, 0), second=Cell(2, 0))) == ("o.r...",)
    assert swap_blocks(before, first=Cell(2, 0), second=Cell(3, 1)) == before


def test_rows_that_an_edit_does_not_touch_are_the_very_same() -> None:
    before = laid("r.....", "o.....", "t.....", "......")
    after = move_blocks(before, cells=at((0, 1)), columns=2, rows=0)
    kept = [after.quilt.by_row[number] is before.quilt.by_row[number] for number in (0, 1, 2)]
    assert kept == [True, False, True]
    assert after.shelf is before.shelf


REFUSED: list[tuple[Callable[[Design], Design], str]] = [
    (
        lambda made: place_block(made, block=RAILS, cell=Cell(0, 0)),
        '"Rails" does not fit at column 1, row 1: "Rails" lies there. The nearest free place is column 1, row 2.',
    ),
    (
        lambda made: place_block(made, block=MIDDLE, cell=Cell(4, 2)),
        (
            '"Middle" covers 2 x 2 cells, and there it would stick out of the quilt of 5 x 3 cells. '
            "The nearest place inside is column 4, row 2."
        ),
    ),
    (
        lambda made: place_block(made, block=RAILS, cell=Cell(-1, 1)),
        (
            '"Rails" covers 1 x 1 cells, and there it would stick out of the quilt of 5 x 3 cells. '
            "The nearest place inside is column 1, row 2."
        ),
    ),
    (
        lambda made: place_block(made, block="b99", cell=Cell(0, 1)),
        "The shelf has no block b99. Add it to the shelf first.",
    ),
    (
        lambda made: place_block(made, block=RAILS, cell=Cell(0, 1), kind=1),
        '"Rails" has no kind 2: its batch yields 1 kind.',
    ),
    (
        lambda made: place_block(made, block=FOUR_PATCH, cell=Cell(0, 1), layer=5),
        '"Four-patch" does not come in layer 6 here; it comes in layer 1, 2, 3, 4 or 5.',
    ),
    (
        lambda made: place_block(made, block=RAILS, cell=Cell(0, 1), fabrics=Letters({"A": ("f9",)})),
        'arrangements[0].rows, row 1: There is no fabric "f9". Add it to the fabrics.',
    ),
    (
        lambda made: move_blocks(made, cells=at((0, 0)), columns=1, rows=0),
        '"Rails" does not fit at column 2, row 1: "Middle" lies there. The nearest free place is column 1, row 1.',
    ),
    (
        lambda made: move_blocks(made, cells=at((0, 0), (1, 0)), columns=0, rows=2),
        (
            '"Middle" covers 2 x 2 cells, and there it would stick out of the quilt of 5 x 3 cells. '
            "Move them less far."
        ),
    ),
    (
        lambda made: move_blocks(made, cells=(), columns=1, rows=1),
        "No block is selected. Select blocks on the wall first.",
    ),
    (lambda made: remove_blocks(made, cells=at((0, 2))), "No block lies at column 1, row 3."),
    (
        lambda made: copy_blocks(made, cells=at((1, 0)), columns=2, rows=0),
        '"Middle" does not fit at column 4, row 1: "Thirds" lies there. Make room there first.',
    ),
    (
        lambda made: swap_blocks(made, first=Cell(0, 0), second=Cell(1, 0)),
        (
            '"Rails" covers 1 x 1 cells and "Middle" 2 x 2. Only blocks that cover equally many can take each '
            "other's place."
        ),
    ),
]


@pytest.mark.parametrize(("change", "sentence"), REFUSED)
def test_a_refused_drop_says_why_and_what_to_do(change: Callable[[Design], Design], sentence: str) -> None:
    with pytest.raises(EditError) as refusal:
        change(laid("rm-.t", ".....", ".....", columns=5))
    assert refusal.value.sentence() == sentence

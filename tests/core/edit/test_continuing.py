"""A quilt that grows with its blocks: the pattern goes on, on point and between sashes too; what was stays."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.continuing import continue_quilt
from piecewright.edit.footprint import all_laid
from piecewright.edit.placing import place_block
from piecewright.edit.registry import Cell
from piecewright.edit.resizing import set_columns, set_rows
from piecewright.edit.setting import change_setting, set_sashing
from piecewright.edit.spaces import spaces_of
from piecewright.model.design import Design
from piecewright.model.quilt import Lattice, Quilt
from piecewright.model.setting import Sashing
from piecewright.plan.layout import layout
from tests.core.edit.quilts import OTHER, RAILS, SIX, design, drawn, laid
from tests.core.soundness import assert_sound
from tests.core.strategies import designs


@pytest.mark.parametrize(
    ("before", "columns", "rows", "after"),
    [
        (("roro", "oror"), 6, 3, ("rororo", "ororor", "rororo")),
        (("ro", "of"), 4, 3, ("roro", "ofof", "roro")),
        (("rof",), 5, 2, ("rofro", "rofro")),
        (("m-m-", "----"), 6, 4, ("m-m-m-", "------", "m-m-m-", "------")),
        (("m-r", "--o"), 5, 2, ("m-rm-", "--o--")),
        (("m-r", "--o"), 4, 3, ("m-r.", "--o.", "..r.")),
        (("r.", ".."), 4, 2, ("r.r.", "....")),
        (("roro", "oror"), 3, 1, ("ror",)),
    ],
)
def test_the_pattern_goes_on(
    before: tuple[str, ...], columns: int, rows: int, after: tuple[str, ...]
) -> None:
    start = laid(*before)
    wide = set_columns(start, columns=len(before[0]))
    assert drawn(continue_quilt(wide, columns=columns, rows=rows)) == after


@settings(max_examples=150, deadline=None)
@given(before=designs(), columns=st.integers(1, 16), rows=st.integers(1, 16))
def test_what_fits_stays_and_only_new_cells_are_filled(before: Design, columns: int, rows: int) -> None:
    lattice = before.quilt.lattice
    if lattice.kind == "on point":
        columns, rows = min(columns, 6), min(rows, 6)
    plain = set_rows(set_columns(before, columns=columns), rows=rows)
    after = continue_quilt(before, columns=columns, rows=rows)
    assert_sound(after)
    there = set(all_laid(plain, plain.quilt))
    new = set(all_laid(after, after.quilt)) - there
    assert there <= set(all_laid(after, after.quilt))
    down = (columns - lattice.columns) * lattice.space_columns if lattice.kind == "on point" else 0
    assert not any(lattice.holds(one.column, one.row - down, one.columns, one.rows) for one in new)
    assert {one.placement.block for one in new} <= before.quilt.blocks


def on_point(columns: int, rows: int, blocks: tuple[str, ...]) -> Design:
    """Blocks in turn on point, row by row."""
    made = design().with_quilt(Quilt("Point", Lattice(SIX, columns, rows, "on point")))
    for number, cell in enumerate(spaces_of(made.quilt)):
        made = place_block(made, block=blocks[number % len(blocks)], cell=cell)
    return made


@pytest.mark.parametrize("blocks", [(RAILS,), (RAILS, OTHER), (RAILS, OTHER, OTHER)])
@pytest.mark.parametrize(("columns", "rows"), [(4, 3), (3, 5), (6, 7), (2, 2)])
def test_on_point_every_new_space_is_filled(blocks: tuple[str, ...], columns: int, rows: int) -> None:
    after = continue_quilt(on_point(3, 3, blocks), columns=columns, rows=rows)
    assert layout(after).missing == 0


def test_on_point_rows_of_a_kind_go_on_as_rows() -> None:
    """Across a quilt on point the rows of blocks at the edge and those between them alternate."""
    made = design().with_quilt(Quilt("Point", Lattice(SIX, 3, 3, "on point")))
    for cell in spaces_of(made.quilt):
        outer = (cell.column + cell.row) % 2 == 0
        made = place_block(made, block=RAILS if outer else OTHER, cell=cell)
    after = continue_quilt(made, columns=5, rows=4)
    kinds = {(one.column + one.row) % 2: one.placement.block for one in all_laid(after, after.quilt)}
    assert sorted(kinds.values()) == [RAILS, OTHER]
    for one in all_laid(after, after.quilt):
        assert kinds[(one.column + one.row) % 2] == one.placement.block
    assert layout(after).missing == 0


def test_between_sashes_blocks_go_on_space_by_space() -> None:
    start = set_columns(laid("m-m-", "----"), columns=4)
    sashed = set_sashing(start, sashing=Sashing("f2", Fraction(2), Fraction(2)))
    after = continue_quilt(sashed, columns=6, rows=4)
    assert drawn(after) == ("m-m-m-", "------", "m-m-m-", "------")


def test_the_pattern_survives_a_change_of_the_setting() -> None:
    turned = change_setting(set_columns(laid("roro", "oror"), columns=4), kind="on point")
    wide = turned.quilt.lattice.columns + 1
    assert len(all_laid(*_both(continue_quilt(turned, columns=wide, rows=turned.quilt.lattice.rows)))) > 8


def test_a_locked_block_is_carried_on_unlocked() -> None:
    from piecewright.edit.arranging import lock_blocks

    start = lock_blocks(set_columns(laid("ro"), columns=2), cells=(Cell(0, 0),))
    after = continue_quilt(start, columns=4, rows=1)
    assert [one.placement.locked for one in all_laid(*_both(after))] == [True, False, False, False]


def _both(made: Design) -> tuple[Design, Quilt]:
    return made, made.quilt

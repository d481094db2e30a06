"""Every other space, columns, medallions, gaps: blocks are kept, and lie as the setting has them."""

from collections import Counter
from fractions import Fraction

import pytest

from piecewright.edit import alternating
from piecewright.edit.alternating import alternate_plain, alternate_turns, lay_medallion, stack_columns
from piecewright.edit.footprint import Laid, all_laid
from piecewright.edit.gaps import fill_gaps, gap_offers
from piecewright.edit.placing import remove_blocks
from piecewright.edit.registry import Cell, apply, call
from piecewright.edit.setting import change_setting
from piecewright.edit.wall import Wall
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from tests.core.plan.samples import BLOCK, rails
from tests.core.plan.test_sewing_order import PINWHEEL, pinwheel
from tests.core.soundness import assert_sound


def blocks_of(design: Design) -> Counter[str]:
    return Counter(one.block for row in design.quilt.rows for one in row.placements)


def test_every_other_block_is_turned_and_twice_is_by_180() -> None:
    once = alternate_turns(rails(20), by=90)
    turns = {(one.column, row.row): one.turn for row in once.quilt.rows for one in row.placements}
    assert all(turn == (90 if (column + row) % 2 else 0) for (column, row), turn in turns.items())
    twice = alternate_turns(alternate_turns(change_setting(rails(13), kind="on point")))
    assert Counter(one.turn for row in twice.quilt.rows for one in row.placements).keys() == {0, 180}


def test_plain_blocks_lie_between_on_a_checkerboard_and_on_point() -> None:
    found = alternate_plain(rails(20), fabric="f4")
    assert_sound(found)
    counts = blocks_of(found)
    assert counts[BLOCK] == 20
    assert len(counts) == 2
    assert abs(counts[BLOCK] - sum(counts.values()) / 2) <= 1
    again = alternate_plain(alternate_plain(rails(20), fabric="f4"), fabric="f4")
    assert len(again.blocks) == len(found.blocks)
    # 4 x 5 pieced on point and 3 x 4 plain between them (published row W056)
    pointed = alternate_plain(change_setting(rails(20), kind="on point", columns=4, rows=5), fabric="f4")
    assert sorted(blocks_of(pointed).values()) == [12, 20]
    assert materials(pointed).missing == 0


def test_columns_of_unlike_heights_are_closed_up_and_coping_strips_fill_them() -> None:
    fine = apply(rails(20), call("set-unit", unit=Fraction(1)))
    bare = remove_blocks(fine, cells=(Cell(0, 0), Cell(6, 6), Cell(12, 0)))
    for at, tops in (("top", [0]), ("middle", [3]), ("spread", [0])):
        stacked = stack_columns(bare, at=at)  # type: ignore[arg-type]
        assert_sound(stacked)
        assert blocks_of(stacked) == blocks_of(bare)
        assert [laid.row for laid in all_laid(stacked, stacked.quilt) if laid.column == 0] == tops
    coped = fill_gaps(stack_columns(bare, at="middle"), fabric="f5")
    (strip,) = materials(coped).parts
    assert (strip.part, strip.count, strip.finished.height) == ("coping-strip", 6, 3)
    with pytest.raises(EditError, match="two columns"):
        stack_columns(bare, width=5)


def test_a_medallion_has_its_block_in_the_middle_and_the_others_round_it() -> None:
    found = lay_medallion(rails(9), cell=Cell(2, 0))
    assert_sound(found)
    assert blocks_of(found) == blocks_of(rails(9))
    lattice = found.quilt.lattice
    assert (lattice.columns % 2, lattice.rows % 2) == (1, 1)
    middle = found.quilt.by_row[lattice.rows // 2]
    assert lattice.columns // 2 in [one.column for one in middle.placements]
    rings = [
        max(abs(laid.column - lattice.columns // 2), abs(laid.row - lattice.rows // 2))
        for laid in all_laid(found, found.quilt)
    ]
    assert Counter(rings) == {0: 1, 1: 8}


def test_gaps_are_offered_what_fits_and_filled_with_it() -> None:
    bare = remove_blocks(rails(20), cells=tuple(Cell(column, 1) for column in range(4, 8)))
    (offer,) = gap_offers(bare)
    assert offer.cells == (4, 1, 4, 1)
    assert [(fit.block, fit.pieces) for fit in offer.fits] == [(BLOCK, 4)]
    assert materials(fill_gaps(bare, blocks=(BLOCK,))).missing == 0
    with pytest.raises(EditError, match="None of these blocks fits"):
        fill_gaps(rails(20), blocks=(BLOCK,))


def test_a_gap_takes_the_block_that_leaves_least_of_it_free() -> None:

    knot = pinwheel(*PINWHEEL)
    bare = remove_blocks(knot, cells=(Cell(0, 0),))
    offers = {offer.cells: [fit.block for fit in offer.fits] for offer in gap_offers(bare)}
    assert list(offers) == [(0, 0, 2, 1)]
    assert set(offers[0, 0, 2, 1]) == {"b30", "b31"}
    assert materials(fill_gaps(bare, blocks=("b30", "b31"))).missing == 0


def test_a_large_medallion_looks_at_each_place_once(monkeypatch: pytest.MonkeyPatch) -> None:
    looked: list[tuple[int, int]] = []
    lies = alternating._lies

    def counting(wall: Wall, laid: Laid) -> bool:
        looked.append(laid[:2])
        return lies(wall, laid)

    monkeypatch.setattr(alternating, "_lies", counting)
    after = lay_medallion(rails(400), cell=Cell(5, 20))
    assert sum(len(row.placements) for row in after.quilt.rows) == 400
    assert len(looked) == len(set(looked)) <= after.quilt.lattice.columns * after.quilt.lattice.rows

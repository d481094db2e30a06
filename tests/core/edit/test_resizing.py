"""Resizing: what fits stays where it is, what leaves is said, and the numbers are those of the cloth."""

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.borders import add_border
from piecewright.edit.facts_of import facts_of
from piecewright.edit.footprint import all_laid
from piecewright.edit.resize_quilt import resize_quilt
from piecewright.edit.resizing import (
    leaving,
    leaving_text,
    set_block_size,
    set_columns,
    set_rows,
    set_target_size,
    set_unit,
)
from piecewright.edit.scaling import block_units
from piecewright.edit.setting import set_sashing
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Border
from piecewright.model.setting import Sashing
from piecewright.units.sizes import Finished
from piecewright.words.message import message
from tests.core.edit.quilts import MIDDLE, RAILS, THIRDS, drawn, laid
from tests.core.soundness import assert_sound
from tests.core.strategies import designs, randoms

INCHES = st.integers(1, 120).map(Fraction)


def test_columns_come_and_go_at_either_side() -> None:
    before = laid("r.m-.o", "..--..")
    assert drawn(set_columns(before, columns=8)) == ("r.m-.o..", "..--....")
    assert drawn(set_columns(before, columns=8, at="left")) == ("..r.m-.o", "....--..")
    assert drawn(set_columns(before, columns=3)) == ("r..", "...")
    assert drawn(set_columns(before, columns=4, at="left")) == ("m-.o", "--..")


def test_rows_come_and_go_at_either_side() -> None:
    before = laid("r.....", ".m-...", ".--...", "o.....")
    assert drawn(set_rows(before, rows=2)) == ("r.....", "......")
    assert drawn(set_rows(before, rows=3, at="top")) == (".m-...", ".--...", "o.....")
    assert drawn(set_rows(before, rows=5, at="top"))[:2] == ("......", "r.....")


@settings(max_examples=100, deadline=None)
@given(before=designs(), random=randoms)
def test_just_the_blocks_that_a_narrower_quilt_holds_stay(before: Design, random: Random) -> None:
    columns = random.randint(1, 16)
    after = set_columns(before, columns=columns)
    kept = {one for one in all_laid(before, before.quilt) if one.column + one.columns <= columns}
    assert set(all_laid(after, after.quilt)) == kept
    count = sum(number for _, number in leaving(before, after))
    assert count == len(all_laid(before, before.quilt)) - len(kept)
    assert str(count) in leaving_text(before, after).text() or count == 0


def test_what_leaves_is_said_by_name_and_count() -> None:
    before = laid("rrot..", "rr....")
    after = set_columns(before, columns=1)
    assert leaving(before, after) == (("Rails", 2), ("Other rails", 1), ("Thirds", 1))
    assert leaving_text(before, after).text() == (
        '4 blocks leave the wall: 2 of "Rails", 1 of "Other rails" and 1 of "Thirds".'
    )
    assert leaving_text(after, after).text() == "Every block stays on the wall."


@settings(max_examples=100, deadline=None)
@given(before=designs(), width=INCHES, height=INCHES)
def test_no_whole_number_of_cells_comes_nearer_to_a_target_size(
    before: Design, width: Fraction, height: Fraction
) -> None:
    unit = before.quilt.lattice.unit
    borders = 2 * sum((border.width for border in before.quilt.borders), Fraction(0))
    try:
        after = set_target_size(before, width=width, height=height)
    except EditError as refusal:
        assert refusal.hint == message("edit.target-above", borders=borders)  # noqa: PT017 - either way is right
        assert min(width, height) <= borders
        return
    reached = after.quilt.finished
    for asked, got, count in (
        (width, reached.width, after.quilt.lattice.columns),
        (height, reached.height, after.quilt.lattice.rows),
    ):
        assert count == 1 or abs(asked - Fraction(got)) <= unit / 2


def test_the_target_size_counts_the_borders() -> None:
    before = add_border(laid("r....."), border=Border("f1", Fraction(9, 2)))
    after = set_target_size(before, width=Fraction(60), height=Fraction(72))
    assert after.quilt.finished == Finished(Fraction(63), Fraction(75))
    assert (after.quilt.lattice.columns, after.quilt.lattice.rows) == (9, 11)
    with pytest.raises(EditError) as refusal:
        set_target_size(before, width=Fraction(60), height=Fraction(9))
    assert refusal.value.sentence() == (
        "A quilt of 60 in x 9 in finished would be all border. The borders alone take 9 in of each; "
        "choose more, or make them narrower."
    )


@settings(max_examples=100, deadline=None)
@given(before=designs(), random=randoms)
def test_another_grid_moves_nothing(before: Design, random: Random) -> None:
    unit = before.quilt.lattice.unit
    finer = unit / random.randint(2, 4)
    after = set_unit(before, unit=finer)
    assert after.quilt.finished == before.quilt.finished
    assert _in_inches(after) == _in_inches(before)
    assert set_unit(after, unit=unit) == before


def test_a_grid_that_cuts_a_block_is_refused_with_those_that_do_not() -> None:
    with pytest.raises(EditError) as refusal:
        set_unit(laid("rt....", "......"), unit=Fraction(4))
    assert refusal.value.sentence() == (
        "On a grid of 4 in not every block and edge of the quilt would lie on a line. "
        "Choose 6 in, or a whole part of it such as 3 in."
    )


def test_all_blocks_become_larger_with_their_cells() -> None:
    before = laid("rtm-..", ".---..")
    after = set_block_size(before, unit=Fraction(9))
    assert drawn(after) == drawn(before)
    assert after.quilt.finished == Finished(Fraction(54), Fraction(18))
    finished = {block: facts_of(after, block).finished for block in (RAILS, THIRDS, MIDDLE)}
    assert finished[RAILS] == Finished(Fraction(9), Fraction(9))
    assert finished[THIRDS] == Finished(Fraction(9), Fraction(18))
    assert finished[MIDDLE] == Finished(Fraction(18), Fraction(18))
    assert_sound(after)
    assert set_block_size(after, unit=Fraction(6)).quilt == before.quilt


def test_blocks_of_other_arrangements_keep_their_size() -> None:
    before = laid("rt....", "......")
    two = before.changed(arrangements=(before.quilt, before.quilt.changed(name="Second")))
    after = set_block_size(two, unit=Fraction(9))
    assert after.arrangements[1] == two.arrangements[1]
    assert len(after.blocks) == len(two.blocks) + 2
    assert {block.name for block in after.blocks} == {block.name for block in two.blocks}
    assert_sound(after)


def test_the_sizes_offered_are_those_that_all_recipes_list() -> None:
    assert block_units(laid("r.....")) == (Fraction(9, 2), Fraction(6), Fraction(15, 2), Fraction(9))
    assert block_units(laid("rm-...", ".--...")) == (Fraction(9, 2), Fraction(6))


def test_a_size_that_no_block_can_have_is_refused() -> None:
    with pytest.raises(EditError, match="The grid unit is 0 in; it must be more than 0"):
        set_block_size(laid("r....."), unit=Fraction(0))


def _in_inches(made: Design) -> set[tuple[object, ...]]:
    unit = made.quilt.lattice.unit
    return {
        (*(count * unit for count in one[:4]), one.placement.changed(column=0))
        for one in all_laid(made, made.quilt)
    }


def test_sashing_is_resized_with_the_quilt() -> None:
    start = laid("ro", "or")
    two = set_columns(start, columns=2)
    sashed = resize_quilt(two, sashing=Fraction(2), border=Fraction(4))  # no border yet: left alone
    assert sashed.quilt.sashing == Sashing("f1", Fraction(2), Fraction(2))
    assert sashed.quilt.finished == Finished(Fraction(18), Fraction(18))
    assert resize_quilt(sashed, sashing=Fraction(1)).quilt.finished == Finished(Fraction(15), Fraction(15))
    assert resize_quilt(sashed, sashing=Fraction(0)).quilt == two.quilt
    assert resize_quilt(two, sashing=Fraction(0)) == two
    one_way = set_sashing(two, sashing=Sashing("f2", Fraction(2), Fraction(0)))
    assert resize_quilt(one_way, sashing=Fraction(3)).quilt.sashing == Sashing("f2", Fraction(3), Fraction(0))

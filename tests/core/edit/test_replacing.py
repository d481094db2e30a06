"""One block in the place of another everywhere: none of it is left, nothing else changes."""

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings

from piecewright.edit.arrangements import duplicate_arrangement
from piecewright.edit.arranging import lock_blocks
from piecewright.edit.blocks import placed_count
from piecewright.edit.borders import add_border
from piecewright.edit.footprint import all_laid
from piecewright.edit.replacing import replace_everywhere, takes_place_of
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Border
from piecewright.model.setting import Pieced
from tests.core.edit.quilts import FOUR_PATCH, MIDDLE, OTHER, RAILS, THIRDS, at, drawn, laid
from tests.core.strategies import designs, randoms


def test_a_block_is_replaced_in_every_arrangement_and_border() -> None:
    border = Border("f1", Fraction(6), pieced=Pieced(Fraction(6), block=RAILS))
    before = duplicate_arrangement(
        add_border(laid("rRo...", "r....."), border=border), index=0, name="Second"
    )
    after = replace_everywhere(before, block=RAILS, to=OTHER)
    assert drawn(after) == ("oOo...", "o.....")
    assert placed_count(after, RAILS) == 0
    assert placed_count(after, OTHER) == placed_count(before, RAILS) + placed_count(before, OTHER)


def test_what_covers_other_cells_or_is_locked_is_refused() -> None:
    with pytest.raises(EditError, match="covers 1 x 1 cells"):
        replace_everywhere(laid("r....."), block=RAILS, to=MIDDLE)
    with pytest.raises(EditError, match="is locked"):
        replace_everywhere(lock_blocks(laid("r....."), cells=at((0, 0))), block=RAILS, to=OTHER)


def test_only_blocks_of_the_same_cells_are_offered() -> None:
    assert takes_place_of(laid("r....."), RAILS) == (OTHER, FOUR_PATCH)
    assert takes_place_of(laid("r....."), THIRDS) == ()


@settings(max_examples=40, deadline=None)
@given(before=designs(), random=randoms)
def test_what_is_offered_can_be_done_and_leaves_none_of_the_block(before: Design, random: Random) -> None:
    block = random.choice(before.blocks).id
    for other in takes_place_of(before, block):
        try:
            after = replace_everywhere(before, block=block, to=other)
        except EditError:
            continue
        assert placed_count(after, block) == 0
        places = [one[:4] for one in all_laid(before, before.quilt)]
        assert places == [one[:4] for one in all_laid(after, after.quilt)]

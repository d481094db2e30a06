"""Cells under a block: exact, from its making; a block that fits no whole cells is refused with the grid that would."""

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.blocks import add_block
from piecewright.edit.facts_of import facts_of, sewn_facts_of
from piecewright.edit.footprint import all_laid, common_measure, footprint, footprints, placement_at
from piecewright.edit.placing import place_block, remove_blocks
from piecewright.edit.registry import Cell
from piecewright.errors import EditError
from piecewright.making.recipe import Recipe
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Turn
from piecewright.model.settings import Settings
from piecewright.units.sizes import Finished
from tests.core.edit.quilts import FOUR_PATCH, MIDDLE, RAILS, THIRDS, design
from tests.core.strategies import TURNS, cells_under, designs, randoms

FIXED = {
    "recipe": 1,
    "name": "Fixed rails",
    "steps": [
        {"make": "rail", "lay": {"fabric": "A", "width": "2 1/2", "length": "6 1/2"}},
        {"make": "middle", "lay": {"fabric": "B", "width": "2 1/2", "length": "6 1/2"}},
        {"make": "last", "lay": {"fabric": "A", "width": "2 1/2", "length": "6 1/2"}},
        {"make": "block", "sew": ["rail", "middle", "last"], "axis": "down"},
    ],
    "block": ["block"],
    "finished": ["6", "6"],
}


@pytest.mark.parametrize(
    ("block", "turn", "cells"),
    [
        # common practice, no source: 2 1/2 in strips sewn with 1/4 in seams; three rails finish 6 in
        (RAILS, 0, (1, 1)),
        (THIRDS, 0, (1, 2)),
        (THIRDS, 90, (2, 1)),
        (THIRDS, 180, (1, 2)),
        (THIRDS, 270, (2, 1)),
        (MIDDLE, 90, (2, 2)),
    ],
)
def test_cells_follow_the_finished_size_and_the_turn(block: str, turn: Turn, cells: tuple[int, int]) -> None:
    assert footprint(design(), Placement(0, block, turn)) == cells


def test_a_block_that_fits_no_whole_cells_is_refused_with_the_grid_that_would() -> None:
    small = design()
    narrow = small.with_quilt(small.quilt.changed(lattice=small.quilt.lattice.changed(unit=Fraction(4))))
    with pytest.raises(EditError) as refusal:
        place_block(narrow, block=RAILS, cell=Cell(0, 0))
    assert refusal.value.sentence() == (
        '"Rails" comes out at 6 x 6 in finished, which is no whole number of cells of 4 in. '
        "A grid of 2 in would hold it."
    )


def test_a_block_that_can_not_be_made_is_refused_with_its_reason_but_can_be_taken_away() -> None:
    rails = add_block(design(), name="Fixed rails", new_recipe=Recipe.from_plain(FIXED))
    (fixed,) = (block.id for block in rails.blocks if block.name == "Fixed rails")
    laid = place_block(rails, block=fixed, cell=Cell(0, 0))
    broken = laid.changed(settings=Settings(seam=Fraction(3, 8)))
    with pytest.raises(EditError, match='"Fixed rails" can not be made'):
        place_block(broken, block=fixed, cell=Cell(1, 0))
    assert footprints(broken).extent(Placement(0, fixed)) == (1, 1)
    assert remove_blocks(broken, cells=(Cell(0, 0),)).quilt.rows == ()


@settings(max_examples=100, deadline=None)
@given(made=designs(), random=randoms)
def test_what_lies_on_a_cell_is_what_a_plain_count_says(made: Design, random: Random) -> None:
    lattice = made.quilt.lattice
    under = {
        cell: one.placement
        for one in all_laid(made, made.quilt)
        for cell in cells_under(made, one.placement, one.column, one.row, lattice.unit)
    }
    for _ in range(10):
        cell = random.randint(-1, lattice.columns), random.randint(-1, lattice.rows)
        found = placement_at(made.quilt, made, *cell)
        assert (found and found.placement) == under.get(cell)


@given(lengths=st.lists(st.fractions(Fraction(1, 16), 100, max_denominator=16), min_size=1, max_size=5))
def test_the_common_measure_divides_all_and_none_larger_does(lengths: list[Fraction]) -> None:
    found = common_measure(*lengths)
    counts = [length / found for length in lengths]
    assert all(count.denominator == 1 for count in counts)
    assert all(any((count / more).denominator != 1 for count in counts) for more in range(2, 200))


@pytest.mark.parametrize("turn", TURNS)
def test_two_half_turns_are_none(turn: Turn) -> None:
    made = design()
    assert footprint(made, Placement(0, THIRDS, turn)) == footprint(
        made, Placement(0, THIRDS, TURNS[(TURNS.index(turn) + 2) % 4])
    )


def test_the_quilters_own_seam_changes_what_a_block_will_measure_and_not_where_it_fits() -> None:
    scant = design().changed(settings=Settings(three_strips=Fraction(51, 8)))
    assert facts_of(scant, FOUR_PATCH).finished == Finished(Fraction(6), Fraction(6))
    assert footprint(scant, Placement(0, RAILS)) == (1, 1)
    assert sewn_facts_of(design(), RAILS) == facts_of(design(), RAILS)
    assert sewn_facts_of(scant, THIRDS).finished.width < facts_of(scant, THIRDS).finished.width

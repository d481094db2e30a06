"""Blocks made and not hung: counted, and hung where they fit, by a plain set of cells and by eye."""

from collections import Counter
from random import Random

from hypothesis import given, settings

from piecewright.arrange.waiting import hang_waiting
from piecewright.edit.blocks import set_made
from piecewright.edit.facts_of import facts_of
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import apply
from piecewright.errors import EditError, MakingError, RecipeError
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright.plan.materials import materials
from piecewright.plan.text import materials_text
from piecewright.plan.tray import Tray, trays
from tests.core.edit.quilts import FOUR_PATCH, MIDDLE, OTHER, RAILS, THIRDS, drawn, laid
from tests.core.edit_strategies import random_call
from tests.core.strategies import cells_under, designs, randoms


def made(before: Design, **counts: int) -> Design:
    """The design with so many made of each block."""
    for block, count in counts.items():
        before = set_made(before, block=block, made=count)
    return before


def hung(before: Design) -> Design:
    """The design once its waiting blocks hang."""
    found = hang_waiting(before)
    assert found.call is not None
    return apply(before, found.call)


def test_a_tray_counts_made_hanging_to_make_and_to_place() -> None:
    wall = made(laid("rro..."), b11=1, b13=4)
    assert trays(wall)[RAILS] == Tray(made=1, hanging=2)
    assert (trays(wall)[RAILS].to_make, trays(wall)[RAILS].to_place) == (1, 0)
    assert (trays(wall)[THIRDS].to_make, trays(wall)[THIRDS].to_place) == (0, 4)
    assert trays(wall)[OTHER] == Tray(made=0, hanging=1)


def test_the_largest_hang_first_in_reading_order_and_small_ones_fill_what_is_left() -> None:
    wall = made(laid("r.....", "......", "......"), b11=4, b14=2, b13=1)
    found = hang_waiting(wall)
    assert drawn(hung(wall)) == ("rm-m-t", "r-----", "rr....")
    assert (found.hung, found.left) == (6, 0)
    assert str(found.said) == "6 waiting blocks hang."


def test_what_finds_no_place_is_left_and_said() -> None:
    wall = made(laid("r.", columns=2), b11=1, b14=1)
    found = hang_waiting(wall)
    assert (found.call, found.hung, found.left) == (None, 0, 1)
    assert str(found.said) == "1 waiting block finds no free place."
    assert str(hang_waiting(laid("r.....")).said) == "No block waits: all that are made hang already."


def test_a_long_block_is_turned_only_where_it_fits_in_no_other_way() -> None:
    wall = made(laid("......"), b13=2)
    assert drawn(hung(wall)) == ("T-T-..",)


def test_layers_of_a_stack_come_in_turn() -> None:
    wall = made(laid("......"), b15=5)
    after = hung(wall)
    layers = Counter(one.placement.layer for one in all_laid(after, after.quilt))
    assert set(layers.values()) == {1}
    assert len(layers) == 5


@settings(max_examples=60, deadline=None)
@given(before=designs())
def test_waiting_blocks_hang_apart_until_none_fits_any_more(before: Design) -> None:
    found = hang_waiting(before)
    after = before if found.call is None else apply(before, found.call)
    old, new = all_laid(before, before.quilt), all_laid(after, after.quilt)
    assert set(old) <= set(new)
    assert len(new) == len(old) + found.hung
    waiting = {block: tray.to_place for block, tray in trays(before).items()}
    assert found.hung + found.left == sum(waiting.values())
    assert all(
        tray.hanging <= max(tray.made, trays(before)[block].hanging) for block, tray in trays(after).items()
    )
    _assert_full(after)


def _assert_full(after: Design) -> None:
    """No block that still waits fits anywhere: tried cell by cell on a plain set."""
    lattice = after.quilt.lattice
    taken = {
        cell
        for one in all_laid(after, after.quilt)
        for cell in cells_under(after, one.placement, one.column, one.row, lattice.unit)
    }
    every = {(x, y) for x in range(lattice.columns) for y in range(lattice.rows)}
    for block, tray in trays(after).items():
        if tray.to_place and _can_be_made(after, block):
            for column, row in every:
                for turn in (0, 90):
                    under = cells_under(after, Placement(0, block, turn), column, row, lattice.unit)
                    assert not under or not under <= every or under & taken


def _can_be_made(design: Design, block: str) -> bool:
    try:
        facts_of(design, block)
    except (RecipeError, MakingError):
        return False
    return True


def test_small_blocks_find_the_gap_between_others() -> None:
    wall = made(laid("r.o.m-", "....--"), b15=1)
    after = hung(wall)
    assert drawn(after) == ("rfo.m-", "....--")
    assert FOUR_PATCH in after.quilt.blocks
    assert MIDDLE in after.quilt.blocks


def test_the_materials_say_how_many_are_still_to_make_and_count_cloth_for_all() -> None:
    none = laid("rro...")
    some = materials(made(none, b11=1, b13=4))
    assert (some.made_count, some.to_make) == (5, 2)
    assert materials(none).to_make == 3
    assert some.cloth == materials(none).cloth
    assert "5 made so far, 2 still to make" in materials_text(some)
    assert "made so far" not in materials_text(materials(none))


@settings(max_examples=60, deadline=None)
@given(before=designs(), random=randoms)
def test_on_point_and_between_sashes_what_hangs_lies_in_the_quilt_and_on_no_sash(
    before: Design, random: Random
) -> None:
    for name in ("change-setting", "set-sashing"):
        try:
            before = apply(before, random_call(random, before, name))
        except EditError:
            continue
    found = hang_waiting(before)
    if found.call is not None:
        after = apply(before, found.call)  # refuses what lies on a sash, outside, or on another
        assert len(all_laid(after, after.quilt)) == len(all_laid(before, before.quilt)) + found.hung

"""Recoloring placed blocks: what is seen changes, the block on the shelf does not."""

from random import Random

import pytest
from hypothesis import given, settings

from piecewright.edit.facts_of import facts_of, stack_of
from piecewright.edit.placing import place_block
from piecewright.edit.recoloring import recolor_blocks, recolor_letter, restore_fabrics, set_block_fabrics
from piecewright.edit.registry import Cell, apply
from piecewright.edit.versions import set_layer
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright.model.value import NO_LETTERS, Letters
from tests.core.edit.quilts import FOUR_PATCH, at, design, laid
from tests.core.edit_strategies import random_call
from tests.core.strategies import designs, randoms

RECOLORING = ("recolor-letter", "recolor-blocks", "set-block-fabrics", "restore-fabrics")


def _shown(made: Design, placement: Placement) -> tuple[str | None, ...]:
    """The fabric of every patch of a placed block, as the facts say: in layer j a patch of layer l shows (j + l)."""
    letters = made.letters(placement)
    stack = stack_of(made, placement.block)
    patches = facts_of(made, placement.block).kinds[placement.kind].patches
    return tuple(letters.fabric(patch.fabric, (placement.layer + patch.layer) % stack) for patch in patches)


def _only(made: Design) -> Placement:
    ((placement,),) = (row.placements for row in made.quilt.rows)
    return placement


def test_a_fabric_dropped_on_a_patch_recolors_its_letter_in_the_selection() -> None:
    after = recolor_letter(laid("rr...."), cells=at((0, 0)), letter="B", fabric="f3")
    first, second = after.quilt.rows[0].placements
    assert first.fabrics == Letters({"B": ("f3",)})
    assert second.fabrics is NO_LETTERS
    assert after.blocks == laid("rr....").blocks


@pytest.mark.parametrize("layer", [0, 1, 4])
@pytest.mark.parametrize("patch_layer", [0, 1, 3])
def test_in_a_stack_only_the_fabric_of_that_patch_changes(layer: int, patch_layer: int) -> None:
    before = place_block(design(), block=FOUR_PATCH, cell=Cell(0, 0), layer=layer)
    after = recolor_letter(before, cells=at((0, 0)), letter="A", fabric="f3", layer=patch_layer)
    patches = facts_of(before, FOUR_PATCH).kinds[0].patches
    was, now = _shown(before, _only(before)), _shown(after, _only(after))
    for patch, old, new in zip(patches, was, now, strict=True):
        assert new == ("f3" if patch.layer == patch_layer else old)


def test_one_fabric_gives_way_to_another_in_the_selection_whatever_its_letters() -> None:
    after = recolor_blocks(laid("ro...."), cells=at((0, 0), (1, 0)), fabric="f1", to="f3")
    first, second = after.quilt.rows[0].placements
    assert first.fabrics == Letters({"A": ("f3",), "C": ("f3",)})
    assert second.fabrics == Letters({"A": ("f3",)})


def test_fabrics_that_the_block_has_itself_are_not_kept_twice() -> None:
    before = recolor_letter(laid("r....."), cells=at((0, 0)), letter="A", fabric="f3")
    after = recolor_letter(before, cells=at((0, 0)), letter="A", fabric="f1")
    assert _only(after).fabrics is NO_LETTERS
    assert after == laid("r.....")


def test_letters_a_block_has_not_are_passed_over() -> None:
    after = set_block_fabrics(
        laid("rt....", "......"), cells=at((0, 0), (1, 0)), fabrics=Letters({"C": ("f2",)})
    )
    rails, thirds = after.quilt.rows[0].placements
    assert rails.fabrics == Letters({"C": ("f2",)})
    assert thirds.fabrics is NO_LETTERS


@settings(max_examples=100, deadline=None)
@given(before=designs(), random=randoms)
def test_recoloring_touches_fabrics_only_and_restoring_takes_it_back(before: Design, random: Random) -> None:
    call = random_call(random, before, random.choice(RECOLORING))
    try:
        after = apply(before, call)
    except EditError:
        return
    bare = [[one.changed(fabrics=NO_LETTERS) for one in row.placements] for row in before.quilt.rows]
    assert bare == [[one.changed(fabrics=NO_LETTERS) for one in row.placements] for row in after.quilt.rows]
    everywhere = at(*((one.column, row.row) for row in after.quilt.rows for one in row.placements))
    assert all(not row.fabrics for row in restore_fabrics(after, cells=everywhere).quilt.rows)


def test_another_layer_of_the_stack_shows_other_fabrics() -> None:
    before = place_block(design(), block=FOUR_PATCH, cell=Cell(0, 0))
    after = set_layer(before, cells=at((0, 0)), layer=1)
    assert _only(after).layer == 1
    assert _shown(after, _only(after)) != _shown(before, _only(before))
    with pytest.raises(
        EditError, match='"Four-patch" does not come in layer 6 here; it comes in layer 1, 2, 3'
    ):
        set_layer(before, cells=at((0, 0)), layer=5)


def test_an_unknown_letter_or_fabric_is_refused() -> None:
    with pytest.raises(EditError, match="None of the selected blocks has the fabric letter Z"):
        recolor_letter(laid("r....."), cells=at((0, 0)), letter="Z", fabric="f1")
    with pytest.raises(EditError, match="The design has no fabric f9"):
        recolor_letter(laid("r....."), cells=at((0, 0)), letter="A", fabric="f9")

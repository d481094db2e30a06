"""Copying between designs: what is needed comes along, what is there already is used, ids never clash."""

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given, settings

from piecewright.edit.footprint import all_laid
from piecewright.edit.pasting import Clip, clip_of, clip_of_shelf, paste_blocks
from piecewright.edit.placing import remove_blocks
from piecewright.edit.recoloring import recolor_letter
from piecewright.edit.registry import Cell
from piecewright.edit.resizing import set_unit
from piecewright.errors import EditError
from piecewright.model.codec import from_plain, read_json, to_json
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Lattice, Quilt
from piecewright.model.value import Letters
from tests.core.edit.quilts import THIRDS, at, design, drawn, laid
from tests.core.soundness import assert_sound
from tests.core.strategies import designs, random_design, randoms


def _seen(made: Design) -> list[tuple[object, ...]]:
    """What is seen of each placed block, without ids: size, turn, recipe, and fabrics by letter."""
    return [
        (
            *(count * made.quilt.lattice.unit for count in one[2:4]),
            one.placement.turn,
            made.shelf.recipes[made.shelf.blocks[one.placement.block].recipe],
            {
                letter: [made.shelf.fabrics[fabric].changed(id="f1") for fabric in ids]
                for letter, ids in made.letters(one.placement).items()
            },
        )
        for one in all_laid(made, made.quilt)
    ]


def test_pasting_in_the_same_design_brings_nothing_new() -> None:
    before = recolor_letter(laid("rt....", "......", "......"), cells=at((0, 0)), letter="A", fabric="f3")
    clip = clip_of(before, at((0, 0), (1, 1)))
    after = paste_blocks(before, clip=clip, cell=Cell(3, 1))
    assert drawn(after) == ("rt....", ".-.rt.", "....-.")
    assert (after.fabrics, after.recipes, after.blocks) == (before.fabrics, before.recipes, before.blocks)
    assert after.quilt.rows[1].placements[0].fabrics == Letters({"A": ("f3",)})


@settings(max_examples=100, deadline=None)
@given(source=designs(), random=randoms)
def test_pasted_blocks_look_as_they_did_and_need_nothing_of_their_old_design(
    source: Design, random: Random
) -> None:
    cells = at(*((one.column, one.row) for one in all_laid(source, source.quilt)))
    if not cells:
        return
    clip = from_plain(read_json(to_json(clip_of(source, cells))), Clip)
    lattice = source.quilt.lattice
    target = random_design(random).with_quilt(
        Quilt("Empty", Lattice(lattice.unit, lattice.columns, lattice.rows))
    )
    left, top = min(cell.column for cell in cells), min(cell.row for cell in cells)
    after = paste_blocks(target, clip=clip, cell=Cell(left, top))
    assert_sound(after)
    assert _seen(after) == _seen(source)
    again = paste_blocks(remove_blocks(after, cells=cells), clip=clip, cell=Cell(left, top))
    assert again == after


def test_another_thing_under_the_same_id_is_no_obstacle() -> None:
    source = laid("r.....")
    plum = Fabric("f1", "Plum", "#5a2340")
    target = design().changed(fabrics=(plum, *design().fabrics[1:]))
    after = paste_blocks(target, clip=clip_of(source, at((0, 0))), cell=Cell(0, 0))
    assert _seen(after) == _seen(source)
    assert after.fabrics[0] == plum
    assert [fabric.name for fabric in after.fabrics] == ["Plum", "Fern", "Dusk", "Rose"]


def test_a_clip_fits_another_grid_by_its_inches() -> None:
    clip = clip_of(laid("rt....", "......"), at((0, 0), (1, 0)))
    after = paste_blocks(set_unit(design(), unit=Fraction(3)), clip=clip, cell=Cell(1, 1))
    assert [one[:4] for one in all_laid(after, after.quilt)] == [(1, 1, 2, 2), (3, 1, 2, 4)]


def test_blocks_of_the_shelf_come_without_places() -> None:
    clip = clip_of_shelf(design(), [THIRDS])
    empty = Design("Empty")
    after = paste_blocks(empty, clip=clip, cell=Cell(0, 0))
    assert [block.name for block in after.blocks] == ["Thirds"]
    assert [fabric.name for fabric in after.fabrics] == ["Rose", "Fern"]
    assert after.quilt == empty.quilt


def test_a_paste_without_room_is_refused_and_one_in_the_same_cells_may_replace() -> None:
    before = laid("ro....")
    clip = clip_of(before, at((0, 0)))
    with pytest.raises(EditError, match='"Rails" does not fit at column 2, row 1: "Other rails" lies there'):
        paste_blocks(before, clip=clip, cell=Cell(1, 0))
    assert drawn(paste_blocks(before, clip=clip, cell=Cell(1, 0), replace=True)) == ("rr....",)


def test_a_clip_that_lacks_a_fabric_is_refused() -> None:
    clip = clip_of(laid("r....."), at((0, 0))).changed(fabrics=())
    with pytest.raises(EditError) as refusal:
        paste_blocks(design(), clip=clip, cell=Cell(0, 0))
    assert refusal.value.sentence() == 'What was copied is not whole: "Rails" needs f1.'


def test_nothing_can_be_copied_from_free_cells() -> None:
    with pytest.raises(EditError, match="No block lies at column 1, row 1"):
        clip_of(design(), at((0, 0)))

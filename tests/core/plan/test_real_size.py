"""The predicted size of the top: seams counted by hand, and what the making itself says of a block alone."""

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.edit.registry import apply, call
from piecewright.making.given import Given
from piecewright.making.my_seam import my_seam
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Placement, Row
from piecewright.model.setting import Pieced, Sashing
from piecewright.model.settings import PERFECT_STRIPS, Settings
from piecewright.plan.materials import materials
from piecewright.plan.real_size import RealSize
from piecewright.units.sizes import Unfinished
from tests.core.files.random_designs import designs
from tests.core.plan.samples import BLOCK, BOLT, of_recipe, rails

LOST = st.integers(-6, 6).filter(bool).map(lambda parts: Fraction(parts, 64))
SIXTEENTH = Fraction(1, 16)


def sewn_so(lost: Fraction) -> Settings:
    """Settings of a quilter whose seams each take so much more."""
    return BOLT.changed(three_strips=PERFECT_STRIPS - 2 * lost)


def real(design: Design) -> RealSize:
    """The prediction; there is one."""
    found = materials(design).real
    assert found is not None
    return found


def one_size(design: Design) -> Unfinished:
    """The size, where all rows come out alike."""
    found = real(design)
    assert found.least == found.most
    assert found.least is not None
    return found.least


def test_a_perfect_seam_predicts_nothing() -> None:
    assert materials(rails(10)).real is None
    assert materials(rails(0, sewn_so(SIXTEENTH))).real is None


def alone(name: str, lost: Fraction) -> Design:
    """One block of a shipped recipe, and nothing else."""
    recipe = shipped_recipes()[name]
    ids = {letter: f"f{number}" for number, letter in enumerate(recipe.letters, 1)}
    design = of_recipe(name, 1, sewn_so(lost), **ids)
    return design.with_quilt(design.quilt.changed(lattice=Lattice(Fraction(6), 2, 2)))


def trimmed(design: Design, cells: int) -> Design:
    """The same on a lattice of so many cells of 6 in."""
    return design.with_quilt(design.quilt.changed(lattice=Lattice(Fraction(6), cells, cells)))


@given(lost=LOST)
@pytest.mark.parametrize(("name", "cells"), [("rail-fence-of-three", 1), ("middle-end-for-end", 2)])
@settings(max_examples=10)
def test_one_block_alone_is_as_large_as_its_making_says(name: str, cells: int, lost: Fraction) -> None:
    found = my_seam(shipped_recipes()[name], Given(lost=lost, usable=Fraction(42)))
    assert one_size(trimmed(alone(name, lost), cells)) == found.real


@given(lost=LOST, count=st.integers(1, 10))
@settings(max_examples=20)
def test_seams_counted_by_hand(lost: Fraction, count: int) -> None:
    """Rails of three lie with their two seams one below the other: across only the joins lose, down two seams."""
    size = one_size(
        rails(count, sewn_so(lost)).with_quilt(
            rails(count).quilt.changed(lattice=Lattice(Fraction(6), count, 1))
        )
    )
    assert size.width == 6 * count + Fraction(1, 2) - (count - 1) * lost
    assert size.height == Fraction(13, 2) - 2 * lost


def test_turned_blocks_in_one_row_only_make_rows_unlike() -> None:
    design = rails(4, sewn_so(SIXTEENTH))
    turned = Row(0, tuple(Placement(column, BLOCK, 90) for column in range(2)))
    plain = Row(1, tuple(Placement(column, BLOCK) for column in range(2)))
    quilt = design.quilt.changed(lattice=Lattice(Fraction(6), 2, 2), rows=(turned, plain))
    found = real(design.with_quilt(quilt))
    # across: 1 join and 2 seams in each turned block, or the join alone; down: 1 join and the 2 seams of one block
    assert found.least == Unfinished(Fraction(25, 2) - 5 * SIXTEENTH, Fraction(25, 2) - 3 * SIXTEENTH)
    assert found.most == Unfinished(Fraction(25, 2) - SIXTEENTH, Fraction(25, 2) - 3 * SIXTEENTH)
    assert "row by row" in str(found.sentence)


def test_sashes_borders_and_coping_strips_lose_a_seam_each() -> None:
    design = rails(2, sewn_so(SIXTEENTH))
    quilt = design.quilt.changed(
        lattice=Lattice(Fraction(6), 3, 1),
        sashing=Sashing("f4", Fraction(1), Fraction(0), outside=True),
        borders=(
            Border("f5", Fraction(2)),
            Border("f4", Fraction(2), pieced=Pieced(Fraction(2), ("f1", "f2"))),
        ),
        coping="f6",
    )
    found = real(design.with_quilt(quilt))
    assert found.least is not None
    assert found.most is not None
    # across: 3 spaces and 4 sashes are 7 pieces, 4 border strips are 4 more: 10 seams
    assert found.least.width == found.most.width == 18 + 4 + 8 + Fraction(1, 2) - 10 * SIXTEENTH
    # down: the column of the coping strip has the 4 seams of borders, one of blocks also their own 2
    nominal = 6 + 8 + Fraction(1, 2)
    assert (found.most.height, found.least.height) == (nominal - 4 * SIXTEENTH, nominal - 6 * SIXTEENTH)


def test_a_border_of_blocks_loses_their_own_seams_too() -> None:
    design = rails(10, sewn_so(SIXTEENTH))
    bare = one_size(design)
    bordered = apply(
        design,
        call(
            "add-border",
            border=Border("f5", Fraction(6), corners="squares", pieced=Pieced(Fraction(6), (), BLOCK)),
        ),
    )
    found = one_size(bordered)
    # each side: the join and the two seams of the block
    assert found.width == Fraction(bare.width) + 12 - 6 * SIXTEENTH
    assert found.height == Fraction(bare.height) + 12 - 6 * SIXTEENTH


def test_on_point_a_space_loses_its_seams_along_the_slant() -> None:
    design = alone("middle-end-for-end", SIXTEENTH)
    quilt = design.quilt.changed(lattice=Lattice(Fraction(12), 1, 1, "on point"))
    nominal, found = materials(design.with_quilt(quilt)).size.unfinished, real(design.with_quilt(quilt))
    assert found.least is not None
    assert found.most is not None
    # 2 seams one way and 5 the other, and the one to the next piece
    for size, seams in ((found.most, 3), (found.least, 6)):
        assert float(size.width) == pytest.approx(
            float(nominal.width) + float(SIXTEENTH) - seams * sqrt(2) / 16
        )


def test_a_block_that_can_not_be_sewn_so_is_named() -> None:
    """Where each seam takes 1/2 in more, the rails laid across are too unlike the ones beside them."""
    design = alone("basket-weave-of-rails", Fraction(1, 2))
    found = real(design)
    assert found.least is None
    assert str(found.sentence) == (
        "Block 30 does not come together with your seam: on the Sewing table it is told where"
    )


@given(design=designs(), lost=LOST)
@settings(max_examples=60)
def test_every_design_has_an_answer_and_the_nominal_numbers_stay(design: Design, lost: Fraction) -> None:
    perfect = design.changed(settings=design.settings.changed(three_strips=PERFECT_STRIPS))
    other = perfect.changed(settings=perfect.settings.changed(three_strips=PERFECT_STRIPS - 2 * lost))
    before, after = materials(perfect), materials(other)
    assert before.real is None
    assert (after.size, after.cloth) == (before.size, before.cloth)
    assert (after.real is None) == (not other.quilt.rows)
    if after.real is not None and after.real.least is not None and after.real.most is not None:
        assert float(after.real.least.width) <= float(after.real.most.width)
        assert float(after.real.least.height) <= float(after.real.most.height)

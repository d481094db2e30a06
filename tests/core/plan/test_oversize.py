"""What has bias is cut larger and trimmed; strips, blocks and sizes stay as they are."""

from fractions import Fraction
from math import sqrt

import pytest

from piecewright.model.design import Design
from piecewright.model.quilt import Lattice
from piecewright.model.setting import Sashing, Triangles
from piecewright.plan.materials import Materials, materials
from piecewright.plan.parts import PartPlan
from tests.core.plan.samples import BOLT, rails


def on_point(oversize: Fraction) -> Design:
    """Rails of 6 in on point between sashes, nine blocks of a 3 x 3 setting."""
    design = rails(1, BOLT.changed(oversize=oversize))
    quilt = design.quilt.changed(
        lattice=Lattice(Fraction(6), 3, 3, "on point"),
        sashing=Sashing("f4", Fraction(1), Fraction(1), "f5"),
        triangles=Triangles("f3", allowance="exact"),
        rows=(),
    )
    return design.with_quilt(quilt)


def triangles(plan: Materials) -> list[PartPlan]:
    return [part for part in plan.parts if part.yields > 1]


@pytest.mark.parametrize("oversize", [Fraction(1, 8), Fraction(1, 2), Fraction(1)])
def test_squares_of_triangles_grow_and_nothing_else(oversize: Fraction) -> None:
    before, after = materials(on_point(Fraction(0))), materials(on_point(oversize))
    assert len(triangles(before)) >= 3
    for one, other in zip(triangles(before), triangles(after), strict=True):
        assert Fraction(other.cut.width) == Fraction(one.cut.width) + oversize
        assert (other.finished, other.trim) == (one.finished, one.trim)
    assert [part for part in after.parts if part.yields == 1] == [
        part for part in before.parts if part.yields == 1
    ]
    assert (after.size, after.sets != before.sets) == (before.size, True)


def test_cut_trimmed_and_finished_stand_together() -> None:
    """A corner triangle finishes with short sides of s; with its allowances they are s + (2 + sqrt 2) seams long."""
    design = on_point(Fraction(1, 2))
    for part in triangles(materials(design)):
        assert part.trim is not None
        assert part.trim < float(part.cut.width)
        half = part.yields == 2
        allowance = (2 + sqrt(2) if half else 2 * (1 + sqrt(2))) / 4
        assert part.trim == pytest.approx(float(part.finished.width) + allowance)
    assert "trimmed to" in str(triangles(materials(design))[0].why)

"""Cautions of the trade: said where they hold, and nowhere else."""

from collections.abc import Iterable
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.making.shipped import shipped_recipes
from piecewright.model.quilt import Border
from piecewright.plan.cautions import set_bows, stack_drifts
from piecewright.plan.materials import materials
from tests.core.plan.samples import BOLT, block, design, letters, quilt, rails


def codes(found: Iterable[Finding]) -> list[str]:
    return [finding.code for finding in found]


def test_a_long_set_of_four_bows() -> None:
    assert codes(set_bows("b1", "Rails", 4, Fraction(42))) == ["plan.bows"]
    assert codes(set_bows("b1", "Rails", 4, Fraction(30))) == []
    assert codes(set_bows("b1", "Rails", 3, Fraction(42))) == []


def test_more_than_six_layers_drift() -> None:
    assert codes(stack_drifts("b1", "Stacked", 7)) == ["plan.drifts"]
    assert codes(stack_drifts("b1", "Stacked", 6)) == []


def test_a_quilt_of_five_rails_is_told_once() -> None:
    cloths = letters(A="f1", B="f2", C="f3", D="f4", E="f5")
    shelf = (block(shipped_recipes()["rail-fence-of-five"], cloths),)
    found = materials(design(shelf, quilt(20, 5, Fraction(10))))
    bowing = [finding for finding in found.findings if finding.code == "plan.bows"]
    assert len(bowing) == 1
    assert bowing[0].severity == "note"
    assert str(bowing[0].message) == "Block 30: a set of 5 strips that is 42 in long bows."
    narrow = materials(design(shelf, quilt(20, 5, Fraction(10)), BOLT.changed(usable=Fraction(22))))
    assert not [finding for finding in narrow.findings if finding.code == "plan.bows"]


def test_long_borders_across_the_cloth_stretch() -> None:
    # 60 x 66 in: 66 1/2 in long sides
    found = materials(rails(110, BOLT, borders=(Border("f4", Fraction(3)),)))
    assert [finding.where for finding in found.findings if finding.code == "plan.stretches"] == ["border 1"]
    shelf = (block(shipped_recipes()["rail-fence-of-three"], letters(A="f1", B="f2", C="f3")),)
    crib = design(shelf, quilt(30, 5, Fraction(6), borders=(Border("f4", Fraction(3)),)))
    assert "plan.stretches" not in codes(materials(crib).findings)

"""Bias edges of a quilt: by band, by the fabric that each really is, summed over its blocks."""

from fractions import Fraction

import pytest

from piecewright.edit.facts_of import facts_of
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Row
from piecewright.model.value import Letters
from piecewright.plan.bias import band_of
from piecewright.plan.materials import materials
from tests.core.plan.samples import BLOCK, BOLT, block, design, quilt, rails


def slanted(*layers: int) -> Design:
    """Slanted exchanges of those layers; A is cloth 1 above cloth 2, the rest cloths 3 and 4."""
    fabrics = Letters({"A": ("f1", "f2"), "B": ("f3", "f4"), "C": ("f3", "f4"), "D": ("f3", "f4")})
    shelf = (block(shipped_recipes()["slanted-exchange"], fabrics),)
    found = design(shelf, quilt(1, 10, Fraction(8)), BOLT)
    row = Row(0, tuple(Placement(column, BLOCK, layer=layer) for column, layer in enumerate(layers)))
    return found.with_quilt(found.quilt.changed(rows=(row,)))


@pytest.mark.parametrize(
    ("degrees", "band"), [(2, "quiet"), (4.9, "quiet"), (5, "pin"), (20, "pin"), (20.1, "bias"), (45, "bias")]
)
def test_bands_of_degrees_off_the_thread(degrees: float, band: str) -> None:
    # common practice, no source: under 5 quiet, 5 to 20 pin, above 20 bias
    assert band_of(degrees) == band


def test_straight_blocks_have_no_bias() -> None:
    assert materials(rails(60)).bias == ()


def test_all_bias_edges_of_all_blocks_are_counted() -> None:
    found = slanted(0, 1, 0)
    (kind,) = facts_of(found, BLOCK).kinds
    of_a_block = sum(float(edge.length) for edge in kind.bias_edges)
    made = materials(found)
    assert of_a_block > 0
    assert sum(line.length for line in made.bias) == pytest.approx(3 * of_a_block, abs=1e-6)
    # 2 in of lean over 8 1/2 in are 13.24 degrees
    assert {line.band for line in made.bias} == {"pin"}


def test_an_exchanged_part_is_of_the_fabric_below() -> None:
    lengths: dict[int, dict[str, float]] = {}
    for layer in (0, 1):
        lengths[layer] = {line.fabric: line.length for line in materials(slanted(layer)).bias}
        # either side of the slant is of another layer: both cloths of A have an edge there, as long as each other
        assert lengths[layer]["f1"] == pytest.approx(lengths[layer]["f2"], abs=1e-6)
    assert set(lengths[0]) == set(lengths[1]) == {"f1", "f2", "f3", "f4"}

"""Recipes that ask for the whole usable width, made of cloth narrower than the design's."""

from fractions import Fraction

import pytest
from msgspec.structs import replace

from piecewright.edit.facts_of import facts_of, given_of
from piecewright.edit.footprint import footprint
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement
from piecewright.plan.materials import materials
from tests.core.plan.samples import BLOCK, BOLT, block, design, fabrics, letters, quilt
from tests.core.plan.test_materials import recipe

WIDE = recipe(
    {"make": "a", "lay": {"fabric": "A", "width": "4", "length": "usable"}},
    {"make": "b", "lay": {"fabric": "B", "width": "3 1/2", "length": "usable"}},
    {"make": "set", "sew": ["a", "b"], "axis": "down"},
    {"make": "block", "cut": "set", "axis": "across", "every": "7", "count": "fit"},
    blocks="block.*",
)
"""Blocks of 7 in from strips of the whole width: 42 in give 6, and 5 once the ends are trued."""


def sewn_of(*widths: str | None) -> Design:
    """The design with some fabrics' own usable widths."""
    own = [None if width is None else Fraction(width) for width in widths]
    cloths = [
        replace(cloth, width=width)
        for cloth, width in zip(fabrics(), [*own, None, None, None, None], strict=False)
    ]
    shelf = (block(WIDE, letters(A="f1", B="f2")),)
    return design(shelf, quilt(12, 4, Fraction(13, 2))).changed(fabrics=tuple(cloths))


@pytest.mark.parametrize(
    ("widths", "usable", "per_set", "sets"),
    [
        ((None, None), "42", 5, 3),
        (("38", None), "38", 5, 3),
        ((None, "36"), "36", 5, 3),
        (("35", "36"), "35", 4, 3),
        (("22", None), "22", 3, 4),
        (("44", "45"), "42", 5, 3),
        (("44", "41"), "41", 5, 3),
        ((None, None, "20"), "42", 5, 3),
    ],
)
def test_the_narrowest_fabric_of_a_block_is_its_usable_width(
    widths: tuple[str | None, ...], usable: str, per_set: int, sets: int
) -> None:
    """As many blocks to a set as that cloth gives, less the truing (35 / 7 = 5 leaves nothing for it)."""
    quilted = sewn_of(*widths)
    assert given_of(quilted, quilted.shelf.blocks[BLOCK]).usable == Fraction(usable)
    made = materials(quilted)
    assert [finding.code for finding in made.findings if finding.severity == "error"] == []
    assert [(alike.sets, alike.per_set) for alike in made.sets] == [(sets, per_set)]
    assert facts_of(quilted, BLOCK).strips[0].length == Fraction(usable)


def test_cloth_too_narrow_for_one_block_is_still_said() -> None:
    quilted = sewn_of("6", None)
    assert [finding.code for finding in materials(quilted).findings if finding.severity == "error"]


def test_footprints_follow_the_width_of_the_cloth() -> None:
    """A block as wide as its cloth covers more cells on wider cloth."""
    band = recipe({"make": "block", "lay": {"fabric": "A", "width": "7", "length": "usable"}})
    shelf = (block(band, letters(A="f1")),)
    wide = design(shelf, quilt(0, 8, Fraction(13, 2)), BOLT.changed(usable=Fraction(39) + Fraction(1, 2)))
    assert footprint(wide, Placement(0, BLOCK)) == (6, 1)
    narrow = wide.changed(
        fabrics=(Fabric(id="f1", name="Narrow", color="#808080", width=Fraction(20)), *fabrics()[1:])
    )
    assert footprint(narrow, Placement(0, BLOCK)) == (3, 1)

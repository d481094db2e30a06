"""A block sewn from a strip longer than the cloth is wide: the plan counts the strips that are joined for it."""

from fractions import Fraction

import pytest

from piecewright.making.recipe import Recipe
from piecewright.plan.materials import materials
from tests.core.plan.samples import BOLT, UNTRUED, block, design, letters, quilt


def band(how: str, length: str) -> Recipe:
    """A band that is all of a joined strip."""
    strip = {"fabric": "A", "width": "3", "length": length, "join": how}
    return Recipe.from_plain(
        {"recipe": 1, "name": "Band", "steps": [{"make": "band", "lay": strip}], "block": ["band"]}
    )


@pytest.mark.parametrize(
    ("how", "length", "truing", "strips"),
    [
        ("straight", "100", False, 3),
        ("straight", "83 1/2", False, 2),
        ("straight", "83 1/2", True, 3),
        ("diagonal", "81", False, 2),
        ("diagonal", "81 1/8", False, 3),
        ("diagonal", "81", True, 3),
    ],
)
def test_the_strips_of_a_joined_one_are_counted(how: str, length: str, truing: bool, strips: int) -> None:
    """42 in of cloth: 2 x 42 - 1/2 = 83 1/2 joined straight, 2 x 42 - 3 = 81 diagonally; truing takes 1/2 of each."""
    wall = quilt(1, 1, Fraction(5, 2))
    shelf = (block(band(how, length), letters(A="f1")),)
    found = materials(design(shelf, wall, BOLT if truing else UNTRUED))
    assert not [finding for finding in found.findings if finding.severity == "error"]
    assert sum(sets.strips for sets in found.sets) == strips

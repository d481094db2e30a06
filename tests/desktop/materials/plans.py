"""Designs whose materials have something to tell."""

from fractions import Fraction
from importlib.resources import files
from itertools import pairwise
from pathlib import Path

from piecewright.edit.registry import Cell, EditCall, call
from piecewright.files.design_file import load_design
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Placement, Quilt, Row
from piecewright.model.settings import Settings
from piecewright.model.value import Letters
from tests.desktop.wall.quilts import MIDDLE, RAIL, design, fabrics

WIDE = Settings(usable=Fraction(42))


def two_colorings() -> Design:
    """Four rails and two blocks of 12 in, one of these in other cloth; borders of 1 1/2 and 5 in."""
    other = Letters({"A": ("f4",), "B": ("f5",)})
    rows = (
        Row(0, (Placement(0, MIDDLE), Placement(6, MIDDLE, fabrics=other))),
        Row(6, tuple(Placement(3 * number, RAIL) for number in range(4))),
    )
    borders = (Border("f2", Fraction(3, 2)), Border("f1", Fraction(5)))
    return design(Quilt("First", Lattice(Fraction(2), 12, 9), rows, borders)).changed(settings=WIDE)


def too_wide() -> Design:
    """A block of 12 in, whose strips are longer than cloth of 40 in."""
    return design(Quilt("First", Lattice(Fraction(2), 6, 6), (Row(0, (Placement(0, MIDDLE),)),)))


def sample(name: str) -> Design:
    """A design that ships with the program."""
    return load_design(Path(str(files("piecewright_data"))) / "examples" / f"{name}.piecewright").design


def tight() -> Design:
    """A runner of which one set is cut into 11 x 3 1/2 in, trued four times: 1/4 in to spare of 40."""
    return sample("mantel-runner")


def named(length: int, count: int = 60) -> Design:
    """Sixty fabrics with long names, one of them a single word, each in a block."""
    cloth = tuple(
        fabric.changed(
            name=(f"{fabric.name} of the hand-printed meadow cloth, second run " * 9)[:length].strip()
        )
        for fabric in fabrics(count)
    )
    cloth = (cloth[0].changed(name="Overlongword" * (length // 12)), *cloth[1:])
    letters = [Letters({"A": (one.id,), "B": (other.id,)}) for one, other in pairwise(cloth)]
    rows = tuple(
        Row(
            6 * row,
            tuple(
                Placement(6 * column, MIDDLE, fabrics=letters[(10 * row + column) % len(letters)])
                for column in range(10)
            ),
        )
        for row in range(6)
    )
    return design(Quilt("First", Lattice(Fraction(2), 60, 36), rows), cloth).changed(settings=WIDE)


def without_first() -> EditCall:
    """Takes the block at the top left off the wall."""
    return call("remove-blocks", cells=(Cell(0, 0),))


def border_of_leaflet() -> Design:
    """A quilt of 34 x 45 1/2 in with a border of 2 in, as in a club's leaflet on borders."""
    quilt = Quilt("First", Lattice(Fraction(1, 2), 68, 91), (), (Border("f1", Fraction(2)),))
    return design(quilt)

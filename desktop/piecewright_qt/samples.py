"""What the start page offers to begin with: the samples that ship, and an empty design with some cloth on its shelf."""

from fractions import Fraction
from importlib.resources import files
from pathlib import Path

from PySide6.QtCore import QCoreApplication

from piecewright.edit.registry import apply, call
from piecewright.making.shipped import shipped_recipe
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric, Print
from piecewright.model.quilt import Lattice, Quilt
from piecewright.model.value import Letters

_ENDING = ".piecewright"
_FIRST = (
    *("cut-turn-sew", "framed-four-patch", "middle-end-for-end", "rail-fence-of-four"),
    *("rail-fence-of-three", "rail-fence-of-two", "two-halves-from-thirds"),
)
"""The recipes whose blocks are on the shelf to begin with; the others are offered where a block is added."""


def sample_files() -> tuple[Path, ...]:
    """The samples, the large one first."""
    folder = (Path(str(files("piecewright_data"))) / "examples").resolve()
    return tuple(sorted(folder.glob(f"*{_ENDING}"), key=lambda path: -path.stat().st_size))


def empty_design() -> Design:
    """A wall of 48 x 60 in with nothing on it; six fabrics and a few blocks on the shelf."""
    quilt = Quilt(_say("First arrangement"), Lattice(Fraction(2), 24, 30))
    design = Design(_say("New quilt"), arrangements=(quilt,))
    for fabric in _first_fabrics():
        design = apply(design, call("add-fabric", name=fabric.name, color=fabric.color, print=fabric.print))
    for recipe in map(shipped_recipe, _FIRST):
        letters = {
            letter: tuple(design.fabrics[(index + layer) % 6].id for layer in range(recipe.stack))
            for index, letter in enumerate(recipe.letters)
        }
        design = apply(
            design, call("add-block", name=recipe.name, new_recipe=recipe, fabrics=Letters(letters))
        )
    return design


def _first_fabrics() -> tuple[Fabric, ...]:
    inch = Fraction(1)
    return (
        Fabric("f1", _say("Indigo"), "#2f4a66", Print("dots", ("#8fa9c2",), inch / 2)),
        Fabric("f2", _say("Cream"), "#f1ebdd"),
        Fabric("f3", _say("Brick"), "#a6533b", Print("crosshatch", ("#c98062",), inch / 2)),
        Fabric("f4", _say("Moss"), "#6d7d52", Print("leaves", ("#96a777", "#52613b"), inch * 3 / 2)),
        Fabric("f5", _say("Honey"), "#e0b25a", Print("stripes", ("#f0d291", "#c9963f"), inch / 2)),
        Fabric(
            "f6", _say("Rose"), "#d59aa4", Print("florals", ("#9f4f63", "#f5e6e8", "#6f8a5c"), inch * 3 / 2)
        ),
    )


def _say(text: str) -> str:
    return QCoreApplication.translate("samples", text)

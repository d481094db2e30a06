"""The few pictures that are compared with pictures kept in tests/golden."""

from collections.abc import Callable
from fractions import Fraction
from pathlib import Path

from piecewright.geometry.motion import Motion
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.model.fabric import Fabric, Print
from piecewright.render.block_picture import draw_block
from piecewright.render.cloth import patch_fabrics
from piecewright.render.pen import ClothFill, Pen
from piecewright.render.pictures import recipe_drawing
from tests.core.render.fabrics import KINDS, printed
from tests.core.render.recipes import RECIPES

GOLDEN = Path(__file__).parents[2] / "golden"
Draw = Callable[[Pen], None]


def pictures() -> dict[str, tuple[Draw, float]]:
    """Each by name, with its pixels to the inch."""
    return {
        "prints": (_draw_prints, 48.0),
        "steps-slanted-exchange": (recipe_drawing(RECIPES["slanted-exchange"], Given()), 72.0),
        "steps-odd": (recipe_drawing(RECIPES["odd"], Given()), 72.0),
        "block-corners": (_draw_block, 32.0),
    }


def _draw_prints(pen: Pen) -> None:
    for number, kind in enumerate(KINDS):
        x, y = number % 4 * 2.2, number // 4 * 2.2
        square = ((x, y), (x + 2, y), (x + 2, y + 2), (x, y + 2))
        pen.polygon(square, ClothFill(printed(kind), Motion(dx=Fraction(x), dy=Fraction(y))))


def _draw_block(pen: Pen) -> None:
    made = facts(RECIPES["slanted-exchange"], Given())
    (kind,) = made.kinds
    colors = ("#b5443c", "#f4ead8", "#2f4a63", "#6d8b74", "#d9a441", "#7d2f3d")
    cloth = [
        Fabric(id=f"f{n}", name=kind_, color=color, print=Print(kind=kind_, inks=("#fbf6ec", "#c98a86")))
        for n, (color, kind_) in enumerate(zip(colors, KINDS[3:], strict=False))
    ]
    letters = {letter: cloth[index : index + 2] for index, letter in enumerate("ABCD")}
    draw_block(kind, patch_fabrics(kind, letters, made.stack), pen, words=0.3)

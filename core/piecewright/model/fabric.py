"""A fabric of the design: a solid or a print that the program draws itself."""

from fractions import Fraction
from typing import Literal

from piecewright.model.value import Value

PrintKind = Literal[
    "dots", "stripes", "checks", "florals", "leaves", "crosshatch", "plaid", "waves", "stars", "sprigs", "rings", "texture"
]


class Print(Value):
    """How a print is drawn: `scale` is the length of one repeat in inches, `turn` the clockwise degrees between the
    print's own up and the lengthwise thread, `inks` the colors laid on the ground, `one_way` a print with an up and a down."""

    kind: PrintKind
    inks: tuple[str, ...]
    scale: Fraction = Fraction(1)
    turn: int = 0
    one_way: bool = False


class Fabric(Value):
    """One cloth by name; `color` is its solid color or the print's ground, as #rrggbb; `picture` a file in the design.

    `price` is per yard, in the design's currency; `width` the usable width where it differs from the design's.
    """

    id: str
    name: str
    color: str
    print: Print | None = None
    picture: str | None = None
    price: Fraction | None = None
    width: Fraction | None = None
    note: str = ""

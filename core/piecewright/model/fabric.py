"""A fabric of the design: a solid or a print that the program draws itself."""

from fractions import Fraction
from typing import Literal

from msgspec.structs import force_setattr

from piecewright.model.forms import Form, check_forms
from piecewright.model.limits import (
    check_color,
    check_count,
    check_name,
    check_not_negative,
    check_positive,
    check_text,
    refuse,
)
from piecewright.model.value import Value

PrintKind = Literal[
    "dots",
    "stripes",
    "checks",
    "florals",
    "leaves",
    "crosshatch",
    "plaid",
    "waves",
    "stars",
    "sprigs",
    "rings",
    "texture",
]
MOST_INKS = 8
LARGEST_REPEAT = Fraction(100)


class Print(Value, frozen=True):
    """How a print is drawn: `inks` are colors laid on the ground, `scale` the inches of one repeat.

    `turn` is the clockwise degrees between the print's own up and the lengthwise thread.
    A `one_way` print has an up and a down.
    """

    kind: PrintKind
    inks: tuple[str, ...]
    scale: Fraction = Fraction(1)
    turn: int = 0
    one_way: bool = False

    def __post_init__(self) -> None:
        check_count(len(self.inks), "inks of a print", 1, MOST_INKS)
        for ink in self.inks:
            check_color(ink)
        if any(ink != ink.lower() for ink in self.inks):
            force_setattr(self, "inks", tuple(ink.lower() for ink in self.inks))
        check_positive(self.scale, "scale of a print", LARGEST_REPEAT)
        check_count(self.turn, "turn of a print in degrees", 0, 359)


class Fabric(Value, frozen=True, omit_defaults=True):
    """One cloth by name; `color` is its solid color or the print's ground, as #rrggbb in small letters.

    `picture` names a file in the design.

    `price` is per yard, in the design's currency; `width` the usable width where it differs from the
    design's; `forms` what it is had in, none: as much off the bolt as it takes; `value` what it counts as where the
    quilter knows better than the measured lightness.
    """

    id: str
    name: str
    color: str
    print: Print | None = None
    picture: str | None = None
    price: Fraction | None = None
    width: Fraction | None = None
    note: str = ""
    forms: tuple[Form, ...] = ()
    value: Literal["light", "medium", "dark"] | None = None

    def __post_init__(self) -> None:
        check_name(self.name, "fabric")
        check_color(self.color)
        if self.color != self.color.lower():
            force_setattr(self, "color", self.color.lower())
        check_text(self.note)
        if self.picture is not None:
            check_picture_name(self.picture)
        if self.price is not None:
            check_not_negative(self.price, "price of a yard")
        if self.width is not None:
            check_positive(self.width, "usable width of a fabric")
        check_forms(self.forms)


def check_picture_name(picture: str) -> None:
    """Refuse a picture's name that could lead out of the design file: one plain file name, no folders."""
    check_name(picture, "picture")
    if picture in (".", "..") or not picture.isprintable() or any(sign in picture for sign in "/\\:"):
        refuse("picture-name", picture=repr(picture)[1:-1][:80])

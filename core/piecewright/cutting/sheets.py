"""What pieces are cut from: cloth off the bolt, fat quarters and eighths, squares, and single strips."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from piecewright.model.forms import QUARTER, ROLL_STRIP, FormKind

Direction = Literal["across", "along"]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One kind of cloth: `width` inches from selvage to selvage, `length` along the selvage, None off the bolt.

    Raises ValueError for sides that are not above zero.
    """

    kind: FormKind
    width: Fraction
    length: Fraction | None = None

    def __post_init__(self) -> None:
        if self.width <= 0 or (self.length is not None and self.length <= 0):
            raise ValueError(f"no cloth: {self.width} x {self.length} in")

    @property
    def directions(self) -> tuple[Direction, ...]:
        """Which way the first cuts may run.

        Off the bolt from selvage to selvage; a strip is only cut off along its length; other sheets either way.
        """
        if self.length is None:
            return ("across",)
        if self.kind in ("roll strip", "strip"):
            return ("across",) if self.width >= self.length else ("along",)
        return ("across", "along")

    @property
    def is_trued(self) -> bool:
        """Whether the ends of its strips are trued; squares come with true edges."""
        return self.kind not in ("10 inch square", "5 inch square")


@dataclass(frozen=True, slots=True)
class OnHand:
    """So many sheets of one kind that are there already. Raises ValueError for cloth off the bolt or none."""

    sheet: Sheet
    count: int

    def __post_init__(self) -> None:
        if self.sheet.length is None or self.count <= 0:
            raise ValueError("cloth on hand has a length and a count above zero")


def bolt(usable: Fraction) -> Sheet:
    """Cloth off the bolt, of a usable width, as long as it takes."""
    return Sheet("bolt", usable)


def fat_quarter(width: Fraction = QUARTER[0], length: Fraction = QUARTER[1]) -> Sheet:
    """Half a yard by half the width."""
    return Sheet("fat quarter", width, length)


def fat_eighth(width: Fraction = QUARTER[0], length: Fraction = QUARTER[1] / 2) -> Sheet:
    """A quarter of a yard by half the width."""
    return Sheet("fat eighth", width, length)


def ten_inch_square(side: Fraction = Fraction(10)) -> Sheet:
    """A square of a bundle of 10 inch squares."""
    return Sheet("10 inch square", side, side)


def five_inch_square(side: Fraction = Fraction(5)) -> Sheet:
    """A square of a bundle of 5 inch squares."""
    return Sheet("5 inch square", side, side)


def roll_strip(length: Fraction, width: Fraction = ROLL_STRIP) -> Sheet:
    """A strip of a roll: cut from selvage to selvage, `length` inches long."""
    return Sheet("roll strip", length, width)


def strip(length: Fraction, width: Fraction, lengthwise: bool = False) -> Sheet:
    """A strip on hand; its length runs from selvage to selvage unless it was cut `lengthwise`."""
    return Sheet("strip", width, length) if lengthwise else Sheet("strip", length, width)

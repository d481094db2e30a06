"""What has to be cut: rectangles of cloth with their grain, so many of each."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from piecewright.words.message import Message

Grain = Literal["crosswise", "lengthwise"]
Parts = tuple[tuple[Fraction, int], ...]
"""Lengths along a piece's width, and how many of each, in the order cut."""


@dataclass(frozen=True, slots=True)
class Piece:
    """`count` rectangles of one cut size, in inches.

    `grain` is the thread that runs along `width`: "crosswise" lays the width from selvage to selvage,
    "lengthwise" along the selvage. A piece that `may_turn` lies either way. `key` names its role and is not
    shared; `name` is what a label shows. `inside` are the parts each piece is then cut into along its width, once
    `trued` inches are off its ends. Raises ValueError for sides or counts that are not above zero.
    """

    key: str
    width: Fraction
    height: Fraction
    count: int = 1
    may_turn: bool = True
    grain: Grain = "crosswise"
    name: str | Message = ""
    inside: Parts = ()
    trued: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        if min(self.width, self.height) <= 0 or self.count <= 0:
            raise ValueError(f"no piece to cut: {self.count} of {self.width} x {self.height} in")

    @property
    def label(self) -> str | Message:
        """What stands on the piece in a drawing."""
        return self.name or self.key

    @property
    def lies(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """Each allowed way to lie: inches from selvage to selvage, and inches along the selvage."""
        straight, turned = (self.width, self.height), (self.height, self.width)
        if self.grain == "lengthwise":
            straight, turned = turned, straight
        return (straight, turned) if self.may_turn and straight != turned else (straight,)

    @property
    def area(self) -> Fraction:
        """Square inches of one piece."""
        return self.width * self.height

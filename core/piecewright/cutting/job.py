"""The question: these pieces, from this cloth, cut in this manner."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.pieces import Piece
from piecewright.cutting.sheets import OnHand, Sheet
from piecewright.plan.packing import Truing

MOST_STACKED = 4


@dataclass(frozen=True, slots=True)
class Keep:
    """Left-overs worth keeping: at least so wide and so long, inches (common practice, no source)."""

    width: Fraction = Fraction(3, 2)
    length: Fraction = Fraction(6)

    def keeps(self, one: Fraction, other: Fraction) -> bool:
        """Whether a rectangle with these sides is worth keeping."""
        return min(one, other) >= self.width and max(one, other) >= self.length


@dataclass(frozen=True, slots=True)
class Job:
    """All pieces of one fabric, and the cloth they are cut from.

    `on_hand` is used first and costs nothing; the rest comes from `sheet`, as much as it takes. In one strip
    up to `stack` equal pieces lie one above the other, parted by a third cut. `reserve` inches of every strip
    that is cut across are kept for `truing`. Raises ValueError for a key that two pieces share, or a stack below 1.
    """

    pieces: tuple[Piece, ...]
    sheet: Sheet
    on_hand: tuple[OnHand, ...] = ()
    stack: int = MOST_STACKED
    keep: Keep = Keep()
    truing: Truing | None = None
    reserve: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        shared = [key for key, times in Counter(piece.key for piece in self.pieces).items() if times > 1]
        if shared or self.stack < 1:
            raise ValueError(f"keys of two pieces: {shared}, stack {self.stack}")

    @property
    def demand(self) -> Counter[str]:
        """How many pieces each key asks for."""
        return Counter({piece.key: piece.count for piece in self.pieces})


def fits(piece: Piece, sheets: Iterable[Sheet]) -> bool:
    """Whether a piece can be cut from one of the sheets at all."""
    return any(
        across <= sheet.width and (sheet.length is None or along <= sheet.length)
        for sheet in sheets
        for across, along in piece.lies
    )

"""Where the stitches of a seam stop that is left open at one end: held by the pointer, moved by keys, or typed."""

from fractions import Fraction

from PySide6.QtCore import QPointF, QRectF

from piecewright.geometry.motion import Number
from piecewright.making.by_hand import axis_of
from piecewright.making.steps import Side
from piecewright_qt.sewing_table.holding import Typing, snapped
from piecewright_qt.sewing_table.lying import Lying

_STEP = Fraction(1, 8)
_OTHER: dict[Side, Side] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}


class LeftOpen:
    """A length from one end of the seam between a piece and a side of another."""

    def __init__(self, piece: Lying, target: Lying, side: Side) -> None:
        self.side: Side = side
        self.target = target
        self.end: Side = "top" if axis_of(side) == "across" else "left"
        self.seam = min(_along(piece, side), _along(target, side))
        self._typing = Typing()
        self._length = snapped(float(self.seam) / 2, target.inch, free=False)

    @property
    def length(self) -> Fraction:
        """How much stays open."""
        typed = self._typing.length if self._typing.text else None
        return self._length if typed is None else typed

    @property
    def pair(self) -> tuple[Side, Fraction]:
        """The end and the length, as a recipe has them."""
        return self.end, self.length

    def follow(self, at: QPointF, free: bool) -> None:
        """Stop the stitches at a point; the end that is nearer stays open."""
        away = {end: self._off(end, at) for end in (self.end, _OTHER[self.end])}
        self.end = min(away, key=lambda end: away[end])
        self._typing.text = ""
        self._length = self._within(snapped(away[self.end] / self.target.inch, self.target.inch, free))

    def key(self, key: int, text: str) -> bool:
        """Brackets move where the stitches stop, numbers place it."""
        if text in ("[", "]"):
            self._length = self._within(self.length + (_STEP if text == "]" else -_STEP))
            self._typing.text = ""
            return True
        return self._typing.take(key, text)

    @property
    def is_typing(self) -> bool:
        """Whether a number is being typed."""
        return bool(self._typing.text)

    def lay_even(self, rect: QRectF) -> None:
        """Lay what comes of it even with the end that is sewn."""
        even = self.target.rect
        moves = {
            "left": rect.moveRight,
            "right": rect.moveLeft,
            "top": rect.moveBottom,
            "bottom": rect.moveTop,
        }
        places = {"left": even.right(), "right": even.left(), "top": even.bottom(), "bottom": even.top()}
        moves[self.end](places[self.end])

    def change_ends(self) -> None:
        """Leave the other end open."""
        self.end = _OTHER[self.end]

    def stitched(self) -> tuple[QPointF, QPointF]:
        """The line that is sewn, on the screen; the other end of it is even with the end of the side."""
        start, end = self.target.edge(self.side)
        if self.end in ("left", "top"):
            start, end = end, start
        way = end - start
        long = max(abs(way.x()) + abs(way.y()), 1.0)
        return start, start + way * (float(self.seam - self.length) * self.target.inch / long)

    def _off(self, end: Side, at: QPointF) -> float:
        """How far a point is from an end of the seam, pixels: a shorter seam begins at the far end of the side."""
        over = float(_along(self.target, self.side) - self.seam) * self.target.inch
        return self.target.off(end, at) - over

    def _within(self, length: Fraction) -> Fraction:
        return min(max(length, _STEP), Fraction(self.seam) - _STEP)


def _along(piece: Lying, side: Side) -> Number:
    """How long a side of a piece is."""
    box = piece.cloth.box
    return box.height if axis_of(side) == "across" else box.width

"""A handle on the screen."""

from dataclasses import dataclass
from math import hypot

from PySide6.QtCore import QPointF

from piecewright.making.verbs.verb import Handle


@dataclass(frozen=True, slots=True)
class Grip:
    """A handle on the screen: where its line runs, and how many pixels an inch of it is."""

    handle: Handle
    start: QPointF
    end: QPointF
    pixels: float

    @property
    def middle(self) -> QPointF:
        """Where it is taken hold of."""
        return (self.start + self.end) / 2

    def distance(self, point: QPointF) -> float:
        """How far a point is from the line, pixels."""
        along, off = self.end - self.start, point - self.start
        length = hypot(along.x(), along.y())
        if length < 1:
            return hypot(off.x(), off.y())
        share = min(max((off.x() * along.x() + off.y() * along.y()) / length**2, 0.0), 1.0)
        there = self.start + along * share - point
        return hypot(there.x(), there.y())

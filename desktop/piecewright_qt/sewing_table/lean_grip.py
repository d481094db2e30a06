"""The handle at the end of a leaning cut: dragged round the other end, it changes how far the step's cuts lean."""

from dataclasses import dataclass
from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from piecewright.making.draft import put_at
from piecewright.making.lean_handles import LeanHandle, lean_at, next_lean
from piecewright_qt.sewing_table.bench import Bench, Plain
from piecewright_qt.sewing_table.paper import MARK, ON_MARK

_REACH, _RADIUS, _RING = 14.0, 7.0, 4.0


@dataclass(frozen=True, slots=True)
class LeanGrip:
    """The handle on the screen: it turns about `stays`."""

    handle: LeanHandle
    stays: QPointF
    end: QPointF

    def is_near(self, point: QPointF) -> bool:
        """Whether a press there takes hold of it."""
        away = point - self.end
        return hypot(away.x(), away.y()) <= _REACH

    def lean_of(self, point: QPointF, *, free: bool) -> float:
        """The lean that the line has when its end is dragged to a point."""
        way = point - self.stays
        return lean_at(self.handle.axis, way.x(), way.y(), free=free)

    def stepped(self, by: int) -> float:
        """The next usual lean."""
        return next_lean(self.handle.lean, by)

    def changed(self, bench: Bench, lean: float) -> Plain:
        """The recipe with another lean, a whole number where it is one."""
        plain = bench.draft.plain if bench.draft is not None else {}
        value = int(lean) if lean.is_integer() else lean
        return put_at(plain, self.handle.place.step, self.handle.place.key, value)

    def paint(self, painter: QPainter, *, chosen: bool, held: bool) -> None:
        """A square, unlike the round handles of lengths; its line where it is held."""
        if held:
            for pen in (QPen(ON_MARK, 4), QPen(MARK, 2)):
                painter.setPen(pen)
                painter.drawLine(self.stays, self.end)
        painter.save()
        painter.translate(self.end)
        painter.rotate(45)
        if chosen or held:
            painter.setPen(QPen(MARK, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(_square(_RADIUS + _RING))
        painter.setPen(QPen(ON_MARK, 2))
        painter.setBrush(MARK)
        painter.drawRect(_square(_RADIUS))
        painter.restore()


def _square(half: float) -> QRectF:
    return QRectF(-half, -half, 2 * half, 2 * half)

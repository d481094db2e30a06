"""Thin rulers along the wall's top and left edge, in inches or centimeters of the finished quilt from its top left."""

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor
from typing import TYPE_CHECKING

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from piecewright.units.scale import INCHES_BY_UNIT

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

_BROAD = 1.7
"""How broad a ruler is, in heights of its type."""
_STEPS: dict[str, tuple[Fraction, ...]] = {
    "in": tuple(
        Fraction(step) for step in ("1/4", "1/2", "1", "2", "3", "6", "12", "24", "60", "120", "600")
    ),
    "metric": tuple(
        Fraction(step) for step in ("1/2", "1", "2", "5", "10", "20", "50", "100", "200", "500", "5000")
    ),
}
"""How far numbers may stand apart, in the unit that is shown."""
_PARTS = {"in": (16, 12, 8, 6, 4, 2), "metric": (10, 5, 2)}
"""In how many parts a step may be divided by small marks."""
_LEAST_PART = 5.0
"""Device-independent pixels between small marks."""


class Rulers:
    """The rulers of one wall; shown where the user prefers them."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self._pointer: QPointF | None = None

    @property
    def are_shown(self) -> bool:
        """Whether the user wants them."""
        return self._wall.look.preferences.rulers

    @property
    def breadth(self) -> int:
        """How broad each is, in device-independent pixels; 0 while none is shown."""
        return round(self._wall.look.scale.small * _BROAD) if self.are_shown else 0

    def follow(self, point: QPointF | None) -> None:
        """A mark on each ruler goes with the pointer; None: it left."""
        if self.are_shown and point != self._pointer:
            self._pointer = point
            for band in self._bands():
                self._wall.update_rect(band)

    def paint(self, painter: QPainter, area: QRectF) -> None:
        """Paint what shows of both in an area of the view."""
        if not self.are_shown:
            return
        for upright, band in enumerate(self._bands()):
            if band.intersects(area):
                painter.save()
                painter.setClipRect(band, Qt.ClipOperation.IntersectClip)
                self._paint_one(painter, band, upright=bool(upright))
                painter.restore()
        theme, side = self._wall.look.theme, self.breadth
        painter.fillRect(QRectF(0, 0, side, side), QColor(theme.surface))
        painter.setPen(QColor(theme.line))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(QRectF(-1, -1, side, side))

    def marks(self, length: float, upright: bool) -> Iterator[tuple[float, Fraction, bool]]:
        """The marks of a ruler so long: place in the view, number in the unit that is shown, whether it is written."""
        camera, unit = self._wall.camera, self._wall.look.measure.unit
        inch = camera.pixels / camera.ratio
        pixels = inch * float(INCHES_BY_UNIT[unit])
        zero = camera.point((0.0, 0.0))
        start = zero.y() if upright else zero.x()
        step = self._step(pixels)
        part = step / self._parts(step, pixels)
        first, last = floor(-start / (pixels * float(part))), ceil((length - start) / (pixels * float(part)))
        for number in range(first, last + 1):
            value = number * part
            yield start + float(value) * pixels, value, (value / step).denominator == 1

    def _step(self, pixels: float) -> Fraction:
        """The least distance of written marks that leaves room for the numbers."""
        room = QFontMetricsF(self._font()).horizontalAdvance("0000 0/0")
        steps = _STEPS[self._system]
        return next((step for step in steps if float(step) * pixels >= room), steps[-1])

    def _parts(self, step: Fraction, pixels: float) -> int:
        fine = (parts for parts in _PARTS[self._system] if float(step) * pixels / parts >= _LEAST_PART)
        return next(fine, 1)

    @property
    def _system(self) -> str:
        return "in" if self._wall.look.measure.unit == "in" else "metric"

    def _bands(self) -> tuple[QRectF, QRectF]:
        """The ruler along the top, and that along the left edge."""
        view, side = self._wall.viewport().rect(), self.breadth
        return QRectF(0, 0, view.width(), side), QRectF(0, 0, side, view.height())

    def _font(self) -> QFont:
        font = QFont(self._wall.font())
        font.setPixelSize(self._wall.look.scale.small - 1)
        return font

    def _paint_one(self, painter: QPainter, band: QRectF, upright: bool) -> None:
        theme, side = self._wall.look.theme, self.breadth
        painter.fillRect(band, QColor(theme.surface))
        if upright:  # turned, so that both are painted along their length
            painter.translate(0, band.height())
            painter.rotate(-90)
        length = band.height() if upright else band.width()
        painter.setPen(QPen(QColor(theme.line), 1))
        painter.drawLine(QLineF(0, side - 0.5, length, side - 0.5))
        painter.setFont(self._font())
        measure = self._wall.look.measure
        for place, value, is_written in self.marks(length, upright):
            at = round(length - place if upright else place) + 0.5
            if not is_written:
                painter.setPen(QPen(QColor(theme.outline), 1))
                painter.drawLine(QLineF(at, side * 0.75, at, side - 1))
                continue
            painter.setPen(QPen(QColor(theme.text_soft), 1))
            painter.drawLine(QLineF(at, side * 0.2, at, side - 1))
            said = measure.bare(value * INCHES_BY_UNIT[measure.unit])
            painter.drawText(QPointF(at + 3, side * 0.68), said)
        self._paint_pointer(painter, length, upright)

    def _paint_pointer(self, painter: QPainter, length: float, upright: bool) -> None:
        if self._pointer is not None:
            at = length - self._pointer.y() if upright else self._pointer.x()
            painter.setPen(QPen(QColor(self._wall.look.theme.accent), 2))
            painter.drawLine(QLineF(at, 0, at, self.breadth))

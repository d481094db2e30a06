"""The pen on a QPainter: screen, images and PDF."""

from collections.abc import Callable, Hashable, Sequence

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QFontMetricsF, QPainter, QPainterPath

from piecewright.geometry.motion import Motion, Point
from piecewright.render.affine import Affine
from piecewright.render.path import Path
from piecewright.render.pen import ClothFill, Fill, Pen, Stroke, TextStyle
from piecewright.render.typeface import FAMILY
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.drawing.qt_shapes import qt_color, qt_path, qt_pen, qt_polygon, qt_transform

_EM = 64  # pixels type is set at before it is scaled to its size in inches
_WEIGHTS = {400: QFont.Weight.Normal, 500: QFont.Weight.Medium, 600: QFont.Weight.DemiBold}
_SHARES = {"start": 0.0, "middle": 0.5, "end": 1.0}


class QtPen(Pen):
    """Draws on a painter in inches, `pixels` to the inch; `brushes` may be shared by pens of one zoom."""

    def __init__(self, painter: QPainter, pixels: float, brushes: Brushes | None = None) -> None:
        self._painter = painter
        self._brushes = Brushes() if brushes is None else brushes
        painter.scale(pixels, pixels)
        painter.setRenderHints(QPainter.RenderHint.Antialiasing | QPainter.RenderHint.SmoothPixmapTransform)

    def save(self) -> None:
        """Save the painter."""
        self._painter.save()

    def restore(self) -> None:
        """Restore the painter."""
        self._painter.restore()

    def transform(self, by: Motion | float) -> None:
        """Transform the painter."""
        self._painter.setWorldTransform(qt_transform(Affine.of(by)), combine=True)

    def clip(self, points: Sequence[Point]) -> None:
        """Clip the painter."""
        outline = QPainterPath()
        outline.addPolygon(qt_polygon(points))
        outline.closeSubpath()
        self._painter.setClipPath(outline, Qt.ClipOperation.IntersectClip)

    def path(
        self, path: Path, fill: Fill | None = None, stroke: Stroke | None = None, crisp: bool = False
    ) -> None:
        """Draw a path."""
        self._begin(fill, stroke, crisp)
        self._painter.drawPath(qt_path(path))

    def polygon(
        self,
        points: Sequence[Point],
        fill: Fill | None = None,
        stroke: Stroke | None = None,
        crisp: bool = False,
    ) -> None:
        """Draw a polygon, which Qt does faster than a path."""
        self._begin(fill, stroke, crisp)
        self._painter.drawPolygon(qt_polygon(points))

    def text(self, at: Point, words: str, style: TextStyle) -> None:
        """Draw a line of text in the shipped typeface."""
        register_fonts()
        font = QFont(FAMILY)
        font.setPixelSize(_EM)
        font.setWeight(_WEIGHTS[style.weight])
        font.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
        self._painter.save()
        self._painter.setFont(font)
        self._painter.setPen(QColor(style.color))
        self._painter.translate(float(at[0]), float(at[1]))
        self._painter.scale(style.size / _EM, style.size / _EM)
        width = QFontMetricsF(font).horizontalAdvance(words)
        self._painter.drawText(QPointF(-width * _SHARES[style.anchor], 0.0), words)
        self._painter.restore()

    def stamp(self, key: Hashable, motion: Motion, draw: Callable[[Pen], None]) -> None:
        """Draw a picture."""
        del key  # a painter has no use for it
        with self.framed(motion):
            draw(self)

    def _begin(self, fill: Fill | None, stroke: Stroke | None, crisp: bool) -> None:
        self._painter.setRenderHint(QPainter.RenderHint.Antialiasing, not crisp)
        self._painter.setBrush(self._brush(fill))
        self._painter.setPen(qt_pen(stroke))

    def _brush(self, fill: Fill | None) -> QBrush:
        if fill is None:
            return QBrush(Qt.BrushStyle.NoBrush)
        if isinstance(fill, ClothFill):
            return self._brushes.cloth(fill, self._painter)
        return QBrush(qt_color(fill.color, fill.opacity))

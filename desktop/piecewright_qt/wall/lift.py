"""The picture of what is carried: lifted off the wall, a little larger, with a soft shadow."""

from dataclasses import dataclass
from math import ceil

from PySide6.QtCore import QPointF, QRect, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPixmap

from piecewright_qt.theme.tokens import Theme
from piecewright_qt.wall.loads import Load, Part
from piecewright_qt.wall.sprites import Sprites

LARGER = 1.035
"""How much larger a carried block looks: nearer to the eye."""
_SHADOW = 18
"""Device-independent pixels that the shadow reaches out."""
_FALL = 5
"""Device-independent pixels that the shadow falls down."""
_LAYERS = 16
_LONGEST = 2400
"""Device pixels a picture is long at most: of a larger load it is coarser."""


@dataclass(frozen=True)
class Lifted:
    """`pixmap` is drawn over the load's own rectangle grown by `margin` on all sides, device-independent pixels."""

    pixmap: QPixmap
    size: QSizeF
    margin: float

    def rect(self, corner: QPointF) -> QRectF:
        """Where the picture lies when the load's top left lies at `corner`."""
        grown = QRectF(corner, self.size)
        return grown.adjusted(-self.margin, -self.margin, self.margin, self.margin)


def lift(load: Load, cell: float, ratio: float, sprites: Sprites, theme: Theme, inches: float) -> Lifted:
    """A load's picture; `cell` is the side of a cell in device-independent pixels, `inches` in inches."""
    size = QSizeF(
        max(part.column + part.columns for part in load.parts) * cell,
        max(part.row + part.rows for part in load.parts) * cell,
    )
    margin = _SHADOW + _FALL + max(size.width(), size.height()) * (LARGER - 1) / 2
    wide, high = size.width() + 2 * margin, size.height() + 2 * margin
    sharp = min(ratio, _LONGEST / max(wide, high))
    pixmap = QPixmap(ceil(wide * sharp), ceil(high * sharp))
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    targets = [(part, _target(part, cell, size, margin, sharp)) for part in load.parts]
    _paint_shadow(painter, [rect for _, rect in targets], sharp)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature
    pixels = cell / inches * LARGER * sharp
    for part, rect in targets:
        if part.look is None:
            painter.fillRect(rect, QColor(theme.outline))
        else:
            sprites.paint(painter, part.look, part.turn, rect, pixels)
    painter.end()
    pixmap.setDevicePixelRatio(sharp)
    return Lifted(pixmap, size, margin)


def _target(part: Part, cell: float, size: QSizeF, margin: float, sharp: float) -> QRect:
    """Where a part lies in the picture, in its pixels, the whole load enlarged about its middle."""
    middle = (margin + size.width() / 2, margin + size.height() / 2)

    def placed(value: float, along: int) -> int:
        half = (size.width(), size.height())[along] / 2
        return round((middle[along] + (value * cell - half) * LARGER) * sharp)

    left, top = placed(part.column, 0), placed(part.row, 1)
    right, bottom = placed(part.column + part.columns, 0), placed(part.row + part.rows, 1)
    return QRect(left, top, right - left, bottom - top)


def _paint_shadow(painter: QPainter, rects: list[QRect], sharp: float) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(0, 0, 0, 6))
    for layer in range(_LAYERS):
        reach = _SHADOW * sharp * ((_LAYERS - layer) / _LAYERS) ** 1.5
        outline = QPainterPath()
        outline.setFillRule(Qt.FillRule.WindingFill)
        for rect in rects:
            out = QRectF(rect).adjusted(-reach, -reach, reach, reach).translated(0, _FALL * sharp)
            outline.addRoundedRect(out, reach, reach)
        painter.drawPath(outline)

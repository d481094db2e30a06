"""Small pieces of true cloth for lists: the strips of a set side by side, drawn when the screen has time."""

from collections import OrderedDict
from collections.abc import Mapping

from PySide6.QtCore import QElapsedTimer, QObject, QPointF, QRectF, QSize, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from piecewright.model.fabric import Fabric
from piecewright_qt.shelf.pictures import EDGE, Pictures

_SCALE = 28.0
"""Device-independent pixels to the inch: small, so that a repeat shows in a small swatch."""
_MOST = 800
_SLICE = 4
"""Milliseconds of drawing before the window is heard again."""
_MOST_STRIPS = 10

Strips = tuple[Fabric | None, ...]
_Key = tuple[Strips, int, float, str]


class Swatches(QObject):
    """Swatches by their cloth. Until one is drawn it is plain color; `arrived` tells when more can be shown."""

    arrived = Signal()

    def __init__(self, pictures: Mapping[str, bytes], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._photos = pictures
        self._cloth = Pictures(self)
        self._kept: OrderedDict[_Key, QPixmap] = OrderedDict()
        self._asked: dict[_Key, None] = {}
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._work)

    def paint(self, painter: QPainter, at: QPointF, strips: Strips, height: int, blank: str) -> None:
        """Paint a swatch twice as wide as high; what is not chosen yet stays `blank`, crossed by a line."""
        ratio = painter.device().devicePixelRatioF()
        key = (strips[:_MOST_STRIPS], height, ratio, blank)
        found = self._kept.get(key)
        if found is not None:
            self._kept.move_to_end(key)
            painter.drawPixmap(at, found)
            return
        self._asked[key] = None
        self._timer.start()
        for fabric, band in _bands(key):
            painter.fillRect(band.translated(at), QColor(blank if fabric is None else fabric.color))
        _edge(painter, QRectF(at, QSize(2 * height, height)))

    def _work(self) -> None:
        clock = QElapsedTimer()
        clock.start()
        while self._asked and clock.elapsed() < _SLICE:
            key = next(iter(self._asked))
            del self._asked[key]
            self._kept[key] = self._drawn(key)
        while len(self._kept) > _MOST:
            self._kept.popitem(last=False)
        if not self._asked:
            self._timer.stop()
        self.arrived.emit()

    def _drawn(self, key: _Key) -> QPixmap:
        _, height, ratio, blank = key
        pixmap = QPixmap(QSize(2 * height, height) * ratio)
        pixmap.setDevicePixelRatio(ratio)
        pixmap.fill(QColor(blank))
        painter = QPainter(pixmap)
        for fabric, band in _bands(key):
            if fabric is None:
                painter.setPen(QPen(EDGE, 1))
                painter.drawLine(band.bottomLeft(), band.topRight())
            elif fabric.print is None and fabric.picture is None:
                painter.fillRect(band, QColor(fabric.color))
            else:
                photo = self._photos.get(fabric.picture) if fabric.picture else None
                size = QSize(max(1, round(band.width())) + 1, height)
                painter.setClipRect(band)
                painter.drawPixmap(band.topLeft(), self._cloth.cloth(fabric, photo, size, ratio, _SCALE))
                painter.setClipping(False)
        _edge(painter, QRectF(0, 0, 2 * height, height))
        painter.end()
        return pixmap


def _bands(key: _Key) -> list[tuple[Fabric | None, QRectF]]:
    """Each strip with its place, side by side from left to right."""
    strips, height = key[0], key[1]
    step = 2 * height / len(strips)
    return [(fabric, QRectF(place * step, 0, step, height)) for place, fabric in enumerate(strips)]


def _edge(painter: QPainter, rect: QRectF) -> None:
    painter.setPen(QPen(EDGE, 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(rect.adjusted(0.5, 0.5, -0.5, -0.5))

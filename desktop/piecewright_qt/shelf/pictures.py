"""Pictures of blocks and of cloth for the shelf, drawn when the screen has time and kept within bounds."""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from math import ceil

from PySide6.QtCore import QElapsedTimer, QObject, QPointF, QRect, QRectF, QSize, QSizeF, Qt, QTimer
from PySide6.QtGui import QColor, QImage, QPainter, QPainterPath, QPen, QPixmap, QPolygonF

from piecewright.model.fabric import Fabric
from piecewright.render.pen import ClothFill
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.shelf.photos import decoded
from piecewright_qt.wall.looks import Look
from piecewright_qt.wall.sprites import Sprites

CLOTH_SCALE = 48.0
"""Device-independent pixels to the inch of every swatch: half of true size, the same for all cloth."""
_MOST = 600
_SLICE = 5
"""Milliseconds of drawing before the window is heard again."""
_TOOTH = 4.0
"""Device-independent pixels between the teeth of a pinked edge."""
EDGE = QColor(128, 128, 128, 110)
"""A hairline round all cloth: dark cloth ends somewhere on a dark ground too, and light cloth on a light one."""
_SPRITE_BYTES = 4_000_000

Draw = Callable[[], QPixmap]


class Pictures(QObject):
    """Draws what is asked for in slices of a zero timer; until then there is nothing to show. `drawn` counts."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._kept: OrderedDict[Hashable, QPixmap] = OrderedDict()
        self._asked: OrderedDict[Hashable, tuple[Draw, dict[Hashable, Callable[[], None]]]] = OrderedDict()
        self._sprites = Sprites(_SPRITE_BYTES)
        self._brushes = Brushes(128)
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._timer.timeout.connect(self._work)
        self.drawn = 0

    def block(self, look: Look, side: int, ratio: float) -> QPixmap:
        """A block within a square of `side` device-independent pixels, at once."""
        return self._now(("block", look, side, ratio), lambda: self._block(look, side, ratio))

    def block_later(
        self, look: Look, side: int, ratio: float, who: Hashable, arrived: Callable[[], None]
    ) -> QPixmap | None:
        """The same, or None now and `arrived` called once it is there, one call for each `who`."""
        key = ("block", look, side, ratio)
        return self._later(key, lambda: self._block(look, side, ratio), who, arrived)

    def swatch(
        self, fabric: Fabric, photo: bytes | None, size: QSize, ratio: float, pinked: bool = True
    ) -> QPixmap:
        """A piece of cloth at `CLOTH_SCALE`, its edges pinked, at once."""
        key = _swatch_key(fabric, photo, size, ratio, pinked)
        return self._now(key, lambda: self._swatch(fabric, photo, size, ratio, pinked, CLOTH_SCALE))

    def swatch_later(
        self,
        fabric: Fabric,
        photo: bytes | None,
        size: QSize,
        ratio: float,
        who: Hashable,
        arrived: Callable[[], None],
    ) -> QPixmap | None:
        """The same, or None now and `arrived` called once it is there."""
        key = _swatch_key(fabric, photo, size, ratio, pinked=True)
        return self._later(
            key,
            lambda: self._swatch(fabric, photo, size, ratio, pinked=True, scale=CLOTH_SCALE),
            who,
            arrived,
        )

    def cloth(self, fabric: Fabric, photo: bytes | None, size: QSize, ratio: float, scale: float) -> QPixmap:
        """A piece of cloth at another scale, not kept: the editor's, which changes with every letter typed."""
        return self._swatch(fabric, photo, size, ratio, pinked=False, scale=scale)

    def _now(self, key: Hashable, draw: Draw) -> QPixmap:
        found = self._kept.get(key)
        if found is None:
            found = self._keep(key, draw())
        return found

    def _later(self, key: Hashable, draw: Draw, who: Hashable, arrived: Callable[[], None]) -> QPixmap | None:
        found = self._kept.get(key)
        if found is not None:
            self._kept.move_to_end(key)
            return found
        self._asked.setdefault(key, (draw, {}))[1][who] = arrived
        self._asked.move_to_end(key, last=False)
        self._timer.start()
        return None

    def _keep(self, key: Hashable, pixmap: QPixmap) -> QPixmap:
        self.drawn += 1
        self._kept[key] = pixmap
        while len(self._kept) > _MOST:
            self._kept.popitem(last=False)
        return pixmap

    def _work(self) -> None:
        clock = QElapsedTimer()
        clock.start()
        while self._asked and clock.elapsed() < _SLICE:
            key, (draw, waiting) = self._asked.popitem(last=False)
            self._keep(key, draw())
            for arrived in waiting.values():
                arrived()
        if not self._asked:
            self._timer.stop()

    def _block(self, look: Look, side: int, ratio: float) -> QPixmap:
        pixels = side * ratio / max(look.width, look.height)
        target = QRect(0, 0, max(1, round(look.width * pixels)), max(1, round(look.height * pixels)))
        pixmap = _clear(target.size(), 1.0)
        painter = QPainter(pixmap)
        self._sprites.paint(painter, look, 0, target, pixels)
        painter.end()
        pixmap.setDevicePixelRatio(ratio)
        return pixmap

    def _swatch(
        self, fabric: Fabric, photo: bytes | None, size: QSize, ratio: float, pinked: bool, scale: float
    ) -> QPixmap:
        pixmap = _clear(size, ratio)
        painter = QPainter(pixmap)
        image = decoded(photo, size * ratio) if photo is not None else None
        if image is None:
            self._paint_cloth(painter, fabric, size, scale)
        else:
            _paint_photo(painter, image, size)
        if pinked:
            _pink(painter, size)
        painter.end()
        return pixmap

    def _paint_cloth(self, painter: QPainter, fabric: Fabric, size: QSize, scale: float) -> None:
        painter.save()
        painter.scale(scale, scale)
        brush = self._brushes.cloth(ClothFill(fabric), painter)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.fillRect(QRectF(0, 0, size.width() / scale, size.height() / scale), brush)
        painter.restore()


def _swatch_key(fabric: Fabric, photo: bytes | None, size: QSize, ratio: float, pinked: bool) -> Hashable:
    """A name, a price or a note change nothing that is seen."""
    seen = fabric.picture if photo is not None else None
    return ("cloth", fabric.color, fabric.print, seen, size.width(), size.height(), ratio, pinked)


def _clear(size: QSize, ratio: float) -> QPixmap:
    pixmap = QPixmap(ceil(size.width() * ratio), ceil(size.height() * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    return pixmap


def _paint_photo(painter: QPainter, image: QImage, size: QSize) -> None:
    """Fill the piece with the photo, its middle in the middle."""
    room = QSizeF(size)
    drawn = QSizeF(image.size()).scaled(room, Qt.AspectRatioMode.KeepAspectRatioByExpanding)
    corner = QPointF((room.width() - drawn.width()) / 2, (room.height() - drawn.height()) / 2)
    painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
    painter.drawImage(QRectF(corner, drawn), image)


def _pink(painter: QPainter, size: QSize) -> None:
    """Cut the edges as pinking shears do: cloth is hung up so that it does not fray."""
    outside = QPainterPath()
    outside.addRect(QRectF(-1, -1, size.width() + 2, size.height() + 2))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Clear)
    outline = pinked_outline(QSizeF(size))
    painter.fillPath(outside.subtracted(outline), QColor(Qt.GlobalColor.transparent))
    painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_SourceOver)
    painter.strokePath(outline, QPen(EDGE, 1))


def pinked_outline(size: QSizeF) -> QPainterPath:
    """The outline of a piece of cloth with pinked edges, its top left at 0, 0."""
    across, down = (max(2, round(length / _TOOTH)) for length in (size.width(), size.height()))
    wide, high, deep = size.width() / across, size.height() / down, _TOOTH / 2
    points: list[QPointF] = []
    for edge in range(4):
        count, step = ((across, wide), (down, high))[edge % 2]
        for tooth in range(count):
            for along, into in ((tooth * step, deep), ((tooth + 0.5) * step, 0.0)):
                points.append(_on_edge(edge, along, into if tooth or into == 0.0 else deep, size, deep))
    outline = QPainterPath()
    outline.addPolygon(QPolygonF(points))
    outline.closeSubpath()
    return outline


def _on_edge(edge: int, along: float, into: float, size: QSizeF, deep: float) -> QPointF:
    """A point `along` an edge (0 top, then clockwise) and so far `into` the cloth; corners lie `deep` in both ways."""
    far_x, far_y = size.width(), size.height()
    along = max(along, deep)
    if edge == 0:
        return QPointF(min(along, far_x - deep), into)
    if edge == 1:
        return QPointF(far_x - into, min(along, far_y - deep))
    if edge == 2:
        return QPointF(far_x - min(along, far_x - deep), far_y - into)
    return QPointF(into, far_y - min(along, far_y - deep))

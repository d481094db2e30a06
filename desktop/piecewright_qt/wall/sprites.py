"""Pictures of placed blocks at one sharpness, drawn once for all that look alike, within bounds."""

from collections import OrderedDict
from collections.abc import Hashable, Sequence
from dataclasses import dataclass, field

from PySide6.QtCore import QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPixmap, QPolygonF, QTransform

from piecewright.geometry.motion import Point
from piecewright.making.facts import Kind
from piecewright.model.fabric import Fabric
from piecewright.render.cloth import cloth_fill, draw_valleys
from piecewright_qt.drawing.brushes import Brushes, tile_frame
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.drawing.qt_shapes import qt_polygon
from piecewright_qt.wall.looks import Look

_MOST_PIXELS = 640 * 640
"""A larger block is painted straight onto the tile, only what lies on it."""
_LIMIT = 32_000_000
"""Bytes of pictures kept."""
_LEAST_VALLEY = 3.0
"""Device pixels to the inch below which the shading of seams is thinner than a pixel."""
_LEAST_CRISP = 3.0
"""Device pixels that the narrowest patch must have to be drawn with hard edges."""
_TEXTURES = 48_000_000
"""Bytes of textures kept."""
_MELTS = 2.0
"""Device pixels of a repeat below which a print is seen as one color."""
_EDGE = 0.4
"""Device pixels that a picture may be larger than the block in it before its rim is filled beforehand."""
_NEAR = 0.3
"""Inches that the shading of a seam reaches to each side, with something to spare."""

Line = tuple[Point, Point]


@dataclass(frozen=True, eq=False)
class Shape:
    """A kind's patches and seams as Qt draws them, in inches; compared by identity.

    `groups` are the patches that always show one fabric, together: their indexes and their outlines as one path.
    `frames` carry the tile of a print, by patch and the print's own turn, to where the cloth lies; found as needed.
    """

    kind: Kind
    polygons: tuple[QPolygonF, ...]
    boxes: tuple[QRectF, ...]
    groups: tuple[tuple[tuple[int, ...], QPainterPath], ...]
    seams: tuple[Line, ...]
    upright: bool
    least: float
    frames: dict[tuple[int, int], QTransform] = field(default_factory=dict)


class Sprites:
    """Paints placed blocks into rectangles of device pixels; `drawn` counts blocks drawn anew, patch by patch."""

    def __init__(self, limit: int = _LIMIT) -> None:
        self._limit = limit
        self._pixmaps: OrderedDict[Hashable, QPixmap] = OrderedDict()
        self._shapes: OrderedDict[int, Shape] = OrderedDict()
        self._cloth: dict[float, dict[Hashable, QBrush]] = {}
        self._flat: dict[str, QBrush] = {}
        self.bytes = 0
        self.brushes = Brushes(1024, _TEXTURES)
        self.drawn = 0

    def paint(
        self, painter: QPainter, look: Look, turn: int, target: QRect, pixels: float, *, slanted: bool = False
    ) -> None:
        """Draw a block, turned clockwise, into `target`, `pixels` to the inch; the painter must not be scaled.

        `slanted`: on point, turned by 45 degrees more, `target` the upright box round it.
        """
        if slanted:
            self._paint_slanted(painter, look, turn, target, pixels)
        elif target.width() * target.height() <= _MOST_PIXELS:
            painter.drawPixmap(target.topLeft(), self._sprite(look, turn, target, pixels))
        else:
            self._paint_directly(painter, look, turn, target, pixels)

    def _paint_slanted(self, painter: QPainter, look: Look, turn: int, target: QRect, pixels: float) -> None:
        """Draw a block on point: where it is small a picture of it, clear round the block."""
        if target.width() * target.height() > _MOST_PIXELS:
            middle = QRectF(target).center()
            painter.save()
            painter.translate(middle)
            painter.rotate(45)
            flat = turned_frame(look.width, look.height, turn, pixels).mapRect(
                QRectF(0, 0, look.width, look.height)
            )
            whole = QRect(0, 0, round(flat.width()), round(flat.height()))
            painter.translate(-flat.width() / 2, -flat.height() / 2)
            self._paint_directly(painter, look, turn, whole, pixels)
            painter.restore()
            return
        key = ("slanted", look, turn, target.width(), target.height(), pixels)
        found = self._pixmaps.get(key)
        if found is None:
            found = self._drawn_slanted(look, turn, target, pixels)
            self._keep(key, found)
        else:
            self._pixmaps.move_to_end(key)
        painter.drawPixmap(target.topLeft(), found)

    def _drawn_slanted(self, look: Look, turn: int, target: QRect, pixels: float) -> QPixmap:
        pixmap = QPixmap(max(target.width(), 1), max(target.height(), 1))
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        frame = turned_frame(look.width, look.height, turn, pixels)
        flat = frame.mapRect(QRectF(0, 0, look.width, look.height))
        # a hair larger than true, so that neighbors leave no gap between their softened edges
        grown = 1 + 1.0 / max(flat.width(), 1.0)
        frame *= QTransform.fromTranslate(-flat.width() / 2, -flat.height() / 2)
        frame *= QTransform.fromScale(grown, grown) * QTransform().rotate(45)
        frame *= QTransform.fromTranslate(target.width() / 2, target.height() / 2)
        painter.setTransform(frame)
        self._fill_flat(painter, look, pixels)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._fill(painter, look, turn + 45, pixels)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        if pixels >= _LEAST_VALLEY:
            draw_valleys(QtPen(painter, 1.0), [*self.shape(look.kind).seams, *sides(look)])
        painter.end()
        self.drawn += 1
        return pixmap

    def clear(self) -> None:
        """Forget every picture."""
        self._pixmaps.clear()
        self._cloth.clear()
        self.bytes = 0

    def shape(self, kind: Kind) -> Shape:
        """A kind as Qt draws it."""
        found = self._shapes.get(id(kind))
        if found is None or found.kind is not kind:
            found = self._shapes[id(kind)] = _shape(kind)
            if len(self._shapes) > 512:
                self._shapes.popitem(last=False)
        return found

    def _sprite(self, look: Look, turn: int, target: QRect, pixels: float) -> QPixmap:
        key = (look, turn, target.width(), target.height(), pixels)
        found = self._pixmaps.get(key)
        if found is None:
            found = self._drawn(look, turn, target.width(), target.height(), pixels)
            self._keep(key, found)
        else:
            self._pixmaps.move_to_end(key)
        return found

    def _drawn(self, look: Look, turn: int, width: int, height: int, pixels: float) -> QPixmap:
        pixmap = QPixmap(max(width, 1), max(height, 1))
        pixmap.fill(QColor(look.fabrics[0].color))
        painter = QPainter(pixmap)
        frame = turned_frame(look.width, look.height, turn, pixels)
        true = frame.mapRect(QRectF(0, 0, look.width, look.height))
        if width - true.width() > _EDGE or height - true.height() > _EDGE:
            painter.setTransform(frame * QTransform.fromScale(width / true.width(), height / true.height()))
            self._fill_flat(painter, look, pixels)
        painter.setTransform(frame)
        self._fill(painter, look, turn, pixels)
        painter.resetTransform()
        if pixels >= _LEAST_VALLEY:
            painter.drawPixmap(pixmap.rect(), self._valleys(look, turn, pixels))
        painter.end()
        self.drawn += 1
        return pixmap

    def _fill(self, painter: QPainter, look: Look, turn: int, pixels: float) -> None:
        """Fill the patches; those not square to the screen over flat color, so that no gap shines through."""
        shape = self.shape(look.kind)
        crisp = shape.upright and shape.least * pixels >= _LEAST_CRISP and turn % 90 == 0
        painter.setPen(Qt.PenStyle.NoPen)
        if not crisp:
            self._fill_flat(painter, look, pixels)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for indexes, outline in shape.groups:
            plain = self._plain(look.fabrics[indexes[0]], pixels)
            if plain is not None:
                painter.setBrush(plain)
                painter.drawPath(outline)
                continue
            for index in indexes:
                painter.setBrush(self._cloth_brush(painter, look, shape, index, (turn, pixels)))
                painter.drawPolygon(shape.polygons[index])

    def _fill_flat(self, painter: QPainter, look: Look, pixels: float) -> None:
        painter.setPen(Qt.PenStyle.NoPen)
        for indexes, outline in self.shape(look.kind).groups:
            fabric = look.fabrics[indexes[0]]
            painter.setBrush(self._plain(fabric, pixels) or self._color(fabric.color))
            painter.drawPath(outline)

    def _plain(self, fabric: Fabric, pixels: float) -> QBrush | None:
        """The one color of a solid, or of a print whose repeats melt together; None where a print is seen."""
        if fabric.print is None:
            return self._color(fabric.color)
        if fabric.print.scale * pixels >= _MELTS:
            return None
        return self._color(self.brushes.far(fabric).name())

    def _cloth_brush(
        self, painter: QPainter, look: Look, shape: Shape, index: int, view: tuple[int, float]
    ) -> QBrush:
        """The brush of a patch in a picture of its own: the same for every block that lies like this.

        Kept for the two sharpnesses used last: the one in view and that of the overview.
        """
        turn, pixels = view
        known = self._cloth.get(pixels)
        if known is None:
            known = self._cloth[pixels] = {}
            while len(self._cloth) > 2:
                del self._cloth[next(iter(self._cloth))]
        key = (shape, index, look.fabrics[index], turn)
        found = known.get(key)
        if found is None:
            found = known[key] = self._laid(painter, look, shape, index)
        return found

    def _laid(self, painter: QPainter, look: Look, shape: Shape, index: int) -> QBrush:
        """The brush of a patch where the painter now stands."""
        fabric = look.fabrics[index]
        if fabric.print is None:
            return self._color(fabric.color)
        way = (index, fabric.print.turn)
        frame = shape.frames.get(way)
        if frame is None:
            fill = cloth_fill(fabric, look.kind.patches[index])
            frame = shape.frames[way] = tile_frame(fill)
        return self.brushes.laid(fabric.color, fabric.print, frame, painter)

    def _color(self, color: str) -> QBrush:
        found = self._flat.get(color)
        if found is None:
            found = self._flat[color] = QBrush(QColor(color))
        return found

    def _valleys(self, look: Look, turn: int, pixels: float) -> QPixmap:
        """The shading of a kind's seams and of its sides, for all colorings: transparent."""
        key = (self.shape(look.kind), turn, pixels)
        found = self._pixmaps.get(key)
        if found is None:
            found = self._turned_valleys(look, turn, pixels) if turn else self._drawn_valleys(look, pixels)
            self._keep(key, found)
        return found

    def _turned_valleys(self, look: Look, turn: int, pixels: float) -> QPixmap:
        return self._valleys(look, 0, pixels).transformed(QTransform().rotate(turn))

    def _drawn_valleys(self, look: Look, pixels: float) -> QPixmap:
        pixmap = QPixmap(max(round(look.width * pixels), 1), max(round(look.height * pixels), 1))
        pixmap.fill(Qt.GlobalColor.transparent)
        painter = QPainter(pixmap)
        draw_valleys(QtPen(painter, pixels), [*self.shape(look.kind).seams, *sides(look)])
        painter.end()
        return pixmap

    def _keep(self, key: Hashable, pixmap: QPixmap) -> None:
        self._pixmaps[key] = pixmap
        self.bytes += _bytes(pixmap)
        while self.bytes > self._limit and len(self._pixmaps) > 1:
            _, oldest = self._pixmaps.popitem(last=False)
            self.bytes -= _bytes(oldest)

    def _paint_directly(self, painter: QPainter, look: Look, turn: int, target: QRect, pixels: float) -> None:
        """Draw only what of a large block the painter's clip or device can show."""
        shape = self.shape(look.kind)
        painter.save()
        painter.setClipRect(target, Qt.ClipOperation.IntersectClip)
        frame = turned_frame(look.width, look.height, turn, pixels)
        frame *= QTransform.fromTranslate(target.x(), target.y())
        seen = frame.inverted()[0].mapRect(QRectF(_shown(painter)).adjusted(-1, -1, 1, 1))
        painter.setTransform(frame, combine=True)
        painter.setPen(Qt.PenStyle.NoPen)
        inside = [index for index, box in enumerate(shape.boxes) if box.intersects(seen)]
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature
        for index in inside:
            painter.setBrush(self._color(look.fabrics[index].color))
            painter.drawPolygon(shape.polygons[index])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for index in inside:
            painter.setBrush(self._laid(painter, look, shape, index))
            painter.drawPolygon(shape.polygons[index])
        near = [line for line in (*shape.seams, *sides(look)) if _line_box(line).intersects(seen)]
        draw_valleys(QtPen(painter, 1.0), near)
        painter.restore()
        self.drawn += 1


def turned_frame(width: float, height: float, turn: int, pixels: float) -> QTransform:
    """What carries a finished block in inches, turned clockwise, to device pixels with its top left at 0, 0."""
    corner = {0: (0.0, 0.0), 90: (height, 0.0), 180: (width, height), 270: (0.0, width)}[turn]
    a, b = {0: (1, 0), 90: (0, 1), 180: (-1, 0), 270: (0, -1)}[turn]
    return QTransform(a * pixels, b * pixels, -b * pixels, a * pixels, corner[0] * pixels, corner[1] * pixels)


def sides(look: Look) -> Sequence[Line]:
    """The four outer edges of a finished block."""
    a, b, c, d = (0.0, 0.0), (look.width, 0.0), (look.width, look.height), (0.0, look.height)
    return ((a, b), (b, c), (c, d), (d, a))


def _shape(kind: Kind) -> Shape:
    polygons = tuple(qt_polygon(patch.points) for patch in kind.patches)
    boxes = tuple(polygon.boundingRect() for polygon in polygons)
    return Shape(
        kind,
        polygons,
        boxes,
        _groups(kind, polygons),
        tuple((seam.start, seam.end) for seam in kind.seams),
        all(_is_upright(polygon) for polygon in polygons),
        min((min(box.width(), box.height()) for box in boxes), default=0.0),
    )


def _groups(kind: Kind, polygons: Sequence[QPolygonF]) -> tuple[tuple[tuple[int, ...], QPainterPath], ...]:
    """The patches of each letter and layer together."""
    indexes: dict[tuple[str, int], list[int]] = {}
    for index, patch in enumerate(kind.patches):
        indexes.setdefault((patch.fabric, patch.layer), []).append(index)
    groups = []
    for several in indexes.values():
        outline = QPainterPath()
        outline.setFillRule(Qt.FillRule.WindingFill)
        for index in several:
            outline.addPolygon(polygons[index])
            outline.closeSubpath()
        groups.append((tuple(several), outline))
    return tuple(groups)


def _is_upright(polygon: QPolygonF) -> bool:
    """Whether every edge runs along the screen."""
    points = polygon.toList()
    return all(
        abs(one.x() - other.x()) < 1e-9 or abs(one.y() - other.y()) < 1e-9
        for one, other in zip(points, (*points[1:], points[0]), strict=True)
    )


def _line_box(line: Line) -> QRectF:
    one, other = (QPointF(float(x), float(y)) for x, y in line)
    return QRectF(one, other).normalized().adjusted(-_NEAR, -_NEAR, _NEAR, _NEAR)


def _shown(painter: QPainter) -> QRect:
    """What the painter can touch, in its present frame."""
    clip = painter.clipBoundingRect().toAlignedRect()
    device = QRect(0, 0, painter.device().width(), painter.device().height())
    return clip & painter.combinedTransform().inverted()[0].mapRect(device)


def _bytes(pixmap: QPixmap) -> int:
    return pixmap.width() * pixmap.height() * 4

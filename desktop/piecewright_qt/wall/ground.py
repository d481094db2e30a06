"""What the blocks hang on and what goes round them: flannel with its quiet grid, borders and binding."""

from collections.abc import Iterator
from math import ceil, floor

from PySide6.QtCore import QLineF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from piecewright.render.cloth import draw_valleys
from piecewright.render.tint import mix
from piecewright.render.wall_picture import (
    border_seams,
    draw_binding,
    draw_borders,
    draw_parts,
    flannel_lines,
    part_seams,
)
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.theme.tokens import Theme
from piecewright_qt.wall.camera import Camera
from piecewright_qt.wall.scene import Scene
from piecewright_qt.wall.sprites import Sprites

_LEAST_CELL = 6.0
"""Device-independent pixels of a cell below which the grid is left out."""
_LAYERS = 8
_NEAR = 0.5
"""Inches that the shading of a seam reaches to its side, with something to spare."""
_SHADOW = 10
"""Device-independent pixels that the quilt's shadow reaches out on the wall."""


def paint_ground(
    painter: QPainter, scene: Scene, theme: Theme, camera: Camera, area: QRect, sprites: Sprites
) -> None:
    """Paint all but the blocks in an area of the quilt's device pixels; the painter stands at their 0, 0."""
    painter.fillRect(area, QColor(theme.flannel))
    whole, center = camera.device(scene.whole), camera.device(scene.center)
    if not whole.adjusted(*_grown(camera.ratio)).intersects(area):
        return
    if not center.contains(area):
        _paint_edge(painter, scene, theme, camera, whole)
        _paint_round(painter, scene, camera, sprites)
    if center.intersects(area) and scene.is_plain:
        _paint_grid(painter, scene, theme, camera, area & center)
    elif center.intersects(area):
        painter.fillRect(area & center, QColor(theme.flannel))
        if scene.unit * camera.pixels >= _LEAST_CELL * camera.ratio:
            _paint_cells(painter, scene, theme, camera)
    if center.intersects(area):
        _paint_between(painter, scene, theme, camera, area, sprites)


def paint_unmade(painter: QPainter, theme: Theme, target: QRect, ratio: float) -> None:
    """Paint a block that can not be made: a crossed-out cell."""
    painter.fillRect(target, QColor(theme.flannel))
    painter.setPen(QPen(QColor(theme.outline), 1.5 * ratio))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    inner = target.adjusted(2, 2, -3, -3)
    painter.drawRect(inner)
    painter.drawLine(inner.topLeft(), inner.bottomRight())
    painter.drawLine(inner.topRight(), inner.bottomLeft())
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature


def _paint_edge(painter: QPainter, scene: Scene, theme: Theme, camera: Camera, whole: QRect) -> None:
    """The shadow of a quilt that has an edge of cloth; of one that has none yet, a hairline where it will end."""
    quilt, ratio = scene.design.quilt, camera.ratio
    if not quilt.borders and quilt.binding.fabric is None:
        thick = max(1, floor(ratio))
        edge = camera.device(scene.center).adjusted(-thick, -thick, thick, thick)
        painter.fillRect(edge, _between(theme.flannel_line, theme.outline))
        return
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(QColor(0, 0, 0, 6))
    for layer in range(_LAYERS, 0, -1):
        reach = _SHADOW * ratio * layer / _LAYERS
        out = QRectF(whole).adjusted(-reach, -reach, reach, reach).translated(0, 2 * ratio)
        painter.drawRoundedRect(out, reach, reach)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature


def _paint_round(painter: QPainter, scene: Scene, camera: Camera, sprites: Sprites) -> None:
    painter.save()
    pen = QtPen(painter, camera.pixels, sprites.brushes)
    draw_borders(scene.design, scene.layout, pen)
    draw_valleys(pen, border_seams(scene.layout))
    if scene.design.quilt.binding.fabric is not None:
        draw_binding(scene.design, scene.layout, pen)
    painter.restore()


def _paint_grid(painter: QPainter, scene: Scene, theme: Theme, camera: Camera, area: QRect) -> None:
    """Flannel with a hairline along every cell; blocks are painted over it."""
    painter.fillRect(area, QColor(theme.flannel))
    if scene.unit * camera.pixels < _LEAST_CELL * camera.ratio:
        return
    line, thick = QColor(theme.flannel_line), max(1, floor(camera.ratio))
    for x in _lines(area.left(), area.right(), scene.center[0] * camera.pixels, scene.unit * camera.pixels):
        painter.fillRect(QRect(x, area.top(), thick, area.height()), line)
    for y in _lines(area.top(), area.bottom(), scene.center[1] * camera.pixels, scene.unit * camera.pixels):
        painter.fillRect(QRect(area.left(), y, area.width(), thick), line)


def _paint_cells(painter: QPainter, scene: Scene, theme: Theme, camera: Camera) -> None:
    """Hairlines between the cells of a setting with sashing or on point."""
    painter.setPen(QPen(QColor(theme.flannel_line), max(1, floor(camera.ratio))))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    scale = camera.pixels
    painter.drawLines(
        [
            QLineF(*(float(value) * scale for value in (*start, *end)))
            for start, end in flannel_lines(scene.layout)
        ]
    )
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature


def _paint_between(
    painter: QPainter, scene: Scene, theme: Theme, camera: Camera, area: QRect, sprites: Sprites
) -> None:
    """Sashes, setting triangles and coping strips that an area shows, with their seams."""
    scale = camera.pixels
    left, top = area.left() / scale - _NEAR, area.top() / scale - _NEAR
    box = (left, top, (area.right() + 1) / scale + _NEAR, (area.bottom() + 1) / scale + _NEAR)
    painter.save()
    pen = QtPen(painter, camera.pixels, sprites.brushes)
    parts = scene.layout.parts_within(box)
    draw_parts(scene.design, parts, pen, theme.flannel)
    draw_valleys(pen, part_seams(scene.layout, parts))
    painter.restore()


def _between(one: str, other: str) -> QColor:
    """The color halfway between two."""
    return QColor(mix(one, other, 0.5))


def _lines(low: int, high: int, start: float, step: float) -> Iterator[int]:
    """The pixels from `low` to `high` in which grid lines begin."""
    for number in range(floor((low - start) / step), ceil((high - start) / step) + 1):
        if low <= (at := round(start + number * step)) <= high:
            yield at


def _grown(ratio: float) -> tuple[int, int, int, int]:
    reach = ceil((_SHADOW + 2) * ratio)
    return (-reach, -reach, reach, reach)

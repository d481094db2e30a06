"""When which mark is painted over the cloth, and where."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QColor, QPainter, QTransform

from piecewright.edit.registry import Cell
from piecewright.render.block_picture import draw_outer_bias
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.drawing.qt_shapes import qt_polygon
from piecewright_qt.messages import words
from piecewright_qt.theme.icons import inked
from piecewright_qt.theme.tokens import RADIUS
from piecewright_qt.wall.carrying import Carrying
from piecewright_qt.wall.describing import describe_empty
from piecewright_qt.wall.lift import Lifted, lift
from piecewright_qt.wall.loads import Load
from piecewright_qt.wall.overlay import REACH, Marks
from piecewright_qt.wall.sprites import turned_frame

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

_LARGEST_WORD = 0.7
"""Inches of cloth that the type of a word over the cloth may be high."""
_ABOVE = 48.0
"""Device-independent pixels above what is carried in which its word may stand, at normal text size."""


_LOCK = 1.4
"""The side of a padlock's plate, in heights of the type."""
LOCK_GAP = 4.0
"""Device-independent pixels between it and the edges of its block."""


class Painting:
    """Paints the marks of one wall."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self._lifted: tuple[Load, int, float, Lifted] | None = None

    def paint(self, painter: QPainter, area: QRectF) -> None:
        """Paint every mark that may show in an area of the view."""
        wall = self._wall
        marks = Marks(painter, wall.look.theme, wall.look.scale)
        if not wall.scene.hung and wall.hand.carrying is None:
            self._paint_invitation(marks)
        if wall.scene.layout.outline:
            marks.shape(qt_polygon(wall.scene.layout.outline), wall.camera)
        if wall.scene.locked:
            self._paint_locks(painter, area)
        if wall.hand.carrying is None:
            self._paint_selection(painter, marks, area)
        if wall.drops.fabric is not None:
            self._paint_target(marks)
        if wall.band is not None:
            marks.band(wall.camera.rect(wall.band))
        if wall.hand.carrying is not None:
            self._paint_carried(painter, marks, wall.hand.carrying)
        wall.slips.paint(painter, area)
        wall.measuring.paint(marks)
        wall.rulers.paint(painter, area)

    def cursor_rect(self) -> QRectF:
        """The cell that the keys are at, or the block on it."""
        wall = self._wall
        item = wall.items.at_cell(wall.cursor_cell.column, wall.cursor_cell.row)
        if item is not None:
            return wall.camera.rect(item.box)
        return wall.camera.rect(wall.scene.box(wall.cursor_cell.column, wall.cursor_cell.row))

    def carried_rect(self) -> QRectF:
        """All that is painted of what is carried: its picture, its word, the place where it will land."""
        carrying = self._wall.hand.carrying
        corner = None if carrying is None else self._corner(carrying)
        if carrying is None or corner is None:
            return QRectF()
        above = _ABOVE * self._wall.look.scale.text
        whole = self._upright(self._lift(carrying.load).rect(corner), corner).adjusted(
            -above, -above, above, above
        )
        return whole.united(self._landing(carrying).adjusted(-REACH, -REACH, REACH, REACH))

    def landing_rect(self) -> QRectF:
        """The cells that what is carried will lie on."""
        carrying = self._wall.hand.carrying
        return QRectF() if carrying is None else self._landing(carrying)

    def forget(self) -> None:
        """The picture of what was carried is not needed any more."""
        self._lifted = None

    def _paint_invitation(self, marks: Marks) -> None:
        wall = self._wall
        view = QRectF(wall.viewport().rect())
        seen = wall.camera.rect(wall.scene.center) & view
        said = words(describe_empty(wall.scene), wall.look.measure)
        marks.invitation(said, view if seen.isEmpty() else seen)

    def _paint_locks(self, painter: QPainter, area: QRectF) -> None:
        """A padlock on a small plate, in the corner of every locked block that is large enough for it."""
        wall = self._wall
        side = wall.look.scale.body * _LOCK
        for laid in wall.scene.locked:
            rect = wall.camera.rect(wall.scene.box_of(laid))
            if min(rect.width(), rect.height()) >= 2 * side and area.intersects(rect):
                plate = QRectF(rect.right() - side - LOCK_GAP, rect.top() + LOCK_GAP, side, side)
                lock = inked("lock", wall.look.theme.text, round(side), wall.camera.ratio)
                painter.setPen(QColor(wall.look.theme.line))
                painter.setBrush(QColor(wall.look.theme.surface))
                painter.drawRoundedRect(plate, RADIUS, RADIUS)
                painter.drawPixmap(plate.toAlignedRect(), lock)

    def _paint_selection(self, painter: QPainter, marks: Marks, area: QRectF) -> None:
        wall = self._wall
        selection = wall.selection
        if selection.area is not None and wall.band is None and len(selection):
            marks.dashed(wall.camera.rect(wall.scene.box(*selection.area)))
        if len(selection):
            marks.selection(wall.scene, wall.camera, selection.cells, area)
            self._paint_bias(painter, area)
        if wall.shows_cursor and wall.hasFocus():
            self._paint_cursor(painter, marks)

    def _paint_cursor(self, painter: QPainter, marks: Marks) -> None:
        wall = self._wall
        if not wall.scene.on_point:
            marks.cursor(self.cursor_rect())
            return
        item = wall.items.at_cell(wall.cursor_cell.column, wall.cursor_cell.row)
        column, row, columns, rows = item.laid[:4] if item else (*_pair(wall.cursor_cell), 1, 1)
        scale = wall.scene.unit * wall.camera.pixels / wall.camera.ratio
        corner = wall.camera.point(wall.scene.outside(wall.scene.corner(column, row)))
        painter.save()
        painter.setTransform(_about(corner), combine=True)
        marks.cursor(QRectF(corner, QSizeF(columns * scale, rows * scale)))
        painter.restore()

    def _paint_bias(self, painter: QPainter, area: QRectF) -> None:
        """The outer bias edges of selected blocks, where they are large enough for the word."""
        wall, camera = self._wall, self._wall.camera
        scale = camera.pixels / camera.ratio
        size = wall.look.scale.small / scale
        if size > _LARGEST_WORD:
            return
        for cell in wall.selection.cells:
            hung = wall.items.hung(cell)
            if (
                hung is None
                or hung[1] is None
                or not area.intersects(camera.rect(wall.scene.box_of(hung[0])))
            ):
                continue
            painter.save()
            scene = wall.scene
            if scene.on_point:
                corner = camera.point(scene.outside(scene.corner(hung[0].column, hung[0].row)))
                painter.translate(corner)
                painter.rotate(45)
            else:
                painter.translate(camera.rect(scene.box_of(hung[0])).topLeft())
            look, turn = hung[1], hung[0].placement.turn
            painter.setTransform(turned_frame(look.width, look.height, turn, scale), combine=True)
            draw_outer_bias(look.kind, QtPen(painter, 1.0), size)
            painter.restore()

    def _paint_target(self, marks: Marks) -> None:
        """The outline of the patch that a fabric is aimed at."""
        wall, fabric = self._wall, self._wall.drops.fabric
        outline = None if fabric is None or fabric.target is None else fabric.target.outline
        if outline is not None:
            camera, corner = wall.camera, wall.camera.point((0.0, 0.0))
            scale = camera.pixels / camera.ratio
            frame = QTransform(scale, 0, 0, scale, corner.x(), corner.y())
            marks.outline(frame.map(outline))

    def _paint_carried(self, painter: QPainter, marks: Marks, carrying: Carrying) -> None:
        corner = self._corner(carrying)
        if corner is None:
            return
        lifted = self._lift(carrying.load)
        if carrying.free and carrying.refusal is None:
            marks.dashed(self._landing(carrying))
        place = lifted.rect(corner)
        inside = QRectF(corner, lifted.size)
        painter.save()
        if self._wall.still.on_point:
            painter.setTransform(_about(corner), combine=True)
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        painter.drawPixmap(place.topLeft(), lifted.pixmap)
        if carrying.refusal is not None:
            marks.refused(inside)
        painter.restore()
        inside = self._upright(inside, corner)
        tag = carrying.tag
        if tag is not None:
            said = words(tag, self._wall.look.measure)
            where = marks.tag_rect(said, inside, QRectF(self._wall.viewport().rect()))
            marks.tag(said, where, is_refusal=carrying.refusal is not None)

    def _corner(self, carrying: Carrying) -> QPointF | None:
        """Where the top left of what is carried is seen: on its cell, or wherever the pointer holds it."""
        place = carrying.top_left()
        if place is None:
            return None
        camera = self._wall.camera
        return camera.point(place) if carrying.free else camera.rect((*place, *place)).topLeft()

    def _upright(self, rect: QRectF, corner: QPointF) -> QRectF:
        """The upright rectangle round what is turned about a corner on point."""
        return _about(corner).mapRect(rect) if self._wall.still.on_point else rect

    def _landing(self, carrying: Carrying) -> QRectF:
        cell, load = carrying.cell, carrying.load
        if cell is None:
            return QRectF()
        return self._wall.camera.rect(self._wall.still.box(cell.column, cell.row, load.columns, load.rows))

    def _lift(self, load: Load) -> Lifted:
        """The picture of a load at the present zoom; drawn once."""
        wall = self._wall
        camera = wall.camera
        known = self._lifted
        if known is not None and known[0] is load and known[1:3] == (camera.level, camera.ratio):
            return known[3]
        unit = wall.still.unit
        cell = unit * camera.pixels / camera.ratio
        made = lift(load, cell, camera.ratio, wall.sprites, wall.look.theme, unit)
        self._lifted = (load, camera.level, camera.ratio, made)
        return made


def _about(corner: QPointF) -> QTransform:
    """The turn of a setting on point, about a point of the view."""
    turned = QTransform.fromTranslate(-corner.x(), -corner.y()) * QTransform().rotate(45)
    return turned * QTransform.fromTranslate(corner.x(), corner.y())


def _pair(cell: Cell) -> tuple[int, int]:
    return cell.column, cell.row

"""The plan of one fabric drawn to scale on its own cloth: every piece can be pointed at, walked to and followed."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from PySide6.QtCore import QEvent, QPoint, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFont,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPixmap,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QAbstractScrollArea, QFrame

from piecewright.geometry.motion import Motion
from piecewright.render.bounds_pen import Box
from piecewright.render.cutting_cloth import View, draw_sheet, shown_pieces
from piecewright.render.cutting_picture import captions_of, sheets_of, view_of
from piecewright.render.layout import Draw, room
from piecewright_qt.cutting_table.saying import heard, piece_said
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.paper import MARK, ON_MARK, paper
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_WIDE

_PAPER = 116.0  # pixels to the inch of paper at a text scale of 1: labels are then as large as small print
_BESIDE = 2.1  # inches of paper that dimensions take left and right of the cloth
_LEAST_CLOTH = 2.4  # inches of paper that a width of cloth is shown on at least, however large the text
_MARGIN = 0.5  # inches of paper that cloth is drawn beyond what is seen, so that its ends are not
_STEP = 1.25
_NEAREST, _FARTHEST = 12.0, 0.2
_LARGEST = 0.25  # inches of paper to the inch of cloth that small sheets are shown at
_AHEAD = Qt.Key.Key_Right, Qt.Key.Key_Down
_BACK = Qt.Key.Key_Left, Qt.Key.Key_Up


@dataclass(frozen=True)
class Spot:
    """One piece on the canvas: its key in the plan and where it lies, in pixels of the whole drawing."""

    key: str
    rect: QRectF


@dataclass(frozen=True)
class _Figure:
    """One drawing: its cloth, its words, how far from the corner of all drawings its own 0, 0 lies, and its paper."""

    view: View
    words: Draw
    origin: QPointF
    sheet: QRectF


class CuttingCanvas(QAbstractScrollArea):
    """Draws the fabric in view. `said` tells of the piece pointed at or walked to; `asked` wants to see its blocks."""

    said = Signal(str)
    chosen = Signal(str)
    asked = Signal(str)

    def __init__(self, work: CuttingWork, look: Look) -> None:
        super().__init__()
        self._work = work
        self._look = look
        self._brushes = Brushes()
        self._figures: tuple[_Figure, ...] = ()
        self.spots: tuple[Spot, ...] = ()
        self._views: tuple[View, ...] = ()
        self._extent = QSize(0, 0)
        self._zoom = 1.0
        self._seen: QPixmap | None = None
        self._over: Spot | None = None
        self._at = -1
        self._marked: frozenset[str] = frozenset()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("The plan of the cutting, to scale"))
        self.setAccessibleDescription(
            self.tr("Arrow keys go from piece to piece, Enter shows on the wall what a piece is for.")
        )
        self.viewport().setMouseTracking(True)
        self.viewport().setProperty("place", "flannel")
        self.setMinimumSize(240, 180)
        look.changed.connect(self.lay_out)

    # What is shown -------------------------------------------------------------------------------------------------

    @property
    def current(self) -> Spot | None:
        """The piece that the keys are at."""
        return self.spots[self._at] if 0 <= self._at < len(self.spots) else None

    @property
    def percent(self) -> int:
        """How large it is shown; 100 is as wide as there is room."""
        return round(100 * self._zoom)

    def lay_out(self) -> None:
        """Draw anew: another fabric, plan, look or size of window."""
        key = self.current.key if self.current is not None else None
        each = self._work.chosen
        views: list[View] = []
        if each is not None:
            fabric = self._work.design.shelf.fabrics.get(each.fabric)
            for sheet in sheets_of(each, self._work.table):
                scale = self._scale(float(sheet.outline.width))
                preferences = self._look.preferences
                views.append(
                    view_of(
                        sheet,
                        each,
                        self._work.table,
                        fabric,
                        scale,
                        self._look.measure,
                        left_handed=preferences.left_handed,
                    )
                )
        self._views = tuple(views)
        self._place()
        found = next((at for at, spot in enumerate(self.spots) if spot.key == key), -1)
        self._at, self._over = found, None
        self._fit_bars()
        self._redraw()

    def mark(self, keys: frozenset[str]) -> None:
        """Light up the pieces of these keys, as a line of the list asks."""
        if keys != self._marked:
            self._marked = keys
            first = next((spot for spot in self.spots if spot.key in keys), None)
            if first is not None:
                self._show(first.rect)
            self.viewport().update()

    def zoom(self, by: float) -> None:
        """Closer or farther, by a factor."""
        self._zoom_to(self._zoom * by, QPointF(self.viewport().rect().center()))

    def zoom_in(self) -> None:
        """Closer."""
        self.zoom(_STEP)

    def zoom_out(self) -> None:
        """Farther."""
        self.zoom(1 / _STEP)

    def fit(self) -> None:
        """As wide as there is room."""
        self._zoom = 1.0
        self.lay_out()
        self.verticalScrollBar().setValue(0)

    def middle_of(self, spot: Spot) -> QPoint:
        """Where the middle of a piece is seen, in pixels of the viewport."""
        return (spot.rect.center() + self._offset()).toPoint()

    def describe(self, spot: Spot) -> str:
        """A piece in words: its cut size, what it is for, how many there are."""
        each = self._work.chosen
        return "" if each is None else piece_said(each, spot.key, self._look.measure)

    # Where things lie ----------------------------------------------------------------------------------------------

    @property
    def _pixels(self) -> float:
        return _PAPER * self._look.scale.text

    def _scale(self, wide: float) -> float:
        """Inches of paper to the inch of cloth so that all of a width is seen, times the zoom."""
        free = self.viewport().width() / self._pixels - _BESIDE
        return min(max(free, _LEAST_CLOTH) / wide, _LARGEST) * self._zoom

    def _place(self) -> None:
        """Figures below each other, each on its sheet of paper."""
        each = self._work.chosen
        figures: list[_Figure] = []
        spots: list[Spot] = []
        x = top = float(SPACE_WIDE)
        right = 0.0
        for view in self._views:
            if each is None:
                break
            words = captions_of(each, view)
            sheet = _scaled(_around(view.room, room(words)).grown(0.14), self._pixels)
            origin = QPointF(x - sheet.left(), top - sheet.top())
            figures.append(_Figure(view, words, origin, sheet.translated(origin)))
            for shown in shown_pieces(view):
                box = view.box(shown.place)
                if box is not None:
                    spots.append(Spot(shown.key, _scaled(box, self._pixels).translated(origin)))
            top += sheet.height() + SPACE_WIDE
            right = max(right, x + sheet.width())
        self._figures, self.spots = tuple(figures), tuple(spots)
        self._extent = QSize(ceil(right + SPACE_WIDE), ceil(top)) if figures else QSize(0, 0)

    def _fit_bars(self) -> None:
        seen = self.viewport().size()
        for bar, whole, page in (
            (self.horizontalScrollBar(), self._extent.width(), seen.width()),
            (self.verticalScrollBar(), self._extent.height(), seen.height()),
        ):
            bar.setPageStep(page)
            bar.setSingleStep(40)
            bar.setRange(0, max(0, whole - page))

    def _offset(self) -> QPointF:
        """From the whole drawing to what is seen; what is smaller than the room lies in its middle."""
        free = max(0, self.viewport().width() - self._extent.width())
        return QPointF(free / 2 - self.horizontalScrollBar().value(), -self.verticalScrollBar().value())

    def _zoom_to(self, zoom: float, at: QPointF) -> None:
        """Zoom so that what lies under a point stays there."""
        zoom = min(max(zoom, _FARTHEST), _NEAREST)
        if zoom == self._zoom:
            return
        spot, grown = at - self._offset(), zoom / self._zoom
        self._zoom = zoom
        self.lay_out()
        self.horizontalScrollBar().setValue(round(spot.x() * grown - at.x()))
        self.verticalScrollBar().setValue(round(spot.y() * grown - at.y()))

    def _show(self, rect: QRectF) -> None:
        """Bring a place into view."""
        seen = rect.translated(self._offset())
        port = QRectF(self.viewport().rect()).adjusted(SPACE, SPACE, -SPACE, -SPACE)
        for bar, low, high, first, last in (
            (self.horizontalScrollBar(), seen.left(), seen.right(), port.left(), port.right()),
            (self.verticalScrollBar(), seen.top(), seen.bottom(), port.top(), port.bottom()),
        ):
            if low < first or high > last:
                bar.setValue(
                    bar.value() + round(low - first if low < first else min(high - last, low - first))
                )

    def _spot_at(self, point: QPointF) -> Spot | None:
        here = point - self._offset()
        return next((spot for spot in self.spots if spot.rect.contains(here)), None)

    # Painting ------------------------------------------------------------------------------------------------------

    def _redraw(self) -> None:
        self._seen = None
        self.viewport().update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """What is in view, drawn once and kept while only marks change."""
        if self._seen is None or self._seen.deviceIndependentSize().toSize() != self.viewport().size():
            self._seen = self._picture()
        painter = QPainter(self.viewport())
        painter.drawPixmap(0, 0, self._seen)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(self._offset())
        self._paint_marks(painter)
        if not self._figures:
            painter.resetTransform()
            self._paint_nothing(painter)
        painter.end()

    def _picture(self) -> QPixmap:
        ratio = self.devicePixelRatioF()
        seen = self.viewport().size()
        pixmap = QPixmap(seen * ratio)
        pixmap.setDevicePixelRatio(ratio)
        theme = self._look.theme
        pixmap.fill(QColor(theme.flannel))
        painter = QPainter(pixmap)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        offset = self._offset()
        painter.translate(offset)
        port = QRectF(QPointF(0, 0), seen.toSizeF()).translated(-offset)
        for figure in self._figures:
            if not figure.sheet.intersects(port):
                continue
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(paper(theme))
            painter.drawRoundedRect(figure.sheet, RADIUS, RADIUS)
            painter.save()
            painter.setClipRect(port)
            painter.translate(figure.origin)
            self._paint_figure(painter, figure, port.translated(-figure.origin))
            painter.restore()
        painter.end()
        return pixmap

    def _paint_figure(self, painter: QPainter, figure: _Figure, port: QRectF) -> None:
        """The words and, of long cloth, whole strips a little farther than what is seen."""
        view, pen = figure.view, QtPen(painter, self._pixels, self._brushes)
        figure.words(pen)
        if view.sheet.direction != "across" or not view.sheet.strips:
            draw_sheet(view, pen)
            return
        each = self._pixels * view.scale
        seen = (port.top() / each - _MARGIN / view.scale, port.bottom() / each + _MARGIN / view.scale)
        ends = [Fraction(0), *(strip.place.y + strip.place.height for strip in view.strips)]
        top = max((end for end in ends if end <= seen[0]), default=Fraction(0))
        bottom = min((end for end in ends if end >= seen[1]), default=view.bottom)
        with pen.framed(Motion(dy=float(top) * view.scale)):
            draw_sheet(view.between(top, bottom if bottom < ends[-1] else view.bottom), pen)

    def _paint_marks(self, painter: QPainter) -> None:
        """Pieces of the key in hand in the accent; the one that the keys are at stronger."""
        here = self._over or self.current
        keys = self._marked | ({here.key} if here is not None else frozenset())
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for color, width in ((ON_MARK, 5), (MARK, 2)):  # a pale rim, so that it is seen on dark cloth too
            painter.setPen(QPen(color, width))
            for spot in self.spots:
                if spot.key in keys and spot is not here:
                    painter.drawRect(spot.rect)
        if here is not None:
            for color, width in ((ON_MARK, 8), (MARK, 4)):
                painter.setPen(QPen(color, width))
                painter.drawRect(here.rect)

    def _paint_nothing(self, painter: QPainter) -> None:
        font = QFont(self.font())
        font.setPixelSize(self._look.scale.body)
        painter.setFont(font)
        painter.setPen(QColor(self._look.theme.text_soft))
        box = self.viewport().rect().adjusted(SPACE_WIDE, SPACE_WIDE, -SPACE_WIDE, -SPACE_WIDE)
        words = (
            self.tr("No piece of this fabric fits on its cloth.")
            if self._work.chosen is not None
            else self.tr("Nothing is to be cut yet. Hang a block on the wall, and its cloth lies here.")
        )
        painter.drawText(box, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, words)

    # Keys and mouse ------------------------------------------------------------------------------------------------

    def walk(self, by: int) -> None:
        """Go to another piece, along the strips."""
        if self.spots:
            self._at = (self._at + by) % len(self.spots) if self._at >= 0 else (0 if by > 0 else -1)
            self._at %= len(self.spots)
            self._over = None
            self._take()

    def _take(self) -> None:
        """The piece that the keys are at is in hand."""
        spot = self.current
        if spot is None:
            return
        self._show(spot.rect)
        said = self.describe(spot)
        self.said.emit(said)
        self.chosen.emit(spot.key)
        heard(self, said)
        self.viewport().update()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Arrows walk, Enter asks what a piece is for, Escape lets go of it."""
        key = event.key()
        if key in _AHEAD or key in _BACK:
            self.walk(1 if key in _AHEAD else -1)
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self._at = 0 if key == Qt.Key.Key_Home else len(self.spots) - 1
            self._take()
        elif key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            bar = self.verticalScrollBar()
            bar.setValue(bar.value() + bar.pageStep() * (1 if key == Qt.Key.Key_PageDown else -1))
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.current is not None:
            self.asked.emit(self.current.key)
        elif key == Qt.Key.Key_Escape and self.current is not None:
            self._at = -1
            self.said.emit("")
            self.chosen.emit("")
            self.viewport().update()
        else:
            event.ignore()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Tell of what is pointed at."""
        self._point(self._spot_at(event.position()))

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take the piece in hand."""
        spot = self._spot_at(event.position())
        self._at = self.spots.index(spot) if spot is not None else -1
        self._take()
        self.viewport().update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Show what the piece is for."""
        spot = self._spot_at(event.position())
        if spot is not None:
            self.asked.emit(spot.key)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """Scroll; with Ctrl come closer or go farther."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._zoom_to(self._zoom * _STEP ** (event.angleDelta().y() / 120), event.position())
            event.accept()
        else:
            super().wheelEvent(event)

    def viewportEvent(self, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Nothing is under a pointer that has left."""
        if event.type() == QEvent.Type.Leave:
            self._point(None)
        return super().viewportEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """As wide as there is room."""
        super().resizeEvent(event)
        self.lay_out()

    def scrollContentsBy(self, dx: int, dy: int) -> None:  # noqa: N802, ARG002 - Qt's name
        """Draw what has come into view."""
        self._redraw()

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """A screen of other sharpness needs another picture."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.DevicePixelRatioChange:
            self._redraw()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Room for a width of cloth."""
        return QSize(640, 420)

    def _point(self, spot: Spot | None) -> None:
        if spot is not self._over:
            self._over = spot
            here = spot or self.current
            self.said.emit(self.describe(here) if here is not None else "")
            self.viewport().update()


def _around(one: Box, other: Box) -> Box:
    """The box of both."""
    return Box(
        min(one.left, other.left),
        min(one.top, other.top),
        max(one.right, other.right),
        max(one.bottom, other.bottom),
    )


def _scaled(box: Box, pixels: float) -> QRectF:
    return QRectF(
        QPointF(box.left * pixels, box.top * pixels), QPointF(box.right * pixels, box.bottom * pixels)
    )

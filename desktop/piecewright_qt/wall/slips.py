"""Notes on the wall as small slips of paper: painted, found under the pointer, dragged, with a menu of their own."""

from fractions import Fraction
from typing import TYPE_CHECKING

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen
from PySide6.QtWidgets import QApplication, QMenu

from piecewright.edit.registry import call
from piecewright.model.note import Note
from piecewright.units.rounding import nearest
from piecewright.words.message import message
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.wall.gestures import Gesture

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

_EIGHTH = nearest(Fraction(1, 8))
_WIDEST, _LINES = 150, 6
"""Device-independent pixels of text in a line at normal text size, and lines on a slip; the drawer shows all."""
_FOLDED_BELOW = 3.0
"""Device-independent pixels to an inch below which slips are folded up, so that the quilt is seen."""
_FOLDED = 14.0
_PIN = 4.0
_WRAP = Qt.TextFlag.TextWordWrap


class Slips:
    """The slips of one wall. `chosen` is the number of the note that is marked."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self.chosen: int | None = None
        self._lifted: tuple[int, QPointF] | None = None

    @property
    def notes(self) -> tuple[Note, ...]:
        """The notes of what is shown."""
        return self._wall.scene.design.quilt.notes

    def choose(self, index: int | None) -> None:
        """Mark a note, or none."""
        if index != self.chosen:
            self.chosen = index
            self._wall.viewport().update()
            self._wall.note_chosen.emit(index)

    def rect(self, index: int) -> QRectF:
        """Where a note's slip is seen: hanging from its pin."""
        note, (left, top) = self.notes[index], self._wall.scene.center[:2]
        pin = self._wall.camera.point((left + float(note.across), top + float(note.down)))
        if self._lifted is not None and self._lifted[0] == index:
            pin += self._lifted[1]
        size = self._text_rect(note).size()
        wide, high = size.width() + 2 * SPACE, size.height() + 2 * SPACE_TIGHT + _PIN
        if self._are_folded:
            wide = high = _FOLDED
        return QRectF(pin.x() - wide / 2, pin.y() - _PIN, wide, high)

    def at(self, point: QPointF) -> int | None:
        """The number of the topmost note whose slip is under a point of the view."""
        several = reversed(range(len(self.notes)))
        return next((index for index in several if self.rect(index).contains(point)), None)

    def lift(self, index: int, by: QPointF | None) -> None:
        """Show a slip so far from its place while it is dragged; None: back in its place."""
        self._lifted = None if by is None else (index, by)
        self._wall.viewport().update()

    def press(self, point: QPointF) -> Gesture | None:
        """The gesture of a press on a slip; None beside all of them."""
        index = self.at(point)
        if index is None:
            return None
        self.choose(index)
        self._wall.say(message("wall.note", text=self.notes[index].text))
        return _Pull(self._wall, index, point)

    def place(self) -> tuple[Fraction, Fraction]:
        """Where a new note is pinned: in the middle of what is selected, or of what is seen."""
        wall = self._wall
        boxes = [wall.scene.box_of(laid) for laid in wall.laid_at(wall.selection.cells)]
        if boxes:
            middle = (
                (min(box[0] for box in boxes) + max(box[2] for box in boxes)) / 2,
                (min(box[1] for box in boxes) + max(box[3] for box in boxes)) / 2,
            )
        else:
            middle = wall.camera.inches(QRectF(wall.viewport().rect()).center())
        left, top = wall.scene.center[:2]
        return _EIGHTH(Fraction(middle[0] - left)), _EIGHTH(Fraction(middle[1] - top))

    def menu(self, index: int) -> QMenu:
        """What can be done with a note; the menu goes when it closes."""
        menu = QMenu(self._wall)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        theme = self._wall.look.theme
        menu.addAction(icon("edit", theme), _say("Write it anew…"), lambda: self._wall.note_asked.emit(index))
        remove = call("remove-note", index=index)
        menu.addAction(
            icon("delete", theme), _say("Take the note off"), lambda: self._wall.document.perform(remove)
        )
        return menu

    def paint(self, painter: QPainter, area: QRectF) -> None:
        """Paint the slips that show in an area of the view."""
        for index in range(len(self.notes)):
            rect = self.rect(index)
            if rect.adjusted(-4, -4, 4, 4).intersects(area):
                self._paint_one(painter, index, rect)

    @property
    def _are_folded(self) -> bool:
        camera = self._wall.camera
        return camera.pixels / camera.ratio < _FOLDED_BELOW

    def _font(self) -> QFont:
        font = QFont(self._wall.font())
        font.setPixelSize(self._wall.look.scale.small)
        return font

    def _text_rect(self, note: Note) -> QRectF:
        metrics = QFontMetricsF(self._font())
        width, most = _WIDEST * self._wall.look.scale.text, metrics.lineSpacing() * _LINES
        whole = metrics.boundingRect(QRectF(0, 0, width, 1e6), _WRAP, note.text)
        return QRectF(0, 0, max(whole.width(), metrics.height()), min(whole.height(), most))

    def _paint_one(self, painter: QPainter, index: int, rect: QRectF) -> None:
        theme, note = self._wall.look.theme, self.notes[index]
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        shadow = QColor("#000000")
        shadow.setAlphaF(0.25)
        painter.fillRect(rect.translated(1.5, 2), shadow)
        is_chosen = index == self.chosen
        painter.setPen(QPen(QColor(theme.accent if is_chosen else theme.outline), 2 if is_chosen else 1))
        painter.setBrush(QColor(theme.raised))
        painter.drawRect(rect)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(theme.accent))
        painter.drawEllipse(QPointF(rect.center().x(), rect.top() + _PIN), _PIN, _PIN)
        if not self._are_folded:
            painter.setFont(self._font())
            painter.setPen(QColor(theme.text))
            room = rect.adjusted(SPACE, SPACE_TIGHT + _PIN, -SPACE + 1, -SPACE_TIGHT + 1)
            painter.save()
            painter.setClipRect(room, Qt.ClipOperation.IntersectClip)
            painter.drawText(
                QRectF(room.topLeft(), self._text_rect(note).size().expandedTo(room.size())), _WRAP, note.text
            )
            painter.restore()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # noqa: FBT003 - Qt's own signature


class _Pull(Gesture):
    """A slip on the pointer."""

    def __init__(self, wall: "WallView", index: int, at: QPointF) -> None:
        super().__init__(wall)
        self._index, self._at, self._by = index, at, QPointF()
        self._moves = False

    def move(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """The slip follows, once it is no longer a click."""
        del keys
        self._by = point - self._at
        self._moves = self._moves or self._by.manhattanLength() >= QApplication.startDragDistance()
        if self._moves:
            self.wall.slips.lift(self._index, self._by)

    def release(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Pin it here."""
        self.move(point, keys)
        self.wall.slips.lift(self._index, None)
        if self._moves:
            inch = self.wall.camera.pixels / self.wall.camera.ratio
            across, down = (_EIGHTH(Fraction(way / inch)) for way in (self._by.x(), self._by.y()))
            self.wall.document.perform(call("move-note", index=self._index, across=across, down=down))

    def give_up(self) -> None:
        """Back in its place."""
        self.wall.slips.lift(self._index, None)


def _say(text: str) -> str:
    return QCoreApplication.translate("wall", text)

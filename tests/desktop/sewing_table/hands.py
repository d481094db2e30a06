"""Hands at the table top: the mouse as Qt delivers it, and keys."""

from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent, QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from piecewright.making.recipe import Recipe
from piecewright_qt.sewing_table.lying import Lying
from piecewright_qt.sewing_table.table_top import TableTop
from piecewright_qt.wall.mime import block_mime, fabric_mime
from tests.desktop.sewing_table.conftest import NONE, Work

LEFT = Qt.MouseButton.LeftButton
ONE_STRIP = {
    "recipe": 1,
    "name": "By hand",
    "steps": [{"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "20"}}],
    "block": ["a"],
}


def one_strip() -> Recipe:
    """A recipe of one strip laid: where inventing begins."""
    return Recipe.from_plain(ONE_STRIP)


class Hands:
    """Works at the table top of a Sewing table."""

    def __init__(self, work: Work) -> None:
        self.work = work

    @property
    def top(self) -> TableTop:
        return self.work.table.work.top

    @property
    def names(self) -> list[str]:
        return [piece.name for piece in self.top.pieces]

    @property
    def line(self) -> str:
        return self.work.table.work.line.text()

    @property
    def last(self) -> dict[str, object]:
        return self.work.steps[self.work.bench.step]

    def piece(self, name: str) -> Lying:
        found = self.top.piece(name)
        assert found is not None, (name, self.names)
        return found

    def middle(self, name: str) -> QPointF:
        return self.piece(name).rect.center()

    def press(self, at: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
        QTest.mousePress(self.top, LEFT, keys, at.toPoint())

    def move(self, at: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
        place = self.top.mapToGlobal(at)
        none = Qt.MouseButton.NoButton
        QApplication.sendEvent(self.top, QMouseEvent(QEvent.Type.MouseMove, at, place, none, LEFT, keys))

    def release(self, at: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
        QTest.mouseRelease(self.top, LEFT, keys, at.toPoint())
        QApplication.processEvents()

    def pull(self, start: QPointF, end: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
        """Press and move in steps, the button still held."""
        self.press(start)
        for share in (0.2, 0.5, 0.8, 1.0):
            self.move(start + (end - start) * share, keys)

    def drag(self, start: QPointF, end: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
        self.pull(start, end, keys)
        self.release(end, keys)

    def click(self, at: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
        QTest.mouseClick(self.top, LEFT, keys, at.toPoint())
        QApplication.processEvents()

    def to_edge(self, name: str, side: str, along: float = 0.5) -> QPointF:
        """A point just outside a side of a piece."""
        start, end = self.piece(name).edge(side)  # type: ignore[arg-type]
        out = {"left": (-4, 0), "right": (4, 0), "top": (0, -4), "bottom": (0, 4)}[side]
        return start + (end - start) * along + QPointF(*out)

    def sew(
        self, name: str, to: str, side: str, along: float = 0.5, keys: Qt.KeyboardModifier = NONE
    ) -> None:
        self.drag(self.middle(name), self.to_edge(to, side, along), keys)

    def cut(self, name: str, side: str, inches: float, keys: Qt.KeyboardModifier = NONE) -> None:
        """Lay the ruler along a side and draw it inward by so many inches of cloth."""
        piece = self.piece(name)
        start, end = piece.edge(side)  # type: ignore[arg-type]
        into = {"left": (1, 0), "right": (-1, 0), "top": (0, 1), "bottom": (0, -1)}[side]
        at = start + (end - start) * 0.35
        self.drag(at, at + QPointF(*into) * inches * piece.inch, keys)

    def drop_fabric(self, index: int, on: QWidget | None = None) -> None:
        """Let a fabric of the shelf fall on the table."""
        mime = fabric_mime(self.work.document.design.fabrics[index].id)
        drop_on(on or self.top, mime, QPoint(90, 60))

    def drop_block(self, index: int) -> bool:
        """Let a block of the shelf fall on the table."""
        return drop_on(self.top, block_mime(self.work.document.design.blocks[index].id), QPoint(90, 60))

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = NONE) -> None:
        QTest.keyClick(self.top, key, keys)
        QApplication.processEvents()

    def type(self, text: str) -> None:
        QTest.keyClicks(self.top, text)
        QApplication.processEvents()


def drop_on(widget: QWidget, mime: QMimeData, at: QPoint) -> bool:
    """What a drag from elsewhere delivers."""
    action, button = Qt.DropAction.CopyAction, LEFT
    enter = QDragEnterEvent(at, action, mime, button, NONE)
    QApplication.sendEvent(widget, enter)
    if not enter.isAccepted():
        return False
    QApplication.sendEvent(widget, QDragMoveEvent(at, action, mime, button, NONE))
    fall = QDropEvent(QPointF(at), action, mime, button, NONE)
    QApplication.sendEvent(widget, fall)
    QApplication.processEvents()
    return fall.isAccepted()

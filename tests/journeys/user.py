"""A quilter at the window: mouse and keys as Qt delivers them."""

from pathlib import Path

from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QPushButton, QToolButton, QWidget
from pytestqt.qtbot import QtBot

from piecewright.model.design import Design
from piecewright_qt.start_page import StartPage
from piecewright_qt.wall.mime import block_mime, fabric_mime
from piecewright_qt.window import Window
from piecewright_qt.workroom import Workroom
from tests.desktop.wall.hands import at, click, drag, drop, placed

CTRL, SHIFT, ALT, NONE = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
    Qt.KeyboardModifier.NoModifier,
)
SIZE = (1480, 920)


class User:
    """Works in one window."""

    def __init__(self, window: Window, qtbot: QtBot) -> None:
        self.window = window
        self.qtbot = qtbot
        window.resize(*SIZE)
        qtbot.waitExposed(window)
        window.activateWindow()
        QApplication.processEvents()
        window.wall.fit()
        window.wall.settle()

    @property
    def design(self) -> Design:
        """The design as it stands."""
        return self.window.document.design

    @property
    def count(self) -> int:
        """How many blocks hang."""
        return len(placed(self.design))

    def block(self, name: str) -> str:
        """A block of the shelf by name."""
        return next(one.id for one in self.design.blocks if one.name == name)

    def cell(self, column: float, row: float) -> QPoint:
        """A point of the wall's view."""
        return at(self.window.wall, column, row)

    def drop_block(self, name: str, column: float, row: float) -> bool:
        """Let a block of the shelf fall with its middle there."""
        return drop(self.window.wall, block_mime(self.block(name)), self.cell(column, row))

    def drop_fabric(self, index: int, column: float, row: float, keys: Qt.KeyboardModifier = NONE) -> bool:
        """Let a fabric fall there."""
        mime = fabric_mime(self.design.fabrics[index].id)
        return drop(self.window.wall, mime, self.cell(column, row), keys)

    def drop_ten(self) -> None:
        """Ten blocks of eight inches, two rows of five."""
        for number in range(10):
            assert self.drop_block("Rail fence of four", number % 5 * 4 + 2, number // 5 * 4 + 2)

    @property
    def tried_out(self) -> int | None:
        """How many blocks the materials count in what is only tried out; None where nothing is."""
        replan = self.window.replan
        return replan.shown.block_count if replan.is_preview else None

    def click(self, column: float, row: float, keys: Qt.KeyboardModifier = NONE) -> None:
        """Click on the wall."""
        click(self.window.wall, self.cell(column, row), keys)

    def band(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Draw a band on the wall."""
        drag(self.window.wall, self.cell(*start), self.cell(*end))

    def drag(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Drag a block on the wall."""
        drag(self.window.wall, self.cell(*start), self.cell(*end))

    def key(self, key: Qt.Key, keys: Qt.KeyboardModifier = NONE, on: QWidget | None = None) -> None:
        """Press a key on the wall, or on what has the keys."""
        target = on or self.window.wall
        target.setFocus()
        QTest.keyClick(target, key, keys)
        QApplication.processEvents()

    def keys(self, action: str) -> None:
        """Press the first keys of an action, wherever the keys are."""
        sequence = self.action(action).shortcuts()[0]
        QTest.keySequence(QApplication.focusWidget() or self.window, sequence)
        QApplication.processEvents()

    def action(self, name: str) -> QAction:
        """An action by name; it must be usable."""
        action = self.window.actions_by_name[name]
        assert action.isEnabled(), f"{name} can not be done now"
        return action

    def press(self, words: str, within: QWidget | None = None) -> None:
        """Press a button by its words, with the mouse."""
        QTest.mouseClick(button(within or self.window, words), Qt.MouseButton.LeftButton)
        QApplication.processEvents()


def button(within: QWidget, words: str) -> QAbstractButton:
    """A visible button by its words or its name."""
    for kind in (QPushButton, QToolButton):
        for one in within.findChildren(kind):
            if one.isVisibleTo(within) and words in (one.text(), one.accessibleName()):
                return one
    raise AssertionError(f"no button {words!r}")


def start_page_of(workroom: Workroom, qtbot: QtBot) -> StartPage:
    """The start page, shown and filled."""
    workroom.show_start()
    page = workroom.start_page
    assert page is not None
    qtbot.waitExposed(page)
    qtbot.waitUntil(lambda: bool(page.samples.cards) and workroom.runner.is_idle, timeout=20_000)
    return page


def new_design(workroom: Workroom, qtbot: QtBot) -> User:
    """What pressing "New design" on the start page opens."""
    page = start_page_of(workroom, qtbot)
    QTest.mouseClick(button(page, "New design"), Qt.MouseButton.LeftButton)
    return User(workroom.windows[-1], qtbot)


def opened(workroom: Workroom, qtbot: QtBot, path: Path) -> User:
    """A file, opened."""
    assert workroom.open(path)
    return User(workroom.windows[-1], qtbot)

"""The binding must keep its references to None in overridden events: 7 000 lost ones end the program."""

import sys

from PySide6.QtCore import QPoint
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

MOVES = 20_000


class Watcher(QWidget):
    """Counts the moves that reach its override."""

    moves = 0

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """One more."""
        self.moves += 1
        event.accept()


def test_mouse_moves_leave_the_references_to_none_alone(qtbot: QtBot) -> None:
    widget = Watcher()
    widget.setMouseTracking(True)
    qtbot.addWidget(widget)
    widget.show()
    before = sys.getrefcount(None)
    for step in range(MOVES):
        QTest.mouseMove(widget, QPoint(1 + step % 50, 1 + step % 40), -1)
    assert widget.moves == MOVES
    assert abs(sys.getrefcount(None) - before) < MOVES / 20

"""The binding must not lose references to None in overridden events: about 7 000 of them would end the program."""

import sys

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

MOVES = 20_000


class Watcher(QWidget):
    """Counts the moves that reach its override."""

    moves = 0

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """One more."""
        self.moves += 1


def test_mouse_moves_leave_the_references_to_none_alone(qtbot: QtBot) -> None:
    widget = Watcher()
    widget.setMouseTracking(True)
    qtbot.addWidget(widget)
    before = sys.getrefcount(None)
    for step in range(MOVES):
        point = QPointF(step % 50, step % 40)
        event = QMouseEvent(
            QEvent.Type.MouseMove, point, point, Qt.MouseButton.NoButton, Qt.MouseButton.NoButton, Qt.KeyboardModifier.NoModifier
        )
        QApplication.sendEvent(widget, event)
    assert widget.moves == MOVES
    assert abs(sys.getrefcount(None) - before) < MOVES / 20

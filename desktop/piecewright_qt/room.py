"""Room for a table: where a window is narrow for its text, the materials step aside while a table is worked at."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QWidget

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_BOTH = 1180
"""Pixels at text of 100 percent: shelf, a table with its own columns, and materials."""


class Room(QObject):
    """Shows or hides a column of the window, by its width, its text and the place in view."""

    def __init__(self, window: "Window", column: QWidget) -> None:
        super().__init__(window)
        self._window, self._column = window, column
        window.places.currentChanged.connect(self._make_room)
        window.look.changed.connect(self._make_room)
        window.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """A window that grows has room again."""
        if event.type() == QEvent.Type.Resize:
            self._make_room()
        return super().eventFilter(watched, event)

    def _make_room(self, *_what: object) -> None:
        is_narrow = self._window.width() < _BOTH * self._window.look.scale.text
        self._column.setVisible(self._window.place == "wall" or not is_narrow)

"""Puts work off until a window has been seen: the engine is read in after that."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QWidget

_NEVER_SEEN = 2000
"""Milliseconds after which a window that nothing shows, a minimized one, gets its work done all the same."""


class AfterFirstPaint(QObject):
    """Calls `then` once, as soon as the widget has been painted and the picture has reached the screen."""

    def __init__(self, widget: QWidget, then: Callable[[], object]) -> None:
        super().__init__(widget)
        self._then: Callable[[], object] | None = then
        widget.installEventFilter(self)
        QTimer.singleShot(_NEVER_SEEN, self, self._go)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """The first paint event; what is painted is handed to the screen before the next timer."""
        if event.type() == QEvent.Type.Paint:
            watched.removeEventFilter(self)
            QTimer.singleShot(0, self, self._go)
        return False

    def _go(self) -> None:
        then, self._then = self._then, None
        if then is not None:
            then()

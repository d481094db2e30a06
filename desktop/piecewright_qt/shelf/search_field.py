"""The search field of a list: a sign, a way to clear it, and a way down into what it found."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QAction, QKeyEvent
from PySide6.QtWidgets import QLineEdit, QToolButton

from piecewright_qt.look import Look
from piecewright_qt.theme.icons import icon


class SearchField(QLineEdit):
    """`down` follows the key that leads into the list."""

    down = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._sign = QAction(self.tr("Search"), self)
        self._clear = QAction(self.tr("Clear the search"), self)
        self._clear.triggered.connect(self.clear)
        self.addAction(self._sign, QLineEdit.ActionPosition.LeadingPosition)
        self.addAction(self._clear, QLineEdit.ActionPosition.TrailingPosition)
        for button in self.findChildren(QToolButton):
            button.setAccessibleName(button.defaultAction().text())
        self._clear.setVisible(False)
        self.textChanged.connect(self._offer_to_clear)
        look.changed.connect(self.dress)
        self.dress()

    def dress(self) -> None:
        """Signs in the theme's ink."""
        self._sign.setIcon(icon("search", self._look.theme))
        self._clear.setIcon(icon("close", self._look.theme))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Down leads on, Escape clears what is typed."""
        if event.key() == Qt.Key.Key_Down:
            self.down.emit()
        elif event.key() == Qt.Key.Key_Escape and self.text():
            self.clear()
        else:
            super().keyPressEvent(event)

    def _offer_to_clear(self, text: str) -> None:
        self._clear.setVisible(bool(text))

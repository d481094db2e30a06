"""A quiet bar above the wall that says one thing and offers one way on; it stays until it is answered."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QToolButton, QWidget

from piecewright_qt.look import Look
from piecewright_qt.theme.icons import icon, inked
from piecewright_qt.theme.tokens import SPACE


class NoticeBar(QWidget):
    """Hidden while there is nothing to say."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.setProperty("place", "bar")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        row = QHBoxLayout(self)
        row.setContentsMargins(SPACE * 2, SPACE, SPACE, SPACE)
        self._sign = QLabel()
        self._text = QLabel()
        self._text.setWordWrap(True)
        self._text.setTextFormat(Qt.TextFormat.PlainText)
        self._way = QPushButton()
        self._close = QToolButton()
        self._close.setAccessibleName(self.tr("Close this notice"))
        self._close.setToolTip(self.tr("Close this notice"))
        self._close.clicked.connect(self.clear)
        self._answer: Callable[[], object] | None = None
        self._way.clicked.connect(self._go)
        row.addWidget(self._sign)
        row.addWidget(self._text, 1)
        row.addWidget(self._way)
        row.addWidget(self._close)
        look.changed.connect(self._dress)
        self._dress()
        self.hide()

    def say(self, text: str, way: str = "", answer: Callable[[], object] | None = None) -> None:
        """Show a sentence, with a button for the way on where there is one."""
        self._text.setText(text)
        self._way.setText(way)
        self._way.setVisible(bool(way))
        self._answer = answer
        self.setAccessibleName(text)
        self.show()

    def clear(self) -> None:
        """Nothing more to say."""
        self._answer = None
        self.hide()

    def _go(self) -> None:
        answer = self._answer
        if answer is not None:
            answer()

    def _dress(self) -> None:
        theme = self._look.theme
        self._sign.setPixmap(inked("caution", theme.warn, sharpness=self.devicePixelRatioF()))
        self._close.setIcon(icon("close", theme))

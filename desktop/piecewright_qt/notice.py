"""A quiet bar above the wall that says one thing and offers ways on; it stays until it is answered."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QToolButton, QWidget

from piecewright_qt.look import Look
from piecewright_qt.theme.icons import icon, inked
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE, SPACE_WIDE

Way = tuple[str, Callable[[], object]]


@dataclass(frozen=True)
class _Note:
    about: str
    text: str
    ways: tuple[Way, ...]


class NoticeBar(QWidget):
    """Hidden while there is nothing to say. The latest note is shown; those before it wait behind."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._notes: list[_Note] = []
        self.setProperty("place", "notice")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(SPACE_WIDE, SPACE, SPACE, SPACE)
        self._row.setSpacing(SPACE)
        self._sign = QLabel()
        self._text = QLabel()
        self._text.setWordWrap(True)
        self._text.setTextFormat(Qt.TextFormat.PlainText)
        self._buttons: list[QPushButton] = []
        self._close = QToolButton()
        self._close.setAccessibleName(self.tr("Close this notice"))
        self._close.setToolTip(self.tr("Close this notice"))
        self._close.clicked.connect(self._put_away)
        self._row.addWidget(self._sign)
        self._row.addWidget(self._text, 1)
        self._row.addWidget(self._close)
        look.changed.connect(self._dress)
        self._dress()
        self.hide()

    @property
    def text(self) -> str:
        """What is being said; "" while nothing is."""
        return self._notes[-1].text if self._notes else ""

    def say(self, text: str, *ways: Way, about: str = "") -> None:
        """Say a sentence, with a button for each way on. It takes the place of what was said `about` the same."""
        self.clear(about or text)
        self._notes.append(_Note(about or text, text, ways))
        self._show()

    def clear(self, about: str) -> None:
        """Nothing more to say about something."""
        self._notes = [note for note in self._notes if note.about != about]
        self._show()

    def _put_away(self) -> None:
        if self._notes:
            self.clear(self._notes[-1].about)

    def _show(self) -> None:
        for button in self._buttons:
            button.hide()
            button.deleteLater()
        self._buttons = []
        self._text.setText(self.text)
        self.setAccessibleName(self.text)
        for words, answer in self._notes[-1].ways if self._notes else ():
            button = QPushButton(words)
            button.clicked.connect(lambda _checked=False, answer=answer: answer())
            self._row.insertWidget(self._row.count() - 1, button)
            self._buttons.append(button)
        self.setVisible(bool(self._notes))

    def _dress(self) -> None:
        theme = self._look.theme
        self._sign.setPixmap(inked("caution", theme.warn, sharpness=self.devicePixelRatioF()))
        self._sign.setFixedWidth(SPACE_PAGE)
        self._close.setIcon(icon("close", theme))

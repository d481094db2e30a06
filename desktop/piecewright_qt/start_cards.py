"""Pictures to press, in as many columns as there is room for."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QIcon, QPixmap, QResizeEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

_WIDE = 208
_PICTURE = QSize(_WIDE, 176)


class PictureCard(QWidget):
    """A picture to press, with a name and a line under it; `fault` says why it can not be pressed."""

    def __init__(self, name: str, words: str, run: Callable[[], object], fault: str = "") -> None:
        super().__init__()
        self.button = QToolButton()
        self.button.setIconSize(_PICTURE - QSize(2 * SPACE, 2 * SPACE))
        self.button.setFixedSize(_PICTURE)
        self.button.setProperty("place", "card")
        self.button.setAccessibleName(f"{name}: {fault or words}")
        self.button.setToolTip(name)
        self.button.setEnabled(not fault)
        self.button.clicked.connect(lambda _checked=False: run())
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(SPACE_TIGHT)
        self._column.addWidget(self.button)
        for text, kind in ((name, "strong"), (fault or words, "small")):
            label = QLabel(text)
            label.setProperty("type", kind)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            self._column.addWidget(label)
        self._ways = QHBoxLayout()
        self._ways.setSpacing(SPACE)
        self._column.addLayout(self._ways)
        self._column.addStretch(1)
        self.setFixedWidth(_WIDE)

    def show_picture(self, data: bytes) -> None:
        """Show a PNG, smoothly fitted in."""
        pixmap = QPixmap()
        if data and pixmap.loadFromData(data):
            sharp = self.devicePixelRatioF()
            fitted = pixmap.scaled(
                self.button.iconSize() * sharp,
                Qt.AspectRatioMode.KeepAspectRatio,
                Qt.TransformationMode.SmoothTransformation,
            )
            fitted.setDevicePixelRatio(sharp)
            self.button.setIcon(QIcon(fitted))

    def add_way(self, words: str, run: Callable[[], object]) -> QPushButton:
        """A button under the words."""
        button = QPushButton(words)
        button.clicked.connect(lambda _checked=False: run())
        self._ways.addWidget(button)
        return button


class CardGrid(QWidget):
    """A heading with cards below; hidden while there are none."""

    def __init__(self, heading: str) -> None:
        super().__init__()
        self.cards: list[PictureCard] = []
        self._across = 0
        title = QLabel(heading)
        title.setProperty("type", "lead")
        column = QVBoxLayout(self)
        column.setContentsMargins(0, SPACE, 0, SPACE)
        column.setSpacing(SPACE)
        column.addWidget(title)
        self._grid = QGridLayout()
        self._grid.setHorizontalSpacing(SPACE_WIDE)
        self._grid.setVerticalSpacing(SPACE_WIDE)
        column.addLayout(self._grid)
        self.setAccessibleName(heading)
        self.hide()

    def show_cards(self, cards: list[PictureCard]) -> None:
        """Put these in the place of those."""
        for card in self.cards:
            card.hide()
            card.deleteLater()
        self.cards = cards
        self._across = 0
        self.setVisible(bool(cards))
        self._lay_out()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """More or fewer columns."""
        super().resizeEvent(event)
        self._lay_out()

    def _lay_out(self) -> None:
        across = max(1, (self.width() + SPACE_WIDE) // (_WIDE + SPACE_WIDE))
        if across == self._across or not self.cards:
            return
        if self._across:
            self._grid.setColumnStretch(self._across, 0)
        self._across = across
        for number, card in enumerate(self.cards):
            self._grid.addWidget(card, number // across, number % across, Qt.AlignmentFlag.AlignTop)
        self._grid.setColumnStretch(across, 1)

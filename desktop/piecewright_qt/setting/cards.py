"""Cards with pictures of the own quilt, set in every way; to look at one is to see it on the wall."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QFocusEvent, QIcon, QKeyEvent, QPixmap, QResizeEvent
from PySide6.QtWidgets import QListView, QListWidget, QListWidgetItem

from piecewright_qt.look import Look
from piecewright_qt.theme.tokens import SPACE

PICTURE = QSize(84, 84)
_LINES = 2
"""Lines of text that a name may take."""


class WayCards(QListWidget):
    """`looked(number)`: a card is under the pointer, or the keys are on it; -1: none is. `taken(number)`: chosen."""

    looked = Signal(int)
    taken = Signal(int)

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setWordWrap(True)
        self.setTextElideMode(Qt.TextElideMode.ElideNone)
        self.setIconSize(PICTURE)
        self.setMouseTracking(True)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.itemEntered.connect(lambda item: self.looked.emit(self.row(item)))
        self.currentRowChanged.connect(self._go_to)
        self.itemClicked.connect(lambda item: self.taken.emit(self.row(item)))

    def show_names(self, names: Sequence[tuple[str, str]]) -> None:
        """A card for each name with its line of words."""
        self.clear()
        blank = QPixmap(PICTURE)
        blank.fill(Qt.GlobalColor.transparent)
        for name, words in names:
            item = QListWidgetItem(QIcon(blank), name)
            item.setTextAlignment(Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop)
            item.setToolTip(words)
            self.addItem(item)
        self._lay_out()

    def show_current(self, number: int) -> None:
        """Which of them the quilt has, silently; while the keys are here they stay where they are."""
        if not self.hasFocus():
            self.blockSignals(True)  # noqa: FBT003 - Qt's own signature
            self.setCurrentRow(number)
            self.blockSignals(False)  # noqa: FBT003 - Qt's own signature

    def show_words(self, number: int, words: str) -> None:
        """What a card says besides its name."""
        item = self.item(number)
        item.setToolTip(words)
        item.setData(Qt.ItemDataRole.AccessibleDescriptionRole, words)

    def show_picture(self, number: int, picture: QPixmap) -> None:
        """The picture of a card, its look the same when chosen."""
        icon = QIcon(picture)
        icon.addPixmap(picture, QIcon.Mode.Selected)
        self.item(number).setIcon(icon)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter or Space chooses."""
        keys = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
        if event.key() in keys and self.currentRow() >= 0:
            self.taken.emit(self.currentRow())
        elif event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """With the keys here, one card is looked at; by the mouse the one it is on."""
        super().focusInEvent(event)
        by_hand = (Qt.FocusReason.MouseFocusReason, Qt.FocusReason.ActiveWindowFocusReason)
        if event.reason() not in by_hand and self.currentRow() < 0 and self.count():
            self.setCurrentRow(0)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """The keys went on: nothing is looked at."""
        super().focusOutEvent(event)
        if event.reason() not in (Qt.FocusReason.ActiveWindowFocusReason, Qt.FocusReason.PopupFocusReason):
            self.looked.emit(-1)

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """The pointer went on."""
        super().leaveEvent(event)
        self.looked.emit(-1)

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """As high as its rows: the drawer scrolls, not the cards."""
        super().resizeEvent(event)
        self._lay_out()

    def changeEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """Larger type takes larger cards."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._lay_out()

    def _go_to(self, number: int) -> None:
        if self.hasFocus() and number >= 0:
            self.looked.emit(number)

    def _lay_out(self) -> None:
        metrics = self.fontMetrics()
        words = max(
            (
                metrics.horizontalAdvance(word)
                for n in range(self.count())
                for word in self.item(n).text().split()
            ),
            default=0,
        )
        width = max(PICTURE.width(), words) + 2 * SPACE
        room = max(self.viewport().width() - 2, 1)
        across = max(1, room // width)
        grid = QSize(room // across, PICTURE.height() + _LINES * metrics.height() + 2 * SPACE)
        if grid != self.gridSize():
            self.setGridSize(grid)
        rows = -(-self.count() // across)
        height = rows * grid.height() + 2 * self.frameWidth() + SPACE
        if height != self.height():
            self.setFixedHeight(height)

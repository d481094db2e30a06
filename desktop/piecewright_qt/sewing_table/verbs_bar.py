"""The quiet row of verbs at the edge of the table: as many as fit, the others under one button."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QSize
from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QMenu, QSizePolicy, QToolButton, QWidget

from piecewright_qt.look import Look
from piecewright_qt.sewing_table.verbs import VERB_ROWS
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE


class VerbsBar(QWidget):
    """A button for each verb, which does it to the piece in hand after the step in view."""

    def __init__(self, look: Look, do: Callable[[str], None]) -> None:
        super().__init__()
        self._look = look
        self._row = QHBoxLayout(self)
        self._row.setContentsMargins(SPACE_WIDE, SPACE_TIGHT, SPACE_WIDE, SPACE)
        self._row.setSpacing(SPACE_TIGHT)
        self.buttons: dict[str, QToolButton] = {}
        for word, verb in VERB_ROWS.items():
            button = QToolButton()
            button.setText(verb.name)
            button.setToolTip(verb.hint)
            button.setAccessibleName(verb.name)
            button.setAccessibleDescription(verb.hint)
            button.clicked.connect(partial(do, word))
            self.buttons[word] = button
            self._row.addWidget(button)
        self.more = QToolButton()
        self.more.setText(self.tr("More"))
        self.more.setAccessibleName(self.tr("More to do with the piece in hand"))
        self.more.setToolTip(self.tr("More to do with the piece in hand"))
        self.more.setPopupMode(QToolButton.ToolButtonPopupMode.InstantPopup)
        menu = QMenu(self.more)
        self._entries: dict[str, QAction] = {}
        for word, verb in VERB_ROWS.items():
            action = menu.addAction(f"{verb.name}\t{verb.letter}", partial(do, word))
            action.setData(word)
            self._entries[word] = action
        self.more.setMenu(menu)
        self._row.addWidget(self.more)
        self._row.addStretch(1)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        look.changed.connect(self.fit)

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As narrow as the button under which all the others are."""
        return QSize(self.more.sizeHint().width() + 2 * SPACE_WIDE, super().minimumSizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """As many as fit."""
        super().resizeEvent(event)
        self.fit()

    def fit(self) -> None:
        """Show the buttons for which there is room; the others are in the menu."""
        room = self.width() - 2 * SPACE_WIDE
        widths = [button.sizeHint().width() + SPACE_TIGHT for button in self.buttons.values()]
        if sum(widths) > room:
            room -= self.more.sizeHint().width()
        used, hidden = 0, False
        for (word, button), width in zip(self.buttons.items(), widths, strict=True):
            used += width
            hidden = hidden or used > room
            button.setVisible(not hidden)
            self._entries[word].setVisible(hidden)
        self.more.setVisible(hidden)

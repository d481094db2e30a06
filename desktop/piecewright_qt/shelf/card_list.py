"""A list of cards: keys of its own, a menu, drags; every way to do a thing ends in the same call."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import (
    QAbstractListModel,
    QEvent,
    QItemSelectionModel,
    QModelIndex,
    QPoint,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import (
    QContextMenuEvent,
    QDrag,
    QFocusEvent,
    QKeyEvent,
    QKeySequence,
    QMouseEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QFrame, QListView, QMenu


@dataclass(frozen=True)
class CardAction:
    """Something to do with the chosen card, by menu and by key; `apart` draws a line above.

    `text` is a function where the words depend on the card.
    """

    text: str | Callable[[], str]
    keys: str
    run: Callable[[], object]
    apart: bool = False


class CardList(QListView):
    """`actions_of_card` are those of the chosen card, `drag_of` makes its drag, `steps` are keys of single arrows.

    Where `may_paste` says so, the keys for pasting mean `paste`; else they are left to the window.
    `is_part` tells whether a point of a card is a part with presses of its own. `taken`: Enter or a double click.
    """

    taken = Signal()

    def __init__(self, model: QAbstractListModel) -> None:
        super().__init__()
        self.actions_of_card: tuple[CardAction, ...] = ()
        self.drag_of: Callable[[QModelIndex], QDrag | None] | None = None
        self.steps: Mapping[int, Callable[[], bool]] = {}
        self.may_paste: Callable[[], bool] = lambda: False
        self.paste: Callable[[], object] = lambda: None
        self.is_part: Callable[[QModelIndex, QPoint], bool] = lambda _index, _point: False
        self.setModel(model)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setStyleSheet("QListView { background: transparent; } QListView:focus { border: none; }")
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setMovement(QListView.Movement.Static)
        self.setDragEnabled(True)
        self.setMouseTracking(True)
        self.setUniformItemSizes(False)

    def lay_out_as_grid(self, drags: bool = True) -> None:
        """Cards beside each other, from row to row; they stay where they are, whatever may be dragged off."""
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setDragEnabled(drags)

    def choose(self, index: QModelIndex) -> None:
        """Choose a card and bring it into view."""
        self.setCurrentIndex(index)
        self.selectionModel().select(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self.scrollTo(index)

    def startDrag(self, supported: Qt.DropAction) -> None:  # noqa: N802, ARG002 - Qt's name
        """Let the chosen card leave the shelf; a copy, the shelf keeps its own."""
        index = self.currentIndex()
        drag = self.drag_of(index) if self.drag_of is not None and index.isValid() else None
        if drag is not None:
            drag.exec(Qt.DropAction.CopyAction)

    def event(self, event: QEvent) -> bool:
        """Keys of the shelf come before those of the window while the list has them."""
        override = event.type() == QEvent.Type.ShortcutOverride
        if override and isinstance(event, QKeyEvent) and (self._pastes(event) or self._action(event)):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter takes the card; keys of actions do them; arrows step."""
        step = self.steps.get(event.key())
        action = self._action(event)
        if action is not None:
            action.run()
        elif self._pastes(event):
            self.paste()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            if self.currentIndex().isValid():
                self.taken.emit()
        elif step is None or event.modifiers() or not step():
            super().keyPressEvent(event)

    def keyboardSearch(self, search: str) -> None:  # noqa: N802 - Qt's name
        """Letters are for actions; the search field finds names."""

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: N802 - Qt's name
        """The menu of the card under the pointer, or of the chosen one where a key asks."""
        by_key = event.reason() == QContextMenuEvent.Reason.Keyboard
        index = self.currentIndex() if by_key else self.indexAt(event.pos())
        if index.isValid():
            self.choose(index)
            place = self.visualRect(index).center() if by_key else event.pos()
            self.menu().popup(self.viewport().mapToGlobal(place))

    def menu(self) -> QMenu:
        """A fresh menu of the actions of the chosen card."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for row in self.actions_of_card:
            if row.apart:
                menu.addSeparator()
            keys = QKeySequence(row.keys).toString(QKeySequence.SequenceFormat.NativeText)
            text = row.text if isinstance(row.text, str) else row.text()
            menu.addAction(f"{text}\t{keys}" if keys else text, row.run)
        return menu

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """With the keys here, one card is the chosen one."""
        super().focusInEvent(event)
        if not self.currentIndex().isValid() and event.reason() != Qt.FocusReason.MouseFocusReason:
            self.choose(self.model().index(0, 0))

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """A press beside all cards chooses none."""
        if not self.indexAt(event.position().toPoint()).isValid():
            self.clearSelection()
        super().mousePressEvent(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take the card; but two quick presses on a part of it are two presses."""
        index, point = self.indexAt(event.position().toPoint()), event.position().toPoint()
        if not index.isValid():
            return
        if self.is_part(index, point - self.visualRect(index).topLeft()):
            super().mousePressEvent(event)
        elif event.button() == Qt.MouseButton.LeftButton:
            self.taken.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Cards are as wide as the list."""
        super().resizeEvent(event)
        self.scheduleDelayedItemsLayout()

    def viewportSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """A list takes what room there is."""
        return QSize(200, 200)

    def _pastes(self, event: QKeyEvent) -> bool:
        return event.matches(QKeySequence.StandardKey.Paste) and self.may_paste()

    def _action(self, event: QKeyEvent) -> CardAction | None:
        """The action whose key was pressed, while there is a card to do it with."""
        if not self.currentIndex().isValid():
            return None
        pressed = QKeySequence(event.keyCombination())
        return next(
            (row for row in self.actions_of_card if row.keys and QKeySequence(row.keys) == pressed), None
        )

"""Find any action by its words and run it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QDialog,
    QHeaderView,
    QLineEdit,
    QTreeWidget,
    QTreeWidgetItem,
    QVBoxLayout,
)

from piecewright_qt.actions.row import ActionRow, translated
from piecewright_qt.actions.table import ACTIONS
from piecewright_qt.theme.tokens import SPACE_WIDE

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_NAME = Qt.ItemDataRole.UserRole
_STEPS = (Qt.Key.Key_Up, Qt.Key.Key_Down, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown)


class Finder(QDialog):
    """A field and a list; arrows choose while one types, Enter runs what is marked. Not what can not be done now."""

    def __init__(self, window: "Window") -> None:
        super().__init__(window)
        self._window = window
        self.setWindowTitle(self.tr("Find an action"))
        self.field = QLineEdit()
        self.field.setPlaceholderText(self.tr("What do you want to do?"))
        self.field.setAccessibleName(self.tr("Words of an action"))
        self.field.installEventFilter(self)
        self.list = QTreeWidget()
        self.list.setColumnCount(3)
        self.list.setHeaderHidden(True)
        self.list.setRootIsDecorated(False)
        self.list.setUniformRowHeights(True)
        self.list.setAccessibleName(self.tr("Actions found"))
        header = self.list.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        for column in (1, 2):
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.ResizeToContents)
        column_box = QVBoxLayout(self)
        column_box.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE_WIDE)
        column_box.addWidget(self.field)
        column_box.addWidget(self.list)
        self.field.textChanged.connect(self._search)
        self.field.returnPressed.connect(self._run)
        self.list.itemActivated.connect(lambda _item: self._run())
        self.list.itemClicked.connect(lambda _item: self._run())
        self.resize(560, 460)
        self._search("")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Arrows in the field move the mark in the list."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and event.key() in _STEPS:
            self.list.event(QKeyEvent(event.type(), event.key(), event.modifiers()))
            return True
        return super().eventFilter(watched, event)

    def _search(self, text: str) -> None:
        self.list.clear()
        wanted = text.casefold().split()
        for row in ACTIONS:
            if self._window.actions_by_name[row.name].isEnabled() and _matches(row, wanted):
                item = QTreeWidgetItem([row.words.rstrip("…"), translated(row.menu), row.spoken_keys])
                item.setData(0, _NAME, row.name)
                self.list.addTopLevelItem(item)
        first = self.list.topLevelItem(0)
        if first is not None:
            self.list.setCurrentItem(first)

    def _run(self) -> None:
        item = self.list.currentItem()
        if item is not None:
            self.accept()
            self._window.actions_by_name[item.data(0, _NAME)].trigger()


def _matches(row: ActionRow, wanted: list[str]) -> bool:
    """Whether every word typed begins somewhere in the action's words, or in its menu's."""
    known = f"{row.words} {translated(row.menu)}".casefold()
    return all(word in known for word in wanted)

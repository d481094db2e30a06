"""Find any action by its words and run it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialog, QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout

from piecewright_qt.actions import ACTIONS, translated

if TYPE_CHECKING:
    from piecewright_qt.window import Window


class Finder(QDialog):
    """A field and a list; Enter runs the action that is marked."""

    def __init__(self, window: "Window") -> None:
        super().__init__(window)
        self._window = window
        self.setWindowTitle(self.tr("Find an action"))
        self.field = QLineEdit()
        self.field.setPlaceholderText(self.tr("What do you want to do?"))
        self.field.setAccessibleName(self.tr("Words of an action"))
        self.list = QListWidget()
        self.list.setAccessibleName(self.tr("Actions found"))
        column = QVBoxLayout(self)
        column.addWidget(self.field)
        column.addWidget(self.list)
        self.field.textChanged.connect(self._search)
        self.field.returnPressed.connect(self._run)
        self.list.itemActivated.connect(lambda _item: self._run())
        self.resize(460, 420)
        self._search("")

    def _search(self, text: str) -> None:
        self.list.clear()
        wanted = text.casefold().split()
        for row in ACTIONS:
            name = translated(row.text).rstrip("…")
            action = self._window.actions_by_name[row.name]
            if action.isEnabled() and all(word in name.casefold() for word in wanted):
                keys = (
                    QKeySequence(row.keys[0]).toString(QKeySequence.SequenceFormat.NativeText)
                    if row.keys
                    else ""
                )
                item = QListWidgetItem(f"{name}   {keys}")
                item.setData(Qt.ItemDataRole.UserRole, row.name)
                self.list.addItem(item)
        self.list.setCurrentRow(0)

    def _run(self) -> None:
        item = self.list.currentItem()
        if item is not None:
            self.accept()
            self._window.actions_by_name[item.data(Qt.ItemDataRole.UserRole)].trigger()

"""The drawer of the history: every step of the undo stack by its words; a click or Enter goes there."""

from typing import Any

from PySide6.QtCore import QAbstractListModel, QItemSelectionModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor, QFont, QKeyEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView

from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.drawer import Drawer
from piecewright_qt.look import Look
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE_TIGHT

Index = QModelIndex | QPersistentModelIndex
_NO_INDEX = QModelIndex()
_LEAST_HIGH = 320
_FILLS = 1000
"""The list takes all height there is."""


class StepsModel(QAbstractListModel):
    """The design as it was opened, then what each step is called; those taken back come after the present one."""

    def __init__(self, document: Document, look: Look, beginning: str, present: str) -> None:
        super().__init__()
        self._stack = document.undo_stack
        self._look = look
        self._beginning = beginning
        self._present = present

    def rowCount(self, parent: Index = _NO_INDEX) -> int:  # noqa: N802 - Qt's name
        """One more than there are steps."""
        return 0 if parent.isValid() else self._stack.count() + 1

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """A step's words; the present one marked by a sign, by weight, and for who listens in words."""
        roles, now = Qt.ItemDataRole, self._stack.index()
        text = self._stack.text(index.row() - 1) if index.row() else self._beginning
        if role == roles.DisplayRole:
            return text
        if role == roles.AccessibleTextRole:
            return self._present.format(step=text) if index.row() == now else text
        if role == roles.FontRole and index.row() == now:
            font = QFont()
            font.setPixelSize(self._look.scale.body)
            font.setWeight(QFont.Weight.DemiBold)
            return font
        if role == roles.ForegroundRole and index.row() > now:
            return QColor(self._look.theme.text_soft)
        if role == roles.DecorationRole and index.row() == now:
            return icon("check", self._look.theme)
        return None

    def refresh(self) -> None:
        """Other steps."""
        self.beginResetModel()
        self.endResetModel()


class StepsList(QListView):
    """Enter, Space or a click goes to a step; arrows only look."""

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter goes there."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space):
            if self.currentIndex().isValid():
                self.clicked.emit(self.currentIndex())
        else:
            super().keyPressEvent(event)


class HistoryDrawer(Drawer):
    """Going to a step takes nothing away: those after it stay, in gray, until something else is done."""

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__(document, look, self.tr("History"))
        document.undo_stack.indexChanged.connect(self._follow_stack)

    def build(self) -> None:
        """The steps, the newest at the bottom."""
        beginning = self.tr("As it was opened")
        self.model = StepsModel(self.document, self.look, beginning, self.tr("{step}, where you are"))
        self.list = StepsList()
        self.list.setModel(self.model)
        self.list.setAccessibleName(self.tr("Steps, the newest at the bottom"))
        self.list.setToolTip(self.tr("Click or press Enter to go back or forth to a step"))
        self.list.setFrameShape(QFrame.Shape.NoFrame)
        self.list.setWordWrap(True)
        self.list.setSpacing(SPACE_TIGHT // 2)
        self.list.setMinimumHeight(_LEAST_HIGH)
        self.list.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setResizeMode(QListView.ResizeMode.Adjust)
        self.list.clicked.connect(lambda index: self.document.go_to(index.row()))
        self.add_note(
            self.tr("Click a step to go there. What comes after it stays until you do something else.")
        )
        self.body.addWidget(self.list, _FILLS)

    def show_values(self, design: Design) -> None:
        """The steps as they are now, the present one in view."""
        del design
        self.model.refresh()
        index = self.model.index(self.document.undo_stack.index(), 0)
        self.list.setCurrentIndex(index)
        self.list.selectionModel().select(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self.list.scrollTo(index)

    def focus_first(self) -> None:
        """The keys go to the steps."""
        self.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _follow_stack(self, _index: int) -> None:
        if self.isVisible():
            self.show_values(self.document.design)

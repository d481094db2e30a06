"""The contact sheet of blocks drawn by chance: a picture of each, chosen by mouse or keys."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QSize, Qt
from PySide6.QtGui import QIcon, QKeyEvent, QPixmap
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView

from piecewright.making.wonky import Draw
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE
from piecewright_qt.wall.looks import Look

PICTURE = 132
_ROOT = QModelIndex()
_Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True)
class Sheet:
    """A block drawn, as it would look, and what is said of it."""

    draw: Draw
    look: Look
    said: str


class SheetModel(QAbstractListModel):
    """The blocks drawn, as pictures with their numbers; what is said of each is its tooltip and is read out."""

    def __init__(self, pictures: Pictures) -> None:
        super().__init__(pictures)
        self._pictures = pictures
        self.sheets: tuple[Sheet, ...] = ()
        self.ratio = 1.0
        self._chosen: frozenset[int] = frozenset()

    def mark(self, rows: frozenset[int]) -> None:
        """Mark the chosen ones by a sign beside their numbers, not by color alone."""
        self._chosen = rows
        if self.sheets:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.sheets) - 1, 0))

    def show(self, sheets: tuple[Sheet, ...]) -> None:
        """Show these in the place of those before."""
        self.beginResetModel()
        self.sheets, self._chosen = sheets, frozenset()
        self.endResetModel()

    def rowCount(self, parent: _Index = _ROOT) -> int:  # noqa: N802 - Qt's name
        """One row a block."""
        return 0 if parent.isValid() else len(self.sheets)

    def data(self, index: _Index, role: int = int(Qt.ItemDataRole.DisplayRole)) -> object:
        """The number, the picture, what is said."""
        if not index.isValid() or index.row() >= len(self.sheets):
            return None
        sheet = self.sheets[index.row()]
        if role == Qt.ItemDataRole.DisplayRole:
            return (
                f"\N{CHECK MARK} {index.row() + 1}" if index.row() in self._chosen else str(index.row() + 1)
            )
        if role == Qt.ItemDataRole.DecorationRole:
            return self._icon(sheet)
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleTextRole):
            return sheet.said
        return None

    def _icon(self, sheet: Sheet) -> QIcon:
        """The same picture whether chosen or not: cloth never changes its color."""
        picture: QPixmap = self._pictures.block(sheet.look, PICTURE, self.ratio)
        shown = QIcon(picture)
        shown.addPixmap(picture, QIcon.Mode.Selected)
        return shown


class SheetView(QListView):
    """Pictures in rows; a click or Space chooses one more, arrows go about, Enter takes what is chosen."""

    def __init__(self, model: SheetModel) -> None:
        super().__init__()
        self.setModel(model)
        self.setViewMode(QListView.ViewMode.IconMode)
        self.setMovement(QListView.Movement.Static)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setSelectionMode(QAbstractItemView.SelectionMode.MultiSelection)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setIconSize(QSize(PICTURE, PICTURE))
        self.setSpacing(SPACE)
        self.setUniformItemSizes(True)
        self.taken: Callable[[], None] = lambda: None
        self.selectionModel().selectionChanged.connect(lambda *_: model.mark(self.rows))

    @property
    def rows(self) -> frozenset[int]:
        """The rows that are chosen."""
        return frozenset(index.row() for index in self.selectionModel().selectedIndexes())

    def fit(self, text: float) -> None:
        """Leave room for the numbers at this size of text."""
        self.setGridSize(QSize(PICTURE + SPACE_PAGE, PICTURE + SPACE_PAGE + round(SPACE_PAGE * text)))

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter takes what is chosen; all else as in any list."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.taken()
            return
        super().keyPressEvent(event)

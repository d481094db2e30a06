"""Room for a table: shelf and materials fold away beside it where the window is too narrow for all three."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QPushButton, QSplitter, QStackedWidget, QWidget

from piecewright_qt.look import Look

if TYPE_CHECKING:
    from piecewright_qt.cutting_table.table import CuttingTable
    from piecewright_qt.sewing_plan.page import SewingPlan
    from piecewright_qt.sewing_table.table import SewingTable
    from piecewright_qt.window import Window

_TABLE = 840  # pixels that the table wants at a text scale of 1
_SHELF, _MATERIALS = 264, 320


class SideRoom(QObject):
    """Shows or folds the two outer columns of a window while one of its tables is in view.

    Materials fold first. A button in the table's head brings each back, for as long as the table is in view.
    """

    def __init__(
        self,
        splitter: QSplitter,
        columns: tuple[QWidget, QWidget],
        places: QStackedWidget,
        table: QWidget,
        look: Look,
    ) -> None:
        super().__init__(table)
        self._splitter = splitter
        self._places = places
        self._table = table
        self._look = look
        self._columns = columns
        self._wished: dict[QWidget, bool] = {}
        self.shelf = self._button(self.tr("Shelf"), self.tr("Show or fold the shelf"), columns[0])
        self.materials = self._button(self.tr("Materials"), self.tr("Show or fold the materials"), columns[1])
        places.currentChanged.connect(self._step_up)
        look.changed.connect(self.arrange)
        splitter.installEventFilter(self)

    @property
    def buttons(self) -> tuple[QPushButton, QPushButton]:
        """For the head of the table; in view only where there is not room for all."""
        return self.shelf, self.materials

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """A window of another width has room for others."""
        if event.type() == QEvent.Type.Resize:
            self.arrange()
        return False

    def arrange(self) -> None:
        """Show what there is room for, and what is asked for; all of it at the wall."""
        at_table = self._places.currentWidget() is self._table
        if not at_table and self._places.currentIndex() != 0:
            return  # another table sees to its own room
        room = self._splitter.width() - _TABLE * self._look.scale.text
        fits = (room >= _SHELF, room >= _SHELF + _MATERIALS)
        for column, fit, button in zip(self._columns, fits, self.buttons, strict=True):
            shown = self._wished.get(column, fit) or not at_table
            if column.isVisibleTo(self._splitter) != shown:
                column.setVisible(shown)
            button.setChecked(shown)
            button.setVisible(at_table and not fit)

    def _step_up(self) -> None:
        self._wished.clear()
        self.arrange()

    def _button(self, text: str, tip: str, column: QWidget) -> QPushButton:
        button = QPushButton(text)
        button.setCheckable(True)
        button.setToolTip(tip)
        button.setVisible(False)
        button.clicked.connect(lambda shown: self._wish(column, shown))
        return button

    def _wish(self, column: QWidget, shown: bool) -> None:
        self._wished[column] = shown
        self.arrange()


def fold_beside(window: "Window", table: "SewingTable | CuttingTable | SewingPlan") -> None:
    """Fold the columns of a window beside one of its tables; what brings them back stands in the table's head."""
    shelf, materials = window.splitter.widget(0), window.splitter.widget(2)
    if shelf is not None and materials is not None:
        room = SideRoom(window.splitter, (shelf, materials), window.places, table, window.look)
        for button in room.buttons:  # before the one that goes back
            table.head_row.insertWidget(table.head_row.count() - 1, button)

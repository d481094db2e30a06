"""The fabrics that the pieces of a border go through in turn."""

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QToolButton, QVBoxLayout, QWidget

from piecewright.model.setting import MOST_PIECES
from piecewright_qt.drawer import Drawer, FabricField
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE_TIGHT


class PieceFabrics(QWidget):
    """A field for each, in their order; one more may be added, any but the last one taken away."""

    edited = Signal()

    def __init__(self, drawer: Drawer, name: str) -> None:
        super().__init__()
        self._drawer = drawer
        self._name = name
        self.chosen: tuple[str, ...] = ()
        self.fields: list[FabricField] = []
        self.removers: list[QToolButton] = []
        self._rows: list[QWidget] = []
        self.more = WrapButton(_say("One more fabric in turn"))
        self.more.clicked.connect(self._add)
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(SPACE_TIGHT)
        self._column.addWidget(self.more)

    def show_fabrics(self, fabrics: tuple[str, ...]) -> None:
        """Show these, silently."""
        self.chosen = fabrics
        while len(self._rows) > len(fabrics):
            row = self._rows.pop()
            self.fields.pop()
            self.removers.pop()
            self._column.removeWidget(row)
            row.hide()
            row.deleteLater()
        while len(self._rows) < len(fabrics):
            self._append()
        for field, remover, fabric in zip(self.fields, self.removers, fabrics, strict=True):
            field.show_fabric(fabric)
            remover.setEnabled(len(fabrics) > 1)
        self.more.setVisible(len(fabrics) < MOST_PIECES)

    def _append(self) -> None:
        place = len(self._rows)
        label = _say("Piece {n}").format(n=place + 1)
        field = FabricField(
            label, self._drawer.document, name=_say("{name}: piece {n}").format(name=self._name, n=place + 1)
        )
        field.edited.connect(lambda: self._choose(place))
        remover = QToolButton()
        remover.setIcon(icon("delete", self._drawer.look.theme))
        named = _say("{name}: without piece {n}").format(name=self._name, n=place + 1)
        remover.setAccessibleName(named)
        remover.setToolTip(named)
        remover.clicked.connect(lambda: self._remove(place))
        row = QWidget()
        line = QHBoxLayout(row)
        line.setContentsMargins(0, 0, 0, 0)
        line.addWidget(field, 1)
        line.addWidget(remover, 0, Qt.AlignmentFlag.AlignBottom)
        self._column.insertWidget(place, row)
        self._rows.append(row)
        self.fields.append(field)
        self.removers.append(remover)

    def _choose(self, place: int) -> None:
        self._give((*self.chosen[:place], str(self.fields[place].value), *self.chosen[place + 1 :]))

    def _remove(self, place: int) -> None:
        self._give((*self.chosen[:place], *self.chosen[place + 1 :]))

    def _add(self) -> None:
        self._give((*self.chosen, self.chosen[0]))

    def _give(self, fabrics: tuple[str, ...]) -> None:
        self.chosen = fabrics
        self.edited.emit()


def _say(text: str) -> str:
    return QCoreApplication.translate("borders", text)

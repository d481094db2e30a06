"""The fabrics of a recipe by letter, and by layer in a stack: places to choose and to drop fabrics on."""

from collections.abc import Callable

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent, QIcon, QResizeEvent
from PySide6.QtWidgets import QButtonGroup, QGridLayout, QLabel, QSizePolicy, QToolButton, QWidget

from piecewright.making.recipe import Recipe
from piecewright.model.fabric import Fabric
from piecewright.model.value import Letters
from piecewright.render.cloth import stand_in
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.swatch_delegate import PhotoOf
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.wall.mime import FABRIC, carried_fabric

_SLOT = QSize(40, 32)
_MOST_ACROSS = 8


class Slot(QToolButton):
    """One place for a fabric: a letter in a layer."""

    dropped = Signal(str)

    def __init__(self, letter: str, layer: int) -> None:
        super().__init__()
        self.letter = letter
        self.layer = layer
        self.setCheckable(True)
        self.setIconSize(_SLOT)
        self.setAcceptDrops(True)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """Fabrics may be dropped."""
        if event.mimeData().hasFormat(FABRIC):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Take the fabric."""
        fabric = carried_fabric(event.mimeData())
        if fabric is not None:
            event.acceptProposedAction()
            self.dropped.emit(fabric)


class ElidedLabel(QLabel):
    """A line that is cut short where it has no room; all of it is in the tooltip."""

    def __init__(self) -> None:
        super().__init__()
        self._text = ""
        self.setTextFormat(Qt.TextFormat.PlainText)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)

    def show_text(self, text: str) -> None:
        """Show a text as far as it goes."""
        self._text = text
        self.setToolTip(text)
        self.setAccessibleName(text)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """More or less of it."""
        super().resizeEvent(event)
        self._fit()

    def _fit(self) -> None:
        self.setText(self.fontMetrics().elidedText(self._text, Qt.TextElideMode.ElideRight, self.width()))


class LetterSlots(QWidget):
    """`chosen(letter, layer, fabric)` follows a drop; `put` puts a fabric in the place that is next, and goes on."""

    chosen = Signal(str, int, str)

    def __init__(self, pictures: Pictures, photo_of: PhotoOf) -> None:
        super().__init__()
        self._pictures = pictures
        self._photo_of = photo_of
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(SPACE_TIGHT)
        self._grid.setVerticalSpacing(SPACE_TIGHT)
        self._group = QButtonGroup(self)
        self._group.setExclusive(True)
        self.slots: list[Slot] = []
        self._names: dict[str, ElidedLabel] = {}

    def build(self, recipe: Recipe) -> None:
        """Make a place for every letter and layer; the first is next."""
        while (item := self._grid.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        self.slots, self._names = [], {}
        for row, letter in enumerate(recipe.letters):
            head = QLabel(letter)
            head.setProperty("type", "lead")
            self._grid.addWidget(head, row, 0)
            self._add_slots(letter, recipe.stack, row)
        self._grid.setColumnStretch(min(recipe.stack, _MOST_ACROSS) + 1, 1)
        if self.slots:
            self.slots[0].setChecked(True)

    def show_fabrics(self, fabrics: Letters, found: Callable[[str], Fabric | None]) -> None:
        """Show the cloth in every place, and the names beside the letters."""
        names: dict[str, list[str]] = {}
        for slot in self.slots:
            key = fabrics.fabric(slot.letter, slot.layer)
            fabric = found(key) if key is not None else None
            said = fabric.name if fabric is not None else self.tr("no fabric yet")
            names.setdefault(slot.letter, []).append(said)
            place = self._place(slot)
            slot.setToolTip(f"{place}: {said}")
            slot.setAccessibleName(f"{place}: {said}")
            shown = fabric if fabric is not None else stand_in(slot.letter, slot.layer)
            photo = self._photo_of(fabric) if fabric is not None else None
            pixmap = self._pictures.swatch(shown, photo, _SLOT, self.devicePixelRatioF())
            slot.setIcon(QIcon(pixmap))
        for letter, label in self._names.items():
            label.show_text(", ".join(dict.fromkeys(names.get(letter, ()))))

    @property
    def next_slot(self) -> Slot | None:
        """The place that the next fabric goes to."""
        return next((slot for slot in self.slots if slot.isChecked()), None)

    def put(self, fabric: str) -> None:
        """Put a fabric in the next place; the one after is next then."""
        slot = self.next_slot
        if slot is not None:
            self.chosen.emit(slot.letter, slot.layer, fabric)
            self.slots[(self.slots.index(slot) + 1) % len(self.slots)].setChecked(True)

    def _add_slots(self, letter: str, layers: int, row: int) -> None:
        for layer in range(layers):
            slot = Slot(letter, layer)
            slot.dropped.connect(lambda fabric, slot=slot: self.chosen.emit(slot.letter, slot.layer, fabric))
            self._group.addButton(slot)
            self.slots.append(slot)
            self._grid.addWidget(slot, row, layer + 1)
        if layers == 1:
            name = ElidedLabel()
            name.setProperty("type", "soft")
            self._names[letter] = name
            self._grid.addWidget(name, row, 2)
        self._grid.setContentsMargins(0, 0, 0, SPACE)

    def _place(self, slot: Slot) -> str:
        if len({one.layer for one in self.slots}) < 2:
            return slot.letter
        return self.tr("{letter}, layer {layer}").format(letter=slot.letter, layer=slot.layer + 1)

"""What goes round and behind the quilt: borders from the inside out, binding, backing and batting."""

from collections.abc import Callable
from fractions import Fraction

from PySide6.QtWidgets import QHBoxLayout, QPushButton, QToolButton, QVBoxLayout, QWidget

from piecewright.edit.registry import call
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Quilt
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField, Drawer, FabricField
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import LengthField
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_FIRST_WIDTH = Fraction(2)
_INCHES = tuple(Fraction(n, 2) for n in (1, 2, 3, 4, 5, 6, 8, 10, 12))
_STRIPS = (Fraction(2), Fraction(9, 4), Fraction(5, 2))
_OVER = (Fraction(4), Fraction(6), Fraction(8))
_SEAMS = (Fraction(1, 4), Fraction(1, 2))


class BorderRow(QWidget):
    """One border: cloth, width, which pair is sewn on first; moved in or out, or taken away."""

    def __init__(self, drawer: "AroundDrawer", index: int, count: int) -> None:
        super().__init__()
        self._drawer = drawer
        self._index = index
        name = self.tr("Border {n}").format(n=index + 1)
        measure = drawer.look.measure
        self.fabric = FabricField(name, drawer.document, name=self.tr("{name}: fabric").format(name=name))
        self.width_field = LengthField(
            self.tr("Width, finished"),
            measure,
            _INCHES,
            self.tr("{name}: width, finished").format(name=name),
        )
        self.first = ChoiceField(self.tr("Sewn on first"), self.tr("{name}: sewn on first").format(name=name))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, SPACE)
        column.setSpacing(SPACE_TIGHT)
        top = QHBoxLayout()
        top.addWidget(self.fabric, 1)
        top.addLayout(self._buttons(name, count))
        column.addLayout(top)
        both = QHBoxLayout()
        both.addWidget(self.width_field, 1)
        both.addWidget(self.first, 1)
        column.addLayout(both)
        for field in (self.fabric, self.width_field, self.first):
            field.edited.connect(lambda field=field: drawer.change_border(index, field))

    def border(self) -> Border:
        """What the fields say."""
        border = self._drawer.document.design.quilt.borders[self._index]
        width = self.width_field.value
        return border.changed(
            fabric=str(self.fabric.value or border.fabric),
            width=border.width if width is None else width,
            first="top and bottom" if self.first.value == "top and bottom" else "sides",
        )

    def show_border(self, border: Border) -> None:
        """Show what the design has."""
        self.fabric.show_fabric(border.fabric)
        if self.width_field.value != border.width:
            self.width_field.show_value(border.width)
        self.first.show_choices(
            [("sides", self.tr("Sides")), ("top and bottom", self.tr("Top and bottom"))], border.first
        )

    def _buttons(self, name: str, count: int) -> QHBoxLayout:
        row = QHBoxLayout()
        row.setSpacing(0)
        for drawing, words, usable, run in (
            ("up", self.tr("{name}: farther in"), self._index > 0, self._inwards),
            ("down", self.tr("{name}: farther out"), self._index < count - 1, self._outwards),
            ("delete", self.tr("{name}: take it away"), True, self._remove),
        ):
            button = QToolButton()
            button.setIcon(icon(drawing, self._drawer.look.theme))
            button.setAccessibleName(words.format(name=name))
            button.setToolTip(words.format(name=name))
            button.setEnabled(usable)
            button.clicked.connect(run)
            row.addWidget(button)
        return row

    def _inwards(self) -> None:
        self._drawer.document.perform(call("move-border", index=self._index, to=self._index - 1))

    def _outwards(self) -> None:
        self._drawer.document.perform(call("move-border", index=self._index, to=self._index + 1))

    def _remove(self) -> None:
        self._drawer.document.perform(call("remove-border", index=self._index))


class AroundDrawer(Drawer):
    """Wall and materials follow every change."""

    def __init__(self, document: Document, look: Look) -> None:
        self.rows: list[BorderRow] = []
        super().__init__(document, look, self.tr("Borders, binding, backing"))
        look.changed.connect(self._ink)

    def build(self) -> None:
        """Borders first, as they are sewn; then what closes the quilt."""
        self.add_heading(self.tr("Borders, from the inside out"))
        self._borders = QVBoxLayout()
        self.body.addLayout(self._borders)
        self.rows = []
        self.add = QPushButton(self.tr("Add a border"))
        self.add.setToolTip(self.tr("Add a border round the others"))
        self.add.clicked.connect(self._add_border)
        self.body.addWidget(self.add)
        self.add_heading(self.tr("Binding"))
        self.binding = self._fabric(self.tr("Fabric"), self.tr("Binding: fabric"), self._set_binding)
        self.binding_width = self._length(
            self.tr("Strip width, cut"), _STRIPS, self.tr("Binding: strip width, cut"), self._set_binding
        )
        self.add_heading(self.tr("Backing"))
        self.backing = self._fabric(self.tr("Fabric"), self.tr("Backing: fabric"), self._set_backing)
        self.overage = self._length(
            self.tr("Added to width and height, both sides together"),
            _OVER,
            self.tr("Backing: added to width and height"),
            self._set_backing,
            may_be_zero=True,
        )
        self.panel_seam = self._length(
            self.tr("Seam allowance between panels"),
            _SEAMS,
            self.tr("Backing: seam allowance between panels"),
            self._set_backing,
        )
        self.add_heading(self.tr("Batting"))
        self.batting = self._length(
            self.tr("Added to width and height, both sides together"),
            _OVER,
            self.tr("Batting: added to width and height"),
            self._set_batting,
            may_be_zero=True,
        )

    def show_values(self, design: Design) -> None:
        """Show what the arrangement in view has."""
        quilt = design.quilt
        self._show_borders(quilt)
        self.add.setEnabled(bool(design.fabrics))
        self.binding.show_fabric(quilt.binding.fabric)
        self.backing.show_fabric(quilt.backing.fabric)
        for field, value in (
            (self.binding_width, quilt.binding.width),
            (self.overage, quilt.backing.overage),
            (self.panel_seam, quilt.backing.seam),
            (self.batting, quilt.batting.overage),
        ):
            if field.value != value:
                field.show_value(value)

    def change_border(self, index: int, field: FabricField | LengthField | ChoiceField) -> None:
        """Set a border down as its row says."""
        row = self.rows[index]
        if row.width_field.value is not None:
            self.try_edit(field, lambda: call("change-border", index=index, border=row.border()))

    def _show_borders(self, quilt: Quilt) -> None:
        if len(self.rows) != len(quilt.borders):
            for row in self.rows:
                self._borders.removeWidget(row)
                row.hide()
                row.deleteLater()
            self.rows = [BorderRow(self, index, len(quilt.borders)) for index in range(len(quilt.borders))]
            for row in self.rows:
                self._borders.addWidget(row)
        for row, border in zip(self.rows, quilt.borders, strict=True):
            row.show_border(border)

    def _add_border(self) -> None:
        design = self.document.design
        quilt = design.quilt
        last = quilt.borders[-1].fabric if quilt.borders else quilt.binding.fabric
        border = Border(last or design.fabrics[0].id, _FIRST_WIDTH)
        if self.document.perform(call("add-border", border=border)):
            self.rows[-1].fabric.box.setFocus()

    def _set_binding(self, field: FabricField | LengthField) -> None:
        width = self.binding_width.value
        if width is not None:
            binding = self.document.design.quilt.binding
            self.try_edit(
                field,
                lambda: call("set-binding", binding=binding.changed(fabric=self.binding.value, width=width)),
            )

    def _set_backing(self, field: FabricField | LengthField) -> None:
        overage, seam = self.overage.value, self.panel_seam.value
        if overage is not None and seam is not None:
            backing = self.document.design.quilt.backing
            self.try_edit(
                field,
                lambda: call(
                    "set-backing",
                    backing=backing.changed(fabric=self.backing.value, overage=overage, seam=seam),
                ),
            )

    def _set_batting(self, field: FabricField | LengthField) -> None:
        overage = self.batting.value
        if overage is not None:
            batting = self.document.design.quilt.batting
            self.try_edit(field, lambda: call("set-batting", batting=batting.changed(overage=overage)))

    def _fabric(self, label: str, name: str, changed: Callable[[FabricField], None]) -> FabricField:
        field = FabricField(label, self.document, may_be_none=True, name=name)
        field.edited.connect(lambda: changed(field))
        self.body.addWidget(field)
        return field

    def _length(
        self,
        label: str,
        choices: tuple[Fraction, ...],
        name: str,
        changed: Callable[[LengthField], None],
        may_be_zero: bool = False,
    ) -> LengthField:
        field = LengthField(label, self.look.measure, choices, name, may_be_zero=may_be_zero)
        field.edited.connect(lambda: changed(field))
        self.body.addWidget(field)
        return field

    def _ink(self) -> None:
        """The buttons of the borders in the ink of the theme."""
        self.rebuild()

"""What goes round and behind the quilt: borders from the inside out, binding, backing and batting."""

from fractions import Fraction

from PySide6.QtWidgets import QLabel, QPushButton, QVBoxLayout

from piecewright.edit.registry import call
from piecewright.model.design import Design
from piecewright.model.naming import free_name
from piecewright.model.quilt import Border, Label, Quilt, Sleeve
from piecewright.plan.backing import WIDE
from piecewright.plan.borders import BorderPlan
from piecewright.plan.materials import Materials, materials
from piecewright_qt.border_row import BorderRow
from piecewright_qt.document import Document
from piecewright_qt.drawer import FabricField
from piecewright_qt.look import Look
from piecewright_qt.materials.lister import Lister
from piecewright_qt.materials.typesetting import kept_whole
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from piecewright_qt.shelf.fields import CheckField, Field, LengthField
from piecewright_qt.trade_fields import SETTINGS, TradeDrawer

_FIRST_WIDTH = Fraction(2)
_DEPTHS = tuple(map(Fraction, (3, 4, 6)))
_HEMS = (Fraction(1, 2), Fraction(1), Fraction(3, 2))
_SIDES = tuple(map(Fraction, (3, 4, 5, 6)))


class AroundDrawer(TradeDrawer):
    """Wall and materials follow every change."""

    def __init__(self, document: Document, look: Look) -> None:
        self.rows: list[BorderRow] = []
        self._lister = Lister()
        super().__init__(document, look, self.tr("Borders, binding, backing"))
        look.changed.connect(self._ink)

    def build(self) -> None:
        """Borders first, as they are sewn; then what closes the quilt."""
        self.settings_shown = {}
        self.lengths: dict[str, LengthField] = {}
        with self.fold("borders", self.tr("Borders, from the inside out"), is_open=True):
            self._borders = QVBoxLayout()
            self.body.addLayout(self._borders)
            self.rows = []
            self.add = QPushButton(self.tr("Add a border"))
            self.add.setToolTip(self.tr("Add a border round the others"))
            self.add.clicked.connect(self._add_border)
            self.body.addWidget(self.add)
        with self.fold("binding", self.tr("Binding"), is_open=True):
            self._build_binding()
        with self.fold("backing", self.tr("Backing"), is_open=True):
            self._build_backing()
        with self.fold("sleeve", self.tr("Sleeve and label")):
            self._build_sleeve()
        with self.fold("batting", self.tr("Batting"), is_open=True):
            self._build_batting()

    def show_values(self, design: Design) -> None:
        """Show what the arrangement in view has, and what it takes."""
        quilt, plan = design.quilt, materials(design)
        self._show_borders(quilt, plan)
        self.add.setEnabled(bool(design.fabrics))
        self.binding.show_fabric(quilt.binding.fabric)
        self.backing.show_fabric(quilt.backing.fabric)
        self.show_settings(design)
        self._show_sleeve(quilt)
        self._tell(plan)
        wide = plan.backing.wide
        self.wide.setVisible(wide is not None)
        if wide is not None:
            length, width = (self.look.measure.length(inches) for inches in (wide.length, WIDE))
            text = self.tr("Take {length} of a wide backing, {width} wide")
            self.wide.rename(text.format(length=length, width=width))

    def change_border(self, index: int, field: Field | None) -> None:
        """Set a border down as its row says; where that can not be, show again what is."""
        row = self.rows[index]
        if not row.is_whole:
            return
        before = self.document.design
        if field is not None:
            field.complain("")
        self.try_edit(field, lambda: call("change-border", index=index, border=row.border()))
        if self.document.design is before:
            row.show_border(before.quilt.borders[index], self.plan_of(index))

    def plan_of(self, index: int) -> BorderPlan:
        """What a border takes and how it comes out."""
        return materials(self.document.design).borders[index]

    # Fields ---------------------------------------------------------------------------------------------------------

    def _build_binding(self) -> None:
        self.binding = self._fabric(self.tr("Binding: fabric"), "binding")
        self.add_setting("binding.width", self.tr("Strip width, cut"), self.tr("Binding: strip width, cut"))
        self.add_setting("binding.cut", self.tr("Cut"), self.tr("Binding: straight or on the bias"))
        self.add_setting("binding.join", self.tr("Joined"), self.tr("Binding: joined"))
        self.add_setting("binding.seam", self.tr("Seam allowance"), self.tr("Binding: seam allowance"))
        self.add_setting("binding.extra", self.tr("Extra length"), self.tr("Binding: extra length"))
        self.binding_takes = self._takes()

    def _build_backing(self) -> None:
        self.backing = self._fabric(self.tr("Backing: fabric"), "backing")
        self.add_setting(
            "backing.overage",
            self.tr("Added to width and height, both sides together"),
            self.tr("Backing: added to width and height"),
        )
        self.add_setting(
            "backing.seam",
            self.tr("Seam allowance between panels"),
            self.tr("Backing: seam allowance between panels"),
        )
        self.add_setting("backing.lie", self.tr("Panels lie"), self.tr("Backing: panels lie"))
        self.add_setting("backing.pieced", self.tr("The last panel may be a pieced strip"))
        self.backing_takes = self._takes()
        self.wide = WrapButton("")
        self.wide.clicked.connect(self._widen)
        self.body.addWidget(self.wide)

    def _build_sleeve(self) -> None:
        self.sleeve = self._check(self.tr("A sleeve to hang it by"), "backing.sleeve")
        self.sleeve.box.clicked.connect(lambda on: self._set_back("sleeve", Sleeve() if on else None))
        self._part("sleeve", "depth", self.tr("Depth, as seen"), _DEPTHS)
        self._part("sleeve", "hem", self.tr("Hem at each end"), _HEMS, may_be_zero=True)
        self.label_box = self._check(self.tr("A label"), "backing.label")
        self.label_box.box.clicked.connect(lambda on: self._set_back("label", Label() if on else None))
        self._part("label", "width", self.tr("Width, as seen"), _SIDES)
        self._part("label", "height", self.tr("Height, as seen"), _SIDES)

    def _build_batting(self) -> None:
        self.add_setting(
            "batting.overage",
            self.tr("Added to width and height, both sides together"),
            self.tr("Batting: added to width and height"),
        )
        self.add_setting("settings.country", self.tr("Packages of"))
        self.batting_takes = self._takes()

    def _takes(self) -> QLabel:
        """Room for what comes of the fields above."""
        label = self.add_note("")
        label.setProperty("type", "")
        return label

    def _check(self, label: str, key: str) -> CheckField:
        field = CheckField(label, words(SETTINGS[key].changes, self.look.measure))
        self.body.addWidget(field)
        return field

    def _part(
        self, part: str, key: str, label: str, choices: tuple[Fraction, ...], may_be_zero: bool = False
    ) -> None:
        """A length of the sleeve or of the label."""
        called = self.tr("Sleeve: {what}") if part == "sleeve" else self.tr("Label: {what}")
        name = called.format(what=label)
        field = LengthField(label, self.look.measure, choices, name, may_be_zero=may_be_zero)
        field.edited.connect(lambda: self._set_part(part, key, field))
        self.lengths[f"{part}.{key}"] = field
        self.body.addWidget(field)

    def _fabric(self, name: str, part: str) -> FabricField:
        field = FabricField(self.tr("Fabric"), self.document, may_be_none=True, name=name)
        field.edited.connect(lambda: self._set_fabric(part, field))
        self.body.addWidget(field)
        return field

    # Showing --------------------------------------------------------------------------------------------------------

    def _show_borders(self, quilt: Quilt, plan: Materials) -> None:
        if len(self.rows) != len(quilt.borders):
            for row in self.rows:
                self._borders.removeWidget(row)
                row.hide()
                row.deleteLater()
            self.rows = [BorderRow(self, index, len(quilt.borders)) for index in range(len(quilt.borders))]
            for row in self.rows:
                self._borders.addWidget(row)
        for row, border, planned in zip(self.rows, quilt.borders, plan.borders, strict=True):
            row.show_border(border, planned)

    def _tell(self, plan: Materials) -> None:
        """What binding, backing and batting take, by their sum and in the words of Materials."""
        rows = {row.key: row for row in self._lister.rows(plan, self.look.measure)}
        for label, key, part in (
            (self.binding_takes, "binding", plan.binding),
            (self.backing_takes, "backing", plan.backing),
            (self.batting_takes, "batting", plan.batting),
        ):
            notes = " · ".join(note.text for note in rows[key].notes)
            label.setText(kept_whole(f"{words(part.why, self.look.measure)}\n{notes}"))

    def _show_sleeve(self, quilt: Quilt) -> None:
        for part, check in (("sleeve", self.sleeve), ("label", self.label_box)):
            held = quilt.backing.sleeve if part == "sleeve" else quilt.backing.label
            check.box.setChecked(held is not None)
            for key, field in self.lengths.items():
                if key.startswith(f"{part}."):
                    field.setVisible(held is not None)
                    value = getattr(held, key.partition(".")[2], None)
                    if value is not None and field.value != value:
                        field.show_value(value)

    # Edits ----------------------------------------------------------------------------------------------------------

    def _add_border(self) -> None:
        design = self.document.design
        quilt = design.quilt
        last = quilt.borders[-1].fabric if quilt.borders else quilt.binding.fabric
        border = Border(last or design.fabrics[0].id, _FIRST_WIDTH)
        if self.document.perform(call("add-border", border=border)):
            self.rows[-1].fabric.box.setFocus()

    def _set_fabric(self, part: str, field: FabricField) -> None:
        quilt = self.document.design.quilt
        fabric = None if field.value is None else str(field.value)
        if part == "binding":
            self.try_edit(field, lambda: call("set-binding", binding=quilt.binding.changed(fabric=fabric)))
        else:
            self.try_edit(field, lambda: call("set-backing", backing=quilt.backing.changed(fabric=fabric)))

    def _widen(self) -> None:
        """Back it in one piece, with cloth of its own on the shelf."""
        design = self.document.design
        fabric = design.shelf.fabrics.get(design.quilt.backing.fabric or "")
        name = self.tr("Wide backing") if fabric is None else self.tr("{name}, wide").format(name=fabric.name)
        taken = (one.name for one in design.fabrics)
        self.document.perform(call("widen-backing", name=free_name(name, taken), width=WIDE))

    def _set_back(self, part: str, held: Sleeve | Label | None) -> None:
        backing = self.document.design.quilt.backing
        self.try_edit(None, lambda: call("set-backing", backing=backing.changed(**{part: held})))

    def _set_part(self, part: str, key: str, field: LengthField) -> None:
        backing = self.document.design.quilt.backing
        held = backing.sleeve if part == "sleeve" else backing.label
        if field.value is not None and held is not None:
            self.try_edit(
                field,
                lambda: call(
                    "set-backing", backing=backing.changed(**{part: held.changed(**{key: field.value})})
                ),
            )

    def _ink(self) -> None:
        """The buttons of the borders in the ink of the theme."""
        self.rebuild()

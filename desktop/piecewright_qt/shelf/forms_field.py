"""In which forms a fabric is had: what is bought as it takes, and what is on hand, piece by piece of cloth."""

from typing import get_args

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import (
    QComboBox,
    QGridLayout,
    QHBoxLayout,
    QPushButton,
    QSizePolicy,
    QSpinBox,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.model.forms import MOST_FORMS, MOST_SHEETS, STRIPS, Form, FormKind, bought_form
from piecewright.units.measure import Measure
from piecewright_qt.look import Look
from piecewright_qt.shelf.fabric_words import form_name
from piecewright_qt.shelf.fields import CheckField, Field, LengthField, shrink
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

KINDS: tuple[FormKind, ...] = get_args(FormKind)
BOUGHT: tuple[FormKind, ...] = tuple(kind for kind in KINDS if kind != "strip")


class FormsField(QWidget):
    """`edited` follows every change by the user. Sizes left empty are as is usual for the form."""

    edited = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._bought = Form()
        self.held: list[HeldForm] = []
        self.bought = QComboBox()
        for kind in BOUGHT:
            self.bought.addItem(form_name(kind), kind)
        shrink(self.bought)
        self._bought_field = Field(self.tr("Bought"), self.tr("In which form it is bought"))
        self._bought_field.hold(self.bought)
        self.add = QPushButton(self.tr("Add cloth on hand"))
        self.add.setToolTip(self.tr("Say what is there already: it is cut first"))
        self.add.clicked.connect(self._add_one)
        self.bought.activated.connect(lambda _place: self.edited.emit())
        self._rows = QVBoxLayout()
        self._rows.setSpacing(SPACE)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE)
        column.addWidget(self._bought_field)
        column.addLayout(self._rows)
        column.addWidget(self.add)

    @property
    def faulty(self) -> bool:
        """Whether a length says what can not be."""
        return any(field.fault for one in self.held for field in one.lengths)

    def show_forms(self, forms: tuple[Form, ...]) -> None:
        """Show the forms of a fabric, silently."""
        self._bought = bought_form(forms)
        self.bought.setCurrentIndex(BOUGHT.index(self._bought.kind))
        while self.held:
            self._drop(self.held[-1])
        for form in forms:
            if form.count is not None:
                self._bring(form)

    def forms(self) -> tuple[Form, ...]:
        """What the fields say. Raises DesignError for a form that can not be."""
        kind: FormKind = self.bought.currentData()
        bought = self._bought if self._bought.kind == kind else Form(kind)
        held = tuple(one.form() for one in self.held)
        return held if bought == Form() and not held else (bought, *held)

    def dress(self) -> None:
        """Icons in the theme's ink, lengths in the measure in force."""
        for one in self.held:
            one.dress(self._look)

    def _add_one(self) -> None:
        one = self._bring(Form("fat quarter", 1))
        one.count.setFocus()
        self.edited.emit()

    def _bring(self, form: Form) -> "HeldForm":
        one = HeldForm(self._look.measure, form)
        one.dress(self._look)
        one.edited.connect(self.edited)
        one.dropped.connect(lambda: self._dropped(one))
        self.held.append(one)
        self._rows.addWidget(one)
        self.add.setEnabled(len(self.held) < MOST_FORMS - 1)
        return one

    def _dropped(self, one: "HeldForm") -> None:
        self._drop(one)
        self.add.setFocus()
        self.edited.emit()

    def _drop(self, one: "HeldForm") -> None:
        self.held.remove(one)
        self._rows.removeWidget(one)
        one.hide()
        one.deleteLater()
        self.add.setEnabled(True)


class HeldForm(QWidget):
    """Some pieces of cloth of one form and size that are on hand."""

    edited = Signal()
    dropped = Signal()

    def __init__(self, measure: Measure, form: Form) -> None:
        super().__init__()
        self.count = QSpinBox()
        self.count.setRange(1, MOST_SHEETS)
        self.count.lineEdit().setTextMargins(SPACE, 0, 0, 0)
        self.count.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        self.count_field = Field(self.tr("How many"), self.tr("How many are on hand"))
        self.count_field.hold(self.count)
        self.kind = QComboBox()
        for kind in KINDS:
            self.kind.addItem(form_name(kind, on_hand=True), kind)
        shrink(self.kind)
        self.kind_field = Field(self.tr("On hand"), self.tr("Form of what is on hand"))
        self.kind_field.hold(self.kind)
        self.away = QToolButton()
        self.away.setAccessibleName(self.tr("Take this off the list"))
        self.away.setToolTip(self.tr("Take this off the list"))
        self.width_field = self._length(measure, self.tr("Width"))
        self.length_field = self._length(measure, self.tr("Length"))
        self.longest_field = self._length(measure, self.tr("Longest"))
        self.longest_field.box.setToolTip(self.tr("The longest, where strips are of unlike length"))
        self.lengthwise = CheckField(
            self.tr("Cut along the selvage"), self.tr("The strip's length runs along the selvage")
        )
        self.lengths = (self.width_field, self.length_field, self.longest_field)
        self._show(form)
        self._lay_out()
        self._connect()

    def form(self) -> Form:
        """What the fields say. Raises DesignError for what can not be."""
        strips = self.kind.currentData() in STRIPS
        return Form(
            self.kind.currentData(),
            self.count.value(),
            self.width_field.value,
            self.length_field.value,
            self.longest_field.value if strips else None,
            self.lengthwise.box.isChecked() if strips else False,
        )

    def dress(self, look: Look) -> None:
        """Icon in the theme's ink, lengths in the measure in force."""
        self.away.setIcon(icon("remove", look.theme))
        self._place(2 if look.scale.text <= 1 else 1)
        for field in self.lengths:
            field.show_measure(look.measure)

    def _length(self, measure: Measure, label: str) -> LengthField:
        return LengthField(label, measure, may_be_empty=True)

    def _show(self, form: Form) -> None:
        self.count.setValue(form.count or 1)
        self.kind.setCurrentIndex(KINDS.index(form.kind))
        self.width_field.show_value(form.width)
        self.length_field.show_value(form.length)
        self.longest_field.show_value(form.longest)
        self.lengthwise.box.setChecked(form.lengthwise)
        self._show_parts()

    def _show_parts(self) -> None:
        strips = self.kind.currentData() in STRIPS
        self.longest_field.setVisible(strips)
        self.lengthwise.setVisible(strips)

    def _told(self) -> None:
        self._show_parts()
        self.edited.emit()

    def _lay_out(self) -> None:
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setSpacing(SPACE_TIGHT)
        line = QHBoxLayout()
        line.setSpacing(SPACE_TIGHT)
        line.addWidget(self.kind_field, 1)
        line.addWidget(self.away, 0, Qt.AlignmentFlag.AlignBottom)
        self._grid.addLayout(line, 0, 0, 1, 2)
        self._grid.addWidget(self.lengthwise, 6, 0, 1, 2)

    def _place(self, across: int) -> None:
        """The numbers side by side, or below each other where large text leaves no room."""
        for place, field in enumerate((self.count_field, *self.lengths)):
            row, column = divmod(place, across)
            self._grid.addWidget(field, 1 + row, column, 1, 3 - across)

    def _connect(self) -> None:
        self.count.valueChanged.connect(self._told)
        self.kind.activated.connect(self._told)
        self.lengthwise.box.toggled.connect(self._told)
        self.away.clicked.connect(self.dropped)
        for field in self.lengths:
            field.edited.connect(self._told)

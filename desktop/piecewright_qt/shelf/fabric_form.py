"""The fields of a fabric: what can be said of it, and which of that its print or photo leaves to say."""

from fractions import Fraction
from typing import Literal

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QPushButton, QSpinBox, QToolButton, QVBoxLayout, QWidget

from piecewright.model.fabric import MOST_INKS, Fabric, Print, PrintKind
from piecewright.render.tint import mix
from piecewright.units.measure import Measure
from piecewright_qt.look import Look
from piecewright_qt.shelf.fabric_words import PRINTS, print_name
from piecewright_qt.shelf.fields import (
    CheckField,
    ColorField,
    Field,
    LengthField,
    PriceField,
    TextField,
    shrink,
)
from piecewright_qt.shelf.forms_field import FormsField
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.swatch import Swatch
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT

_SCALES = tuple(Fraction(n, 4) for n in (1, 2, 3, 4, 6, 8, 12))
_ICON = QSize(32, 24)


class FabricForm(QWidget):
    """`edited` follows every change by the user; `fill` shows a fabric silently, `read` gives what the fields say."""

    edited = Signal()

    def __init__(self, look: Look, pictures: Pictures) -> None:
        super().__init__()
        self._look = look
        self._filling = False
        self.picture: str | None = None
        self._value: Literal["light", "medium", "dark"] | None = None
        self.forms = FormsField(look)
        self.inks: list[ColorField] = []
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.swatch = Swatch(pictures)
        self._build_print()
        self._build_cloth(look.measure)
        self._build_photo()
        self._lay_out()
        self._connect()

    @property
    def faulty(self) -> bool:
        """Whether a field that is in use says what can not be; one out of sight can not be wrong."""
        used: tuple[Field, ...] = (self.name, self.ground, self.price, self.width_of_cloth, self.note)
        drawn: tuple[Field, ...] = (self.scale, *self.inks) if self._is_drawn else ()
        return self.forms.faulty or any(field.fault for field in (*used, *drawn))

    def fill(self, fabric: Fabric) -> None:
        """Show a fabric."""
        self._filling = True
        printed = fabric.print
        self.picture = fabric.picture
        self._value = fabric.value
        self.forms.show_forms(fabric.forms)
        self.name.show_value(fabric.name)
        self.ground.show_color(fabric.color)
        self.kind.setCurrentIndex(self.kind.findData(printed.kind if printed is not None else None))
        self._show_inks(printed.inks if printed is not None else ())
        self.scale.show_value(printed.scale if printed is not None else Fraction(1))
        self.turn.setValue(printed.turn if printed is not None else 0)
        self.one_way.box.setChecked(printed is not None and printed.one_way)
        self.price.show_price(fabric.price)
        self.width_of_cloth.show_value(fabric.width)
        self.note.show_value(fabric.note)
        self._filling = False
        self._show_parts()

    def read(self, key: str) -> Fabric:
        """The fabric as the fields say, under an id. Raises DesignError for what can not be."""
        return Fabric(
            id=key,
            name=self.name.line.text().strip(),
            color=self.ground.color,
            print=self._print(),
            picture=self.picture,
            price=self.price.value,
            width=self.width_of_cloth.value,
            note=self.note.line.text().strip(),
            forms=self.forms.forms(),
            value=self._value,
        )

    def show_photo(self, picture: str | None, color: str | None = None) -> None:
        """Let the fabric be a photo of this name, or none; `color` becomes its own."""
        self.picture = picture
        if color is not None:
            self.ground.show_color(color)
        self._told()

    def dress(self) -> None:
        """Icons in the theme's ink, lengths in the measure in force."""
        self.more_inks.setIcon(icon("add", self._look.theme))
        self.fewer_inks.setIcon(icon("remove", self._look.theme))
        self.forms.dress()
        for field in (self.scale, self.width_of_cloth):
            field.show_measure(self._look.measure)

    # Following --------------------------------------------------------------------------------------------------

    @property
    def _kind(self) -> PrintKind | None:
        found: PrintKind | None = self.kind.currentData()
        return found

    @property
    def _is_drawn(self) -> bool:
        return self.picture is None and self._kind is not None

    def _print(self) -> Print | None:
        kind = self._kind
        if kind is None or self.picture is not None:
            return None
        inks = tuple(field.color for field in self.inks)
        scale = self.scale.value or Fraction(1)
        return Print(kind, inks, scale, self.turn.value(), self.one_way.box.isChecked())

    def _told(self) -> None:
        if not self._filling:
            self._show_parts()
            self.edited.emit()

    def _show_parts(self) -> None:
        """Only what the fabric leaves to say."""
        drawn, photographed = self._is_drawn, self.picture is not None
        for part in (self.scale, self._turn_field, self.one_way, self.more_inks, self.fewer_inks, *self.inks):
            part.setVisible(drawn)
        self.ground.rename(self.tr("Ground") if drawn else self.tr("Color"))
        self.kind_field.setVisible(not photographed)
        self.photo_note.setVisible(photographed)
        self.without_photo.setVisible(photographed)
        self.more_inks.setEnabled(len(self.inks) < MOST_INKS)
        self.fewer_inks.setEnabled(len(self.inks) > 1)

    def _kind_chosen(self) -> None:
        """A print needs inks: a lighter and a darker tint of the ground to begin with."""
        if self._kind is not None and not self.inks:
            ground = self.ground.color
            self._show_inks((mix(ground, "#ffffff", 0.45), mix(ground, "#000000", 0.35)))
        self._told()

    def _show_inks(self, inks: tuple[str, ...]) -> None:
        while len(self.inks) > len(inks):
            self._drop_ink()
        while len(self.inks) < len(inks):
            self._bring_ink()
        for field, ink in zip(self.inks, inks, strict=True):
            field.show_color(ink)

    def _bring_ink(self) -> None:
        color = self.inks[-1].color if self.inks else self.ground.color
        field = ColorField(self.tr("Ink {number}").format(number=len(self.inks) + 1), color)
        field.edited.connect(self._told)
        self.inks.append(field)
        self._ink_column.addWidget(field)

    def _drop_ink(self) -> None:
        field = self.inks.pop()
        self._ink_column.removeWidget(field)
        field.hide()
        field.deleteLater()

    def _one_more(self) -> None:
        self._bring_ink()
        self._told()

    def _one_less(self) -> None:
        self._drop_ink()
        self._told()

    # Arranging --------------------------------------------------------------------------------------------------

    def _build_print(self) -> None:
        self.name = TextField(self.tr("Name"), self.tr("Name of the fabric"))
        self.kind = QComboBox()
        self.kind.setIconSize(_ICON)
        for kind in (None, *PRINTS):
            self.kind.addItem(print_name(kind), kind)
        shrink(self.kind)
        self.kind_field = Field(self.tr("Print"))
        self.kind_field.hold(self.kind)
        self.ground = ColorField(self.tr("Ground"), "#808080")
        self.more_inks = self._sign("add", self.tr("One more ink"))
        self.fewer_inks = self._sign("remove", self.tr("One ink less"))
        self.turn = QSpinBox()
        self.turn.setRange(0, 359)
        self.turn.setSingleStep(45)
        self.turn.setWrapping(True)
        self.turn.setSuffix("°")
        self.turn.lineEdit().setTextMargins(SPACE, 0, 0, 0)
        self._turn_field = Field(self.tr("Turned from the lengthwise thread"))
        self._turn_field.hold(self.turn)
        self.one_way = CheckField(
            self.tr("One-way: it has an up and a down"),
            self.tr("Strips of a one-way print are never turned end for end"),
        )

    def _build_cloth(self, measure: Measure) -> None:
        self.scale = LengthField(self.tr("One repeat of the print"), measure, _SCALES)
        self.price = PriceField(self.tr("Price of a yard"), measure)
        self.width_of_cloth = LengthField(
            self.tr("Usable width, where it differs"), measure, may_be_empty=True
        )
        self.note = TextField(self.tr("Note"))

    def _build_photo(self) -> None:
        self.with_photo = QPushButton(self.tr("Choose a photo…"))
        self.with_photo.setToolTip(
            self.tr("Choose a photo of the cloth; one can be dropped or pasted here too")
        )
        self.paste_photo = QPushButton(self.tr("Paste a photo"))
        self.paste_photo.setToolTip(self.tr("Take the photo on the clipboard"))
        self.without_photo = QPushButton(self.tr("Remove the photo"))
        self.without_photo.setToolTip(self.tr("Back to a color and a print"))
        self.photo_note = note_label()
        self.photo_note.setContentsMargins(0, 0, 0, 0)
        self.photo_note.setText(self.tr("On the wall a photo shows as its average color."))

    def _sign(self, sign: str, tip: str) -> QToolButton:
        button = QToolButton()
        button.setIcon(icon(sign, self._look.theme))
        button.setAccessibleName(tip)
        button.setToolTip(tip)
        return button

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE, 0, SPACE, SPACE)
        column.setSpacing(SPACE)
        self._ink_column = QVBoxLayout()
        self._ink_column.setSpacing(SPACE)
        ink_row = QHBoxLayout()
        ink_row.setSpacing(SPACE_TIGHT)
        ink_row.addWidget(self.more_inks)
        ink_row.addWidget(self.fewer_inks)
        ink_row.addStretch(1)
        _add(column, self.swatch, self.name, self.kind_field, self.ground)
        column.addLayout(self._ink_column)
        column.addLayout(ink_row)
        _add(column, self.scale, self._turn_field, self.one_way)
        _add(column, self.with_photo, self.paste_photo, self.without_photo, self.photo_note)
        _add(column, self.price, self.width_of_cloth, self.forms, self.note)
        column.addStretch(1)

    def _connect(self) -> None:
        for field in (self.name, self.ground, self.scale, self.price, self.width_of_cloth, self.note):
            field.edited.connect(self._told)
        self.forms.edited.connect(self._told)
        self.kind.activated.connect(self._kind_chosen)
        self.turn.valueChanged.connect(self._told)
        self.one_way.box.toggled.connect(self._told)
        self.more_inks.clicked.connect(self._one_more)
        self.fewer_inks.clicked.connect(self._one_less)
        self._look.changed.connect(self.dress)


def _add(column: QVBoxLayout, *widgets: QWidget) -> None:
    for widget in widgets:
        column.addWidget(widget)

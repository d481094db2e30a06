"""The design's name, and the quilter's own seam, cloth and habits, which every number takes into account."""

from collections.abc import Callable
from fractions import Fraction
from typing import Any

from PySide6.QtWidgets import QPlainTextEdit, QSpinBox

from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright.model.settings import PERFECT_STRIPS, Settings
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField, Drawer
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import Field, LengthField, TextField

_SEAMS = (Fraction(1, 4), Fraction(3, 8), Fraction(1, 2))
_WIDTHS = (Fraction(40), Fraction(42), Fraction(44))
_TRIMS = (Fraction(0), Fraction(1, 4), Fraction(1, 2))
_STRIPS = (PERFECT_STRIPS, PERFECT_STRIPS - Fraction(1, 16), PERFECT_STRIPS - Fraction(1, 8))
_MARGINS = (Fraction(0), Fraction(9, 2), Fraction(9))
_ABOUT_LINES = 4
_MOST_BETWEEN = 1000


class CountField(Field):
    """A whole number."""

    def __init__(self, label: str, least: int, most: int) -> None:
        super().__init__(label)
        self.box = QSpinBox()
        self.box.setRange(least, most)
        self.hold(self.box)
        self.box.valueChanged.connect(lambda _value: self.edited.emit())

    def show_value(self, value: int) -> None:
        """Show a number, silently."""
        self.box.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.box.setValue(value)
        self.box.blockSignals(False)  # noqa: FBT003 - Qt's own signature


class NotesField(Field):
    """Text of several lines."""

    def __init__(self, label: str) -> None:
        super().__init__(label)
        self.area = QPlainTextEdit()
        self.area.setTabChangesFocus(True)
        self.area.setFixedHeight(self.area.fontMetrics().lineSpacing() * _ABOUT_LINES + 16)
        self.hold(self.area)
        self.area.textChanged.connect(self.edited)

    def show_value(self, text: str) -> None:
        """Show a text, silently."""
        if text != self.area.toPlainText():
            self.area.blockSignals(True)  # noqa: FBT003 - Qt's own signature
            self.area.setPlainText(text)
            self.area.blockSignals(False)  # noqa: FBT003 - Qt's own signature


class SettingsDrawer(Drawer):
    """Each field is an edit of the design; they are settings of this design, not of the program."""

    def __init__(self, document: Document, look: Look) -> None:
        super().__init__(document, look, self.tr("This design"))

    def build(self) -> None:
        """Whose it is; then seam, cloth, truing and buying."""
        self._build_names()
        self._build_seam()
        self._build_cloth()
        self._build_buying()

    def show_values(self, design: Design) -> None:
        """Show what the design has."""
        settings = design.settings
        for line, text in ((self.name, design.name), (self.author, design.author)):
            if line.line.text() != text:
                line.show_value(text)
        self.about.show_value(design.about)
        for key, field in self._lengths.items():
            if field.value != getattr(settings, key):
                field.show_value(getattr(settings, key))
        self.trim_every.show_value(settings.trim_every)
        self.yardage.show_choices(self._roundings(), settings.yardage)
        if self.currency.line.text() != settings.currency:
            self.currency.show_value(settings.currency)
        self._tell_loss(settings)

    def _build_names(self) -> None:
        self.name = self._text(self.tr("Name"), lambda text: call("set-name", name=text))
        self.author = self._text(self.tr("Author"), lambda text: call("set-author", author=text))
        self.about = NotesField(self.tr("About it"))
        self.about.edited.connect(self._set_about)
        self.body.addWidget(self.about)

    def _build_seam(self) -> None:
        self._lengths: dict[str, LengthField] = {}
        self.add_heading(self.tr("Your seam"))
        self._length("seam", self.tr("Seam allowance"), _SEAMS)
        self.add_note(
            self.tr("What each seam takes on both sides. It changes every unfinished size and every cut.")
        )
        self._length("three_strips", self.tr("Three strips sewn, as measured"), _STRIPS)
        self.add_note(
            self.tr(
                "Sew three strips, each cut {strip} wide, press, and measure across: {perfect} if your seam is perfect."
            ).format(
                strip=self.look.measure.length(Fraction(5, 2)),
                perfect=self.look.measure.length(PERFECT_STRIPS),
            )
        )
        self._loss = self.add_note("")

    def _build_cloth(self) -> None:
        self.add_heading(self.tr("Your cloth"))
        self._length("usable", self.tr("Usable width"), _WIDTHS)
        self.add_note(self.tr("What is left between the selvages. It changes how many pieces a strip gives."))
        self.add_heading(self.tr("Truing of strip sets"))
        self._length("trim_first", self.tr("Cut off the first end"), _TRIMS, may_be_zero=True)
        self._length("trim_again", self.tr("Cut off again"), _TRIMS, may_be_zero=True)
        self.trim_every = CountField(self.tr("after so many cuts"), 1, _MOST_BETWEEN)
        self.trim_every.edited.connect(
            lambda: self._set(self.trim_every, trim_every=self.trim_every.box.value())
        )
        self.body.addWidget(self.trim_every)
        self.add_note(
            self.tr("Cuts go out of square; truing costs cloth, and so changes how many sets to sew.")
        )

    def _build_buying(self) -> None:
        self.add_heading(self.tr("Buying"))
        self.yardage = ChoiceField(self.tr("Round yardage up to"))
        self.yardage.edited.connect(lambda: self._set(self.yardage, yardage=self.yardage.value))
        self.body.addWidget(self.yardage)
        self._length("margin", self.tr("Added before rounding"), _MARGINS, may_be_zero=True)
        self.add_note(self.tr("For shrinkage, a crooked cut at the shop, or a change of mind."))
        self.currency = self._text(
            self.tr("Currency of prices"), lambda text: self._settings_call(currency=text.strip())
        )

    def _text(self, label: str, make: Callable[[str], EditCall]) -> TextField:
        field = TextField(label)
        field.edited.connect(lambda: self.try_edit(field, lambda: make(field.line.text())))
        self.body.addWidget(field)
        return field

    def _length(self, key: str, label: str, choices: tuple[Fraction, ...], may_be_zero: bool = False) -> None:
        field = LengthField(label, self.look.measure, choices, may_be_zero=may_be_zero)
        field.edited.connect(lambda: self._set(field, **{key: field.value}))
        self._lengths[key] = field
        self.body.addWidget(field)

    def _set(self, field: Field, **changed: Any) -> None:
        if None not in changed.values():
            self.try_edit(field, lambda: self._settings_call(**changed))

    def _set_about(self) -> None:
        self.try_edit(self.about, lambda: call("set-about", about=self.about.area.toPlainText()))

    def _settings_call(self, **changed: Any) -> EditCall:
        return call("change-settings", settings=self.document.design.settings.changed(**changed))

    def _tell_loss(self, settings: Settings) -> None:
        lost, measure = settings.lost_per_seam, self.look.measure
        if not lost:
            text = self.tr("Your seam takes just what it should.")
        elif lost > 0:
            text = self.tr("Each of your seams takes {lost} more than it should.")
        else:
            text = self.tr("Each of your seams takes {lost} less than it should.")
        self._loss.setText(text.format(lost=measure.length(abs(lost))))

    def _roundings(self) -> list[tuple[object, str]]:
        return [
            ("exact", self.tr("Not at all")),
            ("eighth", self.tr("1/8 yd")),
            ("quarter", self.tr("1/4 yd")),
            ("third", self.tr("1/3 yd")),
            ("half", self.tr("1/2 yd")),
        ]

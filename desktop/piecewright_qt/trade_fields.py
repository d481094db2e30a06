"""The settings of the trade as fields of a drawer: each says what it changes, and offers the values in use."""

from collections.abc import Mapping
from fractions import Fraction

from PySide6.QtCore import QCoreApplication, Qt
from PySide6.QtWidgets import QVBoxLayout

from piecewright.model.design import Design
from piecewright.plan.trade_settings import TRADE_SETTINGS, TradeSetting
from piecewright_qt.count_field import CountField
from piecewright_qt.drawer import ChoiceField, Drawer
from piecewright_qt.messages import words
from piecewright_qt.shelf.fields import CheckField, Field, LengthField, PercentField, TextField
from piecewright_qt.theme.tokens import SPACE_HAIR, SPACE_TIGHT

Shown = LengthField | ChoiceField | CountField | TextField | CheckField
SETTINGS: Mapping[str, TradeSetting] = {setting.key: setting for setting in TRADE_SETTINGS}
_COUNTS = {
    "settings.trim_every": (1, 1000),
    "settings.bundles.roll": (1, 1000),
    "settings.bundles.squares": (1, 1000),
}
_NEVER_NOTHING = {
    "settings.seam",
    "settings.three_strips",
    "settings.usable",
    "settings.bundles.quarter_width",
    "settings.bundles.quarter_length",
    "binding.width",
    "binding.seam",
    "backing.seam",
}
_PERCENT = {"settings.shrinkage.cloth", "settings.shrinkage.batting", "settings.shrinkage.take_up"}


class TradeDrawer(Drawer):
    """A drawer with settings of the trade among its fields; `settings_shown` has them by key."""

    settings_shown: dict[str, Shown]

    def add_setting(self, key: str, label: str, name: str = "") -> Shown:
        """A field for a setting, and under it what the setting changes."""
        setting = SETTINGS[key]
        field = self._field(setting, label, name)
        self.settings_shown[key] = field
        outer, self.body = self.body, QVBoxLayout()
        self.body.setContentsMargins(0, 0, 0, SPACE_TIGHT)
        self.body.setSpacing(SPACE_HAIR)
        self.body.addWidget(field)
        self.add_note(words(setting.changes, self.look.measure))
        outer.addLayout(self.body)
        self.body = outer
        return field

    def show_settings(self, design: Design) -> None:
        """Show what a design has, in every field that shows something else."""
        for key, field in self.settings_shown.items():
            _show(field, SETTINGS[key], SETTINGS[key].value(design))

    def _field(self, setting: TradeSetting, label: str, name: str) -> Shown:
        key = setting.key
        field: Shown
        if key in _COUNTS:
            count = CountField(label, *_COUNTS[key])
            count.edited.connect(lambda: self._set(setting, count, count.box.value()))
            return count
        if not setting.choices:
            text = TextField(label, name)
            text.edited.connect(lambda: self._set(setting, text, text.line.text().strip()))
            return text
        first = setting.choices[0].value
        if isinstance(first, bool):
            check = CheckField(label, name or label)
            check.box.clicked.connect(lambda on: self._set(setting, None, on))
            return check
        if isinstance(first, str):
            choice = ChoiceField(label, name)
            choice.edited.connect(lambda: self._set(setting, choice, choice.value))
            return choice
        field = self._length(setting, label, name)
        field.edited.connect(lambda: self._set(setting, field, field.value))
        return field

    def _length(self, setting: TradeSetting, label: str, name: str) -> LengthField:
        kind = PercentField if setting.key in _PERCENT else LengthField
        values = tuple(Fraction(choice.value) for choice in setting.choices)
        field = kind(label, self.look.measure, values, name, may_be_zero=setting.key not in _NEVER_NOTHING)
        for place, choice in enumerate(setting.choices):
            field.box.setItemData(place, choice.source, Qt.ItemDataRole.ToolTipRole)
        return field

    def _set(self, setting: TradeSetting, field: Field | None, value: object) -> None:
        if value is not None:
            self.try_edit(field, lambda: setting.set_to(self.document.design, value))


def _show(field: Shown, setting: TradeSetting, value: object) -> None:
    if isinstance(field, LengthField):
        if field.value != value:
            field.show_value(Fraction(str(value)))
    elif isinstance(field, CountField):
        field.show_value(int(str(value)))
    elif isinstance(field, TextField):
        if field.line.text().strip() != value:
            field.show_value(str(value))
    elif isinstance(field, CheckField):
        field.box.setChecked(bool(value))
    else:
        named = _named()
        field.show_choices([(one.value, named[str(one.value)]) for one in setting.choices], value)
        field.complain("")


def _named() -> Mapping[str, str]:
    """What the closed choices are called."""
    return {
        "exact": _say("Not at all"),
        "sixteenth": _say("1/16"),
        "eighth": _say("1/8"),
        "quarter": _say("1/4"),
        "third": _say("1/3"),
        "half": _say("1/2"),
        "whole": _say("A whole one"),
        "divide": _say("Divide"),
        "add": _say("Add"),
        "us": _say("United States"),
        "uk": _say("United Kingdom"),
        "europe": _say("Europe"),
        "australia": _say("Australia"),
        "straight": _say("Straight"),
        "bias": _say("On the bias"),
        "diagonal": _say("Diagonal"),
        "least": _say("Whichever takes less cloth"),
        "up": _say("Up the quilt"),
        "across": _say("Across the quilt"),
    }


def _say(text: str) -> str:
    return QCoreApplication.translate("trade", text)

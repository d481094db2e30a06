"""The settings of the trade, one by one: what each changes, in a sentence, and the values that sources differ on."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Any, Literal, get_args

import msgspec

from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright.model.settings import Country
from piecewright.words.message import Message, message

Holder = Literal["settings", "binding", "backing", "batting"]
UNSOURCED = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Choice:
    """A value that is in use, and where it was printed; any other may be entered as well."""

    value: Fraction | int | str | bool
    source: str = UNSOURCED


@dataclass(frozen=True, slots=True)
class TradeSetting:
    """One setting: the part of a design that holds it, its field ("shrinkage.cloth"), and the values in use.

    `closed`: one of the choices it must be.
    """

    holder: Holder
    field: str
    choices: tuple[Choice, ...] = ()
    closed: bool = False

    @property
    def key(self) -> str:
        """Its name among all settings."""
        return f"{self.holder}.{self.field}"

    @property
    def changes(self) -> Message:
        """One sentence: what it changes."""
        word = self.key.replace(".", "-").replace("_", "-")
        return message(f"trade.changes-{word}")

    def value(self, design: Design) -> Any:
        """What it is in a design, in the arrangement in view."""
        found: Any = design.settings if self.holder == "settings" else getattr(design.quilt, self.holder)
        for name in self.field.split("."):
            found = getattr(found, name)
        return found

    def set_to(self, design: Design, value: object) -> EditCall:
        """The edit that gives it another value. Raises BrokenRuleError where the value can not be."""
        held: Any = design.settings if self.holder == "settings" else getattr(design.quilt, self.holder)
        name, _, inner = self.field.partition(".")
        new = msgspec.structs.replace(getattr(held, name), **{inner: value}) if inner else value
        changed = held.changed(**{name: new})
        edit = "change-settings" if self.holder == "settings" else f"set-{self.holder}"
        return call(edit, **{self.holder: changed})


def _inches(*values: tuple[str, str] | str) -> tuple[Choice, ...]:
    pairs = ((value, UNSOURCED) if isinstance(value, str) else value for value in values)
    return tuple(Choice(sum(map(Fraction, text.split()), Fraction(0)), source) for text, source in pairs)


def _words(*values: str) -> tuple[Choice, ...]:
    return tuple(Choice(value) for value in values)


_YES_NO = (Choice(value=False), Choice(value=True))
_MEASURED = "'45 inch fabric': the widest in one stash, measured"
_MAGAZINE = "Quilting magazine free patterns"
_FLANGE = "'Double-fold flange binding' worked example (2019)"
_SHOP = "Shop blog 'How to figure yardage for quilt binding'"
_CHART = "Fabric shop 'Common quilt and batting sizes' (2012)"
_CHARITY = "Quilts of Valor Foundation (US charity), quilt requirements"
_CONVENTIONS = "Conventions of several worked examples"

TRADE_SETTINGS: tuple[TradeSetting, ...] = (
    TradeSetting("settings", "seam", _inches("1/4", "3/8", "1/2")),
    TradeSetting("settings", "three_strips", _inches("6 1/2")),
    TradeSetting(
        "settings",
        "usable",
        _inches("40", ("41 1/2", _MEASURED), ("42", _MAGAZINE), ("44", "'Math Charts': counts of squares")),
    ),
    TradeSetting("settings", "trim_first", _inches("0", "1/2")),
    TradeSetting("settings", "trim_again", _inches("0", "1/4")),
    TradeSetting("settings", "trim_every", (Choice(3), Choice(4))),
    TradeSetting("settings", "yardage", _words("exact", "eighth", "quarter", "third", "half"), closed=True),
    TradeSetting("settings", "margin", _inches("0", "2", "4", "9")),
    TradeSetting("settings", "currency"),
    TradeSetting(
        "settings", "lengths", _words("exact", "sixteenth", "eighth", "quarter", "half", "whole"), closed=True
    ),
    TradeSetting("settings", "shrinkage.cloth", _inches("0", "3", "5")),
    TradeSetting(
        "settings",
        "shrinkage.batting",
        _inches("0", ("3", "Quilters' forum 2014: cotton batting, 3 to 5 percent"), "5"),
    ),
    TradeSetting("settings", "shrinkage.take_up", _inches("0", "2", "3")),
    TradeSetting("settings", "shrinkage.way", _words("divide", "add"), closed=True),
    TradeSetting("settings", "bundles.quarter_width", _inches("20", "21", "22")),
    TradeSetting("settings", "bundles.quarter_length", _inches("18")),
    TradeSetting("settings", "bundles.roll", (Choice(20), Choice(40))),
    TradeSetting("settings", "bundles.squares", (Choice(40), Choice(42))),
    TradeSetting("settings", "country", _words(*get_args(Country)), closed=True),
    TradeSetting("settings", "drop", _inches("10", "12", ("13", _CHART), "21")),
    TradeSetting("settings", "tuck", _inches("0", "10", "11", "15")),
    TradeSetting("settings", "oversize", _inches("0", "1/8", "1/4", "1/2", "1")),
    TradeSetting(
        "binding",
        "width",
        _inches(*((width, _CONVENTIONS) for width in ("2", "2 1/4", "2 1/2", "3"))),
    ),
    TradeSetting("binding", "cut", _words("straight", "bias"), closed=True),
    TradeSetting("binding", "join", _words("diagonal", "straight"), closed=True),
    TradeSetting("binding", "seam", _inches("1/4", "3/8")),
    TradeSetting("binding", "extra", _inches("0", ("10", _FLANGE), ("15", _SHOP), ("20", _SHOP))),
    TradeSetting(
        "backing",
        "overage",
        _inches(("4", "Shop tools page, length only"), ("6", _CHART), ("8", _CHARITY), "10"),
    ),
    TradeSetting("backing", "seam", _inches("1/4", "1/2")),
    TradeSetting("backing", "lie", _words("least", "up", "across"), closed=True),
    TradeSetting("backing", "pieced", _YES_NO, closed=True),
    TradeSetting("backing", "sleeve"),
    TradeSetting("backing", "label"),
    TradeSetting("batting", "overage", _inches(("6", _CHART), "8", "10")),
)
"""Every one of them, in the order of the parts that hold them; all but the fabrics, which are no setting."""

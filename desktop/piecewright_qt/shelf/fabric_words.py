"""A fabric in words: its print and its value."""

from collections.abc import Mapping
from typing import cast

from PySide6.QtCore import QT_TRANSLATE_NOOP, QCoreApplication

from piecewright.model.fabric import Fabric, PrintKind
from piecewright.model.forms import FormKind
from piecewright.units.measure import Measure
from piecewright.words.message import message

ONE_WAY = cast(str, QT_TRANSLATE_NOOP("fabrics", "one-way"))
SOLID = cast(str, QT_TRANSLATE_NOOP("fabrics", "Solid"))
PRINTS = cast(
    Mapping[PrintKind, str],
    {
        "dots": QT_TRANSLATE_NOOP("fabrics", "Dots"),
        "stripes": QT_TRANSLATE_NOOP("fabrics", "Stripes"),
        "checks": QT_TRANSLATE_NOOP("fabrics", "Checks"),
        "plaid": QT_TRANSLATE_NOOP("fabrics", "Plaid"),
        "crosshatch": QT_TRANSLATE_NOOP("fabrics", "Crosshatch"),
        "texture": QT_TRANSLATE_NOOP("fabrics", "Texture"),
        "florals": QT_TRANSLATE_NOOP("fabrics", "Florals"),
        "leaves": QT_TRANSLATE_NOOP("fabrics", "Leaves"),
        "sprigs": QT_TRANSLATE_NOOP("fabrics", "Sprigs"),
        "stars": QT_TRANSLATE_NOOP("fabrics", "Stars"),
        "rings": QT_TRANSLATE_NOOP("fabrics", "Rings"),
        "waves": QT_TRANSLATE_NOOP("fabrics", "Waves"),
    },
)
"""The prints that the program draws, alike ones beside each other."""
VALUES = cast(
    Mapping[str, str],
    {
        "light": QT_TRANSLATE_NOOP("fabrics", "light"),
        "medium": QT_TRANSLATE_NOOP("fabrics", "medium"),
        "dark": QT_TRANSLATE_NOOP("fabrics", "dark"),
    },
)


def say(text: str) -> str:
    """A word about fabrics in the user's language."""
    return QCoreApplication.translate("fabrics", text)


def print_name(kind: PrintKind | None) -> str:
    """The name of a print, or that of none."""
    return say(SOLID if kind is None else PRINTS[kind])


def form_name(kind: FormKind, *, on_hand: bool = False) -> str:
    """A form of cloth by name; cloth off the bolt that is on hand is a piece of cloth."""
    if kind == "bolt" and on_hand:
        return say("Pieces of cloth")
    text = message(f"plan.form-{kind.replace(' ', '-')}").text()
    return text[:1].upper() + text[1:]


def fabric_line(fabric: Fabric, measure: Measure) -> str:
    """A fabric's print, repeat and direction: "Stripes, repeat 1/2 in, turned 90°, one-way"."""
    printed = fabric.print
    if printed is None:
        return print_name(None)
    parts = [print_name(printed.kind), message("shelf.print-repeat", scale=printed.scale).text(measure)]
    if printed.turn:
        turn = message("shelf.print-turned", turn=measure.degrees(printed.turn))
        parts.append(turn.text(measure))
    if printed.one_way:
        parts.append(say(ONE_WAY))
    return ", ".join(parts)

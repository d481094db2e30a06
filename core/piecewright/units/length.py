"""Reads a length as people type it, to exact inches."""

import re
from collections.abc import Mapping
from fractions import Fraction
from typing import NoReturn

from piecewright.errors import LengthError
from piecewright.units.scale import CM, FOOT, INCH, METRE, MM, YARD
from piecewright.words.message import Arg, message

MOST_CHARACTERS = 100
MOST_DIGITS = 24
MOST_INCHES = 1_000_000

_SPELLINGS: Mapping[Fraction, str] = {
    INCH: "in inch inches \" ″ ” “ '' ′′ ’’",
    FOOT: "ft foot feet",
    YARD: "yd yds yard yards",
    MM: "mm millimeter millimeters millimetre millimetres",
    CM: "cm centimeter centimeters centimetre centimetres",
    METRE: "m meter meters metre metres",
}
_UNITS = {spelling: inches for inches, spellings in _SPELLINGS.items() for spelling in spellings.split()}
_SIGNS = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅐": "1/7", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
    "⅑": "1/9", "⅒": "1/10",
}  # fmt: skip
_PLAIN = str.maketrans({"⁄": "/", "∕": "/", "−": "-"} | {sign: f" {text}" for sign, text in _SIGNS.items()})

_LENGTH = re.compile(
    r"""(?P<sign>[-+]?)\s?
    (?: (?:(?P<whole>[0-9]+)\s)? (?P<top>[0-9]+)\s?/\s?(?P<bottom>[0-9]+)
      | (?P<decimal>[0-9]+(?:[.,][0-9]*)?|[.,][0-9]+) )
    (?:\s?(?P<unit>[^\W\d_]+\.?|[^\w\s.,/+-]+))?""",
    re.VERBOSE,
)
_HYPHENED = re.compile(r"\s?[0-9]+\s?[-‐‑–]\s?(?P<fraction>[0-9]+\s?/\s?[0-9]+)")


def parse_length(text: str, *, allow_negative: bool = False, unit: Fraction = INCH) -> Fraction:
    """The exact inches of "6 1/2", "6.5", "6½", '6 1/2"', "16,5 cm", "165 mm", "1/4 yd", "2 m" and the like.

    A number alone is in `unit`, itself in inches. Raises LengthError, which says what to write, for anything
    else: no text, an unknown unit, a zero below the line, less than zero unless `allow_negative`, more than
    1 000 000 in.
    """
    found = _LENGTH.fullmatch(_plain_text(text))
    if found is None:
        _refuse_text(text)
    inches = _number(found, text) * _unit(found["unit"], unit)
    if inches < 0 and not allow_negative:
        raise LengthError(message("units.negative", text=_shown(text)), message("units.leave-sign-out"))
    if abs(inches) > MOST_INCHES:
        too_large = message("units.too-large", text=_shown(text), most=Fraction(MOST_INCHES))
        raise LengthError(too_large, message("units.check-number"))
    return inches


def _plain_text(text: str) -> str:
    """The same length in plain signs, with single spaces. Refuses what is too long to be one."""
    if len(text) > MOST_CHARACTERS:
        _refuse("too-long", count=len(text), most=MOST_CHARACTERS)
    plain = " ".join(text.translate(_PLAIN).split())
    if not plain:
        _refuse("empty")
    return plain


def _number(found: re.Match[str], text: str) -> Fraction:
    digits = max(len(found[group] or "") for group in ("whole", "top", "bottom", "decimal"))
    if digits > MOST_DIGITS:
        _refuse("too-many-digits", text=_shown(text), most=MOST_DIGITS)
    sign = -1 if found["sign"] == "-" else 1
    if found["decimal"]:
        return sign * Fraction(found["decimal"].replace(",", "."))
    top, bottom = int(found["top"]), int(found["bottom"])
    if bottom == 0:
        _refuse("divide-by-zero", text=_shown(text))
    if found["whole"] and top >= bottom:
        _refuse("fraction-not-below-one", text=_shown(text), fraction=f"{top}/{bottom}")
    return sign * (int(found["whole"] or 0) + Fraction(top, bottom))


def _unit(word: str | None, default: Fraction) -> Fraction:
    if word is None:
        return default
    inches = _UNITS.get(word.lower().removesuffix("."))
    if inches is None:
        raise LengthError(message("units.unknown-unit", unit=_shown(word)), message("units.known-units"))
    return inches


def _refuse_text(text: str) -> NoReturn:
    if _HYPHENED.match(text):
        raise LengthError(message("units.hyphen", text=_shown(text)), message("units.write-space"))
    _refuse("not-a-length", text=_shown(text))


def _refuse(fault: str, **args: Arg) -> NoReturn:
    raise LengthError(message(f"units.{fault}", **args), message("units.write-length"))


def _shown(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:40]}..."

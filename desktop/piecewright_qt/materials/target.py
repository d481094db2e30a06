"""Reads a size of quilt as people type it: "60 x 72", "152 x 183 cm", "60½ by 72½"."""

import re
from fractions import Fraction

from piecewright.errors import LengthError
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.units.scale import INCHES_BY_UNIT
from piecewright.words.message import message

_BETWEEN = re.compile(r"\s*(?:[x×*]|\bby\b)\s*", re.IGNORECASE)
_UNIT = re.compile(r"[^\d\s.,/½⅓⅔¼¾⅛⅜⅝⅞-]+\.?\s*$")


def parse_target(text: str, measure: Measure) -> tuple[Fraction, Fraction]:
    """Width and height in exact inches.

    A unit behind the last number is meant for both; without any it is the one that numbers are shown in. Raises
    LengthError, which says what to write.
    """
    parts = [part for part in _BETWEEN.split(text.strip()) if part]
    if len(parts) != 2:
        raise LengthError(message("units.not-a-size", text=text.strip()), message("units.write-size"))
    behind = _UNIT.search(parts[1])
    if behind is not None and _UNIT.search(parts[0]) is None:
        parts[0] = f"{parts[0]} {behind.group().strip()}"
    unit = INCHES_BY_UNIT[measure.unit]
    width, height = (parse_length(part, unit=unit) for part in parts)
    return width, height

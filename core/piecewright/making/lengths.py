"""Plain lengths in a recipe: an exact number of inches, or with one of its four units."""

import re
from fractions import Fraction

from piecewright.errors import LengthError, RecipeError
from piecewright.making.faults import refuse, shown
from piecewright.units.length import parse_length
from piecewright.words.message import Message, message

UNITS = ("in", "cm", "mm", "yd")

_UNIT = re.compile(r"[^\W_A-Za-z]\s*(?P<unit>[^\W\d_]+\.?)\s*\Z")


def read_length(value: object) -> Fraction:
    """The inches of "2 1/2", "0.75" or "6.5 cm". Raises RecipeError, without a place, for anything else."""
    if not isinstance(value, str):
        refuse("recipe.length-not-text", length_hint(value), value=shown(value))
    unit = _UNIT.search(value[-40:])
    if unit and unit["unit"] not in UNITS:
        refuse(
            "recipe.wrong-unit", message("recipe.units-known"), text=shown(value), unit=shown(unit["unit"])
        )
    try:
        return parse_length(value)
    except LengthError as fault:
        raise RecipeError(fault.message, fault.hint) from None


def length_hint(value: object) -> Message:
    """What to write in place of a value that is no text: the same number in quotation marks, if it is one."""
    written = shown(value)
    is_number = isinstance(value, int | float) and written.replace(".", "").isdigit()
    return message("recipe.write-so", value=written) if is_number else message("recipe.write-length")

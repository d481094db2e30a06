"""The rules that plain fields of a design keep: names, texts, colors and lengths a quilter could mean."""

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import NoReturn

from piecewright.errors import DesignError
from piecewright.making.faults import printable
from piecewright.words.message import Arg, Message, message

LONGEST_NAME = 200
LONGEST_TEXT = 100_000
LONGEST = Fraction(10_000)
_COLOR = re.compile("#[0-9a-fA-F]{6}")


class BrokenRuleError(DesignError, ValueError):
    """A value that breaks a rule of the design.

    A ValueError as well: to those alone the JSON reader adds the place.
    """


def refuse(code: str, hint: Message | None = None, where: str = "", **args: Arg) -> NoReturn:
    """Raise a BrokenRuleError with the sentence "model.<code>"."""
    raise BrokenRuleError(message(f"model.{code}", **args), hint, where)


def first_twice(words: Iterable[str]) -> str:
    """The first word that stood before, "" if none did; in time that only grows with their number."""
    seen = set[str]()
    for word in words:
        if word in seen:
            return word
        seen.add(word)
    return ""


def check_name(name: str, what: str) -> None:
    """Refuse a name that is blank, too long or no file can keep; `what` is the thing's word ("fabric")."""
    if not name.strip():
        refuse("no-name", what=what)
    if len(name) > LONGEST_NAME:
        refuse("long-name", message("model.shorten", most=LONGEST_NAME), what=what, length=len(name))
    check_text(name)


def check_text(text: str) -> None:
    """Refuse a text that is too long, or holds half characters (lone surrogates), which no file takes."""
    if len(text) > LONGEST_TEXT:
        refuse("long-text", message("model.shorten", most=LONGEST_TEXT), length=len(text))
    if not text.isascii() and any("\ud800" <= letter <= "\udfff" for letter in text):
        refuse("half-character", text=printable(text[:40]))


def check_color(color: str) -> None:
    """Refuse a color that is not written #rrggbb."""
    if not _COLOR.fullmatch(color):
        refuse("color", message("model.write-color"), color=printable(color[:40]))


def check_positive(length: Fraction, what: str, most: Fraction = LONGEST) -> None:
    """Refuse inches that are not above 0, or above `most`; `what` names the length ("border width")."""
    if length <= 0:
        refuse("not-positive", what=what, length=length)
    if length > most:
        refuse("too-long", what=what, length=length, most=most)


def check_not_negative(length: Fraction, what: str, most: Fraction = LONGEST) -> None:
    """Refuse inches below 0 or above `most`."""
    if length < 0:
        refuse("negative", what=what, length=length)
    if length > most:
        refuse("too-long", what=what, length=length, most=most)


def check_count(count: int, what: str, least: int, most: int) -> None:
    """Refuse a whole number outside `least` to `most`."""
    if not least <= count <= most:
        refuse("count", what=what, count=str(count)[:40], least=least, most=most)

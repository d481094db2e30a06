"""How a fault in a recipe is told: the value as the recipe writes it, the nearest good word, the place."""

import json
from collections.abc import Iterable
from difflib import get_close_matches
from typing import NoReturn

from piecewright.errors import RecipeError
from piecewright.words.message import Arg, Message, message

MOST_SHOWN = 60


def nearest(word: str, choices: Iterable[str]) -> str | None:
    """The known word that a misspelt one comes closest to; None where nothing is close."""
    lowered = {choice.lower(): choice for choice in choices}
    found = get_close_matches(word.lower(), lowered, n=1, cutoff=0.6)
    return lowered[found[0]] if found else None


def shown(value: object) -> str:
    """A wrong value as a recipe would write it, cut short where it is long."""
    if isinstance(value, str):
        short = value if len(value) <= MOST_SHOWN else f"{value[:MOST_SHOWN]}..."
        return printable(json.dumps(short, ensure_ascii=False))
    if isinstance(value, dict):
        return "{...}" if value else "{}"
    if isinstance(value, list | tuple):
        return "[...]" if value else "[]"
    if value is None or isinstance(value, bool):
        return {None: "null", True: "true", False: "false"}[value]
    if isinstance(value, int) and value.bit_length() > 4 * MOST_SHOWN:
        return "a number too long to show"
    text = str(value)
    return text if len(text) <= MOST_SHOWN else f"{text[:MOST_SHOWN]}..."


def printable(text: str) -> str:
    """The text with half characters (lone surrogates), which no file takes, written as escapes."""
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def refuse(code: str, hint: Message | None = None, where: str = "", **args: Arg) -> NoReturn:
    """Raise a RecipeError with the sentence of a code."""
    raise RecipeError(message(code, **args), hint, where)


def placed(fault: RecipeError, where: str) -> RecipeError:
    """The same fault with its place, such as "steps[4].every"; a place it has already is kept."""
    return fault if fault.where else RecipeError(fault.message, fault.hint, where)

"""JSON bytes into plain values, refusing what a recipe never holds, before anything looks at the meaning."""

import json
import math
from typing import NoReturn

from piecewright.errors import RecipeError
from piecewright.making.decoding import below
from piecewright.making.faults import printable, refuse, shown
from piecewright.words.message import message

MOST_BYTES = 256 * 1024
MOST_DEPTH = 40
MOST_NUMBER = 10**9
MOST_VALUES = 20_000


def read_json(data: bytes) -> object:
    """The JSON value in UTF-8 bytes.

    Raises RecipeError for bytes that are not UTF-8 or not JSON, a key twice, NaN, and what is too large.
    """
    if len(data) > MOST_BYTES:
        refuse("recipe.too-large", size=len(data) // 1024 + 1, most=MOST_BYTES // 1024)
    try:
        text = data.decode("utf-8-sig")
        return json.loads(text, object_pairs_hook=_object, parse_constant=_refuse_constant)
    except UnicodeDecodeError as fault:
        refuse("recipe.not-utf-8", message("recipe.save-as-utf-8"), place=fault.start + 1)
    except json.JSONDecodeError as fault:
        refuse(
            "recipe.not-json",
            message("recipe.mend-there"),
            line=fault.lineno,
            column=fault.colno,
            reason=fault.msg,
        )
    except RecursionError:
        refuse("recipe.too-deep", most=MOST_DEPTH)
    except ValueError:
        refuse("recipe.number-too-long")


def _object(pairs: list[tuple[str, object]]) -> dict[str, object]:
    found = dict(pairs)
    if len(found) < len(pairs):
        seen: set[str] = set()
        twice = next(key for key, _ in pairs if key in seen or seen.add(key))  # type: ignore[func-returns-value]
        refuse("recipe.key-twice", message("recipe.keep-one-key"), key=shown(twice))
    return found


def _refuse_constant(word: str) -> NoReturn:
    refuse("recipe.no-number", word=word)


def checked_plain(value: object) -> object:
    """A fresh copy of a JSON value in dicts and lists.

    Raises RecipeError for what JSON in UTF-8 can not hold, for null, and for what is too large or deep.
    """
    return _Copier().copy(value, "", 0)


class _Copier:
    def __init__(self) -> None:
        self._values = 0

    def copy(self, value: object, place: str, depth: int) -> object:
        self._values += 1
        if self._values > MOST_VALUES:
            refuse("recipe.too-many-values", most=MOST_VALUES)
        if depth > MOST_DEPTH:
            refuse("recipe.too-deep", most=MOST_DEPTH)
        if isinstance(value, dict):
            return {
                self._key(key, place): self.copy(part, below(place, key), depth + 1)
                for key, part in value.items()
            }
        if isinstance(value, list | tuple):
            return [self.copy(part, f"{place}[{index}]", depth + 1) for index, part in enumerate(value)]
        return _checked_atom(value, place)

    def _key(self, key: object, place: str) -> str:
        if not isinstance(key, str):
            refuse("recipe.key-not-text", where=place, key=shown(key))
        return _checked_text(key, place)


def _checked_atom(value: object, place: str) -> object:
    if isinstance(value, str):
        return _checked_text(value, place)
    if value is None:
        refuse("recipe.null", message("recipe.leave-key-out"), place)
    if isinstance(value, float) and not math.isfinite(value):
        refuse("recipe.no-number", where=place, word=shown(value))
    if isinstance(value, int) and abs(value) > MOST_NUMBER:
        refuse("recipe.number-too-long", where=place)
    if not isinstance(value, bool | int | float):
        refuse("recipe.not-plain", where=place, kind=type(value).__name__)
    return value


def _checked_text(text: str, place: str) -> str:
    if printable(text) != text:
        raise RecipeError(message("recipe.half-character", text=shown(text)), where=place)
    return text

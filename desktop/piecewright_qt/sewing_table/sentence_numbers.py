"""The numbers of a step's sentence that can be typed over, each with its place in the recipe."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from piecewright.errors import LengthError
from piecewright.making.draft import put_at
from piecewright.making.verbs.verb import Place
from piecewright.units.length import parse_length
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.lengths import set_length, value_at

_NUMBER = re.compile(r"(?<![\w.,/])(?:\d+ \d+/\d+|\d+/\d+|\d+(?:[.,]\d+)?)(?![\w/])")
_UNIT = re.compile(r"(?: (?:in|cm|mm|yd)\b| x \d|\")")
_BARE = re.compile(r"[\d\s/.,]+")
_NO_NUMBERS = frozenset({"make", "note", "fabric", "grain", "axis", "which", "layers", "sew", "seam"})


@dataclass(frozen=True, slots=True)
class Number:
    """A number in a sentence: where it stands in the words, and in the recipe; `counts` where it is no length."""

    start: int
    length: int
    place: Place
    counts: bool


def numbers_in(sentence: str, bench: Bench, look: Look, row: int) -> tuple[Number, ...]:
    """The numbers of a step's sentence that stand in the recipe, in the order of the words."""
    if bench.draft is None or row >= len(bench.draft.steps):
        return ()
    waiting = list(_places(bench.draft.steps[row], row))
    found: list[Number] = []
    for match in _NUMBER.finditer(sentence):
        is_length = _UNIT.match(sentence, match.end()) is not None
        for place, value in waiting:
            if is_length != isinstance(value, str) or _shown(place, value, bench, look) != match.group():
                continue
            waiting.remove((place, value))
            found.append(Number(match.start(), len(match.group()), place, counts=not is_length))
            break
    return tuple(found)


def _places(
    holder: Mapping[str, Any], row: int, inside: str = ""
) -> Iterator[tuple[Place, int | float | str]]:
    for key, value in holder.items():
        if key in _NO_NUMBERS:
            continue
        where = f"{inside}{key}"
        if isinstance(value, dict):
            yield from _places(value, row, f"{where}.")
        elif isinstance(value, list):
            for index, one in enumerate(value):
                if isinstance(one, str):
                    yield Place(row, where, index), one
        elif isinstance(value, int | float | str) and not isinstance(value, bool):
            yield Place(row, where), value


def _shown(place: Place, value: int | float | str, bench: Bench, look: Look) -> str | None:
    """A number as the sentence has it; None of what is no number."""
    if isinstance(value, float) or place.key == "angle":
        return look.measure.degrees(abs(float(value))).rstrip("°")
    if isinstance(value, int):
        return str(value)
    length = value_at(bench, place)
    return None if length is None else look.measure.bare(length)


def typed_text(number: Number, sentence: str, look: Look) -> str:
    """What stands in the field of a number: with its unit where that is not the inch."""
    text = sentence[number.start : number.start + number.length]
    unit = look.measure.unit
    return text if number.counts or unit == "in" else f"{text} {unit}"


def put_number(bench: Bench, look: Look, number: Number, typed: str) -> None:
    """Set a number to what was typed; what is none is written all the same, and said at its step."""
    text, place = typed.strip(), number.place
    if bench.draft is None or not text:
        return
    if number.counts:
        value = _lean(text, bench, place) if place.key == "angle" else int(text) if text.isdigit() else text
        bench.change(put_at(bench.draft.plain, place.step, place.key, value, place.index))
        return
    length = _length(text, look)
    if length is None:
        bench.change(put_at(bench.draft.plain, place.step, place.key, text, place.index))
    elif length != value_at(bench, place):
        set_length(bench, place, length)


def _lean(text: str, bench: Bench, place: Place) -> float | str:
    """Typed degrees, toward the side that the cut leans to already; the text itself where it is no number."""
    now = bench.draft.steps[place.step].get(place.key, 0) if bench.draft is not None else 0
    try:
        lean = float(text.replace(",", "."))
    except ValueError:
        return text
    lean = -lean if isinstance(now, int | float) and now < 0 else lean
    return int(lean) if lean.is_integer() else lean


def _length(text: str, look: Look) -> Fraction | None:
    """A typed length in the user's unit; None where it is an expression, or nonsense."""
    unit = look.measure.unit
    try:
        return parse_length(f"{text} {unit}" if unit != "in" and _BARE.fullmatch(text) else text)
    except LengthError:
        return None

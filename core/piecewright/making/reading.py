"""One step of a recipe from its plain JSON: which verb it is, its keys, and the names its lengths use."""

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

import msgspec

from piecewright.errors import RecipeError
from piecewright.making.declaring import check_known
from piecewright.making.decoding import below, decode
from piecewright.making.expressions import Expression
from piecewright.making.faults import nearest, refuse, shown
from piecewright.making.steps import Step
from piecewright.making.verbs import VERBS
from piecewright.words.message import message

FIT = "fit"


def decode_step(plain: Mapping[str, Any], place: str) -> Step:
    """The step of one JSON object. Raises RecipeError, its places beginning with `place` ("steps[4]")."""
    return decode(plain, VERBS[_verb_word(plain, place)].step, place)


def _verb_word(plain: Mapping[str, Any], place: str) -> str:
    found = [key for key in plain if key in VERBS]
    if len(found) > 1:
        refuse("recipe.two-verbs", message("recipe.split-step"), place, verbs=tuple(found))
    if found:
        return found[0]
    meant = [
        message("recipe.verb-meant", word=near, key=shown(key))
        for key in plain
        if (near := nearest(key, VERBS))
    ]
    known = message("recipe.verbs-known", verbs=tuple(VERBS))
    raise RecipeError(message("recipe.no-verb"), meant[0] if meant else known, place)


def verb_word(step: Step) -> str:
    """The verb of a step."""
    return next(word for word, verb in VERBS.items() if isinstance(step, verb.step))


def check_step_names(
    steps: tuple[Step, ...], finished: tuple[Expression, ...], known: tuple[str, ...]
) -> None:
    """Raise RecipeError where a length of a step, or of the finished size, uses a name that is not known."""
    for index, step in enumerate(steps):
        for place, length in lengths_in(step, f"steps[{index}]"):
            check_known(length, known, place)
    for index, length in enumerate(finished):
        check_known(length, known, f"finished[{index}]")


def lengths_in(value: object, place: str) -> Iterator[tuple[str, Expression]]:
    """Every length in a step or a part of one, with its place; the word "fit" stands for a length and is none."""
    if isinstance(value, Expression):
        if value.text.strip() != FIT:
            yield place, value
    elif isinstance(value, tuple):
        for index, part in enumerate(value):
            yield from lengths_in(part, f"{place}[{index}]")
    elif isinstance(value, Mapping):
        for key, part in value.items():
            yield from lengths_in(part, below(place, key))
    elif isinstance(value, msgspec.Struct):
        for name, key in _fields(type(value)):
            yield from lengths_in(getattr(value, name), below(place, key))


@cache
def _fields(kind: type[msgspec.Struct]) -> tuple[tuple[str, str], ...]:
    """The fields of a step, each with its key: worked out once, for every recipe that is tried is read anew."""
    return tuple((field.name, field.encode_name) for field in msgspec.structs.fields(kind))

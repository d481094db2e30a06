"""The sentences of all areas in one place, and what a translation has to give beside them."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from types import MappingProxyType

from piecewright.words.sentences import (
    arrange,
    block_text,
    checks,
    commands,
    cutting,
    cutting_table,
    edit,
    files,
    making,
    model,
    plan,
    recipe,
    render,
    resize,
    sewing,
    shelf,
    solve,
    trade,
    units,
    wall,
)


def merged(areas: Iterable[Mapping[str, str]]) -> Mapping[str, str]:
    """The sentences of several areas as one; a code given twice is a fault of the program: ValueError."""
    sentences: dict[str, str] = {}
    for area in areas:
        twice = sentences.keys() & area.keys()
        if twice:
            raise ValueError(f"sentences given twice: {sorted(twice)}")
        sentences.update(area)
    return MappingProxyType(sentences)


SENTENCES_BY_CODE: Mapping[str, str] = merged(
    area.SENTENCES
    for area in (
        units,
        recipe,
        making,
        block_text,
        model,
        edit,
        arrange,
        plan,
        cutting,
        cutting_table,
        files,
        checks,
        commands,
        render,
        resize,
        sewing,
        shelf,
        solve,
        trade,
        wall,
    )
)


def _english_form(count: int | float | Fraction) -> int:
    return 0 if count == 1 else 1


@dataclass(frozen=True)
class Catalogue:
    """The sentences of one language by code, and how it counts and joins.

    `form` picks the plural form for a count, 0 being the first; `joins` has the last joining word of a list
    ("and", "or") and the word for an empty one ("none"); `size_words` what is said beside a size.
    """

    sentences: Mapping[str, str]
    form: Callable[[int | float | Fraction], int] = _english_form
    joins: Mapping[str, str] = field(default_factory=lambda: {"and": "and", "or": "or", "none": "none"})
    size_words: Mapping[str, str] = field(
        default_factory=lambda: {"cut": "cut", "unfinished": "unfinished", "finished": "finished"}
    )


ENGLISH = Catalogue(SENTENCES_BY_CODE)

"""Every sentence of the catalogue can be said, is said somewhere, and nothing is said that is not in it."""

import re
from fractions import Fraction
from string import Formatter

import pytest

from piecewright.units.measure import Measure
from piecewright.units.sizes import Finished
from piecewright.words.catalogue import SENTENCES_BY_CODE
from piecewright.words.message import Arg, Message, message
from tests.core.words.codes_in_source import CODE, said_in

CORE = said_in("core")
EVERYWHERE = said_in("core", "desktop")
AREAS = {code.partition(".")[0] for code in SENTENCES_BY_CODE}

COUNTS: tuple[Arg, ...] = (0, 1, 2, Fraction(3, 2))
NUMBERS: tuple[Arg, ...] = (0, 1, Fraction(13, 2), Fraction(-13, 3), 7.986327)
SIZE = Finished(Fraction(6), 12.0)
LISTS: tuple[Arg, ...] = ((), ("a",), ("a", "b"), (Fraction(1, 2), 2, SIZE), ((1, 2), 3))
TEXTS: tuple[Arg, ...] = ("", "{a}", "two\nlines", "½ \u202e", Message("units.empty"), SIZE)
FORMS = {"and": LISTS, "or": LISTS, "": (*NUMBERS, *TEXTS, *LISTS)}

MEASURES = (Measure(), Measure(fraction=8), Measure("cm", comma=True), Measure("mm", fraction=1))


def fields(template: str) -> dict[str, list[str]]:
    """The names a template needs, each with the forms it is shown in."""
    found: dict[str, list[str]] = {}
    for _, name, form, _ in Formatter().parse(template):
        if name is not None:
            found.setdefault(name, []).append(form or "")
    return found


def samples(forms: list[str]) -> tuple[Arg, ...]:
    """Values that all the forms of one name can show."""
    if any("|" in form for form in forms):
        return COUNTS
    return next((FORMS.get(form, NUMBERS) for form in forms if form), FORMS[""])


@pytest.mark.parametrize("code", SENTENCES_BY_CODE)
def test_every_sentence_can_be_said(code: str) -> None:
    needed = {name: samples(forms) for name, forms in fields(SENTENCES_BY_CODE[code]).items()}
    for turn in range(max(map(len, needed.values()), default=1)):
        args = {name: values[turn % len(values)] for name, values in needed.items()}
        for measure in MEASURES:
            text = message(code, **args).text(measure)
            assert text.isprintable(), text


@pytest.mark.parametrize("code", SENTENCES_BY_CODE)
def test_every_code_is_an_area_and_words_and_every_field_a_name(code: str) -> None:
    assert CODE.fullmatch(code)
    assert all(name.isidentifier() for name in fields(SENTENCES_BY_CODE[code]))


def test_every_code_the_engine_names_has_a_sentence() -> None:
    missing = {
        code: place
        for code, place in CORE.codes.items()
        if code.partition(".")[0] in AREAS and code not in SENTENCES_BY_CODE
    }
    assert not missing


def test_every_message_made_has_a_sentence_and_brings_what_it_names() -> None:
    wrong = {}
    for call in EVERYWHERE.calls:
        if call.code not in SENTENCES_BY_CODE:
            wrong[call.place] = f"{call.code} has no sentence"
        elif call.names is not None and fields(SENTENCES_BY_CODE[call.code]).keys() - call.names:
            missing = sorted(fields(SENTENCES_BY_CODE[call.code]).keys() - call.names)
            wrong[call.place] = f"{call.code} lacks {missing}"
    assert not wrong


def test_every_code_put_together_can_come_to_a_sentence() -> None:
    put_together = [pattern for pattern in EVERYWHERE.perhaps if "[" in pattern]
    assert put_together
    assert not [
        pattern
        for pattern in put_together
        if not any(re.fullmatch(pattern, code) for code in SENTENCES_BY_CODE)
    ]


def test_every_sentence_is_said_somewhere() -> None:
    assert not [code for code in SENTENCES_BY_CODE if not EVERYWHERE.may_say(code)]


def test_the_reading_of_the_source_finds_what_is_there() -> None:
    assert "units.empty" in CORE.codes
    names_by_code = {call.code: call.names for call in CORE.calls}
    assert names_by_code["units.unknown-unit"] == frozenset({"unit"})
    assert CORE.may_say("units.empty")
    assert not CORE.may_say("units.no-such-sentence")
    assert names_by_code["units.divide-by-zero"] == frozenset({"text"})

"""One word for one thing: the list has every value of the design, and no sentence uses a word it closes."""

import importlib
import pkgutil
import re
from collections.abc import Iterator
from pathlib import Path

import msgspec

import piecewright.model
import piecewright_data
from piecewright.model.value import Value
from piecewright.words.catalogue import SENTENCES_BY_CODE

LIST = Path(piecewright_data.__path__[0]) / "help" / "words.md"
BASE_ONLY = frozenset({Value})
"""Classes that others are built on and that no design holds by themselves."""


def _rows() -> Iterator[list[str]]:
    for line in LIST.read_text(encoding="utf-8").splitlines():
        cells = [cell.strip() for cell in line.strip("|").split("|")]
        if line.startswith("| **"):
            yield cells


def _words() -> set[str]:
    return {word for word, *_ in _rows() for word in re.findall(r"\*\*(.+?)\*\*", word)}


def _closed_words() -> set[str]:
    return {word.strip() for *_, closed in _rows() for word in closed.split(",") if word.strip()}


def _model_classes() -> set[type]:
    modules = [
        importlib.import_module(module.name)
        for module in pkgutil.walk_packages(piecewright.model.__path__, "piecewright.model.")
    ]
    return {
        found
        for module in modules
        for found in vars(module).values()
        if isinstance(found, type)
        and issubclass(found, msgspec.Struct)
        and found.__struct_config__.frozen
        and found.__module__ == module.__name__
    }


def _as_words(name: str) -> str:
    return re.sub(r"(?<=[a-z])(?=[A-Z])", " ", name).lower()


def test_every_value_of_the_design_has_its_word() -> None:
    classes = _model_classes() - BASE_ONLY
    assert len(classes) > 10
    assert {_as_words(found.__name__) for found in classes} - _words() == set()


def test_every_row_has_a_word_a_meaning_and_what_is_not_said() -> None:
    rows = list(_rows())
    assert len(rows) > 40
    assert [row for row in rows if len(row) != 3 or not all(row)] == []


def test_no_word_stands_for_two_things() -> None:
    words = [word for word, *_ in _rows()]
    assert len(words) == len(set(words))
    assert _words() & _closed_words() == set()


def test_no_sentence_uses_a_closed_word() -> None:
    closed = re.compile(r"\b(" + "|".join(map(re.escape, sorted(_closed_words()))) + r")\b", re.IGNORECASE)
    said = {code: re.sub(r"\{[^}]*\}", "", text) for code, text in SENTENCES_BY_CODE.items()}
    assert {code: found[0] for code, text in said.items() if (found := closed.search(text))} == {}

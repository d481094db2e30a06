"""The word list: every class of the model is in it, every word once."""

import re
from collections import Counter
from importlib import import_module
from importlib.resources import files
from pkgutil import iter_modules

import pytest

import piecewright.model
from piecewright.making.recipe import Recipe
from piecewright.model.value import JsonObject, Table, Value

LIST = (files("piecewright_data") / "help" / "words.md").read_text("utf-8")
MACHINERY = {Value, Table, JsonObject}
"""What values are built of; no thing of the trade."""


def model_classes() -> list[type]:
    """Every class of a value that a design can hold."""
    modules = [
        import_module(f"piecewright.model.{found.name}") for found in iter_modules(piecewright.model.__path__)
    ]
    known = {
        item
        for module in modules
        for item in vars(module).values()
        if isinstance(item, type) and issubclass(item, Value | Table) and item not in MACHINERY
    }
    return sorted({*known, Recipe}, key=lambda kind: kind.__name__)


@pytest.mark.parametrize("kind", model_classes(), ids=lambda kind: kind.__name__)
def test_every_class_of_the_model_has_its_word(kind: type) -> None:
    assert len(re.findall(rf"`{kind.__name__}`", LIST)) == 1


def test_every_word_is_explained_once_on_a_line_of_its_own() -> None:
    lines = [line for line in LIST.splitlines() if line.startswith("- ")]
    assert len(lines) > 60
    for line in lines:
        assert re.match(r"- \*\*.+?\*\*.*: .+\.$", line), line
    words = Counter(word.lower() for line in lines for word in re.findall(r"^- \*\*(.+?)\*\*", line))
    assert [word for word, count in words.items() if count > 1] == []


def test_every_code_name_in_the_list_is_a_class() -> None:
    known = {kind.__name__ for kind in model_classes()} | {"Shelf", "Code"}
    assert set(re.findall(r"`(\w+)`", LIST)) == known

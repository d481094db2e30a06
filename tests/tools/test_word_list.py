"""One word for one thing: no sentence of the engine, and no page of help, uses a word that the list closes."""

import re
from pathlib import Path

import pytest

import piecewright_data
from piecewright.words.catalogue import SENTENCES_BY_CODE

HELP = Path(piecewright_data.__path__[0]) / "help"
LIST = (HELP / "words.md").read_text(encoding="utf-8")
PAGES = sorted(path.name for path in HELP.glob("*.md") if path.name != "words.md")


def _words() -> set[str]:
    return {word.lower() for word in re.findall(r"\*\*(.+?)\*\*", LIST)}


def _not_said() -> dict[str, str]:
    """The word to use instead, by each word that is not said."""
    rows = re.findall(r"^\| ([^|]+) \| ([^|]+) \|$", LIST.partition("## Not said")[2], re.MULTILINE)[1:]
    return {word.strip(): instead for words, instead in rows for word in words.split(",")}


def closed_in(text: str) -> list[str]:
    closed = "|".join(re.escape(word) for word in sorted(_not_said()))
    return re.findall(rf"(?<![\w-])(?:{closed})(?![\w-])", text, re.IGNORECASE)


def test_the_list_closes_words_and_finds_them() -> None:
    assert len(_not_said()) > 30
    assert closed_in("Rotate the swatch") == ["Rotate", "swatch"]


def test_what_is_said_instead_is_in_the_list_and_what_is_not_said_is_not() -> None:
    assert set(_not_said().values()) - _words() == set()
    assert set(_not_said()) & _words() == set()


def test_no_sentence_uses_a_closed_word() -> None:
    said = {code: re.sub(r"\{(\w+)(:\w*)?\}", "", text) for code, text in SENTENCES_BY_CODE.items()}
    assert {code: found for code, text in said.items() if (found := closed_in(text))} == {}


@pytest.mark.parametrize("page", PAGES)
def test_no_page_of_help_uses_a_closed_word(page: str) -> None:
    assert closed_in((HELP / page).read_text(encoding="utf-8")) == []

"""Text is measured as the shipped fonts have it."""

import json
from importlib.resources import files

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.render.pen import TextStyle
from piecewright.render.typeface import font_bytes, text_width, wrapped
from tests.tools.write_font_advances import all_advances

STYLE = TextStyle(0.135, "#000000")


def test_the_table_beside_the_fonts_is_what_the_fonts_say() -> None:
    shipped = files("piecewright_data").joinpath("fonts", "advances.json").read_text(encoding="utf-8")
    assert json.loads(shipped) == all_advances()


def test_the_fonts_come_with_their_license() -> None:
    text = files("piecewright_data").joinpath("fonts", "OFL.txt").read_text(encoding="utf-8")
    assert "SIL OPEN FONT LICENSE Version 1.1" in text
    assert all(data[:4] == b"OTTO" for data in font_bytes())


@pytest.mark.parametrize("words", ["6 1/2 in unfinished", "8.5 x 12 ½", "180°", "Größe, ñandú"])
def test_every_sign_that_is_said_has_a_width_of_its_own(words: str) -> None:
    table = all_advances()["400"]["widths"]
    assert isinstance(table, dict)
    assert set(words) <= set("".join(table.values()))


@given(st.lists(st.text("abcdefgh ½/", min_size=1, max_size=12), max_size=12).map(" ".join))
def test_wrapping_keeps_every_word_in_order_and_every_line_within_the_width(words: str) -> None:
    lines = wrapped(words, STYLE, 1.0)
    assert " ".join(lines).split() == words.split()
    assert all(text_width(line, STYLE) <= 1.0 or " " not in line for line in lines)


def test_a_number_keeps_its_fraction_and_its_unit_beside_it() -> None:
    words = "Slice the set from 3 9/16 in along the top to 5 9/16 in along the bottom: 9 1/8 x 8 1/2 in"
    for tenths in range(5, 40):
        lines = wrapped(words, STYLE, tenths / 10)
        assert " ".join(lines) == words
        assert all(
            sum(kept in line for line in lines) == 1
            for kept in ("3 9/16 in", "5 9/16 in", "9 1/8 x 8 1/2 in")
        )


@given(st.text("abcWM 12", max_size=20), st.sampled_from([1.0, 2.5]))
def test_width_grows_evenly_with_size(words: str, times: float) -> None:
    larger = TextStyle(STYLE.size * times, STYLE.color)
    assert text_width(words, larger) == pytest.approx(text_width(words, STYLE) * times)

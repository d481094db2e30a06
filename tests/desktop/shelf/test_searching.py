"""What a search finds: words in any order, sizes typed any way."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.units.measure import Measure
from piecewright.units.scale import CM, INCHES_BY_UNIT
from piecewright.units.sizes import Finished
from piecewright_qt.shelf.searching import read_query

HALVES = Finished(Fraction(6), Fraction(12))
eighths = st.integers(1, 400).map(lambda count: Fraction(count, 8))


@pytest.mark.parametrize(
    "text",
    ["6 x 12", "12x6", "6in × 12 in", "15,24 cm x 30.48cm", "halves 6 x 12", "6 x 12 HAL", "6", "12 in"],
)
def test_a_size_is_found_however_it_is_typed(text: str) -> None:
    assert read_query(text).finds("halves of thirds", HALVES)


@pytest.mark.parametrize("text", ["6 x 6", "7", "12 x 12", "rails 6 x 12", "6 x", "halves thirds fifths"])
def test_what_is_not_meant_is_not_found(text: str) -> None:
    assert not read_query(text).finds("halves of thirds", HALVES)


def test_words_are_found_in_any_order_and_case() -> None:
    assert read_query("THIRDS halv").finds("halves of thirds")


def test_bare_numbers_are_in_the_unit_in_force() -> None:
    assert read_query("16 x 20", CM).finds("", Finished(16 * CM, 20 * CM))


@given(eighths, eighths, st.sampled_from(["in", "cm", "mm"]))
def test_every_size_is_found_as_it_is_shown(width: Fraction, height: Fraction, unit: str) -> None:
    measure = Measure(unit)  # type: ignore[arg-type]
    query = read_query(measure.size(width, height), INCHES_BY_UNIT[measure.unit])
    assert query.finds("", Finished(width, height))
    assert not query.finds("", Finished(width + 1, height + 3))


@given(st.text(max_size=60))
def test_nothing_typed_fails(text: str) -> None:
    query = read_query(text)
    assert query.finds(text.casefold(), HALVES)

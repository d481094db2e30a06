"""What is shown can be typed in again, and rounding on the way to the eye is as named."""

from fractions import Fraction
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.units.length import parse_length
from piecewright.units.measure import Measure, Yardage
from piecewright.units.rounding import YARDAGE_ROUNDINGS, round_yardage
from piecewright.units.scale import INCHES_BY_UNIT, METRE, UnitName
from piecewright.words.message import Message

UNITS: tuple[UnitName, ...] = ("in", "cm", "mm")

lengths = st.fractions(min_value=0, max_value=10_000, max_denominator=10_000)
ruler_lengths = st.integers(0, 64 * 1_000).map(lambda n: Fraction(n, 64))
metric_lengths = st.integers(0, 10**8).map(lambda n: Fraction(n, 1_000) * INCHES_BY_UNIT["mm"])
anything = st.one_of(lengths, ruler_lengths, metric_lengths)
floats = st.floats(-10_000, 10_000)
measures = st.builds(
    Measure, st.sampled_from(UNITS), st.sampled_from((None, 1, 2, 8, 10, 16, 64)), st.booleans()
)


@given(anything, st.sampled_from(UNITS), st.booleans())
def test_an_exact_measure_is_read_back_exactly(x: Fraction, unit: UnitName, comma: bool) -> None:
    measure = Measure(unit, comma=comma)
    assert parse_length(measure.length(x)) == x
    assert parse_length(measure.bare(x), unit=INCHES_BY_UNIT[unit]) == x
    assert parse_length(measure.length(-x), allow_negative=True) == -x


@given(anything, st.sampled_from(UNITS), st.sampled_from((8, 10, 16)))
def test_a_measure_to_a_part_is_off_by_half_a_part_at_most(x: Fraction, unit: UnitName, part: int) -> None:
    shown = parse_length(Measure(unit, part).length(x))
    assert abs(shown - x) <= INCHES_BY_UNIT[unit] / part / 2
    assert (shown / INCHES_BY_UNIT[unit] * part).denominator == 1


@given(floats, st.sampled_from(UNITS), st.booleans())
def test_a_float_is_shown_to_three_decimals_at_most(x: float, unit: UnitName, comma: bool) -> None:
    text = Measure(unit, comma=comma).bare(x)
    mark = "," if comma else "."
    assert len(text.partition(mark)[2]) <= 3
    assert not (mark in text and text.endswith("0"))
    shown = Fraction(text.replace(",", ".")) * INCHES_BY_UNIT[unit]
    assert abs(shown - Fraction(x)) <= INCHES_BY_UNIT[unit] * Fraction(5001, 10**7)


@given(lengths)
def test_yardage_never_shows_less_cloth(x: Fraction) -> None:
    assert parse_length(Measure().yards(x)) == x
    assert parse_length(Measure().yards(float(x))) >= x - Fraction(1, 10**6)
    meters = parse_length(Measure("cm").yards(x))
    assert x <= meters < x + METRE / 10


@given(lengths, st.sampled_from(sorted(YARDAGE_ROUNDINGS)))
def test_meters_are_rounded_from_what_is_exact_and_yards_as_shops_cut(exact: Fraction, name: str) -> None:
    """Half a yard for 20 in is 36 in, 1 m; but 20 in are 0.508 m, and 0.6 m will do."""
    bought = Yardage(exact, round_yardage(exact, name))
    assert Measure().yards(bought) == Measure().yards(bought.rounded)
    assert exact <= parse_length(Measure("cm").yards(bought)) < exact + METRE / 10
    said = Message("plan.over-hint", (("buy", bought),))
    assert Measure("cm").yards(exact) in said.text(Measure("cm"))


@given(
    measures,
    st.one_of(floats, anything, st.integers(-100, 100), st.sampled_from((nan, inf, -inf, Fraction(10**400)))),
)
def test_no_number_is_too_odd_to_be_shown(measure: Measure, x: float | Fraction) -> None:
    shown = [
        measure.length(x),
        measure.size(x, x),
        measure.area(x),
        measure.yards(x),
        measure.degrees(x),
        measure.number(x),
        measure.percent(x),
    ]
    assert all(text and text.isprintable() for text in shown)


@pytest.mark.parametrize(
    ("shown", "expected"),
    [
        (Measure().length(Fraction(13, 2)), "6 1/2 in"),
        (Measure().bare(Fraction(3, 8)), "3/8"),
        (Measure().bare(Fraction(13, 3)), "4 1/3"),
        (Measure().bare(Fraction(-13, 2)), "-6 1/2"),
        (Measure().bare(0), "0"),
        (Measure().bare(-0.0001), "0"),
        (Measure().length(7.986327), "7.986 in"),
        (Measure().length(8.0), "8 in"),
        (Measure(fraction=8).length(Fraction(13, 3)), "4 3/8 in"),
        (Measure(fraction=16).length(Fraction(13, 3)), "4 5/16 in"),
        (Measure(fraction=8).length(7.986327), "8 in"),
        (Measure().size(Fraction(13, 2), Fraction(25, 2)), "6 1/2 x 12 1/2 in"),
        (Measure().area(Fraction(169, 4)), "42 1/4 sq in"),
        (Measure().area(43.25001), "43.25 sq in"),
        (Measure().area(Fraction(13, 64) ** 2), "169/4096 sq in"),
        (Measure().area((Fraction(10) / Fraction(254, 100)) ** 2), "15.5 sq in"),
        (Measure().yards(Fraction(99, 2)), "1 3/8 yd"),
        (Measure().yards(Fraction(36)), "1 yd"),
        (Measure().degrees(13.2405), "13.24°"),
        (Measure().degrees(45), "45°"),
        (Measure().number(2.50), "2.5"),
        (Measure().percent(Fraction(1, 8)), "12.5 %"),
        (Measure("cm").length(Fraction(13, 2)), "16.51 cm"),
        (Measure("cm", comma=True).length(Fraction(13, 2)), "16,51 cm"),
        (Measure("cm", fraction=10).length(Fraction(13, 2)), "16.5 cm"),
        (Measure("cm").length(Fraction(1, 3)), "127/150 cm"),
        (Measure("mm").length(Fraction(13, 2)), "165.1 mm"),
        (Measure("mm", fraction=1).length(Fraction(13, 2)), "165 mm"),
        (Measure("cm").size(Fraction(13, 2), Fraction(25, 2)), "16.51 x 31.75 cm"),
        (Measure("cm").area(Fraction(1)), "6.452 sq cm"),
        (Measure("cm").yards(Fraction(99, 2)), "1.3 m"),
        (Measure("mm", comma=True).yards(Fraction(99, 2)), "1,3 m"),
        (Measure(comma=True).degrees(13.2405), "13,24°"),
    ],
)
def test_how_numbers_look(shown: str, expected: str) -> None:
    assert shown == expected

"""A rounding goes the way its name says, once, and cloth that is rounded down still fits."""

from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from piecewright.units.rounding import (
    ROUNDINGS,
    YARDAGE_ROUNDINGS,
    Rounding,
    down_to,
    nearest,
    round_yardage,
    up_to,
    whole_down,
    whole_up,
)

lengths = st.fractions(min_value=-10_000, max_value=10_000, max_denominator=10_000)
cloth = st.fractions(min_value=0, max_value=10_000, max_denominator=1_000)
steps = st.sampled_from(
    [Fraction(1, 16), Fraction(1, 8), Fraction(1, 3), Fraction(1), Fraction(9, 2), Fraction(36)]
)


@given(lengths, st.sampled_from(sorted(ROUNDINGS)))
def test_a_name_never_goes_the_wrong_way(x: Fraction, name: str) -> None:
    rounding = ROUNDINGS[name]
    y = rounding(x)
    step = rounding.step or Fraction(0)
    if name.endswith("down"):
        assert x - step < y <= x
    elif name.endswith("nearest"):
        assert abs(y - x) <= step / 2
    else:
        assert x <= y
        assert y < x + step or y == x
    assert not step or (y / step).denominator == 1


@given(lengths, st.sampled_from(sorted(ROUNDINGS)))
def test_rounding_twice_is_rounding_once(x: Fraction, name: str) -> None:
    once = ROUNDINGS[name](x)
    assert ROUNDINGS[name](once) == once


@given(lengths, lengths, st.sampled_from(sorted(ROUNDINGS)))
def test_more_cloth_never_rounds_to_less(x: Fraction, y: Fraction, name: str) -> None:
    assert ROUNDINGS[name](min(x, y)) <= ROUNDINGS[name](max(x, y))


@given(cloth, st.integers(1, 12), steps)
def test_cuts_of_a_part_rounded_down_fit_the_strip(strip: Fraction, parts: int, step: Fraction) -> None:
    assert parts * down_to(step)(strip / parts) <= strip


@given(cloth, st.integers(1, 12), steps)
def test_pieces_rounded_up_are_never_short(whole: Fraction, parts: int, step: Fraction) -> None:
    assert parts * up_to(step)(whole / parts) >= whole


@given(st.integers(-10_000, 10_000), steps, st.floats(-9e-10, 9e-10))
def test_a_float_at_a_step_but_for_noise_is_that_step(count: int, step: Fraction, noise: float) -> None:
    value = float(count * step) + noise
    assume(abs(Fraction(value) - count * step) <= Fraction(1, 10**9))
    assert up_to(step)(value) == down_to(step)(value) == nearest(step)(value) == count * step


@given(st.floats(-10_000, 10_000), steps)
def test_a_float_is_rounded_as_named_but_for_noise(value: float, step: Fraction) -> None:
    assert up_to(step)(value) >= Fraction(value) - Fraction(1, 10**9)
    assert down_to(step)(value) <= Fraction(value) + Fraction(1, 10**9)
    assert abs(nearest(step)(value) - Fraction(value)) <= step / 2


@given(st.one_of(lengths, st.integers(-100, 100).map(Fraction)))
def test_whole_numbers(x: Fraction) -> None:
    assert (whole_down(x), whole_up(x)) == (floor(x), ceil(x))


@given(cloth, st.sampled_from(sorted(YARDAGE_ROUNDINGS)))
def test_yardage_is_never_less_than_the_need(inches: Fraction, name: str) -> None:
    bought = round_yardage(inches, name)
    assert inches <= bought < inches + 18


@pytest.mark.parametrize(
    ("name", "bought"),
    [("exact", "97/2"), ("eighth", "99/2"), ("quarter", "54"), ("third", "60"), ("half", "54")],
)
def test_48_and_a_half_inches_as_a_shop_cuts_them(name: str, bought: str) -> None:
    assert round_yardage(Fraction("97/2"), name) == Fraction(bought)


def test_a_fraction_is_exact_however_near_it_is_to_a_step() -> None:
    over = Fraction(3) + Fraction(1, 10**12)
    assert (whole_up(over), whole_down(over)) == (4, 3)
    assert up_to(Fraction(1, 8))(over) == Fraction(25, 8)


def test_halves_go_up_to_the_nearest() -> None:
    assert nearest(Fraction(1, 8))(Fraction(5, 16)) == Fraction(3, 8)


def test_three_times_an_eighth_short_of_noise() -> None:
    assert up_to(Fraction(1, 8))(0.1 + 0.2 + 0.075) == Fraction(3, 8)
    assert whole_up(3 * 1.1 / 1.1) == 3


@pytest.mark.parametrize("step", [Fraction(0), Fraction(-1, 8)])
def test_a_step_that_is_not_above_zero_is_refused(step: Fraction) -> None:
    with pytest.raises(ValueError, match="above zero"):
        Rounding("up", step)


def test_an_unknown_yardage_name_is_refused() -> None:
    with pytest.raises(KeyError):
        round_yardage(Fraction(36), "eighth in up")

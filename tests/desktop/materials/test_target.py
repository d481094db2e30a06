"""Sizes as people type them, read to exact inches; what is none is refused with a sentence."""

import contextlib
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import LengthError
from piecewright.units.measure import Measure
from piecewright.units.scale import CM
from piecewright_qt.materials.target import parse_target

INCH, METRIC = Measure(), Measure("cm")
lengths = st.builds(Fraction, st.integers(1, 200 * 16), st.just(16))
between = st.sampled_from([" x ", "x", " × ", "*", " by ", " X "])


@given(lengths, lengths, between, st.sampled_from([INCH, METRIC, Measure("mm"), Measure("cm", comma=True)]))
def test_what_the_program_writes_it_reads(
    width: Fraction, height: Fraction, sign: str, measure: Measure
) -> None:
    assert parse_target(f"{measure.bare(width)}{sign}{measure.bare(height)}", measure) == (width, height)
    assert parse_target(f"{measure.bare(width)}{sign}{measure.length(height)}", INCH) == (width, height)
    assert parse_target(f"{measure.length(width)}{sign}{measure.length(height)}", METRIC) == (width, height)


@pytest.mark.parametrize(
    ("text", "width", "height"),
    [
        ("60 x 72", 60, 72),
        ("60x72", 60, 72),
        ("60½ x 72 1/2", Fraction(121, 2), Fraction(145, 2)),
        ('60" x 72"', 60, 72),
        ("152,4 x 182,88 cm", 60, 72),
        ("1 1/2 yd x 2 yd", 54, 72),
        ("5 ft by 6 ft", 60, 72),
        ("  60  X  72  ", 60, 72),
        ("60 in x 100 cm", 60, 100 * CM),
    ],
)
def test_sizes_are_typed_in_many_ways(text: str, width: Fraction, height: Fraction) -> None:
    assert parse_target(text, INCH) == (width, height)


def test_a_number_alone_is_in_the_unit_that_is_shown() -> None:
    assert parse_target("150 x 200", METRIC) == (150 * CM, 200 * CM)
    assert parse_target("150 x 200 in", METRIC) == (Fraction(150), Fraction(200))


@pytest.mark.parametrize(
    "text", ["", "60", "60 x", "x 72", "60 x 72 x 84", "sixty x 72", "60 x 72 parsecs", "-60 x 72"]
)
def test_what_is_no_size_is_refused_with_what_to_write(text: str) -> None:
    with pytest.raises(LengthError) as refused:
        parse_target(text, INCH)
    assert refused.value.hint is not None
    assert refused.value.sentence().endswith((".", '".'))


@given(st.text(max_size=40))
def test_any_text_is_a_size_or_is_refused(text: str) -> None:
    with contextlib.suppress(LengthError):
        width, height = parse_target(text, INCH)
        assert min(width, height) >= 0

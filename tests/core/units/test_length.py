"""Lengths as typed: every spelling is read exactly, anything else is refused in words, and nothing hangs."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from piecewright.errors import LengthError
from piecewright.units.length import MOST_CHARACTERS, parse_length
from piecewright.units.measure import Measure
from piecewright.units.scale import CM, FOOT, INCH, METRE, MM, YARD

CM_16_5 = Fraction("16.5") * CM

SPELLINGS = {
    "6 1/2": Fraction(13, 2),
    "6.5": Fraction(13, 2),
    "6,5": Fraction(13, 2),
    "6½": Fraction(13, 2),
    "6 ½": Fraction(13, 2),
    "½": Fraction(1, 2),
    "1/2": Fraction(1, 2),
    "13/2": Fraction(13, 2),
    ".5": Fraction(1, 2),
    ",5": Fraction(1, 2),
    "6": Fraction(6),
    "6.": Fraction(6),
    "006.50": Fraction(13, 2),
    "  6   1/2  ": Fraction(13, 2),
    "6\u00a01/2": Fraction(13, 2),
    "6\u202f1/2\u2009in": Fraction(13, 2),
    "6 1 / 2": Fraction(13, 2),
    "6 1⁄2": Fraction(13, 2),
    "6 1∕2": Fraction(13, 2),
    "+6 1/2": Fraction(13, 2),
    "6 1/2 in": Fraction(13, 2),
    "6 1/2in": Fraction(13, 2),
    "6 1/2 in.": Fraction(13, 2),
    "6 1/2 INCHES": Fraction(13, 2),
    "1 inch": Fraction(1),
    '6 1/2"': Fraction(13, 2),
    "6½”": Fraction(13, 2),
    "6½″": Fraction(13, 2),
    "6 1/2''": Fraction(13, 2),
    "16.5 cm": CM_16_5,
    "16,5 cm": CM_16_5,
    "16.5cm": CM_16_5,
    "16½ cm": CM_16_5,
    "165 mm": CM_16_5,
    "0.165 m": CM_16_5,
    "16.5 centimeters": CM_16_5,
    "16.5 Centimetres": CM_16_5,
    "1/4 yd": Fraction(9),
    "1/4yd.": Fraction(9),
    "¼ yard": Fraction(9),
    "1 1/2 yd": Fraction(54),
    "3 yards": Fraction(108),
    "2 m": 2 * METRE,
    "2 metres": 2 * METRE,
    "2 ft": Fraction(24),
    "0": Fraction(0),
}

NO_LENGTHS = {
    "": "No length is given.",
    " \t\n\u3000": "No length is given.",
    "x": '"x" is not a length.',
    "in": '"in" is not a length.',
    "1e5": '"1e5" is not a length.',
    "1e999999999": '"1e999999999" is not a length.',
    "6 1/2 1/2": "is not a length.",
    "6.5 1/2": "is not a length.",
    "1 250 mm": "is not a length.",
    "1,250.5": "is not a length.",
    "1.5.5": "is not a length.",
    "6 1/": "is not a length.",
    "/2": "is not a length.",
    "1//2": "is not a length.",
    "--6": "is not a length.",
    "nan": "is not a length.",
    "inf": "is not a length.",
    "0x10": "is not a length.",
    "1_000": "is not a length.",
    "६": "is not a length.",
    "６": "is not a length.",
    "6²": '"²" is not a unit of length.',
    "6 furlongs": '"furlongs" is not a unit of length. Write in, ft, yd, mm, cm or m',
    "6 i": '"i" is not a unit of length.',
    "6 1/2 %": '"%" is not a unit of length.',
    "6-1/2": '"6-1/2" can be read in two ways',
    "6–1/2 in": "can be read in two ways",
    "1/0": '"1/0" has a zero below the line.',
    "6 1/0 yd": "has a zero below the line.",
    "6 3/2": 'The fraction 3/2 of "6 3/2" is one or more.',
    "6 2/2": 'The fraction 2/2 of "6 2/2" is one or more.',
    "-3": '"-3" is less than zero. Leave the minus sign out.',
    "−3 cm": "is less than zero.",
    "1000001": '"1000001" is more than 1000000 in. Check the number and its unit.',
    "99999 m": "is more than 1000000 in.",
    "9" * 60: "has a number of more than 24 digits.",
    "1/" + "9" * 60: "has a number of more than 24 digits.",
    "0." + "0" * 60 + "1": "has a number of more than 24 digits.",
    "9" * 1_000_000: "A text of 1000000 characters is no length: 100 are enough.",
    " " * 1_000_000 + "6": "is no length: 100 are enough.",
    "6\x00": '" " is not a unit of length.',
    "6\u202e in": "is not a length.",
}


@pytest.mark.parametrize("text", SPELLINGS)
def test_every_spelling_is_read_exactly(text: str) -> None:
    assert parse_length(text) == SPELLINGS[text]


@pytest.mark.parametrize("text", NO_LENGTHS, ids=[repr(text[:20]) for text in NO_LENGTHS])
def test_what_is_no_length_gets_a_sentence(text: str) -> None:
    with pytest.raises(LengthError) as fault:
        parse_length(text)
    sentence = fault.value.sentence()
    assert NO_LENGTHS[text] in sentence
    assert fault.value.hint is not None
    assert sentence.endswith(".")
    assert sentence.isprintable()
    assert len(sentence) < 250


def test_less_than_zero_where_it_is_allowed() -> None:
    assert parse_length("-3 1/2", allow_negative=True) == Fraction(-7, 2)
    assert parse_length("− 3½ in", allow_negative=True) == Fraction(-7, 2)


def test_a_number_alone_takes_the_unit_of_its_field() -> None:
    assert parse_length("16.5", unit=CM) == CM_16_5
    assert parse_length("6 1/2 in", unit=CM) == Fraction(13, 2)


def test_units_stand_in_their_defined_ratios() -> None:
    # 1 yd = 0.9144 m and 1 in = 25.4 mm exactly: US National Bureau of Standards, Circular 572, addendum 1960
    assert Fraction("25.4") * MM == INCH
    assert Fraction("0.9144") * METRE == YARD
    assert (10 * MM, 100 * CM, 12 * INCH, 3 * FOOT) == (CM, METRE, FOOT, YARD)


def read_or_refused(text: str) -> Fraction | str:
    """The inches of a text, or the sentence that refuses it."""
    try:
        return parse_length(text, allow_negative=True)
    except LengthError as fault:
        return fault.sentence()


@given(st.text(max_size=2 * MOST_CHARACTERS))
def test_any_text_is_read_or_refused_in_one_line(text: str) -> None:
    answer = read_or_refused(text)
    assert isinstance(answer, Fraction) or answer.isprintable()


@given(st.text(alphabet="0123456789 /.,-+½¼inchmyd\"'²६eE", max_size=MOST_CHARACTERS))
def test_what_looks_like_a_length_is_read_as_shown_or_refused(text: str) -> None:
    answer = read_or_refused(text)
    if isinstance(answer, str):
        assert answer.isprintable()
    elif answer.denominator < 10**12:
        assert parse_length(Measure().length(answer), allow_negative=True) == answer


@given(
    st.integers(0, 999),
    st.integers(0, 99),
    st.integers(1, 99),
    st.sampled_from(["", " in", '"', " cm", "mm", " yd"]),
)
def test_a_mixed_number_in_any_unit(whole: int, top: int, bottom: int, unit: str) -> None:
    assume(top < bottom)
    inches_by_unit = {"cm": CM, "mm": MM, "yd": YARD}
    expected = (whole + Fraction(top, bottom)) * inches_by_unit.get(unit.strip(), INCH)
    assert parse_length(f"{whole} {top}/{bottom}{unit}") == expected


@given(st.decimals(0, 9_999, places=4, allow_nan=False), st.sampled_from(".,"))
def test_a_decimal_with_point_or_comma(number: Decimal, mark: str) -> None:
    assert parse_length(f"{number:f}".replace(".", mark) + " mm") == Fraction(number) * MM

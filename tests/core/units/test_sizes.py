"""Cut, unfinished and finished never mix, and lead to each other and back exactly."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.units.sizes import Cut, Finished, Size, Unfinished

lengths = st.fractions(min_value=0, max_value=1_000, max_denominator=1_000)
seams = st.fractions(min_value=0, max_value=2, max_denominator=64)


@given(lengths, lengths, seams)
def test_there_and_back_is_where_it_began(width: Fraction, height: Fraction, seam: Fraction) -> None:
    finished = Finished(width, height)
    assert finished.unfinished(seam).finished(seam) == finished
    assert finished.cut(seam).finished(seam) == finished
    assert Unfinished(width, height).finished(seam).unfinished(seam) == Unfinished(width, height)


def test_a_six_inch_block_with_quarter_inch_seams() -> None:
    # common practice, no source: 6 in finished is 6 1/2 in unfinished
    seam = Fraction(1, 4)
    assert Finished(Fraction(6), Fraction(12)).unfinished(seam) == Unfinished(
        Fraction(13, 2), Fraction(25, 2)
    )
    assert Finished(Fraction(6), Fraction(12)).cut(seam) == Cut(Fraction(13, 2), Fraction(25, 2))


@pytest.mark.parametrize("one", [Cut, Unfinished, Finished])
@pytest.mark.parametrize("other", [Cut, Unfinished, Finished])
def test_only_sizes_of_one_type_are_equal(one: type[Size], other: type[Size]) -> None:
    first, second = one(Fraction(6), Fraction(6)), other(Fraction(6), Fraction(6))
    assert (first == second) is (one is other)
    assert len({first, second}) == (1 if one is other else 2)


def test_each_says_its_word() -> None:
    assert [kind.word for kind in (Cut, Unfinished, Finished)] == ["cut", "unfinished", "finished"]


@pytest.mark.parametrize("operation", ["__add__", "__sub__", "__mul__", "__lt__", "__iter__"])
def test_there_is_no_arithmetic_on_sizes(operation: str) -> None:
    size = Finished(Fraction(6), Fraction(6))
    method = getattr(size, operation, None)
    assert method is None or method(size) is NotImplemented

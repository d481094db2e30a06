"""Coverage, crossings and the largest rectangle, against what can be reckoned by hand."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry import polygons
from piecewright.geometry.motion import Point

Polygon = tuple[Point, ...]
QUARTER = Fraction(1, 4)


def rect(left: float, top: float, right: float, bottom: float) -> Polygon:
    return ((left, top), (right, top), (right, bottom), (left, bottom))


STAIRS = [rect(0, 0, 4, 6), rect(4, 1, 8, 7)]


def test_ground_is_the_same_however_it_is_divided() -> None:
    assert polygons.cover_same([rect(0, 0, 2, 2), rect(2, 0, 4, 2)], [rect(0, 0, 4, 1), rect(0, 1, 4, 2)])
    assert not polygons.cover_same([rect(0, 0, 4, 2)], [rect(0, 0, 4, 2.01)])


def test_a_line_is_measured_through_all_that_it_crosses() -> None:
    assert polygons.crossing(STAIRS, (0, 3), (1, 3)) == pytest.approx(8, abs=1e-5)
    assert polygons.crossing([rect(0, 0, 2, 2), rect(4, 0, 6, 2)], (1, 1), (2, 1)) == pytest.approx(
        4, abs=1e-5
    )


@pytest.mark.parametrize(
    ("shape", "square", "columns", "rows", "left", "top"),
    [
        ([rect(0, 0, 8, 5.1)], False, 32, 20, 0, 0.05),
        (STAIRS, False, 32, 20, 0, 1),
        (STAIRS, True, 20, 20, 1.5, 1),
        ([((0, 0), (8, 8), (0, 8))], True, 16, 16, 0, 4),
    ],
)
def test_the_largest_rectangle(
    shape: list[Polygon], square: bool, columns: int, rows: int, left: float, top: float
) -> None:
    found = polygons.largest_rectangle(shape, QUARTER, square=square)
    assert found is not None
    assert (found.columns, found.rows) == (columns, rows)
    assert (found.left, found.top) == pytest.approx((left, top), abs=1e-5)


def test_nothing_fits_where_nothing_is_that_large() -> None:
    assert polygons.largest_rectangle([rect(0, 0, 8, 0.2)], QUARTER, square=False) is None
    assert polygons.largest_rectangle([rect(0, 0, 8, 0.2)], QUARTER, square=True) is None


@given(st.integers(9, 24), st.integers(9, 24), st.integers(1, 8), st.integers(1, 8))
def test_the_largest_rectangle_in_an_l_is_one_of_its_two_arms(
    wide: int, high: int, cut: int, deep: int
) -> None:
    """Tried against every size on the step by brute force: a rectangle of the L lies in one of its two arms."""
    shape = [rect(0, 0, wide - cut, high), rect(wide - cut, deep, wide, high)]
    found = polygons.largest_rectangle(shape, Fraction(1), square=False)
    assert found is not None
    assert found.columns * found.rows == max((wide - cut) * high, wide * (high - deep))

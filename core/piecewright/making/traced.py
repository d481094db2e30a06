"""Exact numbers that remember what they hang on: one making then tells how all its lengths move with some of them."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Any, Self

Slopes = Mapping[int, Fraction]
"""By how much a number grows when the length of each index grows by one inch; lengths that do nothing are left out."""


class Traced(Fraction):
    """A Fraction with its slopes, which sums, products and shares carry on by the rules of calculus.

    Compares and hashes by its value alone. Meeting a float it becomes one, and where it is rounded a plain Fraction:
    the slopes are true as long as all it is made from is square, and between two steps of a rounding.
    """

    __slots__ = ("slopes",)

    slopes: Slopes

    def __new__(cls, value: Fraction, slopes: Slopes) -> Self:
        """A value in inches with its slopes."""
        self = super().__new__(cls, value)
        self.slopes = slopes
        return self

    @classmethod
    def from_float(cls, f: float) -> Self:  # comparing turns a float into one of these
        """A float as a number that hangs on nothing."""
        return cls(Fraction(f), {})

    def __add__(self, other: Any) -> Any:
        return _carried(super().__add__(other), (self, 1), (other, 1))

    def __radd__(self, other: Any) -> Any:
        return _carried(super().__radd__(other), (self, 1), (other, 1))

    def __sub__(self, other: Any) -> Any:
        return _carried(super().__sub__(other), (self, 1), (other, -1))

    def __rsub__(self, other: Any) -> Any:
        return _carried(super().__rsub__(other), (self, -1), (other, 1))

    def __mul__(self, other: Any) -> Any:
        return _carried(super().__mul__(other), (self, other), (other, self))

    def __rmul__(self, other: Any) -> Any:
        return _carried(super().__rmul__(other), (self, other), (other, self))

    def __truediv__(self, other: Any) -> Any:
        return _divided(super().__truediv__(other), self, other)

    def __rtruediv__(self, other: Any) -> Any:
        return _divided(super().__rtruediv__(other), other, self)

    def __neg__(self) -> "Traced":
        return Traced(super().__neg__(), {index: -slope for index, slope in self.slopes.items()})

    def __abs__(self) -> "Traced":
        return -self if self < 0 else self


def slopes_of(number: object) -> Slopes:
    """The slopes of a number; none of one that carries none."""
    return number.slopes if isinstance(number, Traced) else {}


def _divided(share: Any, above: Any, below: Any) -> Any:
    if not isinstance(share, Fraction):
        return share
    return _carried(share, (above, 1 / Fraction(below)), (below, -share / Fraction(below)))


def _carried(value: Any, *terms: tuple[Any, Any]) -> Any:
    """The value with the slopes of the numbers it comes from, each times how the value moves with that number."""
    if not isinstance(value, Fraction):
        return value  # a float, or the sign that the other operand has to do it
    slopes: dict[int, Fraction] = {}
    for number, times in terms:
        for index, slope in slopes_of(number).items():
            slopes[index] = slopes.get(index, Fraction(0)) + slope * Fraction(times)
    slopes = {index: slope for index, slope in slopes.items() if slope}
    return Traced(value, slopes) if slopes else value

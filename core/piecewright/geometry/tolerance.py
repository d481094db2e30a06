"""The only tolerances of the program's geometry: inches and degrees, each with what it is for."""

from fractions import Fraction

from piecewright.geometry.motion import Number

TOUCH = 1e-9
"""Float coordinates closer than this are one: what rounding leaves of arithmetic that would be exact."""

ALIKE = 1e-6
"""Lengths and areas of finished work agree to this; a block is a rectangle to this."""

SEAMS_MEET = Fraction(1, 64)
"""Seams that run into one edge from both sides meet when they miss by no more than this."""

EASED_AT_MOST = Fraction(1, 16)
EASED_PER_INCH = Fraction(1, 8) / 12
"""Two edges differing by no more than the larger of these (common practice, no source) are eased together."""

LEAST_BIAS = 2.0
"""An edge this many degrees off the thread is a bias edge."""


def apart(one: Number, other: Number) -> Number:
    """How far two numbers lie apart."""
    return one - other if one >= other else other - one


def passes(larger: Number, smaller: Number) -> bool:
    """Whether one number is truly larger than another: exactly for fractions, by more than `TOUCH` past a slant.

    The hot comparison of every making: fractions are compared by their parts, three times as fast as by `>`.
    """
    if larger is smaller:
        return False
    if isinstance(larger, float) or isinstance(smaller, float):
        return larger - smaller > TOUCH
    top, below = larger.as_integer_ratio()
    other_top, other_below = smaller.as_integer_ratio()
    return top * other_below > other_top * below


def same(one: Number, other: Number) -> bool:
    """Whether two numbers are one: exactly for fractions, within `TOUCH` past a slant."""
    return one == other or not (passes(one, other) or passes(other, one))


def alike(one: Number, other: Number) -> bool:
    """Whether two lengths of finished work agree: exactly for fractions, within `ALIKE` past a slant."""
    if isinstance(one, Fraction) and isinstance(other, Fraction):
        return one == other
    return apart(one, other) <= ALIKE


def most_eased(length: Number) -> Number:
    """How much longer than `length` an edge may be and still be eased to it."""
    return max(EASED_AT_MOST, length * EASED_PER_INCH)

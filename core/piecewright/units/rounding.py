"""Every rounding by name. Cloth rounds up, what fits into cloth rounds down, once and at the end."""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor
from types import MappingProxyType
from typing import Literal

from piecewright.units.scale import YARD, Number

Direction = Literal["up", "down", "nearest"]

_FLOAT_NOISE = Fraction(1, 10**9)
"""A float this near to a step, in inches, is that step: arithmetic past a slant is not exact."""


@dataclass(frozen=True, slots=True)
class Rounding:
    """A rounding to whole multiples of `step` (None: none at all), called with a number; the answer is exact.

    A `Fraction` is rounded exactly: "up" never gives less and "down" never more than the value. A `float`
    within 1e-9 of a multiple counts as that multiple. "nearest" sends halves up. A step must be above zero:
    ValueError.
    """

    direction: Direction
    step: Fraction | None

    def __post_init__(self) -> None:
        if self.step is not None and self.step <= 0:
            raise ValueError(f"a rounding needs a step above zero, not {self.step}")

    def __call__(self, value: Number) -> Fraction:
        """The value rounded, in the unit of `step`."""
        exact = Fraction(value)
        if self.step is None:
            return exact
        return self.step * self._count(exact, self.step, noisy=isinstance(value, float))

    def _count(self, value: Fraction, step: Fraction, noisy: bool) -> int:
        steps = value / step
        nearest = floor(steps + Fraction(1, 2))
        if self.direction == "nearest" or (noisy and abs(value - nearest * step) <= _FLOAT_NOISE):
            return nearest
        return ceil(steps) if self.direction == "up" else floor(steps)


def up_to(step: Fraction) -> Rounding:
    """The rounding up to whole multiples of a step."""
    return Rounding("up", step)


def down_to(step: Fraction) -> Rounding:
    """The rounding down to whole multiples of a step."""
    return Rounding("down", step)


def nearest(step: Fraction) -> Rounding:
    """The rounding to the nearest multiple of a step; halves go up."""
    return Rounding("nearest", step)


def whole_up(value: Number) -> int:
    """The least whole number not below the value: how many strips, sets or panels it takes."""
    return int(up_to(Fraction(1))(value))


def whole_down(value: Number) -> int:
    """The greatest whole number not above the value: how many cuts or blocks it gives."""
    return int(down_to(Fraction(1))(value))


_PARTS = {"whole": 1, "half": 2, "quarter": 4, "eighth": 8, "sixteenth": 16}
_DIRECTIONS: tuple[Direction, ...] = ("up", "down", "nearest")

YARDAGE_ROUNDINGS: Mapping[str, Rounding] = MappingProxyType(
    {
        "exact": Rounding("up", None),
        "eighth": up_to(YARD / 8),
        "quarter": up_to(YARD / 4),
        "third": up_to(YARD / 3),
        "half": up_to(YARD / 2),
    }
)
"""How a shop cuts cloth off the bolt: up to a part of a yard; values in and out are inches."""

ROUNDINGS: Mapping[str, Rounding] = MappingProxyType(
    dict(YARDAGE_ROUNDINGS)
    | {f"{part} in {way}": Rounding(way, Fraction(1, n)) for part, n in _PARTS.items() for way in _DIRECTIONS}
)
"""Every rounding by name: yardage by part of a yard, lengths as "eighth in up", "sixteenth in nearest"."""


def round_yardage(inches: Fraction, name: str) -> Fraction:
    """A length of cloth in inches as the shop would cut it; `name` is of YARDAGE_ROUNDINGS, else KeyError."""
    return YARDAGE_ROUNDINGS[name](inches)


def round_length(inches: Fraction, name: str) -> Fraction:
    """A length that may well be longer, rounded up; `name`: "exact" or a part of an inch ("eighth"), else KeyError."""
    return inches if name == "exact" else ROUNDINGS[f"{name} in up"](inches)

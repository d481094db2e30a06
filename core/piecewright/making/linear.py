"""Exact linear equations: the smallest change of many lengths that meets them all."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from piecewright.making.traced import Slopes

_NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class Equation:
    """The slopes times the change of each length sum up to `wanted`."""

    slopes: Slopes
    wanted: Fraction


def total(slopes: Slopes, changes: Sequence[Fraction]) -> Fraction:
    """What changes of the lengths come to."""
    return sum((slope * changes[index] for index, slope in slopes.items()), _NOTHING)


def least_change(equations: Sequence[Equation], count: int) -> tuple[Fraction, ...] | None:
    """The changes of `count` lengths that meet all equations, of all such the one with the least sum of squares.

    So lengths that count alike change alike, and those that do nothing stay. None where no changes do.
    """
    rows = _independent(equations)
    if rows is None:
        return None
    products = [
        Equation({other: _product(row, rows[other]) for other in range(len(rows))}, row.wanted)
        for row in rows
    ]
    shares = _solved(products)
    changes = [_NOTHING] * count
    for row, share in zip(rows, shares, strict=True):
        for index, slope in row.slopes.items():
            changes[index] += share * slope
    return tuple(changes)


def _product(one: Equation, other: Equation) -> Fraction:
    return sum((slope * other.slopes.get(index, 0) for index, slope in one.slopes.items()), _NOTHING)


def _independent(equations: Sequence[Equation]) -> list[Equation] | None:
    """Equations with the same answers, none of which follows from the others; None where two contradict."""
    kept: dict[int, Equation] = {}
    for equation in equations:
        rest = equation
        for pivot, row in kept.items():
            rest = _without(rest, pivot, row)
        if rest.slopes:
            pivot = min(rest.slopes)
            kept[pivot] = _scaled(rest, pivot)
        elif rest.wanted:
            return None
    return list(kept.values())


def _scaled(row: Equation, pivot: int) -> Equation:
    lead = row.slopes[pivot]
    return Equation({index: slope / lead for index, slope in row.slopes.items()}, row.wanted / lead)


def _without(row: Equation, pivot: int, other: Equation) -> Equation:
    """A row less so much of another, which has 1 at the pivot, that nothing is left at the pivot."""
    times = row.slopes.get(pivot, _NOTHING)
    if not times:
        return row
    slopes = dict(row.slopes)
    for index, slope in other.slopes.items():
        slopes[index] = slopes.get(index, _NOTHING) - times * slope
    left = {index: slope for index, slope in slopes.items() if slope}
    return Equation(left, row.wanted - times * other.wanted)


def _solved(rows: Sequence[Equation]) -> list[Fraction]:
    """The one answer of as many independent equations as there are unknowns, by elimination (Gauss and Jordan)."""
    kept: dict[int, Equation] = {}
    for row in rows:
        rest = row
        for pivot, other in kept.items():
            rest = _without(rest, pivot, other)
        pivot = min(index for index, slope in rest.slopes.items() if slope)
        new = _scaled(rest, pivot)
        kept = {at: _without(other, pivot, new) for at, other in kept.items()}
        kept[pivot] = new
    return [kept[index].wanted for index in range(len(rows))]

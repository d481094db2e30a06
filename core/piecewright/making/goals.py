"""What may be asked of a making: a finished size, or something of its strips; and how far lengths move for it."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from piecewright.geometry.motion import Number
from piecewright.geometry.tolerance import ALIKE, alike
from piecewright.making.facts import Facts
from piecewright.making.linear import Equation, least_change, total
from piecewright.making.tracing import Row, Trace


@dataclass(frozen=True, slots=True)
class Finish:
    """A block that finishes at a width, a height, or both, inches; what is None is kept where that can be."""

    width: Fraction | None = None
    height: Fraction | None = None


@dataclass(frozen=True, slots=True)
class UseUp:
    """Strips that use up so many inches: the longest laid are exactly so long."""

    length: Fraction


@dataclass(frozen=True, slots=True)
class StripWidth:
    """Strips of this width: the widest laid are exactly so wide."""

    width: Fraction


@dataclass(frozen=True, slots=True)
class Fill:
    """As large as a strip allows: none longer than `length` (None: the usable width), none wider than `width`."""

    length: Fraction | None = None
    width: Fraction | None = None


Goal = Finish | UseUp | StripWidth | Fill
Changes = tuple[Fraction, ...]
"""By how much each spot of a trace changes, inches."""


def ways_to(goal: Goal, traced: Trace, usable: Fraction) -> Iterator[list[Equation]]:
    """The equations that a goal asks for, the way that keeps most as it is first. Past a slant there are none."""
    match goal:
        case Finish():
            yield from _ways_to_finish(goal, traced)
        case UseUp(length):
            yield from _ways_along(_longest(traced, length), traced)
        case StripWidth(width):
            yield _widest(traced, width) + _shape_kept(traced)
            yield _widest(traced, width)
        case Fill(length, width):
            long = _longest(traced, usable if length is None else length)
            wide = [] if width is None else _widest(traced, width)
            if wide:
                yield long + wide
                yield wide
            yield from _ways_along(long, traced)


def _ways_to_finish(goal: Finish, traced: Trace) -> Iterator[list[Equation]]:
    asked = [(traced.width, goal.width), (traced.height, goal.height)]
    if any(isinstance(row.value, float) for row, size in asked if size is not None):
        return
    wanted = [equation_to(row, size) for row, size in asked if size is not None]
    kept = [equation_to(row, row.value) for row, size in asked if size is None and row.slopes]
    if kept:
        yield wanted + kept
    yield wanted


def _ways_along(long: list[Equation], traced: Trace) -> Iterator[list[Equation]]:
    """Longer or shorter strips: of the width they have, or in a block of the same shape, or in any way."""
    yield long + [Equation(strip.width.slopes, Fraction(0)) for strip in traced.laid]
    yield long + _shape_kept(traced)
    yield long


def _shape_kept(traced: Trace) -> list[Equation]:
    """What keeps width to height as it is, where both are exact."""
    width, height = traced.width, traced.height
    if isinstance(width.value, float) or isinstance(height.value, float):
        return []
    slopes = {index: slope * height.value for index, slope in width.slopes.items()}
    for index, slope in height.slopes.items():
        slopes[index] = slopes.get(index, Fraction(0)) - slope * width.value
    return [Equation({index: slope for index, slope in slopes.items() if slope}, Fraction(0))]


def _longest(traced: Trace, length: Fraction) -> list[Equation]:
    return _largest((strip.length for strip in traced.laid), length)


def _widest(traced: Trace, width: Fraction) -> list[Equation]:
    return _largest((strip.width for strip in traced.laid), width)


def equation_to(row: Row, size: Number) -> Equation:
    """What brings an exact length to a size."""
    return Equation(row.slopes, Fraction(size) - Fraction(row.value))


def _largest(rows: Iterable[Row], size: Fraction) -> list[Equation]:
    """What brings the largest of some lengths, all of them, to a size."""
    found = list(rows)
    most = max(row.value for row in found)
    return [equation_to(row, size) for row in found if row.value == most]


def changes_to(equations: list[Equation], traced: Trace) -> Changes | None:
    """The smallest changes that meet the equations while edges still fit and there is cloth enough.

    Where nothing was to spare, nothing is to spare afterwards, if that can be. None where there are no such changes.
    """
    asked = equations + [Equation(tie.slopes, Fraction(0)) for tie in traced.ties]
    tight = [equation_to(room, Fraction(0)) for room in traced.rooms if not room.value]
    for more in (tight, []):
        found = _with_rooms(asked + more, traced)
        if found is not None:
            return found
    return None


def _with_rooms(equations: list[Equation], traced: Trace) -> Changes | None:
    """The changes with what is short of cloth given just enough."""
    count = len(traced.spots)
    changes = least_change(equations, count)
    for _ in traced.rooms:
        if changes is None:
            return None
        short = min(traced.rooms, key=lambda room: left_of(room, changes), default=None)
        if short is None or left_of(short, changes) >= 0:
            return changes
        equations = [*equations, equation_to(short, Fraction(0))]
        changes = least_change(equations, count)
    return changes if changes is None or all(left_of(room, changes) >= 0 for room in traced.rooms) else None


def left_of(row: Row, changes: Changes | None) -> Fraction:
    """What an exact length comes to after some changes."""
    return Fraction(row.value) + total(row.slopes, changes or ())


def meets(goal: Goal, found: Facts, *, at_least: bool = False) -> bool:
    """Whether a block is as asked, exactly; or, for a finished size `at_least`, no smaller."""
    match goal:
        case Finish(width, height):
            pairs = ((width, found.finished.width), (height, found.finished.height))
            return all(size is None or _is(there, size, at_least=at_least) for size, there in pairs)
        case UseUp(length):
            return max(strip.length for strip in found.strips) == length
        case StripWidth(width):
            return max(strip.width for strip in found.strips) == width
        case Fill(length, width):
            long = length is None or max(strip.length for strip in found.strips) <= length
            return long and (width is None or max(strip.width for strip in found.strips) <= width)


def _is(there: Number, size: Fraction, *, at_least: bool) -> bool:
    if at_least:
        return there >= float(size) - ALIKE if isinstance(there, float) else there >= size
    return alike(there, size)


def blocking(equations: list[Equation], traced: Trace) -> tuple[int, Literal["edges", "cloth"]] | None:
    """The first step whose edges would not fit, or which would need more cloth than there is; None where none does."""
    asked, count = list(equations), len(traced.spots)
    for tie in traced.ties:
        asked.append(Equation(tie.slopes, Fraction(0)))
        if least_change(equations, count) and not least_change(asked, count):
            return tie.step, "edges"
    for _ in traced.rooms:
        changes = least_change(asked, count)
        short = [room for room in traced.rooms if changes and left_of(room, changes) < 0]
        if not short:
            return None
        asked.append(equation_to(short[0], Fraction(0)))
        if not least_change(asked, count):
            return short[0].step, "cloth"
    return None

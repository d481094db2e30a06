"""The best strip of every height at once: one bounded knapsack over the width of the cloth."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import gcd
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from piecewright.cutting.problem import Demand, Face, Fill, Group, Variant, fill_of

NEGLIGIBLE = 1e-9
"""A value this small is none."""


class _Step(NamedTuple):
    """One line of the table: `times` columns of a variant taken together or not."""

    variant: int
    size: int
    times: int


@dataclass(slots=True)
class Sums:
    """The best value for every width, line by line as more may be taken."""

    table: NDArray[np.float64]
    steps: list[_Step]

    def best(self, line: int) -> float:
        """The best value with the first `line` steps."""
        return float(self.table[line, -1])

    def picks(self, line: int) -> Counter[int]:
        """How many of each variant the best value takes."""
        taken: Counter[int] = Counter()
        at = self.table.shape[1] - 1
        while line:
            step = self.steps[line - 1]
            if self.table[line, at] != self.table[line - 1, at]:
                taken[step.variant] += step.times
                at -= step.size
            line -= 1
        return taken


def parts_of(count: int) -> Iterator[int]:
    """Parts that sum up to every number up to `count`: 1, 2, 4 ... and the rest."""
    part = 1
    while count > 0:
        yield min(part, count)
        count -= part
        part *= 2


def best_sums(width: int, offers: Sequence[tuple[int, float, int]]) -> tuple[Sums, list[int]]:
    """The table for offers of (size, value, how many), and after which line each offer has been made."""
    steps: list[_Step] = []
    values: list[float] = []
    lines: list[int] = []
    scale = gcd(*(size for size, _, _ in offers)) or 1
    for index, (size, value, count) in enumerate(offers):
        if value > NEGLIGIBLE:
            for times in parts_of(min(count, width // size)):
                steps.append(_Step(index, times * size // scale, times))
                values.append(times * value)
        lines.append(len(steps))
    return Sums(_table(width // scale, steps, values), steps), lines


def _table(width: int, steps: Sequence[_Step], values: Sequence[float]) -> NDArray[np.float64]:
    table = np.zeros((len(steps) + 1, width + 1))
    for line, (step, value) in enumerate(zip(steps, values, strict=True)):
        above, row = table[line], table[line + 1]
        size = step.size
        row[:size] = above[:size]
        np.add(above[: width + 1 - size], value, out=row[size:])
        np.maximum(row[size:], above[size:], out=row[size:])
    return table


@dataclass(slots=True)
class BestStrips:
    """The best strip of each height of a face, for values of the items and how many of each are of use."""

    variants: tuple[Variant, ...]
    sums: Sums
    lines: dict[int, int]

    def values(self) -> list[tuple[int, float]]:
        """Each height at which the best value rises, with that value."""
        found: list[tuple[int, float]] = []
        most = NEGLIGIBLE
        for height, line in self.lines.items():
            value = self.sums.best(line)
            if value > most:
                found.append((height, value))
                most = value
        return found

    def fill(self, height: int) -> Fill:
        """The strip behind a height's value."""
        picks = self.sums.picks(self.lines[height])
        return fill_of(
            Group(variant.item, variant.across, variant.along, variant.stack, columns * variant.stack)
            for variant, columns in ((self.variants[index], columns) for index, columns in picks.items())
        )


def best_strips(face: Face, values: Sequence[float], useful: Demand, highest: int) -> BestStrips:
    """Strips up to `highest`, in which no column is taken more often than its item is of use."""
    variants = tuple(
        variant
        for variant in face.variants
        if useful[variant.item] >= variant.stack and variant.top <= highest
    )
    sums, lines = best_sums(
        face.width,
        [
            (each.across, values[each.item] * each.stack, -(-useful[each.item] // each.stack))
            for each in variants
        ],
    )
    return BestStrips(variants, sums, {each.top: line for each, line in zip(variants, lines, strict=True)})


def best_sheet(length: int, strips: Sequence[tuple[int, float]]) -> tuple[float, Counter[int]]:
    """The best value of a sheet so long, cut into strips of (height, value) as often as one likes.

    Also how often each height is cut.
    """
    sums, lines = best_sums(length, [(height, value, length // height) for height, value in strips])
    if not lines:
        return 0.0, Counter()
    return sums.best(lines[-1]), Counter(
        {strips[index][0]: times for index, times in sums.picks(lines[-1]).items()}
    )

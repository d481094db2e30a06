"""Every strip that could be part of a better plan: those whose cost exceeds their worth by little."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from piecewright.cutting.knapsack import NEGLIGIBLE, best_sums
from piecewright.cutting.problem import Face, Fill, Group, Problem, Variant, fill_of

MOST_STEPS = 100_000
_NOISE = 1e-7


@dataclass(frozen=True, slots=True)
class Limits:
    """How far the search in whole numbers goes: nodes of the tree, and layouts it chooses from."""

    nodes: int
    layouts: int


MOST_HALVINGS = 8
"""How often a narrower gap is tried where a wider one lists too many."""


def nearest_strips(
    problem: Problem, face: Face, worth: Sequence[float], gap: float, most: int
) -> tuple[list[Fill], bool]:
    """What `strips_within` gives, and True; where these are too many, those within a half, a quarter ... of `gap`."""
    for halving in range(MOST_HALVINGS):
        try:
            return strips_within(problem, face, worth, gap / 2**halving, most), not halving
        except TooManyError:
            continue
    return [], False


class TooManyError(Exception):
    """There are more such strips than asked for, or it takes too long to list them."""


def strips_within(problem: Problem, face: Face, worth: Sequence[float], gap: float, most: int) -> list[Fill]:
    """The fullest strips of a face, off the bolt, that cost at most `gap` more than the `worth` of their pieces.

    Strips that are part of another of the same height are left out: covering a demand never needs them.
    Raises TooManyError if there are more than `most`.
    """
    found: list[Fill] = []
    steps = MOST_STEPS
    for height in sorted({variant.top for variant in face.variants if useful(problem, variant)}):
        columns = _columns(problem, face, height, worth)
        listing = _Listing(face.width, columns, height - gap - _NOISE, steps)
        for fill in listing.fills():
            if fill.height == height:
                found.append(fill)
            if len(found) > most:
                raise TooManyError
        steps = listing.steps
    return found


def useful(problem: Problem, variant: Variant) -> bool:
    """Whether a column is not higher than its item is wanted."""
    return variant.stack <= problem.demand[variant.item]


class _Column(NamedTuple):
    """A column that may be taken up to `most` times, with the worth of its pieces."""

    variant: Variant
    most: int
    worth: float


def _columns(problem: Problem, face: Face, height: int, worth: Sequence[float]) -> list[_Column]:
    """The highest column of each lie that a strip of that height holds, those worth most for their width last."""
    highest: dict[tuple[int, int, int], Variant] = {}
    for variant in face.variants:
        if variant.top <= height and useful(problem, variant):
            highest[variant.item, variant.across, variant.along] = variant
    columns = [
        _Column(
            variant,
            min(-(-problem.demand[variant.item] // variant.stack), face.width // variant.across),
            worth[variant.item] * variant.stack,
        )
        for variant in highest.values()
    ]
    return sorted(columns, key=lambda column: (column.worth / column.variant.across, column.variant))


class _Listing:
    """Goes through all ways to fill a strip, leaving out those that can not reach the least worth."""

    def __init__(self, width: int, columns: Sequence[_Column], least: float, steps: int) -> None:
        self.width, self.columns, self.least, self.steps = width, columns, least, steps
        sums, self._lines = best_sums(
            width, [(column.variant.across, column.worth, column.most) for column in columns]
        )
        self._table = sums.table
        self._scale = width // (self._table.shape[1] - 1)

    def fills(self) -> Iterator[Fill]:
        """Each way that leaves no room for one more column."""
        yield from self._from(len(self.columns) - 1, self.width, 0.0, [])

    def _from(self, place: int, left: int, worth: float, counts: list[int]) -> Iterator[Fill]:
        self.steps -= 1
        if self.steps < 0:
            raise TooManyError
        if place < 0:
            if self._is_full(left, counts):
                yield fill_of(self._groups(counts))
            return
        column = self.columns[place]
        for count in range(min(column.most, left // column.variant.across), -1, -1):
            beyond = left - count * column.variant.across
            sofar = worth + count * column.worth
            if sofar + self._most_from(place - 1, beyond) >= self.least:
                yield from self._from(place - 1, beyond, sofar, [*counts, count])

    def _most_from(self, place: int, left: int) -> float:
        if place < 0:
            return 0.0
        return float(self._table[self._lines[place], left // self._scale]) + len(self.columns) * NEGLIGIBLE

    def _is_full(self, left: int, counts: Sequence[int]) -> bool:
        return all(
            column.variant.across > left or count == column.most
            for column, count in zip(reversed(self.columns), counts, strict=True)
        )

    def _groups(self, counts: Sequence[int]) -> Iterator[Group]:
        for (variant, _, _), count in zip(reversed(self.columns), counts, strict=True):
            yield Group(variant.item, variant.across, variant.along, variant.stack, count * variant.stack)

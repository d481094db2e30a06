"""The fullest sheet: the most that one sheet gives of what is wanted, each piece with a value of its own."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import floor

from piecewright.cutting.knapsack import best_strips
from piecewright.cutting.patterns import Limits, nearest_strips
from piecewright.cutting.problem import Fill, Layout, Problem, made_by, minus
from piecewright.cutting.solver import UNLIMITED, Answer, Program
from piecewright.cutting.trimming import within

CLOSE = 1e-7
SAFE = 1e-6
MOST_ROUNDS = 400
MOST_TRIES = 4
"""A better sheet leaves fewer strips in question, so all may be listed at the next try."""


@dataclass(frozen=True, slots=True)
class Fullest:
    """One sheet, the value of its pieces, and the most that any sheet cut in its direction could hold."""

    layout: Layout
    value: int
    bound: int


def fullest(
    problem: Problem,
    index: int,
    values: Sequence[int],
    limits: Limits,
    cancelled: Callable[[], bool],
) -> Fullest:
    """The most valuable sheet of a face with a length, no piece more often than it is wanted.

    Strips come into a linear program as they gain (Gilmore and Gomory 1965); then whole numbers of all those
    that a better sheet than the best known could have.
    """
    search = _Search(problem, index, values)
    search.close(cancelled)
    search.settle(search.strips, limits.nodes, cancelled)
    for _ in range(MOST_TRIES):
        before = search.value
        if search.bound <= before or cancelled():
            break
        strips, complete = search.candidates(limits.layouts)
        if search.settle(strips, limits.nodes, cancelled) and complete:
            search.bound = search.value
        if search.value == before:
            break
    layout = Layout(index, tuple(sorted(search.best, reverse=True)))
    return Fullest(layout, search.value, search.bound)


class _Search:
    """Strips found so far, the bound they prove, and the best sheet."""

    def __init__(self, problem: Problem, index: int, values: Sequence[int]) -> None:
        self.problem, self.face, self.values = problem, problem.faces[index], values
        self.length = self.face.length or 0
        self.strips: list[Fill] = []
        self.best: list[Fill] = []
        self.value = 0
        self.bound = sum(value * count for value, count in zip(values, problem.demand, strict=True))
        self._worth: tuple[float, ...] = ()
        self._price = 0.0
        self._exact_bound = float(self.bound)

    def close(self, cancelled: Callable[[], bool]) -> None:
        """Add strips until none gains."""
        program = self._program()
        for _ in range(MOST_ROUNDS):
            answer = program.solve()
            if answer is None or cancelled():
                return
            gains = self._gaining(answer)
            if not gains:
                break
            for fill in gains:
                self.strips.append(fill)
                self._add(program, fill)

    def settle(self, strips: Sequence[Fill], nodes: int, cancelled: Callable[[], bool]) -> bool:
        """Take the best whole numbers of these strips, if better than the best so far; whether that is proven."""
        program = self._program()
        for fill in strips:
            self._add(program, fill)
        first = len(self.problem.demand)
        answer, proven = program.solve_whole(range(first, first + len(strips)), nodes, cancelled)
        if answer is not None:
            self._take(strips, [int(amount) for amount in answer.amounts[first:]])
        return proven

    def candidates(self, most: int) -> tuple[list[Fill], bool]:
        """All strips that a sheet better than the best so far can have, or those known where they are too many."""
        gap = self._exact_bound - self.value - 1 + SAFE
        if self._price < CLOSE:
            return self.strips, False
        worth = [each / self._price for each in self._worth]
        fills, complete = nearest_strips(self.problem, self.face, worth, gap / self._price, most)
        return (fills if complete else list(dict.fromkeys([*self.strips, *fills]))), complete

    def _program(self) -> Program:
        """Rows: each item is made at least as often as it is counted; the strips' heights together."""
        items = len(self.problem.demand)
        program = Program([*((0.0, UNLIMITED) for _ in range(items)), (0.0, float(self.length))])
        for item, value in enumerate(self.values):
            program.add_column(-float(value), [(item, -1.0)], float(self.problem.demand[item]))
        return program

    def _add(self, program: Program, fill: Fill) -> None:
        made = made_by((fill,), len(self.values))
        entries = [(item, float(count)) for item, count in enumerate(made) if count]
        program.add_column(0.0, [*entries, (len(made), float(fill.height))])

    def _gaining(self, answer: Answer) -> list[Fill]:
        """The strips that gain most by an answer's duals; the answer is the bound where there are none."""
        items = len(self.values)
        worth = [max(0.0, dual) for dual in answer.duals[:items]]
        price = max(0.0, -answer.duals[items])
        strips = best_strips(self.face, worth, self.problem.demand, self.length)
        gains = [(value - price * height, height) for height, value in strips.values()]
        self._lower_bound(
            worth, price, max((value / height for height, value in strips.values()), default=0.0)
        )
        known = set(self.strips)
        built = [strips.fill(height) for gain, height in sorted(gains, reverse=True)[:8] if gain > CLOSE]
        return [fill for fill in built if fill not in known]

    def _lower_bound(self, worth: list[float], price: float, needed: float) -> None:
        """Duals give a bound once the price of length is so high that no strip gains."""
        price = max(price, needed)
        bound = price * self.length + sum(
            max(0.0, value - each) * count
            for value, each, count in zip(self.values, worth, self.problem.demand, strict=True)
        )
        if bound < self._exact_bound or not self._worth:
            self._worth, self._price = tuple(worth), price
            self._exact_bound = min(bound, self._exact_bound)
            self.bound = min(self.bound, floor(bound + SAFE))

    def _take(self, strips: Sequence[Fill], times: Sequence[int]) -> None:
        fills = [fill for fill, count in zip(strips, times, strict=True) for _ in range(count)]
        left = self.problem.demand
        kept: list[Fill] = []
        for fill in fills:
            wanted = within(fill, left)
            left = minus(left, made_by((wanted,), len(left)))
            if wanted.groups:
                kept.append(wanted)
        made = made_by(kept, len(self.values))
        value = sum(each * count for each, count in zip(self.values, made, strict=True))
        if value > self.value:
            self.value, self.best = value, kept

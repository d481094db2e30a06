"""The order of steps in which what must not wait waits least: bias edges, from the cut that makes them to the seam."""

from collections.abc import Iterable, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from heapq import heappop, heappush
from typing import NamedTuple

_MOST_STATES = 20_000


class Wait(NamedTuple):
    """From one step to a later one something waits; each step between costs `weight` (whole)."""

    start: int
    end: int
    weight: int


@dataclass(frozen=True, slots=True)
class Order:
    """Steps in an order, what the waits cost in it, and whether no order costs less."""

    steps: tuple[int, ...]
    cost: int
    proven: bool


def cost_of(steps: Sequence[int], waits: Iterable[Wait]) -> int:
    """What waits cost in an order: weight times the steps between."""
    place = {step: index for index, step in enumerate(steps)}
    return sum(wait.weight * (place[wait.end] - place[wait.start] - 1) for wait in waits)


def soonest(before: Sequence[AbstractSet[int]], waits: Sequence[Wait]) -> Order:
    """The order of all steps that costs least, each after those `before` it; the given one where none costs less.

    The given order, 0, 1, 2 ..., must be allowed. Dijkstra over the sets of steps done: each costs the weight of all
    that waits then. While nothing waits, steps that begin no wait are done at once, for doing them later saves nothing.
    Past _MOST_STATES the given order is answered, unproven.
    """
    given = Order(tuple(range(len(before))), cost_of(range(len(before)), waits), proven=False)
    found = _Search(before, waits).run()
    if found is None:
        return given
    cost = cost_of(found, waits)
    return (
        Order(found, cost, proven=True) if cost < given.cost else Order(given.steps, given.cost, proven=True)
    )


class _Search:
    def __init__(self, before: Sequence[AbstractSet[int]], waits: Sequence[Wait]) -> None:
        self._before = [sum(1 << step for step in steps) for steps in before]
        self._waits = waits
        self._begins = sum({1 << wait.start for wait in waits})
        self._all = (1 << len(before)) - 1

    def run(self) -> tuple[int, ...] | None:
        """The cheapest order; None where there are too many to look through."""
        start = self._free(0, ())
        waiting: list[tuple[int, tuple[int, ...], int]] = [(0, start[1], start[0])]
        settled: set[int] = set()
        while waiting:
            cost, order, done = heappop(waiting)
            if done == self._all:
                return order
            if done in settled:
                continue
            settled.add(done)
            if len(settled) > _MOST_STATES:
                return None
            for step in self._ready(done):
                after = done | 1 << step
                more = self._open(after)
                path = (*order, step)
                if not more:
                    after, path = self._free(after, path)
                if after not in settled:
                    heappush(waiting, (cost + more, path, after))
        raise AssertionError("the given order is not allowed")

    def _ready(self, done: int) -> list[int]:
        return [
            step
            for step, before in enumerate(self._before)
            if not done >> step & 1 and before & done == before
        ]

    def _open(self, done: int) -> int:
        """The weight of what waits once these steps are done."""
        return sum(wait.weight for wait in self._waits if done >> wait.start & 1 and not done >> wait.end & 1)

    def _free(self, done: int, order: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
        """Do what begins no wait, while nothing waits."""
        while ready := [step for step in self._ready(done) if not self._begins >> step & 1]:
            done |= 1 << ready[0]
            order = (*order, ready[0])
        return done, order

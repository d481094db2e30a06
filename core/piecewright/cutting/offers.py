"""Layouts that are worth more than they cost, when each item has a price: what a linear program asks for."""

from collections import Counter
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial

from piecewright.cutting.knapsack import BestStrips, best_sheet, best_strips
from piecewright.cutting.problem import Face, Layout, Problem


@dataclass(frozen=True, slots=True)
class Duals:
    """What one more of each item is worth, and what one more sheet of each source would save; none below 0."""

    items: tuple[float, ...]
    stocks: tuple[float, ...]


@dataclass(frozen=True, slots=True)
class Offer:
    """The best layout of one kind: its source, cost and value, how much it gains, and how to build it."""

    source: int
    cost: int
    value: float
    gain: float
    build: Callable[[], Layout]


def offers(problem: Problem, duals: Duals) -> Iterator[Offer]:
    """The best strip of each height off the bolt, and the best sheet of every face."""
    for index, face in enumerate(problem.faces):
        highest = max((variant.top for variant in face.variants), default=0)
        strips = best_strips(face, duals.items, problem.demand, highest)
        if face.length is None:
            for height, value in strips.values():
                build = partial(_strip, index, strips, height)
                yield Offer(face.source, height, value, value / height - 1, build)
        else:
            yield _sheet_offer(problem, index, face.length, strips, duals.stocks[face.source])


def _strip(index: int, strips: BestStrips, height: int) -> Layout:
    return Layout(index, (strips.fill(height),))


def _sheet_offer(problem: Problem, index: int, length: int, strips: BestStrips, saved: float) -> Offer:
    face: Face = problem.faces[index]
    value, cut = best_sheet(length, strips.values())
    cost = 1 if face.source == problem.source else 0
    return Offer(face.source, cost, value, value - cost - saved, partial(_sheet, index, strips, cut))


def _sheet(index: int, strips: BestStrips, cut: Counter[int]) -> Layout:
    fills = [strips.fill(height) for height in cut.elements()]
    return Layout(index, tuple(sorted(fills, reverse=True)))

"""Takes pieces that nobody wants out of strips: covering a demand makes some too many.

A piece too many is taken out of its stack, not out of the plan, or the counts of the others would be lost.
"""

from collections import Counter
from collections.abc import Sequence

from piecewright.cutting.problem import (
    Demand,
    Fill,
    Group,
    Layout,
    Problem,
    Solution,
    fill_of,
    made_by,
    made_in,
    minus,
)


def without(fill: Fill, too_many: Sequence[int]) -> Fill:
    """A strip less up to so many of each item, the highest columns first."""
    over = list(too_many)
    groups: list[Group] = []
    for group in fill.groups:
        gone = min(over[group.item], group.pieces)
        over[group.item] -= gone
        groups.append(group._replace(pieces=group.pieces - gone))
    return fill_of(groups)


def within(fill: Fill, demand: Demand) -> Fill:
    """A strip less the pieces that are more than the demand."""
    return without(fill, minus(made_by((fill,), len(demand)), demand))


def exactly(problem: Problem, solution: Solution, demand: Demand) -> Solution:
    """A solution that covers a demand, made to give just that: the emptiest layouts lose pieces first."""
    over = minus(made_in(solution, len(demand)), demand)
    if not any(over):
        return {layout: times for layout, times in solution.items() if times}
    kept: Counter[Layout] = Counter()
    for layout in sorted(solution, key=lambda each: (problem.fullness(each), each)):
        times = solution[layout]
        while times and any(over[group.item] for fill in layout.fills for group in fill.groups):
            trimmed, over = _trimmed(layout, over)
            if trimmed.fills:
                kept[trimmed] += 1
            times -= 1
        if times:
            kept[layout] += times
    return kept


def _trimmed(layout: Layout, over: Demand) -> tuple[Layout, Demand]:
    fills: list[Fill] = []
    for fill in layout.fills:
        shorter = without(fill, over)
        gone = minus(made_by((fill,), len(over)), made_by((shorter,), len(over)))
        over = minus(over, gone)
        if shorter.groups:
            fills.append(shorter)
    return Layout(layout.face, tuple(sorted(fills, reverse=True))), over

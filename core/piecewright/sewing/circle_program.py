"""The fewest broken ties as a program: from every odd circle at least one link; circles come as they are needed.

Exact within fixed counts of rounds and nodes, never by the clock, so that answers are the same everywhere.
"""

from collections.abc import Iterable, Mapping
from math import ceil

import highspy

from piecewright.sewing.circles import Circle, Edge, short_circles
from piecewright.sewing.search import Signs, descend
from piecewright.sewing.signs import Graph, broken_weight, parts_of

_CLOSE = 1e-6
_SEARCHES = 6_000
"""So many circles are looked for, in rounds of one through each link."""
_NODES = 100
_WHOLE_ROUNDS = 8
_MOST_CELLS = 20_000
"""Columns times rows up to which whole answers are asked for; denser programs end with the bound in parts."""
_GAP = 0.999
"""Weights are whole numbers: an answer that is better by less than 1 is none."""


def by_circles(graph: Graph, best: Signs) -> tuple[Signs, int]:
    """Signs as good as found, at least as good as `best`, and the least that any signs break."""
    program = _Program(graph)
    best, bound = _relaxed(program, graph, best)
    if bound < broken_weight(graph, best):
        best, bound = _whole(program, graph, best, bound)
    return best, bound


def _relaxed(program: "_Program", graph: Graph, best: Signs) -> tuple[Signs, int]:
    """Links may be broken in part: the bound, rounded up, and the best signs met on the way."""
    amounts = dict.fromkeys(program.edges, 0.0)
    bound = 0
    for _ in range(_SEARCHES // len(program.edges)):
        if not program.add(short_circles(graph, best, amounts, 1 - _CLOSE)):
            break
        value, amounts = program.solve()
        bound = ceil(value - _CLOSE)
        best = _better(graph, best, amounts)
        if bound == broken_weight(graph, best):
            break
    return best, bound


def _better(graph: Graph, best: Signs, amounts: Mapping[Edge, float]) -> Signs:
    """The best signs, or those that the amounts lead to."""
    signs = _signs_without(graph, amounts)
    descend(graph, signs, graph.links)
    return signs if broken_weight(graph, signs) < broken_weight(graph, best) else best


def _whole(program: "_Program", graph: Graph, best: Signs, bound: int) -> tuple[Signs, int]:
    """Whole answers, with the odd circles each leaves added, until one leaves none."""
    for _ in range(_WHOLE_ROUNDS):
        if program.cells > _MOST_CELLS:
            break
        amounts, least = program.solve_whole()
        bound = max(bound, ceil(least - _CLOSE))
        if amounts is None:
            break
        best = _better(graph, best, amounts)
        if bound >= broken_weight(graph, best):
            break
        if not program.add(short_circles(graph, best, amounts, 1 - _CLOSE)):
            break
    return best, min(bound, broken_weight(graph, best))


def _signs_without(graph: Graph, amounts: Mapping[Edge, float]) -> Signs:
    """Signs that hold as many as a walk can of the links that are not given up."""
    kept = Graph({node: {} for node in graph.links})
    for one, other, link in graph.edges():
        if amounts[one, other] < 0.5:
            kept.links[one][other] = kept.links[other][one] = link
    signs: Signs = {}
    for part in parts_of(kept):
        pull = sum(
            link.sign * link.weight * part.signs[node] * signs[other]
            for node in part.signs
            for other, link in graph.links[node].items()
            if other in signs
        )
        turn = 1 if pull >= 0 else -1
        signs.update((node, sign * turn) for node, sign in part.signs.items())
    return signs


class _Program:
    """One column for each link, one row for each odd circle."""

    def __init__(self, graph: Graph) -> None:
        self.edges = {(one, other): index for index, (one, other, _) in enumerate(graph.edges())}
        self._known: set[tuple[Edge, ...]] = set()
        self._highs = highspy.Highs()  # type: ignore[no-untyped-call] # it has no annotation
        self._set(output_flag=False, threads=1, random_seed=0)
        for _, _, link in graph.edges():
            self._highs.addCol(float(link.weight), 0.0, 1.0, 0, [], [])

    @property
    def cells(self) -> int:
        """Columns times rows."""
        return len(self.edges) * len(self._known)

    def _set(self, **options: bool | int | float) -> None:
        for option, value in options.items():
            self._highs.setOptionValue(option, value)

    def add(self, circles: Iterable[Circle]) -> int:
        """Add the circles not known yet; how many these were."""
        before = len(self._known)
        for circle in circles:
            if circle.edges not in self._known:
                self._known.add(circle.edges)
                columns = [self.edges[name] for name in circle.edges]
                self._highs.addRow(1.0, float("inf"), len(columns), columns, [1.0] * len(columns))
        return len(self._known) - before

    def solve(self) -> tuple[float, dict[Edge, float]]:
        """The least value and how much of each link it breaks, parts of a link allowed."""
        self._highs.run()
        return self._highs.getInfo().objective_function_value, self._amounts()

    def solve_whole(self) -> tuple[dict[Edge, float] | None, float]:
        """The links that a whole answer breaks, None where none was found in time; and the bound on its value."""
        for column in self.edges.values():
            self._highs.changeColIntegrality(column, highspy.HighsVarType.kInteger)
        self._set(mip_max_nodes=_NODES, mip_rel_gap=0.0, mip_abs_gap=_GAP)
        self._highs.run()
        info = self._highs.getInfo()
        if info.primal_solution_status != highspy.kSolutionStatusFeasible:
            return None, info.mip_dual_bound
        return self._amounts(), info.mip_dual_bound

    def _amounts(self) -> dict[Edge, float]:
        values = self._highs.getSolution().col_value
        return {name: max(0.0, values[index]) for name, index in self.edges.items()}

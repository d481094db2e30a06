"""From parts of layouts to whole ones: round down, finish greedily, and fix one layout after another."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence

from piecewright.cutting.greedy import greedy_solution
from piecewright.cutting.levels import level_solutions
from piecewright.cutting.problem import Demand, Layout, Problem, Solution, joined
from piecewright.cutting.relaxation import Relaxation
from piecewright.cutting.solver import Answer
from piecewright.cutting.trimming import exactly

NEARLY = 1e-6


def finished(problem: Problem, demand: Demand) -> Solution:
    """The better of level and greedy cutting for a demand."""
    answers = [greedy_solution(problem, demand), *level_solutions(problem, demand)]
    return min(answers, key=problem.score)


def dive(relaxation: Relaxation, answer: Answer, cancelled: Callable[[], bool]) -> Iterator[Solution]:
    """Whole answers, one at every depth: what is fixed so far, finished greedily. All give just the demand."""
    problem = relaxation.problem
    fixed: Counter[Layout] = Counter()
    rest = problem
    current: Answer | None = answer
    while current is not None and any(rest.demand) and not cancelled():
        for place, times in _to_fix(current.amounts):
            layout = relaxation.layouts[place]
            stock = rest.stocks[problem.faces[layout.face].source]
            settled = {layout: times if stock is None else min(times, stock)}
            fixed.update(settled)
            rest = rest.without(settled)
        yield exactly(problem, joined(fixed, finished(rest, rest.demand)), problem.demand)
        current = relaxation.ask(rest.demand, rest.stocks)


def _to_fix(amounts: Sequence[float]) -> list[tuple[int, int]]:
    """The whole parts of all amounts; where there are none, one of the layout with the greatest part."""
    whole = [(place, int(amount + NEARLY)) for place, amount in enumerate(amounts) if amount + NEARLY >= 1]
    if whole:
        return whole
    return [(max(range(len(amounts)), key=lambda place: (amounts[place], -place)), 1)]

"""The whole search: from the live answer to the best one with its bound, step by step, in fixed counts."""

from collections import Counter
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from random import Random
from typing import Literal

from piecewright.cutting import solver
from piecewright.cutting.diving import dive, finished
from piecewright.cutting.fullest import fullest
from piecewright.cutting.greedy import greedy_solution
from piecewright.cutting.levels import level_solutions
from piecewright.cutting.master import improve, tidy
from piecewright.cutting.patterns import Limits
from piecewright.cutting.plain import plain_solution
from piecewright.cutting.problem import Layout, Problem, Solution, joined
from piecewright.cutting.recutting import recut
from piecewright.cutting.relaxation import Relaxation

Step = Literal["levels", "greedy", "fullest", "bound", "dive", "recut", "whole", "tidy"]

MOST_FULLEST = 12
"""How many sheets on hand are filled one by one, each as full as can be."""


@dataclass(frozen=True, slots=True)
class Effort:
    """How long to search, in counts: strips cut anew so many times, and the limits of whole numbers.

    The same effort gives the same answer everywhere.
    """

    turns: int
    whole: Limits
    tidy: Limits
    random: int = 0


SETTLED = Effort(turns=30, whole=Limits(nodes=100, layouts=400), tidy=Limits(nodes=20, layouts=60))
HARDER = Effort(turns=150, whole=Limits(nodes=2_000, layouts=2_000), tidy=Limits(nodes=200, layouts=150))


@dataclass(frozen=True, slots=True)
class At:
    """How far a search is: its step, turn by turn where it has turns, the cost and the bound so far, in units."""

    step: Step
    turn: int
    turns: int
    cost: int
    bound: int | None


@dataclass(frozen=True, slots=True)
class Found:
    """The answer: the solution, and the least cost of any plan of this kind (None: not known).

    `stopped`: the search was cancelled before its end.
    """

    solution: Solution
    bound: int | None
    stopped: bool = False


Report = Callable[[At], None]
Cancelled = Callable[[], bool]


def first_solution(problem: Problem) -> Solution:
    """The live answer: the best of all orders of levels, and never more than plain cutting."""
    return min((plain_solution(problem), *level_solutions(problem, problem.demand)), key=problem.score)


def search(problem: Problem, effort: Effort, report: Report, cancelled: Cancelled) -> Found:
    """The best solution within an effort. Once cancelled, the best so far."""
    if not any(problem.demand):
        return Found({}, 0)
    return _Search(problem, effort, report, cancelled).run()


class _Search:
    """One search, with the best solution and the best bound so far."""

    def __init__(self, problem: Problem, effort: Effort, report: Report, cancelled: Cancelled) -> None:
        self.problem, self.effort = problem, effort
        self._report, self._cancelled = report, cancelled
        self.best = plain_solution(problem)
        self.bound: int | None = None

    def run(self) -> Found:
        """All steps in turn, until the best is proven to be the best."""
        problem = self.problem
        self._offer("levels", level_solutions(problem, problem.demand))
        self._offer("greedy", [greedy_solution(problem, problem.demand)])
        if solver.is_there() and len(problem.stocks) > 1:
            self._offer("fullest", [self._fullest_first()])
        relaxation = self._relaxed() if solver.is_there() else None
        if not self.ended:
            self._recut()
        if relaxation is not None and not self.ended:
            self._whole(relaxation)
        if relaxation is not None and not self._cancelled():
            self._offer("tidy", [tidy(relaxation, self.best, self.effort.tidy, self._cancelled)])
        return Found(self.best, self.bound, self._cancelled())

    @property
    def ended(self) -> bool:
        """Whether no better answer is possible, or none is wanted any more."""
        return self._cancelled() or self.problem.cost(self.best) == self.bound

    def _relaxed(self) -> Relaxation:
        """The bound, and what comes of rounding its layouts."""
        relaxation = Relaxation(self.problem)
        relaxation.add(self.best)
        self._tell("bound", 0, 0)
        answer = relaxation.close(self._cancelled)
        self.bound = relaxation.whole_bound
        if answer is not None:
            self._offer("dive", dive(relaxation, answer, self._cancelled))
        return relaxation

    def _fullest_first(self) -> Solution:
        """Each sheet on hand as full as can be, one after another; what is left greedily."""
        rest, taken = self.problem, Counter[Layout]()
        for _ in range(MOST_FULLEST):
            layouts = [
                fullest(rest, index, rest.areas, self.effort.tidy, self._cancelled).layout
                for index, face in enumerate(rest.faces)
                if face.source != rest.source and rest.stocks[face.source]
            ]
            layout = max(layouts, key=rest.covered, default=None)
            if layout is None or not layout.fills or self._cancelled():
                break
            taken[layout] += 1
            rest = rest.without({layout: 1})
        return joined(taken, finished(rest, rest.demand))

    def _recut(self) -> None:
        random = Random(self.effort.random)  # noqa: S311 - a search, no secret
        for turn in range(self.effort.turns):
            if self.ended:
                break
            self._tell("recut", turn, self.effort.turns)
            self.best = recut(self.problem, self.best, random)

    def _whole(self, relaxation: Relaxation) -> None:
        self._tell("whole", 0, 0)
        verdict = improve(relaxation, self.best, self.effort.whole, self._cancelled)
        if verdict.better is not None:
            self._offer("whole", (verdict.better,))
        if verdict.least:
            self.bound = self.problem.cost(self.best)

    def _offer(self, step: Step, solutions: Iterable[Solution]) -> None:
        """Take the best of some solutions, as they come."""
        self._tell(step, 0, 0)
        for solution in solutions:
            self.best = min(self.best, solution, key=self.problem.score)
            if self._cancelled():
                break

    def _tell(self, step: Step, turn: int, turns: int) -> None:
        self._report(At(step, turn, turns, self.problem.cost(self.best), self.bound))

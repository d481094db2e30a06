"""The three answers to a job: plain cutting, the live plan, and the best one with its bound."""

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.dealing import plan_of
from piecewright.cutting.grid import grid_of
from piecewright.cutting.job import Job
from piecewright.cutting.plain import plain_solution
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.search import SETTLED, At, Effort, Step, first_solution, search
from piecewright.plan.stage import stage


@dataclass(frozen=True, slots=True)
class Progress:
    """How far a search is: its step, turn by turn where it has turns, the amount so far and the bound."""

    step: Step
    turn: int
    turns: int
    amount: Fraction
    bound: Fraction | None


def _say_nothing(progress: Progress) -> None:
    """For those who do not watch."""


def _go_on() -> bool:
    return False


@stage(keep=256)
def plain_plan(job: Job) -> CuttingPlan:
    """Each size in strips of its own, from the cloth that costs alone."""
    grid = grid_of(job)
    return plan_of(grid, plain_solution(grid.problem))


@stage(keep=256)
def first_plan(job: Job) -> CuttingPlan:
    """A good plan at once, never of more cloth than plain cutting; without a bound."""
    grid = grid_of(job)
    return plan_of(grid, first_solution(grid.problem))


def best_plan(
    job: Job,
    effort: Effort = SETTLED,
    report: Callable[[Progress], None] = _say_nothing,
    cancelled: Callable[[], bool] = _go_on,
) -> CuttingPlan:
    """The best plan that an effort finds, with the bound where HiGHS is installed; never more than `first_plan`.

    For a thread of its own: `report` is called there, and `cancelled` is asked often; once it says so, the
    best plan so far is given. The same job and effort give the same plan.
    """
    grid = grid_of(job)
    each = grid.unit if job.sheet.length is None else Fraction(1)

    def tell(at: At) -> None:
        bound = None if at.bound is None else at.bound * each
        report(Progress(at.step, at.turn, at.turns, at.cost * each, bound))

    found = search(grid.problem, effort, tell, cancelled)
    return plan_of(grid, found.solution, found.bound, stopped=found.stopped)

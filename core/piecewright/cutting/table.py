"""All cutting of a design, fabric by fabric: the answer at once, and the best one for a thread of its own."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from piecewright.cutting.any_order import AnyOrderPlan, any_order_plan
from piecewright.cutting.demand import FabricDemand, demand_of
from piecewright.cutting.had import Had, had_of
from piecewright.cutting.job import Job
from piecewright.cutting.planning import Progress, best_plan, first_plan, plain_plan
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.search import SETTLED, Effort
from piecewright.cutting.truing import leaves_room, reserve_for
from piecewright.model.design import Design
from piecewright.plan.materials import Materials, fabric_name, materials
from piecewright.plan.packing import Truing
from piecewright.plan.stage import stage
from piecewright.words.message import Message

Choice = Literal["plain", "level", "best", "any-order"]
CHOICES: tuple[Choice, ...] = ("plain", "level", "best", "any-order")


class StopToken:
    """Says to a search in another thread that its answer is not wanted any more: `stop` there, call it here."""

    def __init__(self) -> None:
        self._stopped = False

    def stop(self) -> None:
        """Have the search end soon with the best it has."""
        self._stopped = True

    def __call__(self) -> bool:
        """Whether it is to end."""
        return self._stopped


@dataclass(frozen=True, slots=True)
class FabricCutting:
    """One fabric: the plan, with the pieces it gives in its job, and plain cutting beside it.

    `longest` is the plan if strips of unlike length are all as long as the longest, None where no length is
    open: the truth lies between `longest.amount` and `plan.amount`. `second` is a plan of straight cuts in any
    order, where a search has found one that takes less cloth than `plan`.
    """

    fabric: str
    name: Message
    plain: CuttingPlan
    plan: CuttingPlan
    longest: CuttingPlan | None = None
    second: AnyOrderPlan | None = None

    @property
    def saved(self) -> Fraction:
        """Inches or sheets that the plan saves against plain cutting."""
        return self.plain.amount - self.plan.amount

    @property
    def least_amount(self) -> Fraction:
        """What it takes if strips of unlike length are as long as the longest."""
        return self.plan.amount if self.longest is None else min(self.longest.amount, self.plan.amount)


@dataclass(frozen=True, slots=True)
class DesignCutting:
    """The cutting of one arrangement: every fabric of which something is cut, in the order of the materials."""

    materials: Materials
    choice: Choice
    fabrics: tuple[FabricCutting, ...]

    def of(self, fabric: str) -> FabricCutting | None:
        """The cutting of a fabric by its id; None where nothing is cut of it."""
        return next((each for each in self.fabrics if each.fabric == fabric), None)

    def shown(self, each: FabricCutting) -> CuttingPlan | AnyOrderPlan:
        """The plan of a fabric by the choice: straight cuts in any order only where they take less."""
        return each.second if self.choice == "any-order" and each.second is not None else each.plan

    @property
    def rounding(self) -> str:
        """How yardage is rounded."""
        return self.materials.settings.yardage


@dataclass(frozen=True, slots=True)
class TableProgress:
    """How far the search for all fabrics is: fabrics done, of how many, and how far the one in hand is."""

    done: int
    fabrics: int
    fabric: str
    at: Progress | None = None


def _watch_nothing(progress: TableProgress) -> None:
    """For those who do not watch."""


def _go_on() -> bool:
    return False


def cutting_plan(design: Design, choice: Choice = "level") -> DesignCutting:
    """The cutting of a design at once: never more cloth than plain cutting. Never raises for a design.

    "best" and "any-order" are only as good as "level" here; `best_cutting` searches.
    """
    return table_of(materials(design), choice)


@stage(keep=32)
def table_of(made: Materials, choice: Choice) -> DesignCutting:
    """The cutting behind some materials."""
    return DesignCutting(made, choice, tuple(_fabrics(made, choice)))


def best_cutting(
    start: DesignCutting,
    effort: Effort = SETTLED,
    report: Callable[[TableProgress], None] = _watch_nothing,
    cancelled: Callable[[], bool] = _go_on,
    known: DesignCutting | None = None,
) -> DesignCutting:
    """The best cutting that an effort finds, each fabric with its bound where HiGHS is installed.

    For a thread of its own. `start` is what `cutting_plan` gave; `known` an earlier answer of this function:
    fabrics whose question is the same keep their plan. Once cancelled, fabrics not searched yet keep their
    plan of `start`. The same start and effort give the same answer.
    """
    before = {each.plan.job: each for each in known.fabrics if _settled(each.plan)} if known else {}
    found: list[FabricCutting] = []
    for done, each in enumerate(start.fabrics):
        settled = before.get(each.plan.job)
        if settled is not None:
            each = replace(each, plan=settled.plan, second=settled.second)
        elif not cancelled():
            report(TableProgress(done, len(start.fabrics), each.fabric))
            plan = _best(each, effort, _reporter(report, done, len(start.fabrics), each.fabric), cancelled)
            each = _with_second(replace(each, plan=plan), cancelled)
        found.append(each)
    return DesignCutting(start.materials, "best", tuple(found))


def _with_second(each: FabricCutting, cancelled: Callable[[], bool]) -> FabricCutting:
    """With the plan of cuts in any order, where there is room for one and it saves."""
    plan, job = each.plan, each.plan.job
    area = sum((piece.area * piece.count for piece in job.pieces), Fraction(0))
    if area >= plan.amount * job.sheet.width:
        return each
    found = any_order_plan(job, cancelled)
    saves = found is not None and found.amount < plan.amount
    return replace(each, second=found if saves else None)


def _settled(plan: CuttingPlan) -> bool:
    """Whether the plan comes of a search that went to its end."""
    return plan.bound is not None and not plan.stopped


def _best(
    each: FabricCutting, effort: Effort, report: Callable[[Progress], None], cancelled: Callable[[], bool]
) -> CuttingPlan:
    """The best plan, unless what was there is better: where it was stopped early, or leaves no room for truing."""
    found = best_plan(each.plan.job, effort, report, cancelled)
    return found if found.amount <= each.plan.amount and leaves_room(found) else each.plan


def _reporter(
    report: Callable[[TableProgress], None], done: int, fabrics: int, fabric: str
) -> Callable[[Progress], None]:
    return lambda at: report(TableProgress(done, fabrics, fabric, at))


def _fabrics(made: Materials, choice: Choice) -> Iterator[FabricCutting]:
    known = {fabric.id: fabric for fabric in made.fabrics}
    for whole, apart in zip(demand_of(made), demand_of(made, apart=True), strict=True):
        if not whole.pieces:
            continue
        had = had_of(known.get(whole.fabric), made.settings)
        jobs = _jobs(made, whole, apart, had)
        plain = _least([plain_plan(job) for job in jobs])
        plan = plain if choice == "plain" else _least([first_plan(job) for job in jobs])
        yield FabricCutting(
            fabric=whole.fabric,
            name=fabric_name(made, whole.fabric),
            plain=plain,
            plan=plan,
            longest=_with_longest(plan.job, had),
        )


def _jobs(made: Materials, whole: FabricDemand, apart: FabricDemand, had: Had) -> list[Job]:
    """The questions a fabric may be cut by.

    Strips for the whole width of the cloth as the materials count them, or every piece that they are cut up into
    for itself, with as much of each strip kept for truing as it can take at most, or only for the first end.
    """
    jobs = [Job(whole.pieces, had.sheet, had.on_hand)]
    if apart.pieces == whole.pieces:
        return jobs
    settings = made.settings
    truing = Truing(settings.trim_first, settings.trim_again, settings.trim_every)
    shortest = min(piece.width for piece in apart.pieces)
    most = reserve_for(truing, shortest, had.sheet.width)
    return [
        Job(apart.pieces, had.sheet, had.on_hand, truing=truing, reserve=reserve)
        for reserve in dict.fromkeys((most, truing.first))
    ] + jobs


def _least(plans: list[CuttingPlan]) -> CuttingPlan:
    """The plan of least cloth of those that leave room to true every strip; the last leaves it always."""
    sound = [plan for plan in plans if leaves_room(plan) and not plan.unplaced] or plans[-1:]
    return min(sound, key=lambda plan: plan.amount)


def _with_longest(job: Job, had: Had) -> CuttingPlan | None:
    return None if had.longest == had.on_hand else first_plan(replace(job, on_hand=had.longest))

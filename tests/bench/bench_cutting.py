"""Times cutting, and tells its cloth against the bound and against plain cutting; then the public instances.

Run as `python -m tests.bench.bench_cutting [quilts a case]`. Prints figures and the machine, asserts nothing: times are
not tests.
"""

import platform
import sys
from collections.abc import Callable
from dataclasses import dataclass
from statistics import mean, median
from time import perf_counter, thread_time
from typing import TypeVar

from piecewright.cutting.fullest import fullest
from piecewright.cutting.grid import grid_of
from piecewright.cutting.job import Job
from piecewright.cutting.patterns import Limits
from piecewright.cutting.planning import Progress, best_plan, first_plan, plain_plan
from piecewright.cutting.plans import CuttingPlan
from piecewright.cutting.search import HARDER, SETTLED, Effort, first_solution
from piecewright.cutting.verify import verify
from piecewright.plan.stage import forget
from tests.core.cutting.jobs import quilt_job
from tests.outside.packing_instances import (
    LEAST_STRIPS,
    PAPER_ROLLS,
    bins,
    knapsacks,
    paper_mill,
    strips_of_gcut,
)

SIZES = (3, 8, 15)
COUNTS = (50, 200, 500, 2_000)
Answer = TypeVar("Answer")


@dataclass(frozen=True)
class Case:
    """One quilt's figures: inches, and milliseconds of work of this thread."""

    plain: float
    first: float
    best: float
    bound: float
    live_ms: float
    first_ms: float
    settled_ms: float
    recut_ms: float
    proven: bool

    @property
    def saved_first(self) -> float:
        """Share of plain cutting that the live answer saves."""
        return 1 - self.first / self.plain

    @property
    def saved(self) -> float:
        """Share of plain cutting that the best answer saves."""
        return 1 - self.best / self.plain

    @property
    def gap(self) -> float:
        """How far the best is above the bound."""
        return self.best / self.bound - 1


def timed(work: Callable[[], Answer]) -> tuple[Answer, float]:
    """An answer and the milliseconds it took."""
    begun = thread_time()
    answer = work()
    return answer, (thread_time() - begun) * 1e3


def measured(job: Job, effort: Effort) -> Case:
    """One quilt cut plainly, at once and by an effort."""
    forget()
    grid = grid_of(job)
    _, live_ms = timed(lambda: first_solution(grid.problem))
    first, first_ms = timed(lambda: first_plan(job))
    steps: dict[str, float] = {}
    begun = thread_time()

    def note(progress: Progress) -> None:
        steps.setdefault(progress.step, (thread_time() - begun) * 1e3)

    best = best_plan(job, effort, note)
    settled_ms = (thread_time() - begun) * 1e3
    check(best)
    return Case(
        plain=float(plain_plan(job).amount),
        first=float(first.amount),
        best=float(best.amount),
        bound=float(best.bound or 1),
        live_ms=live_ms,
        first_ms=first_ms,
        settled_ms=settled_ms,
        recut_ms=steps.get("whole", steps.get("tidy", settled_ms)),
        proven=best.proven,
    )


def check(plan: CuttingPlan) -> None:
    """Print what is wrong with a plan, if anything is."""
    for fault in verify(plan):
        print("FAULT", fault)


def quilts(quilts_a_case: int, effort: Effort, name: str) -> None:
    """Quilts of 3, 8 and 15 sizes and 50 to 2 000 pieces, grain fixed and free."""
    for may_turn in (False, True):
        print(
            f"{name}, {'pieces may turn' if may_turn else 'grain fixed'}, 42 in, {quilts_a_case} quilts a row"
        )
        print(
            "sizes pieces | saved at once   best | above bound proven | live ms  plan ms | until recut ms  "
            "answer ms  most ms  proven ms"
        )
        everything: list[Case] = []
        for sizes in SIZES:
            for count in COUNTS:
                cases = [
                    measured(quilt_job(sizes, count, may_turn=may_turn, number=number), effort)
                    for number in range(quilts_a_case)
                ]
                row(f"{sizes:5} {count:6}", cases)
                everything += cases
        row("all         ", everything)
        never = sum(case.first <= case.plain and case.best <= case.first for case in everything)
        print(f"never above plain cutting: {never} of {len(everything)}")


def row(name: str, cases: list[Case]) -> None:
    """Means of shares, medians of times; of those proven, the time until that."""
    proven = [case.settled_ms for case in cases if case.proven]
    print(
        f"{name} | {mean(case.saved_first for case in cases):12.1%} {mean(case.saved for case in cases):6.1%} "
        f"| {mean(case.gap for case in cases):11.2%} {sum(case.proven for case in cases):3}/{len(cases):<3}"
        f"| {median(case.live_ms for case in cases):7.2f} {median(case.first_ms for case in cases):8.2f} "
        f"| {median(case.recut_ms for case in cases):14.0f} {median(case.settled_ms for case in cases):10.0f} "
        f"{max(case.settled_ms for case in cases):8.0f} {median(proven) if proven else float('nan'):10.0f}",
        flush=True,
    )


def published() -> None:
    """The public instances, with the seconds each kind takes."""
    begun = perf_counter()
    plans = [best_plan(strips_of_gcut(number)) for number in range(1, 13)]
    right = sum(plan.amount == least for plan, least in zip(plans, LEAST_STRIPS, strict=True))
    print(
        f"gcut1d to gcut12d: {right} of 12 least, {sum(plan.proven for plan in plans)} proven, {since(begun)}"
    )
    begun = perf_counter()
    mill = best_plan(paper_mill())
    print(f"paper mill: {mill.amount} rolls, {PAPER_ROLLS} published, proven {mill.proven}, {since(begun)}")
    begun = perf_counter()
    found = [(best_plan(each.job), each.fewest) for each in bins()]
    right = sum(plan.amount == fewest and plan.proven for plan, fewest in found)
    print(f"binpack1: {right} of {len(found)} fewest and proven, {since(begun)}")
    sheets()


def sheets() -> None:
    """The 76 two-stage knapsacks."""
    times: list[float] = []
    right = proven = 0
    for each in knapsacks():
        begun = perf_counter()
        found = fullest(each.problem, 0, each.values, Limits(nodes=2_000, layouts=4_000), lambda: False)
        times.append(perf_counter() - begun)
        right += found.value == each.most
        proven += found.bound == each.most
    print(
        f"two-stage knapsack: {right} of {len(times)} published, {proven} proven, median {median(times):.3f} s, "
        f"most {max(times):.1f} s, {sum(times):.0f} s in all"
    )


def since(begun: float) -> str:
    """Seconds since then."""
    return f"{perf_counter() - begun:.1f} s"


if __name__ == "__main__":
    machine = f"{platform.machine()} {platform.system()}, Python {platform.python_version()}"
    print(f"{machine}; times are work of one thread")
    number_of_quilts = int(sys.argv[1]) if len(sys.argv) > 1 else 10
    quilts(number_of_quilts, SETTLED, "settled")
    quilts(max(1, number_of_quilts // 5), HARDER, "harder")
    published()

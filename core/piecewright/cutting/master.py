"""Whole numbers of the layouts that come into question: a better plan, or proof that there is none."""

from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from piecewright.cutting.patterns import Limits, nearest_strips
from piecewright.cutting.problem import Layout, Problem, Solution, cuts_of, made_by
from piecewright.cutting.reach import sum_below
from piecewright.cutting.relaxation import SAFE, Relaxation, entries_of, rows_of
from piecewright.cutting.solver import UNLIMITED, Answer, Program
from piecewright.cutting.trimming import exactly


@dataclass(frozen=True, slots=True)
class Verdict:
    """A better solution, if one was found; `least`: none can cost less than it, or than the one before."""

    better: Solution | None
    least: bool


def improve(relaxation: Relaxation, best: Solution, limits: Limits, cancelled: Callable[[], bool]) -> Verdict:
    """Look for a plan that costs less than `best`, among all layouts that such a plan can have.

    Where these are too many, among the cheapest found so far; then nothing is proven.
    """
    problem = relaxation.problem
    target = sum_below(problem, problem.cost(best))
    gap = target - relaxation.bound + SAFE
    if gap < 0:
        return Verdict(None, least=True)
    layouts, complete = _candidates(relaxation, gap, limits.layouts)
    program = Program([*rows_of(problem, problem.demand), (0.0, float(target))])
    limit = len(problem.demand) + len(problem.stocks)
    for layout in layouts:
        cost = float(problem.cost_of(layout))
        program.add_column(cost, [*entries_of(problem, layout), (limit, cost)], float(_most(problem, layout)))
    answer, proven = program.solve_whole(range(len(layouts)), limits.nodes, cancelled)
    if answer is None:
        return Verdict(None, least=proven and complete)
    better = exactly(problem, _solution(layouts, answer), problem.demand)
    return Verdict(better, least=proven and complete)


def _candidates(relaxation: Relaxation, gap: float, most: int) -> tuple[list[Layout], bool]:
    """Layouts that a plan within `gap` of the bound can have, and whether these are all."""
    problem = relaxation.problem
    known = [(relaxation.reduced_cost(layout), layout) for layout in relaxation.layouts]
    near = [layout for cost, layout in sorted(known) if cost <= gap][:most]
    if len(problem.faces) > 1 or not problem.faces[0].is_bolt:
        return near, False
    fills, complete = nearest_strips(problem, problem.faces[0], relaxation.duals.items, gap, most)
    listed = [Layout(0, (fill,)) for fill in fills]
    return (listed if complete else list(dict.fromkeys([*near, *listed]))), complete


def tidy(relaxation: Relaxation, best: Solution, limits: Limits, cancelled: Callable[[], bool]) -> Solution:
    """A plan of the same cost from fewer heights of strips, then with fewer cuts, if one is found."""
    problem = relaxation.problem
    gap = problem.cost(best) - relaxation.bound + SAFE
    known = sorted((relaxation.reduced_cost(layout), layout) for layout in {*relaxation.layouts, *best})
    layouts = [layout for cost, layout in known if cost <= gap][: limits.layouts]
    program, whole = _tidying(problem, layouts, best)
    answer, _ = program.solve_whole(range(whole), limits.nodes, cancelled)
    if answer is None:
        return best
    tidier = exactly(problem, _solution(layouts, answer), problem.demand)
    return min(best, tidier, key=problem.score)


def _tidying(problem: Problem, layouts: Sequence[Layout], best: Solution) -> tuple[Program, int]:
    """The program that counts heights of strips, then cuts, and how many columns it has."""
    heights = sorted({fill.height for layout in layouts for fill in layout.fills})
    cost, _, cuts = problem.score(best)
    rows = rows_of(problem, problem.demand)
    program = Program([*rows, (0.0, float(cost)), *((-UNLIMITED, 0.0) for _ in heights)])
    row_of = {height: len(rows) + 1 + place for place, height in enumerate(heights)}
    for layout in layouts:
        counted = [(row_of[height], 1.0) for height in sorted({fill.height for fill in layout.fills})]
        entries = [*entries_of(problem, layout), (len(rows), float(problem.cost_of(layout))), *counted]
        program.add_column(float(sum(map(cuts_of, layout.fills))), entries, float(_most(problem, layout)))
    strips = float(sum(_most(problem, layout) for layout in layouts))
    for height in heights:
        program.add_column(float(cuts + 1), [(row_of[height], -strips)], 1.0)
    return program, len(layouts) + len(heights)


def _most(problem: Problem, layout: Layout) -> int:
    """More of a layout than this would only make what nobody wants."""
    made = made_by(layout.fills, len(problem.demand))
    return max(-(-wanted // given) for wanted, given in zip(problem.demand, made, strict=True) if given)


def _solution(layouts: Sequence[Layout], answer: Answer) -> Solution:
    return Counter(
        {layout: int(answer.amounts[place]) for place, layout in enumerate(layouts) if answer.amounts[place]}
    )

"""Greedy cutting: again and again the strip, or the sheet, whose pieces cover most of it."""

from collections import Counter

from piecewright.cutting.knapsack import NEGLIGIBLE, best_sheet, best_strips
from piecewright.cutting.problem import (
    Demand,
    Face,
    Fill,
    Layout,
    Problem,
    Solution,
    made_by,
    minus,
)
from piecewright.cutting.trimming import within


def greedy_solution(problem: Problem, demand: Demand) -> Solution:
    """Cloth that costs nothing first; the answer gives exactly the demand."""
    taken: Counter[Layout] = Counter()
    for source, stock in enumerate(problem.stocks):
        left = stock
        while any(demand) and left != 0:
            layout = _fullest(problem, source, demand)
            if layout is None:
                break
            made = made_by(layout.fills, len(demand))
            times = min(wanted // given for wanted, given in zip(demand, made, strict=True) if given)
            times = times if left is None else min(times, left)
            taken[layout] += times
            demand = minus(demand, made, times)
            left = None if left is None else left - times
    return taken


def _fullest(problem: Problem, source: int, demand: Demand) -> Layout | None:
    """The layout of a source whose pieces cover the greatest share of it; None where nothing fits."""
    best, found = 0.0, None
    for index, face in enumerate(problem.faces):
        if face.source != source:
            continue
        layout = (
            _strip_layout(problem, index, demand) if face.is_bolt else _sheet_layout(problem, index, demand)
        )
        if layout is None:
            continue
        share = problem.fullness(layout)
        if share > best:
            best, found = share, layout
    return found


def _strip_layout(problem: Problem, index: int, demand: Demand) -> Layout | None:
    fill = _fullest_strip(problem, problem.faces[index], demand)
    return None if fill is None else Layout(index, (fill,))


def _fullest_strip(problem: Problem, face: Face, demand: Demand) -> Fill | None:
    strips = best_strips(face, problem.areas, demand, _highest(problem, demand))
    best = max(strips.values(), key=lambda each: (each[1] / each[0], each[0]), default=None)
    return None if best is None else within(strips.fill(best[0]), demand)


def _highest(problem: Problem, demand: Demand) -> int:
    """No strip needs to be higher than the highest column of what is wanted."""
    return max(
        (
            variant.top
            for face in problem.faces
            for variant in face.variants
            if demand[variant.item] >= variant.stack
        ),
        default=0,
    )


def _sheet_layout(problem: Problem, index: int, demand: Demand) -> Layout | None:
    """A sheet filled strip by strip: each the fullest of the best cut of what is left of the sheet."""
    face = problem.faces[index]
    left = face.length or 0
    fills: list[Fill] = []
    while any(demand):
        strips = best_strips(face, problem.areas, demand, left)
        values = strips.values()
        value, cut = best_sheet(left, values)
        if value <= NEGLIGIBLE:
            break
        worth = dict(values)
        height = max(cut, key=lambda each: (worth[each] / each, each))
        fill = within(strips.fill(height), demand)
        fills.append(fill)
        demand = minus(demand, made_by((fill,), len(demand)))
        left -= fill.height
    return Layout(index, tuple(sorted(fills, reverse=True))) if fills else None

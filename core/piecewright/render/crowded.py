"""Marks that would lie on each other where parts are narrow: words step aside, numbers without room are left out."""

from collections.abc import Sequence
from math import dist

from piecewright.render.marks import (
    dimension_across,
    dimension_down,
    lines_of_height,
    number,
    number_radius,
    stands_inside,
)
from piecewright.render.path import Spot
from piecewright.render.pen import Pen
from piecewright.render.style import SMALL
from piecewright.render.typeface import text_width

_APART, _GAP = 0.03, 0.01  # between words, and between numbers
_STEP_UP = SMALL.size * 1.3
_STEP_ASIDE = 0.74


def dimensions_across(pen: Pen, spans: Sequence[Spot], words: Sequence[str], y: float) -> None:
    """Widths that follow each other; the words of narrow ones step up over each other."""
    wide = [
        None if stands_inside(span, said) else text_width(said, SMALL)
        for span, said in zip(spans, words, strict=True)
    ]
    for span, said, tier in zip(spans, words, _tiers(spans, wide), strict=True):
        dimension_across(pen, *span, y, said, raised=tier * _STEP_UP)


def dimensions_down(pen: Pen, x: float, spans: Sequence[Spot], words: Sequence[str]) -> None:
    """Heights that follow each other; the words of low ones step aside."""
    high = [lines_of_height(said) * SMALL.size * 1.12 for said in words]
    for span, said, tier in zip(spans, words, _tiers(spans, high), strict=True):
        dimension_down(pen, x, *span, said, aside=tier * _STEP_ASIDE)


def part_numbers(pen: Pen, centers: Sequence[Spot]) -> None:
    """The numbers of parts in order: the first, the last, and of the others as many as have room."""
    kept: dict[int, float] = {}
    last = len(centers) - 1
    for index in dict.fromkeys((0, last, *range(1, last))) if centers else ():
        radius = number_radius(str(index + 1))
        if all(dist(centers[index], centers[one]) >= radius + taken + _GAP for one, taken in kept.items()):
            kept[index] = radius
    for index in sorted(kept):
        number(pen, centers[index], str(index + 1))


def _tiers(spans: Sequence[Spot], sizes: Sequence[float | None]) -> list[int]:
    """How often the words over the middle of each span step aside; those without a size never do."""
    taken: list[list[Spot]] = []
    tiers: list[int] = []
    for (start, end), size in zip(spans, sizes, strict=True):
        if size is None:
            tiers.append(0)
            continue
        middle, half = (start + end) / 2, (size + _APART) / 2
        mine = (middle - half, middle + half)
        tier = 0
        while tier < len(taken) and any(mine[0] < b and a < mine[1] for a, b in taken[tier]):
            tier += 1
        if tier == len(taken):
            taken.append([])
        taken[tier].append(mine)
        tiers.append(tier)
    return tiers

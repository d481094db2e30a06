"""What the four edges of a block show, and where the edges of hung blocks meet each other."""

from collections import defaultdict
from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from piecewright.edit.footprint import Laid
from piecewright.geometry.motion import Point
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.facts import Facts, SeenPatch
from piecewright.model.quilt import Quilt, Turn


class Run(NamedTuple):
    """A stretch of an edge, from and to in inches, and the number of the fabric it shows."""

    low: float
    high: float
    fabric: int


Edges = tuple[tuple[Run, ...], tuple[Run, ...], tuple[Run, ...], tuple[Run, ...]]
"""Top, right, bottom and left, each from its left or upper end."""


def edges_of(facts: Facts, kind: int, fabric_of: Callable[[SeenPatch], int]) -> Edges:
    """The edges of a finished block as it lies unturned."""
    size = float(facts.finished.width), float(facts.finished.height)
    runs: tuple[list[Run], ...] = ([], [], [], [])
    for patch in facts.kinds[kind].patches:
        number = fabric_of(patch)
        for start, end in zip(patch.points, (*patch.points[1:], patch.points[0]), strict=True):
            for side, (across, at) in enumerate(((1, 0.0), (0, size[0]), (1, size[1]), (0, 0.0))):
                if _lies_at(start, end, across, at):
                    low, high = sorted((float(start[1 - across]), float(end[1 - across])))
                    runs[side].append(Run(low, high, number))
    top, right, bottom, left = (tuple(sorted(side)) for side in runs)
    return top, right, bottom, left


def turned(edges: Edges, turn: Turn, width: float, height: float) -> Edges:
    """The edges of a block turned clockwise, which is then so wide and high."""
    top, right, bottom, left = edges
    if turn == 90:
        return _back(left, width), top, _back(right, width), bottom
    if turn == 180:
        return _back(bottom, width), _back(left, height), _back(top, width), _back(right, height)
    if turn == 270:
        return right, _back(bottom, height), left, _back(top, height)
    return edges


def meetings(quilt: Quilt, hung: Iterable[tuple[Laid, Turn, Edges]]) -> Iterator[tuple[int, int, float]]:
    """The fabrics that meet where blocks lie beside each other, with the inches; across sashing none do.

    Each block comes with where it lies, its turn, and its edges as it lies unturned.
    """
    unit = float(quilt.lattice.unit)
    lines: dict[tuple[bool, int], tuple[list[Run], list[Run]]] = defaultdict(lambda: ([], []))
    for laid, turn, edges in hung:
        top, right, bottom, left = turned(edges, turn, laid.columns * unit, laid.rows * unit)
        for upright, line, side, start, runs in (
            (False, laid.row, 1, laid.column, top),
            (False, laid.row + laid.rows, 0, laid.column, bottom),
            (True, laid.column, 1, laid.row, left),
            (True, laid.column + laid.columns, 0, laid.row, right),
        ):
            if not is_sashed(quilt, line, upright=upright):
                at = start * unit
                lines[upright, line][side].extend(Run(at + low, at + high, one) for low, high, one in runs)
    for before, after in lines.values():
        yield from met(before, after)


def is_sashed(quilt: Quilt, line: int, *, upright: bool) -> bool:
    """Whether sashing lies along this line between columns (upright) or rows."""
    lattice, sashing = quilt.lattice, quilt.sashing
    if sashing is None:
        return False
    width, cells = (sashing.columns, lattice.space_columns) if upright else (sashing.rows, lattice.space_rows)
    return bool(width) and line % cells == 0


def met(before: Iterable[Run], after: Iterable[Run]) -> Iterator[tuple[int, int, float]]:
    """The fabrics on both sides of a line and the inches over which each two face each other."""
    ahead, behind = sorted(before), sorted(after)
    i, j = 0, 0
    while i < len(ahead) and j < len(behind):
        low, high = max(ahead[i].low, behind[j].low), min(ahead[i].high, behind[j].high)
        if high > low:
            yield ahead[i].fabric, behind[j].fabric, high - low
        if ahead[i].high <= behind[j].high:
            i += 1
        else:
            j += 1


def _back(runs: Iterable[Run], length: float) -> tuple[Run, ...]:
    return tuple(Run(length - run.high, length - run.low, run.fabric) for run in runs)


def _lies_at(start: Point, end: Point, across: int, at: float) -> bool:
    return abs(start[across] - at) <= ALIKE and abs(end[across] - at) <= ALIKE

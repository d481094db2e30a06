"""A quilt made larger with its blocks: the pattern in which they hang is carried on over the cells that are new."""

from collections.abc import Iterator
from itertools import product
from math import gcd
from typing import NamedTuple

from piecewright.edit.footprint import Laid, all_laid
from piecewright.edit.registry import edit
from piecewright.edit.resizing import set_columns, set_rows
from piecewright.edit.spaces import spaces_of
from piecewright.edit.wall import Wall
from piecewright.model.design import Design
from piecewright.model.quilt import Lattice, Placement, Quilt

Step = tuple[int, int]
"""So many columns and rows of cells."""


@edit("continue-quilt", undo="edit.undo-continue")
def continue_quilt(design: Design, *, columns: int, rows: int) -> Design:
    """Give the quilt other columns and rows, at its right and bottom, and carry the blocks on over the new cells.

    They follow the shortest pattern in which the blocks hang; where there is none, they begin again with the first.
    What no longer fits leaves the wall. Free cells that the quilt had before stay free.
    """
    before = design.quilt.lattice
    after = set_rows(set_columns(design, columns=columns), rows=rows)
    laid = all_laid(after, after.quilt)
    if not laid:
        return after
    wall = Wall(after)
    for new in _carried_on(design.quilt, after.quilt.lattice, all_laid(design, design.quilt)):
        _lay(wall, new)
    if before.kind == "on point":
        _fill_between(wall, design.quilt, after.quilt)
    return wall.design()


class Pattern(NamedTuple):
    """How the blocks of a quilt repeat: one step across and one down, in cells, and after how many of each."""

    across: Step
    down: Step
    columns: int
    rows: int


def pattern_of(quilt: Quilt, laid: tuple[Laid, ...]) -> Pattern:
    """The shortest pattern in which these blocks hang; one as large as the quilt where they do not repeat."""
    across, down = _steps(quilt, laid)
    lattice = quilt.lattice
    return Pattern(
        across,
        down,
        _period(lattice, laid, across, lattice.columns),
        _period(lattice, laid, down, lattice.rows),
    )


def _steps(quilt: Quilt, laid: tuple[Laid, ...]) -> tuple[Step, Step]:
    """On point from one space to the next, with sashing a space, else the coarsest grid on which all blocks lie."""
    lattice = quilt.lattice
    wide, high = lattice.space_columns, lattice.space_rows
    if lattice.kind == "on point":
        return (wide, -wide), (wide, wide)
    if quilt.sashing is None:
        wide = gcd(*(number for one in laid for number in (one.column, one.columns))) or 1
        high = gcd(*(number for one in laid for number in (one.row, one.rows))) or 1
    return (wide, 0), (0, high)


def _carried_on(quilt: Quilt, after: Lattice, laid: tuple[Laid, ...]) -> Iterator[Laid]:
    """The blocks of one repeat of the pattern, again and again over the cells that are new."""
    before = quilt.lattice
    across, down, columns, rows = pattern_of(quilt, laid)
    right, below = _times(across, columns), _times(down, rows)
    moved = _shift(before, after)
    wide, high = (max(abs(step[0]), abs(step[1])) for step in (right, below))
    ways = [
        (n * right[0] + m * below[0], n * right[1] + m * below[1])
        for n, m in product(
            range(after.across // wide + 2), range(after.across // high + after.down // high + 2)
        )
        if n or m
    ]
    for one in laid:
        if not _is_first(before, one, (across, columns), (down, rows)):
            continue
        for x, y in ways:
            new = one._replace(column=one.column + x, row=one.row + y)
            if not before.holds(*new[:4]):
                yield new._replace(row=new.row + moved)


def _period(lattice: Lattice, laid: tuple[Laid, ...], step: Step, count: int) -> int:
    """After how many steps the blocks repeat; as many as there are where they do not."""
    hung = {one[:2]: one.placement.changed(column=0, locked=False) for one in laid}
    most = max(count // max(map(abs, step)), 1) if lattice.kind == "straight" else count
    for times in range(1, most):
        x, y = _times(step, times)
        if all(
            hung.get((one.column + way * x, one.row + way * y)) == hung[one[:2]]
            for one in laid
            for way in (1, -1)
            if lattice.holds(one.column + way * x, one.row + way * y, one.columns, one.rows)
        ):
            return times
    return most


def _is_first(lattice: Lattice, one: Laid, across: tuple[Step, int], down: tuple[Step, int]) -> bool:
    """Whether a block lies in the first repeat of the pattern."""
    (step, columns), (drop, rows) = across, down
    if lattice.kind == "straight":
        return one.column < columns * step[0] and one.row < rows * drop[1]
    column, row = one.column // lattice.space_columns, one.row // lattice.space_rows
    up = lattice.columns - 1
    return (column - row + up) // 2 < columns and (column + row - up) // 2 < rows


def _fill_between(wall: Wall, before: Quilt, after: Quilt) -> None:
    """On point, where a pattern had nothing to repeat: as in the space beside, above, or above and beside."""
    space, moved = after.lattice.space_columns, _shift(before.lattice, after.lattice)
    for cell in spaces_of(after):
        was = before.lattice.holds(cell.column, cell.row - moved, space, space)
        if was or any(wall.meeting(cell.column, cell.row, space, space)):
            continue
        for x, y in ((-space, space), (-space, -space), (-2 * space, 0)):
            there = tuple(wall.meeting(cell.column + x, cell.row + y, space, space))
            for one in there:
                _lay(wall, one._replace(column=one.column - x, row=one.row - y))
            if there:
                break


def _shift(before: Lattice, after: Lattice) -> int:
    """How many rows further down the blocks lie in the larger lattice: on point its columns are counted from it."""
    return (after.columns - before.columns) * before.space_columns if before.kind == "on point" else 0


def _times(step: Step, count: int) -> Step:
    return step[0] * count, step[1] * count


def _lay(wall: Wall, laid: Laid) -> None:
    """Hang a block, free to be moved, where there is room for it."""
    if wall.is_inside(laid) and next(wall.meeting(*laid[:4]), None) is None:
        placement: Placement = laid.placement
        wall.put(laid._replace(placement=placement.changed(locked=False)))

"""What blocks leave free, as few rectangles of cells; which blocks fit there, and the edit that lays them."""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.footprint import all_laid, footprints
from piecewright.edit.recoloring import check_fabric
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall, check_block
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Quilt, Turn
from piecewright.words.message import message

Cells = tuple[int, int, int, int]
"""Column, row, columns and rows."""


def gap_rects(free: NDArray[np.bool_], space_columns: int, space_rows: int) -> tuple[Cells, ...]:
    """Rectangles that cover every free cell (rows x columns) once.

    None reaches over an edge of the spaces, so many columns and rows each. Runs along the rows are put together where
    they lie below each other alike, and so are runs down the columns; whichever takes fewer rectangles is given.
    """
    if not free.any():
        return ()
    level = _stacked(free, space_columns, space_rows)
    upright = _stacked(free.T, space_rows, space_columns)
    if len(level) <= len(upright):
        return tuple(sorted(level, key=lambda cells: (cells[1], cells[0])))
    turned = [(row, column, rows, columns) for column, row, columns, rows in upright]
    return tuple(sorted(turned, key=lambda cells: (cells[1], cells[0])))


def _stacked(free: NDArray[np.bool_], space_columns: int, space_rows: int) -> list[Cells]:
    done: list[Cells] = []
    growing: dict[tuple[int, int], Cells] = {}
    for row in range(free.shape[0]):
        runs = _runs(free[row], space_columns)
        kept: dict[tuple[int, int], Cells] = {}
        for start, length in runs:
            above = growing.pop((start, length), None) if row % space_rows else None
            grown = (above[0], above[1], length, above[3] + 1) if above else (start, row, length, 1)
            kept[start, length] = grown
        done += growing.values()
        growing = kept
    return [*done, *growing.values()]


def _runs(line: NDArray[np.bool_], space: int) -> list[tuple[int, int]]:
    """Start and length of each run of free cells, broken at the edges of spaces."""
    if not line.any():
        return []
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0]))))
    runs: list[tuple[int, int]] = []
    for start, end in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        while start < end:
            stop = min(end, (start // space + 1) * space)
            runs.append((start, stop - start))
            start = stop
    return runs


class Fit(NamedTuple):
    """A block of the shelf that fits into a gap: turned so, so many beside and below each other."""

    block: str
    turn: Turn
    across: int
    down: int

    @property
    def pieces(self) -> int:
        """How many fit."""
        return self.across * self.down


class Offer(NamedTuple):
    """A gap, and what fits into it: first what leaves least of it free. A coping strip always fits."""

    cells: Cells
    fits: tuple[Fit, ...]


def gaps_of(design: Design, quilt: Quilt) -> tuple[Cells, ...]:
    """The cells of an arrangement that no block covers, as rectangles that neither sash nor slanted row cuts."""
    lattice = quilt.lattice
    free = np.array(
        [[lattice.holds(column, row) for column in range(lattice.across)] for row in range(lattice.down)]
        if lattice.kind == "on point"
        else np.ones((lattice.down, lattice.across)),
        np.bool_,
    )
    for laid in all_laid(design, quilt):
        free[laid.row : laid.row + laid.rows, laid.column : laid.column + laid.columns] = False
    return gap_rects(free, *quilt.frame.whole_space)


def gap_offers(design: Design) -> tuple[Offer, ...]:
    """Every gap of the arrangement in view with the blocks of the shelf that fit into it."""
    return tuple(
        Offer(cells, tuple(sorted(_fits(design, cells), key=lambda fit: -_covered(design, fit))))
        for cells in gaps_of(design, design.quilt)
    )


def _fits(design: Design, cells: Cells) -> Iterator[Fit]:
    sizes = footprints(design)
    for block in design.blocks:
        try:
            columns, rows = sizes.unturned(block.id)
        except EditError:
            continue
        ways: tuple[tuple[Turn, int, int], ...] = ((0, columns, rows), (90, rows, columns))
        for turn, wide, high in ways[: 1 if columns == rows else 2]:
            if wide <= cells[2] and high <= cells[3]:
                yield Fit(block.id, turn, cells[2] // wide, cells[3] // high)


def _covered(design: Design, fit: Fit) -> int:
    columns, rows = footprints(design).unturned(fit.block)
    return fit.pieces * columns * rows


@edit("fill-gaps", undo="edit.undo-fill-gaps")
def fill_gaps(design: Design, *, blocks: tuple[str, ...] = (), fabric: str | None = None) -> Design:
    """Lay blocks of the shelf into the gaps, in each first what leaves least of it free.

    What is still free then becomes coping strips of `fabric`; None leaves that as it is. Raises EditError where neither
    changes anything.
    """
    for block in blocks:
        check_block(design, block)
    if fabric is not None:
        check_fabric(design, fabric)
    after = design
    for _ in blocks:  # what one kind of block leaves free may hold the next
        filled = _filled(after, blocks)
        if filled is after:
            break
        after = filled
    if fabric is not None:
        after = after.with_quilt(after.quilt.changed(coping=fabric))
    if after is design:
        refuse("no-gap-fits", message("edit.choose-coping"))
    return after


def _filled(design: Design, blocks: tuple[str, ...]) -> Design:
    wall = Wall(design)
    for cells, fits in gap_offers(design):
        fit = next((fit for fit in fits if fit.block in blocks), None)
        if fit is None:
            continue
        first = wall.over(Cell(cells[0], cells[1]), Placement(0, fit.block, fit.turn))
        for down in range(fit.down):
            for across in range(fit.across):
                column, row = cells[0] + across * first.columns, cells[1] + down * first.rows
                wall.lay(first._replace(column=column, row=row), alone=False)
    return wall.design()

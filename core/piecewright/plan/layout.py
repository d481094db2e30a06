"""Where everything lies.

The quilt with its borders, each placed block's rectangle, and which cells are empty.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.footprint import Footprints, Laid, footprints
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Placement, Row
from piecewright.plan.borders import around
from piecewright.plan.size import QuiltSize, quilt_size
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom, workroom_of
from piecewright.units.sizes import Finished


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle in finished inches from the quilt's finished top left."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True)
class PlacedBlock:
    """A placed block where it lies, and its rectangle as turned."""

    laid: Laid
    rect: Rect


@dataclass(frozen=True, slots=True, eq=False)
class LaidRow:
    """The blocks of one row from left to right, and their cells (n x 4: column, row, columns, rows)."""

    blocks: tuple[PlacedBlock, ...]
    cells: NDArray[np.int64]


@dataclass(frozen=True, eq=False)
class Layout:
    """A quilt laid out.

    `borders` has each border's four rectangles: left, right, top, bottom, from the inside out. `rows` are the
    rows that have blocks; one that did not change is the very same object as before. `cells` and `rects` are
    for work on the whole quilt, in the order of `blocks`: row by row, from left to right.
    """

    size: QuiltSize
    lattice: Lattice
    center: Rect
    borders: tuple[tuple[Rect, Rect, Rect, Rect], ...]
    rows: tuple[LaidRow, ...]

    @cached_property
    def blocks(self) -> tuple[PlacedBlock, ...]:
        """Every placed block."""
        return tuple(chain.from_iterable(row.blocks for row in self.rows))

    @cached_property
    def cells(self) -> NDArray[np.int64]:
        """Column, row, columns and rows of every block (n x 4)."""
        cells = np.concatenate([row.cells for row in self.rows]) if self.rows else np.zeros((0, 4), np.int64)
        cells.flags.writeable = False
        return cells

    @cached_property
    def rects(self) -> NDArray[np.float64]:
        """Left, top, width and height of every block in float inches (n x 4)."""
        rects = np.multiply(self.cells, float(self.lattice.unit), dtype=np.float64)
        rects[:, :2] += float(self.center.x)
        rects.flags.writeable = False
        return rects

    def covered(self) -> NDArray[np.int64]:
        """How many blocks cover each cell, as rows x columns; what lies outside the lattice is left out."""
        return _covered(self.cells, self.lattice.columns, self.lattice.rows)

    def empty_cells(self) -> tuple[tuple[int, int], ...]:
        """Column and row of every cell without a block, row by row."""
        rows, columns = np.nonzero(self.covered() == 0)
        return tuple(zip(columns.tolist(), rows.tolist(), strict=True))


def layout(design: Design) -> Layout:
    """The arrangement in view, laid out. A block that can not be made takes one cell."""
    quilt = design.quilt
    return lay_out(workroom_of(design), quilt.lattice, quilt.borders, quilt.rows, design.settings.seam)


@stage(keep=16)
def lay_out(
    room: Workroom, lattice: Lattice, borders: tuple[Border, ...], rows: tuple[Row, ...], seam: Fraction
) -> Layout:
    """Rows of placements on a lattice, with borders round them."""
    size = quilt_size(lattice, borders, seam)
    grid = _grid(room, lattice.unit, sum((border.width for border in borders), Fraction(0)))
    return Layout(
        size=size,
        lattice=lattice,
        center=Rect(grid.left, grid.left, Fraction(size.center.width), Fraction(size.center.height)),
        borders=tuple(_border_rects(borders, size.center, grid.left)),
        rows=tuple(_row(grid, row) for row in rows),
    )


@dataclass(frozen=True, eq=False)
class _Grid:
    """What the rectangle of a block depends on besides its placement; compared by identity."""

    room: Workroom
    unit: Fraction
    left: Fraction

    @cached_property
    def sizes(self) -> Footprints:
        """The cells that blocks cover."""
        return footprints(self.room.design, self.unit)

    @cached_property
    def _known(self) -> dict[int, tuple[Fraction, Fraction]]:
        return {}

    def lengths(self, cells: int) -> tuple[Fraction, Fraction]:
        """So many cells in inches, and where they end if they begin at the first; kept once asked for."""
        found = self._known.get(cells)
        if found is None:
            length = cells * self.unit
            found = self._known[cells] = (length, self.left + length)
        return found


@stage(keep=16)
def _grid(room: Workroom, unit: Fraction, left: Fraction) -> _Grid:
    return _Grid(room, unit, left)


@stage(keep=4096)
def _row(grid: _Grid, row: Row) -> LaidRow:
    blocks = tuple(_placed(grid, row.row, placement) for placement in row.placements)
    return LaidRow(blocks, np.array([block.laid[:4] for block in blocks], np.int64))


@stage(keep=16384)
def _placed(grid: _Grid, row: int, placement: Placement) -> PlacedBlock:
    columns, rows = grid.sizes.extent(placement)
    laid = Laid(placement.column, row, columns, rows, placement)
    x, y = grid.lengths(placement.column)[1], grid.lengths(row)[1]
    return PlacedBlock(laid, Rect(x, y, grid.lengths(columns)[0], grid.lengths(rows)[0]))


def _border_rects(
    borders: tuple[Border, ...], center: Finished, left: Fraction
) -> Iterator[tuple[Rect, Rect, Rect, Rect]]:
    inner, at = center, left
    for border in borders:
        width, height = Fraction(inner.width), Fraction(inner.height)
        wide = border.width
        inner, at = around(inner, border), at - wide
        if border.first == "sides":
            side_top, side_height, end_left, end_width = at + wide, height, at, width + 2 * wide
        else:
            side_top, side_height, end_left, end_width = at, height + 2 * wide, at + wide, width
        yield (
            Rect(at, side_top, wide, side_height),
            Rect(at + wide + width, side_top, wide, side_height),
            Rect(end_left, at, end_width, wide),
            Rect(end_left, at + wide + height, end_width, wide),
        )


def _covered(cells: NDArray[np.int64], columns: int, rows: int) -> NDArray[np.int64]:
    left, top = cells[:, 0], cells[:, 1]
    if (cells[:, 2:] == 1).all():
        return np.bincount(top * columns + left, minlength=columns * rows).reshape(rows, columns)
    # a table of corners: each block adds and takes one at its corners, and running sums fill what is between
    right, bottom = np.minimum(left + cells[:, 2], columns), np.minimum(top + cells[:, 3], rows)
    corners = (left, top), (right, bottom), (right, top), (left, bottom)
    wide = columns + 1
    counts = [np.bincount(y * wide + x, minlength=wide * (rows + 1)) for x, y in corners]
    table = (counts[0] + counts[1] - counts[2] - counts[3]).reshape(rows + 1, wide)
    return table.cumsum(axis=0).cumsum(axis=1)[:rows, :columns]

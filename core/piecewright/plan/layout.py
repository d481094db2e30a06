"""Where everything lies.

The quilt with its borders, each placed block's rectangle, and which cells are empty.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.footprint import Laid, footprints
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
class _RowLayout:
    blocks: tuple[PlacedBlock, ...]
    cells: NDArray[np.int64]


@dataclass(frozen=True, slots=True, eq=False)
class Layout:
    """A quilt laid out.

    `borders` has each border's four rectangles: left, right, top, bottom, from the inside out.

    `cells` (n x 4: column, row, columns, rows) and `rects` (n x 4: x, y, width, height in float inches) are
    for work on the whole quilt, in the order of `blocks`: row by row, from left to right.
    """

    size: QuiltSize
    lattice: Lattice
    center: Rect
    borders: tuple[tuple[Rect, Rect, Rect, Rect], ...]
    blocks: tuple[PlacedBlock, ...]
    cells: NDArray[np.int64]
    rects: NDArray[np.float64]

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
    laid = [_row(grid, row) for row in rows]
    cells = np.concatenate([row.cells for row in laid]) if laid else np.zeros((0, 4), np.int64)
    rects = np.multiply(cells, float(grid.unit), dtype=np.float64)
    rects[:, :2] += float(grid.left)
    cells.flags.writeable = rects.flags.writeable = False
    return Layout(
        size=size,
        lattice=lattice,
        center=Rect(grid.left, grid.left, Fraction(size.center.width), Fraction(size.center.height)),
        borders=tuple(_border_rects(borders, size.center, grid.left)),
        blocks=tuple(chain.from_iterable(row.blocks for row in laid)),
        cells=cells,
        rects=rects,
    )


@dataclass(frozen=True, eq=False)
class _Grid:
    """What the rectangle of a block depends on besides its placement; compared by identity."""

    room: Workroom
    unit: Fraction
    left: Fraction


@stage(keep=16)
def _grid(room: Workroom, unit: Fraction, left: Fraction) -> _Grid:
    return _Grid(room, unit, left)


@stage(keep=4096)
def _row(grid: _Grid, row: Row) -> _RowLayout:
    blocks = tuple(_placed(grid, row.row, placement) for placement in row.placements)
    return _RowLayout(blocks, np.array([block.laid[:4] for block in blocks], np.int64))


@stage(keep=16384)
def _placed(grid: _Grid, row: int, placement: Placement) -> PlacedBlock:
    unit, left = grid.unit, grid.left
    columns, rows = footprints(grid.room.design, unit).extent(placement)
    laid = Laid(placement.column, row, columns, rows, placement)
    rect = Rect(left + placement.column * unit, left + row * unit, columns * unit, rows * unit)
    return PlacedBlock(laid, rect)


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
    """Sums over a table of corners.

    Each block adds one at its corners, and running sums fill what is between.
    """
    left, top = cells[:, 0], cells[:, 1]
    right, bottom = np.minimum(left + cells[:, 2], columns), np.minimum(top + cells[:, 3], rows)
    corners = (left, top), (right, bottom), (right, top), (left, bottom)
    plus, plus_too, minus, minus_too = (
        np.bincount(y * (columns + 1) + x, minlength=(columns + 1) * (rows + 1)) for x, y in corners
    )
    table = (plus + plus_too - minus - minus_too).reshape(rows + 1, columns + 1)
    return table.cumsum(axis=0).cumsum(axis=1)[:rows, :columns]

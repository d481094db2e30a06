"""Where everything lies.

The quilt with its borders, each placed block's rectangle, and which cells are empty.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import chain

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.footprint import Footprints, Laid, footprints
from piecewright.edit.gaps import Cells, gap_rects
from piecewright.edit.shaping import needed_cells, outline
from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.model.design import Design
from piecewright.model.frame import Frame
from piecewright.model.quilt import Border, Lattice, Placement, Quilt, Row
from piecewright.model.setting import Triangles
from piecewright.model.shape import Shape
from piecewright.plan.between import LaidPart, between, boxes_of, rect_part
from piecewright.plan.border_layout import LaidBorder, Sides, lay_borders
from piecewright.plan.rects import Rect
from piecewright.plan.size import QuiltSize, quilt_size
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom, workroom_of


@dataclass(frozen=True, slots=True)
class PlacedBlock:
    """A placed block where it lies, and its rectangle as turned, in the frame of `Layout.motion`."""

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

    `rows` are the rows that have blocks; one that did not change is the very same object as before. `cells` and
    `rects` are for work on the whole quilt, in the order of `blocks`: row by row, from left to right. Rectangles of
    blocks are in finished inches from the quilt's top left, borders included; on point they lie in the lattice's own
    frame, and `motion` carries them to the quilt (else it does nothing). `between` are sashes, cornerstones and
    setting triangles; `rounds` the borders from the inside out.
    """

    size: QuiltSize
    lattice: Lattice
    frame: Frame
    center: Rect
    motion: Motion
    corner: tuple[Fraction, Fraction]
    rounds: tuple[LaidBorder, ...]
    between: tuple[LaidPart, ...]
    coping: str | None
    rows: tuple[LaidRow, ...]
    shape: Shape | None = None

    @property
    def outline(self) -> tuple[Point, ...]:
        """The corners of the shape in inches of the quilt; none where it has no shape."""
        if self.shape is None:
            return ()
        return tuple((self.center.x + x, self.center.y + y) for x, y in outline(self.frame, self.shape))

    @property
    def borders(self) -> tuple[Sides, ...]:
        """Each border's four sides: left, right, top, bottom, from the inside out."""
        return tuple(border.sides for border in self.rounds)

    @cached_property
    def gaps(self) -> tuple[LaidPart, ...]:
        """The coping strips that fill the cells without a block; none where no fabric is chosen for them."""
        return () if self.coping is None else tuple(self._gaps(self.coping))

    @cached_property
    def gap_cells(self) -> tuple[Cells, ...]:
        """The cells without a block, as rectangles that no sash and no slanted row cuts: column, row, columns, rows."""
        return gap_rects(self.free(), *self.frame.whole_space)

    def _gaps(self, fabric: str) -> Iterator[LaidPart]:
        return (self._gap(fabric, cells) for cells in self.gap_cells)

    def _gap(self, fabric: str, cells: Cells) -> LaidPart:
        row = Fraction(cells[1] // self.lattice.space_rows) if self.frame.on_point else None
        return rect_part("coping-strip", fabric, self.rect(*cells), self.motion, row)

    def spans(self, *, upright: bool) -> tuple[tuple[int, int], ...]:
        """The first and the last row of every column, or column of every row, in which the lattice has cells."""
        mask = _mask(self.lattice).T if upright else _mask(self.lattice)
        first, last = mask.argmax(axis=1), mask.shape[1] - 1 - mask[:, ::-1].argmax(axis=1)
        return tuple(zip(first.tolist(), last.tolist(), strict=True))

    def rect(self, column: int, row: int, columns: int = 1, rows: int = 1) -> Rect:
        """The rectangle of some cells, sashing between them included, in the frame of the blocks."""
        frame, (left, top) = self.frame, self.corner
        return Rect(
            left + frame.x(column),
            top + frame.y(row),
            frame.width(column, columns),
            frame.height(row, rows),
        )

    def cell(self, point: Point) -> tuple[int, int]:
        """The column and row that a point of the quilt belongs to; they may lie outside."""
        x, y = self.motion.back(point)
        return self.frame.cell((x - self.corner[0], y - self.corner[1]))

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
        """Left, top, width and height of every block in float inches (n x 4), in the frame of the blocks."""
        rects = self._float_rects(self.cells)
        rects.flags.writeable = False
        return rects

    def _float_rects(self, cells: NDArray[np.int64]) -> NDArray[np.float64]:
        frame, lattice = self.frame, self.lattice
        rects = np.multiply(cells, float(lattice.unit), dtype=np.float64)
        spaces = (lattice.space_columns, frame.sash_columns), (lattice.space_rows, frame.sash_rows)
        for along, (space, sash) in enumerate(spaces):
            if sash:
                first = cells[:, along] // space
                last = (cells[:, along] + cells[:, along + 2] - 1) // space
                rects[:, along] += first * float(sash)
                rects[:, along + 2] += (last - first) * float(sash)
        rects[:, 0] += float(self.corner[0])
        rects[:, 1] += float(self.corner[1])
        return rects

    def covered(self) -> NDArray[np.int64]:
        """How many blocks cover each cell, as rows x columns; what lies outside the lattice is left out."""
        return _covered(self.cells, self.lattice.across, self.lattice.down)

    def parts_within(self, box: tuple[float, float, float, float]) -> tuple[LaidPart, ...]:
        """The parts between the blocks whose upright boxes meet a box (left, top, right, bottom) of the quilt."""
        boxes = boxes_of(self.between)
        found = [self.between[index] for index in _meeting(boxes, box)]
        if self.coping is not None and self.gap_cells:
            near = _meeting(self._upright(self._float_rects(np.array(self.gap_cells))), box)
            found += [self._gap(self.coping, self.gap_cells[index]) for index in near]
        return tuple(found)

    def _upright(self, rects: NDArray[np.float64]) -> NDArray[np.float64]:
        """The upright boxes (left, top, right, bottom) in the quilt of rectangles in the frame of the blocks."""
        x, y, wide, high = rects.T
        if not self.frame.on_point:
            return np.stack((x, y, x + wide, y + high), axis=1)
        root = 0.5**0.5
        left, top = float(self.motion.dx), float(self.motion.dy)
        return np.stack(
            (
                left + (x - y - high) * root,
                top + (x + y) * root,
                left + (x + wide - y) * root,
                top + (x + y + wide + high) * root,
            ),
            axis=1,
        )

    def free(self) -> NDArray[np.bool_]:
        """Which cells, as rows x columns, the lattice has and no block covers; of a shape those that it reaches."""
        free: NDArray[np.bool_] = self.covered() == 0
        if self.shape is not None:
            free = free & needed_cells(self.frame, self.shape)
        return free if self.lattice.kind == "straight" else free & _mask(self.lattice)

    @property
    def missing(self) -> int:
        """How many cells have no block."""
        return int(self.free().sum())

    def empty_cells(self) -> tuple[tuple[int, int], ...]:
        """Column and row of every cell without a block, row by row."""
        rows, columns = np.nonzero(self.free())
        return tuple(zip(columns.tolist(), rows.tolist(), strict=True))


def layout(design: Design) -> Layout:
    """The arrangement in view, laid out. A block that can not be made takes one cell."""
    return lay_out(workroom_of(design), design.quilt, design.settings.seam)


def lay_out(room: Workroom, quilt: Quilt, seam: Fraction) -> Layout:
    """An arrangement laid out."""
    ground = _ground(quilt.frame, quilt.triangles, quilt.borders, seam)
    return _lay_out(room, ground, quilt.coping, quilt.rows, quilt.shape)


@dataclass(frozen=True, eq=False)
class _Ground:
    """All of a layout that placements do not change; compared by identity."""

    frame: Frame
    size: QuiltSize
    rounds: tuple[LaidBorder, ...]
    between: tuple[LaidPart, ...]
    center: Rect

    @property
    def motion(self) -> Motion:
        """What carries the blocks' frame to the quilt."""
        return self.frame.motion.moved(self.center.x, self.center.y) if self.frame.on_point else STILL

    @property
    def corner(self) -> tuple[Fraction, Fraction]:
        """Where cell 0, 0 begins in the blocks' frame."""
        if self.frame.on_point:
            return Fraction(0), Fraction(0)
        motion = self.frame.motion
        return self.center.x + Fraction(motion.dx), self.center.y + Fraction(motion.dy)


@stage(keep=32)
def _ground(frame: Frame, triangles: Triangles, borders: tuple[Border, ...], seam: Fraction) -> _Ground:
    size = quilt_size(frame, borders, seam)
    at = sum((border.width for border in borders), Fraction(0))
    return _Ground(
        frame=frame,
        size=size,
        rounds=tuple(lay_borders(borders, size.center, at)),
        between=between(frame, triangles, seam, at, at).laid,
        center=Rect(at, at, Fraction(size.center.width), Fraction(size.center.height)),
    )


@stage(keep=16)
def _lay_out(
    room: Workroom, ground: _Ground, coping: str | None, rows: tuple[Row, ...], shape: Shape | None
) -> Layout:
    """Rows of placements on a lattice, with borders round them."""
    grid = _grid(room, ground)
    return Layout(
        size=ground.size,
        lattice=ground.frame.lattice,
        frame=ground.frame,
        center=ground.center,
        motion=ground.motion,
        corner=ground.corner,
        rounds=ground.rounds,
        between=ground.between,
        coping=coping,
        rows=tuple(_row(grid, row) for row in rows),
        shape=shape,
    )


@dataclass(frozen=True, eq=False)
class _Grid:
    """What the rectangle of a block depends on besides its placement; compared by identity."""

    room: Workroom
    ground: _Ground

    @cached_property
    def sizes(self) -> Footprints:
        """The cells that blocks cover."""
        return footprints(self.room.design, self.ground.frame.lattice.unit)

    @cached_property
    def _known(self) -> dict[tuple[str, int, int], tuple[Fraction, Fraction]]:
        return {}

    def across(self, column: int, columns: int) -> tuple[Fraction, Fraction]:
        """Where so many columns begin and how wide they are; kept once asked for."""
        found = self._known.get(("across", column, columns))
        if found is None:
            frame, left = self.ground.frame, self.ground.corner[0]
            found = left + frame.x(column), frame.width(column, columns)
            self._known["across", column, columns] = found
        return found

    def down(self, row: int, rows: int) -> tuple[Fraction, Fraction]:
        """Where so many rows begin and how high they are; kept once asked for."""
        found = self._known.get(("down", row, rows))
        if found is None:
            frame, top = self.ground.frame, self.ground.corner[1]
            found = top + frame.y(row), frame.height(row, rows)
            self._known["down", row, rows] = found
        return found


@stage(keep=16)
def _grid(room: Workroom, ground: _Ground) -> _Grid:
    return _Grid(room, ground)


@stage(keep=4096)
def _row(grid: _Grid, row: Row) -> LaidRow:
    blocks = tuple(_placed(grid, row.row, placement) for placement in row.placements)
    return LaidRow(blocks, np.array([block.laid[:4] for block in blocks], np.int64))


@stage(keep=16384)
def _placed(grid: _Grid, row: int, placement: Placement) -> PlacedBlock:
    columns, rows = grid.sizes.extent(placement)
    laid = Laid(placement.column, row, columns, rows, placement)
    (x, width), (y, height) = grid.across(placement.column, columns), grid.down(row, rows)
    return PlacedBlock(laid, Rect(x, y, width, height))


def _meeting(boxes: NDArray[np.float64], box: tuple[float, float, float, float]) -> list[int]:
    """Which boxes (left, top, right, bottom) meet one."""
    meets = (boxes[:, 0] <= box[2]) & (boxes[:, 2] >= box[0])
    meets &= (boxes[:, 1] <= box[3]) & (boxes[:, 3] >= box[1])
    found: list[int] = np.flatnonzero(meets).tolist()
    return found


@lru_cache(maxsize=64)
def _mask(lattice: Lattice) -> NDArray[np.bool_]:
    """Which of the cells, as rows x columns, the lattice has."""
    if lattice.kind == "straight":
        mask = np.ones((lattice.rows, lattice.columns), np.bool_)
    else:
        spaces = np.arange(lattice.across) // lattice.space_columns
        aside = spaces[None, :] - spaces[:, None] + lattice.columns - 1
        below = spaces[None, :] + spaces[:, None] - (lattice.columns - 1)
        mask = (
            (aside >= 0) & (aside <= 2 * lattice.columns - 2) & (below >= 0) & (below <= 2 * lattice.rows - 2)
        )
    mask.flags.writeable = False
    return mask


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

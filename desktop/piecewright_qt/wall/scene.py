"""The shown design as the wall paints it: every block with its look and place, and what differs between two."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache
from itertools import product
from math import floor, sqrt

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.footprint import Laid, footprints, placement_at
from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement, Row
from piecewright.plan.layout import Layout, layout
from piecewright.plan.rects import Rect, corners
from piecewright_qt.wall.camera import Box, Inches, box_of
from piecewright_qt.wall.looks import Look, Looks, looks_of

_HALF_ROOT = 1 / sqrt(2)
Hung = tuple[Laid, Look | None]
"""A placed block and its look; None where it can not be made."""


@dataclass(frozen=True, eq=False)
class Scene:
    """A design laid out, with the looks of its blocks; nothing here is stored anywhere else."""

    design: Design

    @cached_property
    def layout(self) -> Layout:
        """Where everything lies."""
        return layout(self.design)

    @cached_property
    def looks(self) -> Looks:
        """How the blocks look."""
        return looks_of(self.design)

    @cached_property
    def rows(self) -> dict[int, tuple[Hung, ...]]:
        """The blocks by the row their top left lies in."""
        unit = self.design.quilt.lattice.unit
        return {row.row: _hung(self.looks, unit, row) for row in self.design.quilt.rows}

    @cached_property
    def hung(self) -> tuple[Hung, ...]:
        """Every placed block, in the order of the layout."""
        return tuple(one for row in self.rows.values() for one in row)

    @cached_property
    def locked(self) -> tuple[Laid, ...]:
        """The blocks that are locked where they lie."""
        return tuple(laid for laid, _ in self.hung if laid.placement.locked)

    @cached_property
    def unit(self) -> float:
        """The side of a cell in inches."""
        return float(self.design.quilt.lattice.unit)

    @cached_property
    def center(self) -> Box:
        """The lattice's box."""
        center = self.layout.center
        return box_of(center.x, center.y, center.width, center.height)

    @cached_property
    def binding(self) -> float:
        """How far the binding reaches out round the finished quilt."""
        return float(self.design.settings.seam)

    @cached_property
    def whole(self) -> Box:
        """The box of the quilt with its borders and binding."""
        size, edge = self.layout.size.finished, self.binding
        return (-edge, -edge, float(size.width) + edge, float(size.height) + edge)

    @cached_property
    def ground(self) -> tuple[object, ...]:
        """All that decides what is painted besides the blocks."""
        quilt = self.design.quilt
        known = self.design.shelf.fabrics
        fabrics = tuple(known[fabric] for fabric in sorted(quilt.fabrics_around))
        looks = tuple(self.looks.of(Placement(0, block)) for block in quilt.blocks_around)
        bound: Fabric | None = known[quilt.binding.fabric] if quilt.binding.fabric else None
        setting = (quilt.lattice, quilt.sashing, quilt.triangles, quilt.coping)
        return (setting, quilt.borders, fabrics, looks, bound, self.design.settings.seam)

    @cached_property
    def is_plain(self) -> bool:
        """Whether cells lie side by side, square to the screen: straight, without sashing."""
        quilt = self.design.quilt
        return quilt.lattice.kind == "straight" and quilt.sashing is None

    @cached_property
    def on_point(self) -> bool:
        """Whether the blocks stand on a corner."""
        return self.design.quilt.lattice.kind == "on point"

    def cell(self, place: Inches) -> tuple[int, int]:
        """The column and row that a place of the quilt belongs to; they may lie outside."""
        if not self.is_plain:
            return self.layout.cell(place)
        return (
            int((place[0] - self.center[0]) // self.unit),
            int((place[1] - self.center[1]) // self.unit),
        )

    def inside(self, place: Inches) -> Inches:
        """A place of the quilt in the frame of the blocks: the same in a straight setting."""
        if not self.on_point:
            return place
        x, y = self.layout.motion.back(place)
        return (float(x), float(y))

    def outside(self, place: Inches) -> Inches:
        """A place in the frame of the blocks as one of the quilt."""
        if not self.on_point:
            return place
        x, y = self.layout.motion.apply(place)
        return (float(x), float(y))

    def corner(self, column: int, row: int) -> Inches:
        """Where a cell begins, in the frame of the blocks."""
        if self.is_plain:
            return (self.center[0] + column * self.unit, self.center[1] + row * self.unit)
        rect = self.layout.rect(column, row)
        return (float(rect.x), float(rect.y))

    def nearest_cell(self, corner: Inches, columns: int, rows: int) -> Cell:
        """The cell that blocks over so many cells, their top left near a place of the blocks' frame, would lie on.

        Between sashes that is one from which they lie in a single space, where they fit into one.
        """
        left, top = self.corner(0, 0)
        x, y = corner[0] - left, corner[1] - top
        if self.design.quilt.sashing is None:
            return Cell(floor(x / self.unit + 0.5), floor(y / self.unit + 0.5))
        lattice, frame = self.design.quilt.lattice, self.layout.frame
        near = frame.cell((x + self.unit / 2, y + self.unit / 2))
        middle = frame.cell((x + columns * self.unit / 2, y + rows * self.unit / 2))
        sizes = (columns, lattice.space_columns), (rows, lattice.space_rows)
        cell = [
            at if size > space else min(max(at, mid // space * space), mid // space * space + space - size)
            for at, mid, (size, space) in zip(near, middle, sizes, strict=True)
        ]
        return Cell(*cell)

    def is_cell(self, column: int, row: int) -> bool:
        """Whether the lattice has this cell."""
        return self.design.quilt.lattice.holds(column, row)

    def nearest_inside(self, cell: Cell) -> tuple[int, int]:
        """The cell of the lattice nearest to another: on point along its slanted row first."""
        lattice = self.design.quilt.lattice
        column, row = min(max(cell.column, 0), lattice.across - 1), min(max(cell.row, 0), lattice.down - 1)
        if lattice.holds(column, row):
            return column, row
        inside = [at for at in range(lattice.across) if lattice.holds(at, row)]
        return min(inside, key=lambda at: abs(at - column)), row

    def at(self, column: int, row: int) -> Laid | None:
        """The block on a cell."""
        return placement_at(self.design.quilt, self.design, column, row)

    def box(self, column: int, row: int, columns: int = 1, rows: int = 1) -> Box:
        """The box of cells in inches."""
        if not self.is_plain:
            return self._boxed(self.layout.rect(column, row, max(columns, 1), max(rows, 1)))
        left, top, unit = self.center[0], self.center[1], self.unit
        return (
            left + column * unit,
            top + row * unit,
            left + (column + columns) * unit,
            top + (row + rows) * unit,
        )

    def _boxed(self, rect: Rect) -> Box:
        """The upright box round a rectangle of the blocks' frame."""
        across, down = zip(*(self.layout.motion.apply(corner) for corner in corners(rect)), strict=True)
        return (float(min(across)), float(min(down)), float(max(across)), float(max(down)))

    def box_of(self, laid: Laid) -> Box:
        """The box of a placed block in inches."""
        return self.box(*laid[:4])

    def blocks_in(self, box: Box) -> Iterator[Hung]:
        """The blocks that a box of the quilt touches."""
        if not self.is_plain:
            yield from self._touched(box)
            return
        left, top = self.cell((box[0], box[1]))
        right, bottom = self.cell((box[2], box[3]))
        cells = self.layout.cells
        across = (cells[:, 0] <= right) & (cells[:, 0] + cells[:, 2] > left)
        down = (cells[:, 1] <= bottom) & (cells[:, 1] + cells[:, 3] > top)
        for index in np.flatnonzero(across & down).tolist():
            yield self.hung[index]

    def _touched(self, box: Box) -> Iterator[Hung]:
        """The same where sashes lie between, or on point: there by the corners of the box and of the blocks."""
        rects = self.layout.rects
        if self.on_point:
            turned = [self.inside(corner) for corner in product((box[0], box[2]), (box[1], box[3]))]
            middles = self._middles
            near = rects[:, 2:].sum(axis=1) * _HALF_ROOT / 2
            meets = (middles[:, 0] + near > box[0]) & (middles[:, 0] - near < box[2])
            meets &= (middles[:, 1] + near > box[1]) & (middles[:, 1] - near < box[3])
            across, down = zip(*turned, strict=True)
            box = (min(across), min(down), max(across), max(down))
        else:
            meets = np.ones(len(rects), np.bool_)
        meets &= (rects[:, 0] < box[2]) & (rects[:, 0] + rects[:, 2] > box[0])
        meets &= (rects[:, 1] < box[3]) & (rects[:, 1] + rects[:, 3] > box[1])
        for index in np.flatnonzero(meets).tolist():
            yield self.hung[index]

    @cached_property
    def _middles(self) -> NDArray[np.float64]:
        """The middle of every block on point, in inches of the quilt."""
        rects = self.layout.rects
        x, y = rects[:, 0] + rects[:, 2] / 2, rects[:, 1] + rects[:, 3] / 2
        left, top = self.outside((0.0, 0.0))
        return np.stack((left + (x - y) * _HALF_ROOT, top + (x + y) * _HALF_ROOT), axis=1)


def room_near(scene: Scene, columns: int, rows: int, cell: Cell) -> Cell:
    """The cell nearest to another from which so many columns and rows are free; that one where none are."""
    taken = np.pad(~scene.layout.free(), ((1, 0), (1, 0))).cumsum(axis=0).cumsum(axis=1)
    if taken.shape[0] <= rows or taken.shape[1] <= columns:
        return cell
    inside = (
        taken[rows:, columns:] - taken[:-rows, columns:] - taken[rows:, :-columns] + taken[:-rows, :-columns]
    )
    free_rows, free_columns = np.nonzero(inside == 0)
    if not len(free_rows):
        return cell
    nearest = int(((free_rows - cell.row) ** 2 + (free_columns - cell.column) ** 2).argmin())
    return Cell(int(free_columns[nearest]), int(free_rows[nearest]))


def differences(before: Scene, after: Scene) -> list[Box] | None:
    """The boxes in which two scenes on the same ground differ; None where the ground differs."""
    if before.ground != after.ground:
        return None
    found: set[Box] = set()
    for number in before.rows.keys() | after.rows.keys():
        old, new = before.rows.get(number, ()), after.rows.get(number, ())
        if old is not new:
            found.update(after.box_of(laid) for laid, _ in _unlike(old, new))
    if after.design.quilt.coping is not None and found:
        gaps = set(before.layout.gap_cells).symmetric_difference(after.layout.gap_cells)
        found.update(after.box(*cells) for cells in gaps)
    return sorted(found)


def _unlike(old: tuple[Hung, ...], new: tuple[Hung, ...]) -> Iterator[Hung]:
    """The blocks of a row that are in one of two states and not the same in the other."""
    were, are = {one[0].column: one for one in old}, {one[0].column: one for one in new}
    for column in were.keys() | are.keys():
        was, now = were.get(column), are.get(column)
        if was is None or now is None or not _same(was, now):
            yield from (one for one in (was, now) if one is not None)


def _same(was: Hung, now: Hung) -> bool:
    (old, old_look), (new, new_look) = was, now
    return old_look == new_look and old[:4] == new[:4] and old.placement.turn == new.placement.turn


@lru_cache(maxsize=8192)
def _hung(looks: Looks, unit: Fraction, row: Row) -> tuple[Hung, ...]:
    sizes = footprints(looks.design, unit)
    return tuple(
        (Laid(one.column, row.row, *sizes.extent(one), one), looks.of(one)) for one in row.placements
    )

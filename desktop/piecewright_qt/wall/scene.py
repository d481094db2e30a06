"""The shown design as the wall paints it: every block with its look and place, and what differs between two."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property, lru_cache

import numpy as np

from piecewright.edit.footprint import Laid, footprints, placement_at
from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Row
from piecewright.plan.layout import Layout, layout
from piecewright_qt.wall.camera import Box, Inches, box_of
from piecewright_qt.wall.looks import Look, Looks, looks_of

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
        fabrics = tuple(known[border.fabric] for border in quilt.borders)
        bound: Fabric | None = known[quilt.binding.fabric] if quilt.binding.fabric else None
        return (quilt.lattice, quilt.borders, fabrics, bound, self.design.settings.seam)

    def cell(self, place: Inches) -> tuple[int, int]:
        """The column and row that a place of the quilt belongs to; they may lie outside."""
        return (
            int((place[0] - self.center[0]) // self.unit),
            int((place[1] - self.center[1]) // self.unit),
        )

    def is_cell(self, column: int, row: int) -> bool:
        """Whether the lattice has this cell."""
        lattice = self.design.quilt.lattice
        return 0 <= column < lattice.columns and 0 <= row < lattice.rows

    def at(self, column: int, row: int) -> Laid | None:
        """The block on a cell."""
        return placement_at(self.design.quilt, self.design, column, row)

    def box(self, column: int, row: int, columns: int = 1, rows: int = 1) -> Box:
        """The box of cells in inches."""
        left, top, unit = self.center[0], self.center[1], self.unit
        return (
            left + column * unit,
            top + row * unit,
            left + (column + columns) * unit,
            top + (row + rows) * unit,
        )

    def box_of(self, laid: Laid) -> Box:
        """The box of a placed block in inches."""
        return self.box(*laid[:4])

    def blocks_in(self, box: Box) -> Iterator[Hung]:
        """The blocks that a box of the quilt touches."""
        left, top = self.cell((box[0], box[1]))
        right, bottom = self.cell((box[2], box[3]))
        cells = self.layout.cells
        across = (cells[:, 0] <= right) & (cells[:, 0] + cells[:, 2] > left)
        down = (cells[:, 1] <= bottom) & (cells[:, 1] + cells[:, 3] > top)
        for index in np.flatnonzero(across & down).tolist():
            yield self.hung[index]


def room_near(scene: Scene, columns: int, rows: int, cell: Cell) -> Cell:
    """The cell nearest to another from which so many columns and rows are free; that one where none are."""
    taken = np.pad(scene.layout.covered() > 0, ((1, 0), (1, 0))).cumsum(axis=0).cumsum(axis=1)
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

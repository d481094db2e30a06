"""Blocks that are made and do not hang yet: which they are, and hanging them in the free places of the wall."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.arranging import Hung
from piecewright.edit.footprint import Cells, Footprints, all_laid, footprints
from piecewright.edit.registry import EditCall, call
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Quilt, Turn
from piecewright.plan.tray import trays
from piecewright.words.message import Message, message

_TURNS: tuple[Turn, ...] = (0, 90)


@dataclass(frozen=True)
class Waiting:
    """What hanging the waiting blocks comes to: the edit (None: none finds a place), how many hang, how many do not."""

    call: EditCall | None
    hung: int
    left: int

    @property
    def said(self) -> Message:
        """The same in words."""
        if not self.hung and not self.left:
            return message("arrange.none-wait")
        if not self.hung:
            return message("arrange.no-place", count=self.left)
        if self.left:
            return message("arrange.hung-some", count=self.hung, left=self.left)
        return message("arrange.hung-all", count=self.hung)


def hang_waiting(design: Design) -> Waiting:
    """Hang blocks that are made and do not hang yet in the free places of the wall in view.

    The free cells are gone through in reading order; each takes the largest waiting block that fits there, of like ones
    the first on the shelf, turned by a quarter only where it fits in no other way. Of a batch with several kinds and
    layers those come first that hang least often. What finds no place, or can not be made, is left.
    """
    waiting = {block: tray.to_place for block, tray in trays(design).items() if tray.to_place}
    if not waiting:
        return Waiting(None, 0, 0)
    free = _free_cells(design)
    lay = tuple(_laid(design, waiting, free))
    left = sum(waiting.values())
    return Waiting(call("arrange-blocks", lift=(), lay=lay) if lay else None, len(lay), left)


def _laid(design: Design, waiting: dict[str, int], free: NDArray[np.bool_]) -> Iterator[Hung]:
    """The blocks as they come to hang; takes them from `waiting`, and their cells from `free`."""
    sizes, versions = footprints(design), _Versions(design)
    order = _largest_first(sizes, waiting)
    for row, column in np.argwhere(free).tolist():
        if not free[row, column]:
            continue
        fitting = _first_fitting(design.quilt, order, waiting, free, (column, row))
        if fitting is None:
            continue
        block, turn, (columns, rows) = fitting
        free[row : row + rows, column : column + columns] = False
        waiting[block] -= 1
        kind, layer = versions.take(sizes, block)
        yield Hung(row, Placement(column, block, turn, kind, layer))
        if not any(waiting[one] for one, _ in order):
            return


def _largest_first(sizes: Footprints, waiting: Mapping[str, int]) -> list[tuple[str, Cells]]:
    """The waiting blocks that can be made, with the cells they cover unturned."""
    found: list[tuple[str, Cells]] = []
    for block in waiting:
        try:
            found.append((block, sizes.unturned(block)))
        except EditError:
            continue
    return sorted(found, key=lambda one: -one[1][0] * one[1][1])


def _first_fitting(
    quilt: Quilt,
    order: list[tuple[str, Cells]],
    waiting: Mapping[str, int],
    free: NDArray[np.bool_],
    at: tuple[int, int],
) -> tuple[str, Turn, Cells] | None:
    column, row = at
    for block, cells in order:
        if not waiting[block]:
            continue
        for turn in _TURNS if cells[0] != cells[1] else _TURNS[:1]:
            columns, rows = cells[::-1] if turn else cells
            inside = quilt.fits(column, row, columns, rows)
            if inside and free[row : row + rows, column : column + columns].all():
                return block, turn, (columns, rows)
    return None


class _Versions:
    """Which of the unlike blocks of a batch comes next: always one that hangs least often."""

    def __init__(self, design: Design) -> None:
        placed = (one for row in design.quilt.rows for one in row.placements)
        self._hanging = Counter((one.block, one.kind, one.layer) for one in placed)

    def take(self, sizes: Footprints, block: str) -> tuple[int, int]:
        """The kind and layer of the next one to hang."""
        kinds = enumerate(sizes.facts(block).kinds)
        every = [(block, number, layer) for number, kind in kinds for layer in kind.layers]
        chosen = min(every, key=lambda one: self._hanging[one])
        self._hanging[chosen] += 1
        return chosen[1], chosen[2]


def _free_cells(design: Design) -> NDArray[np.bool_]:
    """Which cells of the lattice in view have no block, as rows x columns."""
    lattice = design.quilt.lattice
    free = np.ones((lattice.down, lattice.across), dtype=bool)
    for laid in all_laid(design, design.quilt):
        top, left = max(laid.row, 0), max(laid.column, 0)
        free[top : laid.row + laid.rows, left : laid.column + laid.columns] = False
    return free

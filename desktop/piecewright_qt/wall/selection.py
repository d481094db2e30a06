"""Which placed blocks are selected, and over which cells a pattern may be repeated."""

from collections.abc import Callable, Iterable

from PySide6.QtCore import QObject, Signal

from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright.model.value import Letters

Area = tuple[int, int, int, int]
"""Column, row, columns and rows of a rectangle of cells."""


class Selection(QObject):
    """The top left cells of selected blocks in the order they were selected; `changed` follows every change.

    `area` is the rectangle of cells that a band or Shift and arrows drew round them, empty cells included.
    """

    changed = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._cells: dict[Cell, None] = {}
        self._area: Area | None = None

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The selected blocks by their top left cells."""
        return tuple(self._cells)

    @property
    def area(self) -> Area | None:
        """The cells drawn round the selection; None where blocks were only picked."""
        return self._area

    def __contains__(self, cell: object) -> bool:
        return cell in self._cells

    def __len__(self) -> int:
        return len(self._cells)

    def select(self, cells: Iterable[Cell], area: Area | None = None) -> None:
        """Select just these blocks."""
        self._become(dict.fromkeys(cells), area)

    def add(self, cells: Iterable[Cell], area: Area | None = None) -> None:
        """Select these blocks too."""
        self._become({**self._cells, **dict.fromkeys(cells)}, area)

    def toggle(self, cell: Cell) -> None:
        """Select a block, or no longer."""
        kept = {one: None for one in self._cells if one != cell}
        self._become(kept if cell in self._cells else {**self._cells, cell: None}, None)

    def clear(self) -> None:
        """Select nothing."""
        self._become({}, None)

    def keep(self, exists: Callable[[Cell], bool]) -> None:
        """Let go of blocks that are no longer there."""
        self._become({cell: None for cell in self._cells if exists(cell)}, self._area)

    def _become(self, cells: dict[Cell, None], area: Area | None) -> None:
        if (list(cells), area) != (list(self._cells), self._area):
            self._cells, self._area = cells, area
            self.changed.emit()


def all_cells(design: Design) -> list[Cell]:
    """The top left cells of every block on the wall."""
    return [Cell(placement.column, row.row) for row in design.quilt.rows for placement in row.placements]


def alike(design: Design, cells: Iterable[Cell], same_fabrics: bool = False) -> list[Cell]:
    """The blocks that are like any of the selected: the same block, or the same block in the same fabrics."""

    def likeness(placement: Placement) -> tuple[str, Letters | None]:
        return placement.block, design.letters(placement) if same_fabrics else None

    placed = {
        Cell(placement.column, row.row): placement
        for row in design.quilt.rows
        for placement in row.placements
    }
    wanted = {likeness(placed[cell]) for cell in cells if cell in placed}
    return [cell for cell, placement in placed.items() if likeness(placement) in wanted]

"""What is carried over the wall, from shelf, wall or clipboard; each load knows the edit it ends in."""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from piecewright.edit.footprint import Laid, footprints
from piecewright.edit.pasting import Clip
from piecewright.edit.registry import Cell, EditCall, call
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Turn, turned_by
from piecewright.model.settings import Settings
from piecewright.words.message import Message, message
from piecewright_qt.wall.looks import Look, looks_of

_ANY_ID = 10**9


class Part(NamedTuple):
    """One block of a load: its place and size in cells from the load's top left, its look, and its turn."""

    column: float
    row: float
    columns: float
    rows: float
    look: Look | None
    turn: int


class Load(ABC):
    """Something carried: its `parts`, how many whole `columns` and `rows` it covers, and what it is called."""

    parts: tuple[Part, ...]
    columns: int
    rows: int
    name: str

    @property
    def count(self) -> int:
        """How many blocks are carried."""
        return len(self.parts)

    @abstractmethod
    def call(self, column: int, row: int, copying: bool) -> EditCall | None:
        """The edit that sets the load down with its top left on a cell; None where that changes nothing."""

    @abstractmethod
    def arrived(self, column: int, row: int) -> list[Cell]:
        """The top left cells of what was set down there."""

    def turned(self, by: Turn) -> "Load | None":
        """The load turned in the hand; None where it can not be."""
        del by
        return None

    def place(self, column: int, row: int) -> Message:
        """Where it would lie, in words."""
        at = {"column": column + 1, "row": row + 1}
        if self.count == 1:
            return message("wall.would-lie", name=self.name, **at)
        return message("wall.would-lie-several", count=self.count, **at)

    @property
    def in_hand(self) -> Message:
        """What can be done with it now, in words."""
        if self.count == 1:
            return message("wall.in-hand", name=self.name)
        return message("wall.several-in-hand", count=self.count)


class ShelfLoad(Load):
    """A block of the shelf, turned as wanted."""

    def __init__(self, design: Design, placement: Placement) -> None:
        self._design = design
        self.placement = placement
        self.name = design.shelf.blocks[placement.block].name
        self.columns, self.rows = footprints(design).extent(placement)
        look = looks_of(design).of(placement)
        self.parts = (_part(look, placement.turn, design.quilt.lattice.unit, (0, 0)),)

    def call(self, column: int, row: int, copying: bool) -> EditCall:
        """Lay the block, in the place of one that covers just these cells."""
        del copying
        one = self.placement
        return call(
            "place-block",
            block=one.block,
            cell=Cell(column, row),
            turn=one.turn,
            kind=one.kind,
            layer=one.layer,
            fabrics=one.fabrics,
            replace=True,
        )

    def arrived(self, column: int, row: int) -> list[Cell]:
        """The block's own cell."""
        return [Cell(column, row)]

    def turned(self, by: Turn) -> "ShelfLoad":
        """The block a quarter turn or more on."""
        return ShelfLoad(self._design, self.placement.changed(turn=turned_by(self.placement.turn, by)))


class WallLoad(Load):
    """Blocks of the wall, moved or copied together; `column` and `row` are where they were taken up."""

    def __init__(self, design: Design, several: Sequence[Laid]) -> None:
        looks = looks_of(design)
        self.laid = tuple(several)
        self.column = min(laid.column for laid in several)
        self.row = min(laid.row for laid in several)
        self.columns = max(laid.column + laid.columns for laid in several) - self.column
        self.rows = max(laid.row + laid.rows for laid in several) - self.row
        self.name = design.shelf.blocks[several[0].placement.block].name
        self.parts = tuple(
            Part(
                laid.column - self.column,
                laid.row - self.row,
                laid.columns,
                laid.rows,
                looks.of(laid.placement),
                laid.placement.turn,
            )
            for laid in several
        )

    @property
    def cells(self) -> tuple[Cell, ...]:
        """The blocks' top left cells where they were taken up."""
        return tuple(Cell(laid.column, laid.row) for laid in self.laid)

    def call(self, column: int, row: int, copying: bool) -> EditCall | None:
        """Move or copy by the offset from where they were; None for no offset."""
        columns, rows = column - self.column, row - self.row
        if not columns and not rows:
            return None
        if copying:
            return call("copy-blocks", cells=self.cells, columns=columns, rows=rows, replace=True)
        return call("move-blocks", cells=self.cells, columns=columns, rows=rows)

    def arrived(self, column: int, row: int) -> list[Cell]:
        """Each block's cell after the move."""
        columns, rows = column - self.column, row - self.row
        return [Cell(laid.column + columns, laid.row + rows) for laid in self.laid]


class ClipLoad(Load):
    """Copied blocks, of this design or another, with all they need."""

    def __init__(self, clip: Clip, unit: Fraction, settings: Settings) -> None:
        """`unit` and `settings` are those of the design they are pasted into. Raises PiecewrightError."""
        source = Design("clip", clip.fabrics, clip.recipes, clip.blocks, settings=settings, next_id=_ANY_ID)
        looks, factor = looks_of(source), float(clip.unit / unit)
        self.clip = clip
        self.name = clip.blocks[0].name if clip.blocks else ""
        self._factor = clip.unit / unit
        self.parts = tuple(
            _part(looks.of(one), one.turn, unit, (one.column * factor, row.row * factor))
            for row in clip.rows
            for one in row.placements
        )
        self.columns = max(1, round(max(part.column + part.columns for part in self.parts)))
        self.rows = max(1, round(max(part.row + part.rows for part in self.parts)))

    def call(self, column: int, row: int, copying: bool) -> EditCall:
        """Paste, in the place of blocks that cover just the same cells."""
        del copying
        return call("paste-blocks", clip=self.clip, cell=Cell(column, row), replace=True)

    def arrived(self, column: int, row: int) -> list[Cell]:
        """The cell of each block that starts on a cell."""
        return [
            Cell(column + int(one.column * self._factor), row + int(line.row * self._factor))
            for line in self.clip.rows
            for one in line.placements
        ]


def _part(look: Look | None, turn: int, unit: Fraction, at: tuple[float, float]) -> Part:
    """A block at its true size, whole cells or not; one that can not be made takes a cell."""
    if look is None:
        return Part(*at, 1, 1, None, turn)
    across, down = (look.height, look.width) if turn in (90, 270) else (look.width, look.height)
    return Part(*at, across / float(unit), down / float(unit), look, turn)

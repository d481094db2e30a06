"""How many cells of the lattice a placed block covers, exactly, in every quarter turn."""

from bisect import bisect_left
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from math import gcd
from operator import attrgetter
from typing import NamedTuple

from piecewright.edit.facts_of import Widths, facts_of, given_under, narrow_widths
from piecewright.edit.refusing import refuse
from piecewright.errors import EditError, MakingError, RecipeError
from piecewright.making.facts import Facts
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.quilt import Placement, Quilt
from piecewright.model.settings import Settings
from piecewright.units.sizes import Finished
from piecewright.words.message import message

Cells = tuple[int, int]
"""Columns and rows."""


class Laid(NamedTuple):
    """A placed block where it lies: its top left cell and the columns and rows it covers."""

    column: int
    row: int
    columns: int
    rows: int
    placement: Placement

    def covers(self, column: int, row: int) -> bool:
        """Whether a cell lies under the block."""
        return 0 <= column - self.column < self.columns and 0 <= row - self.row < self.rows

    def meets(self, column: int, row: int, columns: int, rows: int) -> bool:
        """Whether the block lies on any of these cells."""
        across = self.column < column + columns and column < self.column + self.columns
        return across and self.row < row + rows and row < self.row + self.rows


@dataclass(frozen=True)
class Footprints:
    """The cells that the blocks of a shelf cover on a lattice of one unit, worked out when asked for."""

    blocks: dict[str, Block]
    recipes: dict[str, RecipeEntry]
    settings: Settings
    narrow: Widths
    unit: Fraction
    _known: dict[str, tuple[Cells, Facts] | EditError] = field(default_factory=dict, compare=False)

    def of(self, placement: Placement) -> Cells:
        """Columns and rows under a placed block.

        Raises EditError where it can not be made or fits no whole cells.
        """
        return _turned(self.unturned(placement.block), placement.turn)

    def extent(self, placement: Placement) -> Cells:
        """The same, but one cell for a block that can not be made: it lies there and can be taken away."""
        found = self._found(placement.block)
        return (1, 1) if isinstance(found, EditError) else _turned(found[0], placement.turn)

    def reach(self, quilt: Quilt) -> int:
        """The most cells that any block of an arrangement covers in a row or a column; at least 1."""
        return max((max(self.extent(Placement(0, block))) for block in quilt.blocks), default=1)

    def unturned(self, block: str) -> Cells:
        """Columns and rows under a block that lies unturned. Raises EditError as `of` does."""
        return self._sound(block)[0]

    def form(self, block: str) -> tuple[Cells, tuple[tuple[int, ...], ...]]:
        """What decides where a block fits: its cells, unturned, and the layers of each of its kinds.

        Raises EditError as `of`.
        """
        cells, made = self._sound(block)
        return cells, tuple(kind.layers for kind in made.kinds)

    def facts(self, block: str) -> Facts:
        """The facts of a block that fits the lattice. Raises EditError as `of` does."""
        return self._sound(block)[1]

    def _sound(self, block: str) -> tuple[Cells, Facts]:
        found = self._found(block)
        if isinstance(found, EditError):
            raise EditError(found.message, found.hint, found.where)
        return found

    def _found(self, block: str) -> tuple[Cells, Facts] | EditError:
        known = self._known.get(block)
        if known is None:
            known = self._known[block] = self._measured(block)
        return known

    def _measured(self, block: str) -> tuple[Cells, Facts] | EditError:
        found = self.blocks[block]
        try:
            made = facts(self.recipes[found.recipe].recipe, given_under(self.settings, self.narrow, found))
            return _whole_cells(found.name, made, self.unit), made
        except EditError as fault:
            return fault
        except (RecipeError, MakingError) as fault:
            why = message("edit.cannot-be-made", name=found.name, why=fault.message)
            return EditError(why, fault.hint, fault.where)


def footprints(design: Design, unit: Fraction | None = None) -> Footprints:
    """The footprints of a design's blocks on the lattice in view, or on one of another unit."""
    narrow = narrow_widths(design.fabrics, design.settings)
    unit = unit or design.quilt.lattice.unit
    return _footprints(design.blocks, design.recipes, design.settings, narrow, unit)


def footprint(design: Design, placement: Placement) -> Cells:
    """The columns and rows a placed block covers, turned as it lies.

    Raises EditError if it fits no whole cells.
    """
    return footprints(design).of(placement)


def placement_at(quilt: Quilt, design: Design, column: int, row: int) -> Laid | None:
    """What lies on a cell of an arrangement of the design; None where the cell is free."""
    sizes = footprints(design, quilt.lattice.unit)
    reach = sizes.reach(quilt)
    for number in range(row, max(row - reach, -1), -1):
        placements = quilt.by_row[number].placements if number in quilt.by_row else ()
        start = bisect_left(placements, column - reach + 1, key=attrgetter("column"))
        for placement in placements[start:]:
            laid = Laid(placement.column, number, *sizes.extent(placement), placement)
            if laid.covers(column, row):
                return laid
    return None


def all_laid(design: Design, quilt: Quilt) -> tuple[Laid, ...]:
    """Every placed block of an arrangement, row by row; one that can not be made covers one cell."""
    sizes = footprints(design, quilt.lattice.unit)
    return tuple(
        Laid(placement.column, row.row, *sizes.extent(placement), placement)
        for row in quilt.rows
        for placement in row.placements
    )


def exact_size(design: Design, block: str) -> Finished:
    """The finished size of a block that lies unturned. Raises EditError where it is no fraction or can not be made."""
    name = design.shelf.blocks[block].name
    try:
        made = facts_of(design, block)
    except (RecipeError, MakingError) as fault:
        why = message("edit.cannot-be-made", name=name, why=fault.message)
        raise EditError(why, fault.hint, fault.where) from fault
    if isinstance(made.finished.width, float) or isinstance(made.finished.height, float):
        refuse("not-exact", message("edit.square-it-up"), name=name, size=made.finished)
    return made.finished


def common_measure(*lengths: Fraction) -> Fraction:
    """The greatest length of which all given ones are whole multiples."""
    bottom = 1
    for length in lengths:
        bottom = bottom * length.denominator // gcd(bottom, length.denominator)
    return Fraction(gcd(*(int(length * bottom) for length in lengths)), bottom)


@lru_cache(maxsize=64)
def _footprints(
    blocks: tuple[Block, ...],
    recipes: tuple[RecipeEntry, ...],
    settings: Settings,
    narrow: Widths,
    unit: Fraction,
) -> Footprints:
    by_id = {entry.id: entry for entry in recipes}
    return Footprints({block.id: block for block in blocks}, by_id, settings, narrow, unit)


def _turned(cells: Cells, turn: int) -> Cells:
    return (cells[1], cells[0]) if turn in (90, 270) else cells


def _whole_cells(name: str, made: Facts, unit: Fraction) -> Cells:
    width, height = made.finished.width, made.finished.height
    if isinstance(width, float) or isinstance(height, float):
        refuse("not-exact", message("edit.square-it-up"), name=name, size=made.finished)
    columns, rows = width / unit, height / unit
    if columns.denominator != 1 or rows.denominator != 1:
        fine = common_measure(width, height, unit)
        refuse(
            "off-grid", message("edit.grid-that-fits", unit=fine), name=name, size=made.finished, unit=unit
        )
    return int(columns), int(rows)

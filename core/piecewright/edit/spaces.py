"""Blocks taken off the wall space by space, and hung again in another setting in the order they are read."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.edit.footprint import Laid, all_laid
from piecewright.edit.registry import Cell
from piecewright.edit.wall import Wall
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import Lattice, Quilt
from piecewright.words.message import Message, message

Place = tuple[Fraction | int, Fraction | int]


@dataclass(frozen=True)
class Bunch:
    """Blocks that lie together in one space, their places counted from the space's top left cell."""

    blocks: tuple[Laid, ...]


def bunches(design: Design, columns: int, rows: int) -> list[Bunch]:
    """The blocks in view by the spaces of so many cells they lie in, in the order of reading.

    A block that reaches over the edge of a space is a bunch by itself.
    """
    found: dict[tuple[int, int], list[Laid]] = {}
    alone: dict[tuple[int, int], list[Laid]] = {}
    for laid in all_laid(design, design.quilt):
        space = laid.column // columns, laid.row // rows
        end = (laid.column + laid.columns - 1) // columns, (laid.row + laid.rows - 1) // rows
        inside = laid._replace(column=laid.column - space[0] * columns, row=laid.row - space[1] * rows)
        if space == end:
            found.setdefault(space, []).append(inside)
        else:
            alone.setdefault((laid.column, laid.row), []).append(laid._replace(column=0, row=0))
    places: list[tuple[Place, list[Laid]]] = []
    for space, several in found.items():
        places.append((reading_order(design.quilt, space[0] * columns, space[1] * rows), several))
    for cell, several in alone.items():
        places.append((reading_order(design.quilt, *cell), several))
    return [Bunch(tuple(several)) for _, several in sorted(places, key=lambda place: place[0])]


def reading_order(quilt: Quilt, column: int, row: int) -> Place:
    """How far down the quilt a cell begins, then how far to the right, to sort by: exact in every setting."""
    if not quilt.frame.on_point:
        return row, column
    x, y = quilt.frame.x(column), quilt.frame.y(row)
    return y + x, x - y


def whole_spaces(lattice: Lattice) -> Iterator[tuple[int, int]]:
    """The top left column and row of each whole space of a lattice, row by row of its own."""
    wide, high = lattice.space_columns, lattice.space_rows
    for row in range(0, lattice.down - high + 1, high):
        for column in range(0, lattice.across - wide + 1, wide):
            if lattice.holds(column, row, wide, high):
                yield column, row


def spaces_of(quilt: Quilt) -> list[Cell]:
    """The top left cells of the whole spaces of a setting, in the order of reading."""
    cells = sorted(whole_spaces(quilt.lattice), key=lambda cell: reading_order(quilt, *cell))
    return [Cell(*cell) for cell in cells]


def hung(design: Design, quilt: Quilt, several: Iterable[tuple[Cell, Bunch]]) -> Design:
    """The design with an empty arrangement in view that these bunches are hung in; what does not fit is left out."""
    wall = Wall(design, quilt.changed(rows=()))
    for cell, bunch in several:
        for laid in bunch.blocks:
            try:
                wall.lay(
                    laid._replace(column=cell.column + laid.column, row=cell.row + laid.row), alone=False
                )
            except EditError:
                continue
    return design.with_quilt(wall.quilt())


def largest_space(design: Design) -> int:
    """The most cells that a block in view covers in a row or a column, 1 for an empty wall."""
    return max((max(laid.columns, laid.rows) for laid in all_laid(design, design.quilt)), default=1)


def moves_text(before: Design, after: Design) -> Message:
    """What a change of the setting did with the blocks: how many kept their cell, moved, or left the wall."""
    old, new = dict(_places(before)), dict(_places(after))
    stay = sum(new.get(cell) == block for cell, block in old.items())
    left = max(len(old) - len(new), 0)
    moved = len(old) - left - stay
    if not left and not moved:
        return message("edit.moves-none")
    return message("edit.moves-left" if left else "edit.moves", stay=stay, moved=moved, left=left)


def _places(design: Design) -> Iterator[tuple[tuple[int, int], str]]:
    for row in design.quilt.rows:
        for placement in row.placements:
            yield (placement.column, row.row), placement.block

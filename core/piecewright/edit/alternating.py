"""Settings of every other space: blocks turned, or plain blocks between them; columns, and medallions."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import product
from math import gcd
from typing import Literal

from piecewright.edit.footprint import Laid, all_laid
from piecewright.edit.plain import with_plain_block
from piecewright.edit.recoloring import check_fabric
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.spaces import bunches, hung, largest_space, spaces_of, whole_spaces
from piecewright.edit.turning import QuarterTurn
from piecewright.edit.wall import Wall
from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_CELLS, Lattice, Placement, Quilt, turned_by
from piecewright.model.setting import Sashing
from piecewright.words.message import message


@edit("alternate-turns", undo="edit.undo-alternate-turns")
def alternate_turns(design: Design, *, by: QuarterTurn = 90) -> Design:
    """Turn every other block in its place, as on a checkerboard of spaces as large as the largest block.

    Locked blocks stay, and so do those that are longer than wide where they would have to lie on other cells.
    """
    quilt = _spaced(design)
    wall = Wall(design)
    for laid in all_laid(design, design.quilt):
        square = laid.columns == laid.rows or by == 180
        if square and not laid.placement.locked and _is_other(quilt.lattice, laid.column, laid.row):
            wall.replace(laid, laid.placement.changed(turn=turned_by(laid.placement.turn, by)))
    return wall.design()


@edit("alternate-plain", undo="edit.undo-alternate-plain")
def alternate_plain(design: Design, *, fabric: str) -> Design:
    """Put a plain block of a fabric between every two blocks; the quilt grows, in its shape, until all find room.

    On point the blocks lie along the edges and the plain ones between them.
    """
    check_fabric(design, fabric)
    quilt = _spaced(design)
    lattice = quilt.lattice
    several = bunches(design, lattice.space_columns, lattice.space_rows)
    while _room_between(quilt.lattice) < len(several):
        quilt = quilt.changed(lattice=_grown(quilt.lattice, lattice), rows=())
    kept = quilt.changed(lattice=_with_spaces(quilt.lattice, design.quilt.lattice), rows=())
    after = hung(design, kept, zip(_spaces(quilt, other=False), several, strict=False))
    unit = lattice.unit
    after, plain = with_plain_block(after, lattice.space_columns * unit, lattice.space_rows * unit, fabric)
    wall = Wall(after)
    for cell in _spaces(quilt, other=True):
        wall.lay(wall.over(cell, Placement(0, plain)), alone=False)
    return wall.design()


def _grown(lattice: Lattice, first: Lattice) -> Lattice:
    """One space more, across or down, whichever keeps nearer to the shape it had first."""
    on_point = lattice.kind == "on point"
    if lattice.columns * first.rows <= lattice.rows * first.columns:
        return lattice.changed(columns=lattice.columns + (1 if on_point else lattice.space_columns))
    return lattice.changed(rows=lattice.rows + (1 if on_point else lattice.space_rows))


def _spaced(design: Design) -> Quilt:
    """The arrangement in view in spaces: its own, or in a plain setting as large as its largest block."""
    quilt = design.quilt
    if quilt.sashing is not None or quilt.lattice.kind == "on point":
        return quilt
    space = largest_space(design)
    return quilt.changed(lattice=quilt.lattice.changed(space_columns=space, space_rows=space))


def _with_spaces(lattice: Lattice, before: Lattice) -> Lattice:
    return lattice.changed(space_columns=before.space_columns, space_rows=before.space_rows)


def _is_other(lattice: Lattice, column: int, row: int) -> bool:
    """Whether a cell lies in every other space, the first in view not among them."""
    first = lattice.columns - 1 if lattice.kind == "on point" else 0
    return bool((column // lattice.space_columns + row // lattice.space_rows - first) % 2)


def _spaces(quilt: Quilt, *, other: bool) -> list[Cell]:
    return [cell for cell in spaces_of(quilt) if _is_other(quilt.lattice, cell.column, cell.row) is other]


def _room_between(lattice: Lattice) -> int:
    """How many spaces there are but every other."""
    return sum(not _is_other(lattice, column, row) for column, row in whole_spaces(lattice))


@edit("stack-columns", undo="edit.undo-stack-columns")
def stack_columns(
    design: Design, *, width: int | None = None, at: Literal["top", "middle", "spread"] = "spread"
) -> Design:
    """Set the blocks as columns of so many cells, each closed up by itself, whatever the heights of its blocks.

    A column shorter than the quilt begins at the `top`, lies in the `middle`, or is `spread` with its gaps between the
    blocks: there coping strips fill it. Sashing stays between columns only. Blocks side by side in a column stay so.
    Raises EditError on point, and where a block reaches over two columns.
    """
    quilt, lattice = design.quilt, design.quilt.lattice
    if lattice.kind == "on point":
        refuse("columns-on-point", message("edit.straight-first"))
    laid = all_laid(design, quilt)
    width = width or max((one.columns for one in laid), default=1)
    columns: dict[int, list[Laid]] = {}
    for one in laid:
        if one.column // width != (one.column + one.columns - 1) // width:
            name = design.shelf.blocks[one.placement.block].name
            refuse("over-columns", message("edit.wider-columns"), name=name, columns=width)
        columns.setdefault(one.column // width, []).append(one)
    stacks = [_groups(several) for several in columns.values()]
    rows = max([lattice.rows, *(sum(_height(group) for group in stack) for stack in stacks)])
    after = quilt.changed(
        lattice=lattice.changed(rows=rows, space_columns=width, space_rows=1),
        sashing=_between_columns(quilt.sashing),
        rows=(),
    )
    wall = Wall(design, after)
    for stack in stacks:
        for group, top in zip(stack, _tops(stack, rows, at), strict=True):
            for one in group:
                wall.lay(one._replace(row=one.row - group[0].row + top), alone=False)
    return design.with_quilt(wall.quilt())


def _between_columns(sashing: Sashing | None) -> Sashing | None:
    """What is left of sashing when it only runs between columns."""
    if sashing is None or not sashing.columns:
        return None
    return sashing.changed(rows=Fraction(0))


def _groups(several: list[Laid]) -> list[list[Laid]]:
    """Blocks of a column that lie beside each other, from the top."""
    groups: list[list[Laid]] = []
    end = -1
    for one in sorted(several, key=lambda one: one.row):
        if one.row >= end:
            groups.append([])
        groups[-1].append(one)
        end = max(end, one.row + one.rows)
    return groups


def _height(group: list[Laid]) -> int:
    return max(one.row + one.rows for one in group) - group[0].row


def _tops(stack: list[list[Laid]], rows: int, at: Literal["top", "middle", "spread"]) -> list[int]:
    """The rows in which the groups of a column begin."""
    free = rows - sum(_height(group) for group in stack)
    tops: list[int] = []
    below = free // 2 if at == "middle" else 0
    for number, group in enumerate(stack):
        spread = free * number // max(len(stack) - 1, 1) if at == "spread" else 0
        tops.append(below + spread)
        below += _height(group)
    return tops


@edit("lay-medallion", undo="edit.undo-medallion")
def lay_medallion(design: Design, *, cell: Cell) -> Design:
    """Put the block on a cell in the middle of the quilt, and the others round it, nearest first.

    The quilt becomes as large as its rounds, all of one width, and loses its sashing. Borders stay as they are:
    further rounds are borders, plain, pieced of strips or of blocks. Raises EditError on point.
    """
    quilt = design.quilt
    if quilt.lattice.kind == "on point":
        refuse("medallion-on-point", message("edit.straight-first"))
    center = Wall(design).at(cell)
    others = [one for one in all_laid(design, quilt) if one[:2] != center[:2]]
    columns, rows = center.columns, center.rows
    covered = sum(one.columns * one.rows for one in (center, *others))
    while True:
        lattice = quilt.lattice.changed(columns=columns, rows=rows)
        if columns * rows >= covered:
            after = _ringed(design, quilt.changed(lattice=lattice, sashing=None, rows=()), center, others)
            if after is not None:
                return after
        columns, rows = columns + 2, rows + 2
        if max(columns, rows) > MOST_CELLS:
            refuse("too-many-cells", columns=columns, rows=rows, most=MOST_CELLS)


def _ringed(design: Design, empty: Quilt, center: Laid, others: list[Laid]) -> Design | None:
    """The blocks round the middle one; None where one finds no room."""
    columns, rows = empty.lattice.columns, empty.lattice.rows
    middle = center._replace(column=(columns - center.columns) // 2, row=(rows - center.rows) // 2)
    wall = Wall(design, empty)
    wall.lay(middle, alone=False)
    known: dict[tuple[int, int], Iterator[tuple[int, int]]] = {}
    for one in others:
        if one[2:4] not in known:
            known[one[2:4]] = iter(_places(empty.lattice, middle, one))
        places = known[one[2:4]]  # where one of its size found no room no later one will
        if not any(_lies(wall, one._replace(column=column, row=row)) for row, column in places):
            return None
    return design.with_quilt(wall.quilt())


def _places(lattice: Lattice, middle: Laid, one: Laid) -> list[tuple[int, int]]:
    """Rows and columns where blocks of a size may begin, the nearest to the middle one first."""
    step = gcd(one.columns, one.rows, middle.columns, middle.rows)
    return sorted(
        product(
            range(middle.row % step, lattice.rows, step), range(middle.column % step, lattice.columns, step)
        ),
        key=lambda place: (*_away(middle, one, place[1], place[0]), place),
    )


def _away(middle: Laid, one: Laid, column: int, row: int) -> tuple[int, int]:
    """How many cells a block reaches out beyond the middle one, and how far its own middle lies from that one's."""
    left, top = middle.column - column, middle.row - row
    right = column + one.columns - middle.column - middle.columns
    bottom = row + one.rows - middle.row - middle.rows
    return max(left, top, right, bottom), (right - left) ** 2 + (bottom - top) ** 2


def _lies(wall: Wall, laid: Laid) -> bool:
    if not wall.is_inside(laid) or next(wall.meeting(*laid[:4]), None) is not None:
        return False
    try:
        wall.lay(laid, alone=False)
    except EditError:
        return False
    return True

"""Laying blocks on the wall, moving, copying, swapping and taking them away."""

from collections.abc import Sequence

from piecewright.edit.footprint import Laid
from piecewright.edit.grouping import grouped_anew
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Arguments, Cell, edit
from piecewright.edit.wall import Wall, check_block
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Turn
from piecewright.model.value import NO_LETTERS, Letters, Value
from piecewright.words.message import message


class Offset(Value, frozen=True):
    """A move on the lattice: so many columns to the right and rows down, less than 0 to the left and up."""

    columns: int
    rows: int


@edit("place-block", undo="edit.undo-place")
def place_block(
    design: Design,
    *,
    block: str,
    cell: Cell,
    turn: Turn = 0,
    kind: int = 0,
    layer: int = 0,
    fabrics: Letters = NO_LETTERS,
    replace: bool = False,
) -> Design:
    """Lay a block from the shelf with its top left on a cell.

    `replace`: in the place of one that covers just those cells.
    """
    check_block(design, block)
    wall = Wall(design)
    laid = wall.over(cell, Placement(0, block, turn, kind, layer, fabrics))
    if replace:
        lift_alike(wall, laid)
    wall.lay(laid)
    return wall.design()


@edit("move-blocks", undo="edit.undo-move")
def move_blocks(design: Design, *, cells: tuple[Cell, ...], columns: int, rows: int) -> Design:
    """Move blocks by an offset. Those that lie just where others come down change places with them."""
    wall = Wall(design)
    moved = wall.all_at(cells)
    _move(wall, moved, columns, rows)
    return wall.design()


def _path_follows(previous: Arguments, following: Arguments) -> Arguments | None:
    """Nudges of one selection in a row are one nudge along both paths."""
    columns = sum(step.columns for step in previous["path"])
    rows = sum(step.rows for step in previous["path"])
    arrived = {(cell.column + columns, cell.row + rows) for cell in previous["cells"]}
    if arrived != {(cell.column, cell.row) for cell in following["cells"]}:
        return None
    return {"cells": previous["cells"], "path": (*previous["path"], *following["path"])}


@edit("nudge-blocks", undo="edit.undo-move", merge=_path_follows)
def nudge_blocks(design: Design, *, cells: tuple[Cell, ...], path: tuple[Offset, ...]) -> Design:
    """Move blocks step by step, changing places at every step as `move-blocks` does."""
    wall = Wall(design)
    moved = wall.all_at(cells)
    for step in path:
        moved = _move(wall, moved, step.columns, step.rows)
    return wall.design()


@edit("copy-blocks", undo="edit.undo-copy")
def copy_blocks(
    design: Design, *, cells: tuple[Cell, ...], columns: int, rows: int, replace: bool = False
) -> Design:
    """Lay the same blocks once more at an offset; copies of a group are a group of their own.

    `replace`: in the place of those that cover just the same cells.
    """
    wall = Wall(design)
    copies = grouped_anew(design.quilt, [shifted(laid, columns, rows) for laid in wall.all_at(cells)])
    if replace:
        for copy in copies:
            lift_alike(wall, copy)
    wall.lay_all(copies)
    return wall.design()


@edit("remove-blocks", undo="edit.undo-remove-blocks")
def remove_blocks(design: Design, *, cells: tuple[Cell, ...]) -> Design:
    """Take blocks off the wall; they stay on the shelf."""
    wall = Wall(design)
    for laid in wall.all_at(cells):
        wall.lift(laid)
    return wall.design()


@edit("swap-blocks", undo="edit.undo-swap")
def swap_blocks(design: Design, *, first: Cell, second: Cell) -> Design:
    """Let two blocks that cover equally many columns and rows change places."""
    wall = Wall(design)
    one, other = wall.at(first), wall.at(second)
    if one == other:
        return design
    if one[2:4] != other[2:4]:
        names = {"name": wall.name(one), "other": wall.name(other)}
        sizes = {
            "columns": one.columns,
            "rows": one.rows,
            "other_columns": other.columns,
            "other_rows": other.rows,
        }
        refuse("swap-unlike", message("edit.swap-alike"), **names, **sizes)
    wall.lift(one)
    wall.lift(other)
    wall.put(one._replace(placement=other.placement))
    wall.put(other._replace(placement=one.placement))
    return wall.design()


def shifted(laid: Laid, columns: int, rows: int) -> Laid:
    """A block as it would lie so many columns further right and rows further down; not yet checked."""
    return laid._replace(column=laid.column + columns, row=laid.row + rows)


def lift_alike(wall: Wall, laid: Laid) -> list[Laid]:
    """Lift the block that covers just the cells this one would; nothing or that block."""
    alike = [other for other in wall.meeting(*laid[:4]) if other[:4] == laid[:4]]
    for other in alike:
        wall.lift(other)
    return alike


def _move(wall: Wall, moved: Sequence[Laid], columns: int, rows: int) -> tuple[Laid, ...]:
    """Move blocks that lie on the wall, and send those they land on to where they came from."""
    for laid in moved:
        wall.lift(laid)
    targets = [shifted(laid, columns, rows) for laid in moved]
    origins = {after[:2]: before for before, after in zip(moved, targets, strict=True)}
    sent = [_sent_back(target, other, origins) for target in targets for other in lift_alike(wall, target)]
    arrived = wall.lay_all(targets)
    wall.lay_all(sent)
    return arrived


def _sent_back(target: Laid, other: Laid, origins: dict[tuple[int, int], Laid]) -> Laid:
    """Where a block goes that another lands on: to the end of the row of moves, where a place came free."""
    free = target
    while free[:2] in origins:
        free = origins[free[:2]]
    return other._replace(column=free.column, row=free.row)

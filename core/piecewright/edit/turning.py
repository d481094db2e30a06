"""Turning blocks on the wall: each about its own middle, or a selection as one."""

from collections.abc import Sequence
from typing import Literal

from piecewright.edit.footprint import Laid
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall
from piecewright.model.design import Design
from piecewright.model.quilt import turned_by

QuarterTurn = Literal[90, 180, 270]


@edit("turn-blocks", undo="edit.undo-turn")
def turn_blocks(
    design: Design, *, cells: tuple[Cell, ...], by: QuarterTurn, together: bool = False
) -> Design:
    """Turn blocks clockwise, each about its own middle, or `together` about the middle of them all.

    Those of one group turn as one in any case. Where a middle can not be kept in whole cells the top left is
    rounded towards where it was, so that turning on and back again changes nothing. Raises EditError where a
    turned block meets another or leaves the quilt.
    """
    wall = Wall(design)
    before = wall.all_at(cells)
    for laid in before:
        wall.lift(laid)
    turned = [_as_one(part, by) for part in ([before] if together else _parts(before))]
    wall.lay_all([laid for part in turned for laid in part])
    return wall.design()


def _parts(several: Sequence[Laid]) -> list[list[Laid]]:
    """Blocks of one group together, and each other one alone."""
    parts: dict[object, list[Laid]] = {}
    for laid in several:
        parts.setdefault(laid.placement.group or laid[:2], []).append(laid)
    return list(parts.values())


def _turned(laid: Laid, by: QuarterTurn) -> Laid:
    """The block turned, its top left cell where it was."""
    columns, rows = (laid.rows, laid.columns) if by != 180 else (laid.columns, laid.rows)
    placement = laid.placement.changed(turn=turned_by(laid.placement.turn, by))
    return laid._replace(columns=columns, rows=rows, placement=placement)


def _half(cells: int) -> int:
    """Half as many cells, rounded towards 0: the same there and back."""
    return cells // 2 if cells >= 0 else -(-cells // 2)


def _as_one(several: Sequence[Laid], by: QuarterTurn) -> list[Laid]:
    """The blocks turned with the box round them, about the middle of that box."""
    left, top = min(laid.column for laid in several), min(laid.row for laid in several)
    columns = max(laid.column + laid.columns for laid in several) - left
    rows = max(laid.row + laid.rows for laid in several) - top
    corner = (left, top) if by == 180 else (left + _half(columns - rows), top + _half(rows - columns))
    return [
        _in_box(laid, by, (laid.column - left, laid.row - top), (columns, rows), corner) for laid in several
    ]


def _in_box(
    laid: Laid, by: QuarterTurn, at: tuple[int, int], box: tuple[int, int], corner: tuple[int, int]
) -> Laid:
    """A block at `at` of a box, once the box is turned and its top left lies at `corner`."""
    (x, y), (columns, rows) = at, box
    right, below = columns - x - laid.columns, rows - y - laid.rows
    column, row = {90: (below, x), 180: (right, below), 270: (y, right)}[by]
    return _turned(laid, by)._replace(column=corner[0] + column, row=corner[1] + row)

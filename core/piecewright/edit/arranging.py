"""Hanging many blocks anew at once, and locking those that are to stay."""

from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall, check_block
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright.model.value import Value


class Hung(Value, frozen=True):
    """A block and the row its top left cell lies in; its column is the placement's own."""

    row: int
    placement: Placement


@edit("arrange-blocks", undo="edit.undo-arrange")
def arrange_blocks(design: Design, *, lift: tuple[Cell, ...], lay: tuple[Hung, ...]) -> Design:
    """Take these blocks off the wall and hang those on it: an arrangement worked out beforehand, told whole.

    Raises EditError where a lifted block is locked, or a hung one meets another or leaves the quilt.
    """
    wall = Wall(design)
    for laid in wall.all_at(lift) if lift else ():
        wall.lift(laid)
    for hung in lay:
        check_block(design, hung.placement.block)
    wall.lay_all([wall.over(Cell(hung.placement.column, hung.row), hung.placement) for hung in lay])
    return wall.design()


@edit("lock-blocks", undo="edit.undo-lock")
def lock_blocks(design: Design, *, cells: tuple[Cell, ...], locked: bool = True) -> Design:
    """Lock blocks where they lie, as they lie; or free them again."""
    wall = Wall(design)
    for laid in wall.all_at(cells):
        wall.replace(laid, laid.placement.changed(locked=locked))
    return wall.design()

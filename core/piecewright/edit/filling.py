"""Spreading blocks: one over a rectangle, a pattern over a rectangle, one in the places of others."""

from collections.abc import Iterator, Sequence
from itertools import product

from piecewright.edit.footprint import Laid
from piecewright.edit.placing import lift_alike
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Cell, edit
from piecewright.edit.wall import Wall, check_block
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_CELLS, Placement, Turn, turned_by
from piecewright.model.value import NO_LETTERS, Letters
from piecewright.words.message import message


@edit("fill-cells", undo="edit.undo-fill")
def fill_cells(
    design: Design,
    *,
    block: str,
    cell: Cell,
    columns: int,
    rows: int,
    turn: Turn = 0,
    alternate: Turn = 0,
    kind: int = 0,
    layer: int = 0,
    fabrics: Letters = NO_LETTERS,
    replace: bool = False,
) -> Design:
    """Repeat a block over a rectangle of cells, edge to edge from its top left; what lies there stays.

    `alternate` is a turn added to every other block, as on a checkerboard. `replace`: blocks that cover just
    the same cells give way. Raises EditError where not one block found room.
    """
    check_block(design, block)
    _check_rectangle(design, cell, columns, rows)
    wall = Wall(design)
    turns = (turn, turned_by(turn, alternate))
    placements = [Placement(0, block, one, kind, layer, fabrics) for one in turns]
    first = wall.over(cell, placements[0])
    places = _steps(first, columns, rows)
    turned = (wall.over(place, placements[number % 2]) for number, place in places)
    laid = [_lay_if_free(wall, one, replace) for one in turned if _is_within(one, cell, columns, rows)]
    if not any(laid):
        refuse(
            "nowhere-free",
            message("edit.choose-more-cells"),
            name=wall.name(first),
            columns=first.columns,
            rows=first.rows,
        )
    return wall.design()


@edit("repeat-blocks", undo="edit.undo-repeat")
def repeat_blocks(
    design: Design, *, cells: tuple[Cell, ...], cell: Cell, columns: int, rows: int, replace: bool = False
) -> Design:
    """Repeat the selected blocks as a pattern over a rectangle of cells, in step with where they lie.

    Blocks of the pattern that would lie half outside the rectangle, or on others, are left out. `replace` as
    in `fill-cells`. Raises EditError where not one block found room.
    """
    _check_rectangle(design, cell, columns, rows)
    wall = Wall(design)
    pattern = wall.all_at(cells)
    wide = max(laid.column + laid.columns for laid in pattern) - min(laid.column for laid in pattern)
    high = max(laid.row + laid.rows for laid in pattern) - min(laid.row for laid in pattern)
    own = {laid[:2] for laid in pattern}
    found = 0
    for laid in pattern:
        single = laid._replace(placement=laid.placement.changed(group=0, locked=False))
        for column in _in_step(laid.column, wide, cell.column, columns - laid.columns):
            for row in _in_step(laid.row, high, cell.row, rows - laid.rows):
                if (column, row) not in own:
                    found += _lay_if_free(wall, single._replace(column=column, row=row), replace)
    if not found:
        refuse("nowhere-free-pattern", message("edit.choose-more-cells"))
    return wall.design()


@edit("replace-blocks", undo="edit.undo-replace-blocks")
def replace_blocks(design: Design, *, cells: tuple[Cell, ...], block: str) -> Design:
    """Put another block in the places of the selected ones, turned as they are.

    Raises EditError where it covers other cells.
    """
    check_block(design, block)
    wall = Wall(design)
    selected = wall.all_at(cells)
    for laid in selected:
        wall.lift(laid)
    wall.lay_all([_in_place_of(wall, laid, block) for laid in selected])
    return wall.design()


def _in_place_of(wall: Wall, laid: Laid, block: str) -> Laid:
    cell = Cell(laid.column, laid.row)
    new = wall.over(cell, Placement(0, block, laid.placement.turn, group=laid.placement.group))
    if new[2:4] != laid[2:4]:
        sizes = {
            "columns": laid.columns,
            "rows": laid.rows,
            "other_columns": new.columns,
            "other_rows": new.rows,
        }
        refuse("swap-unlike", message("edit.swap-alike"), name=wall.name(laid), other=wall.name(new), **sizes)
    return new


def _check_rectangle(design: Design, cell: Cell, columns: int, rows: int) -> None:
    lattice = design.quilt.lattice
    inside = 0 <= cell.column < lattice.columns and 0 <= cell.row < lattice.rows
    if not inside or not (1 <= columns <= MOST_CELLS and 1 <= rows <= MOST_CELLS):
        refuse("no-rectangle", all_columns=lattice.columns, all_rows=lattice.rows)


def _steps(first: Laid, columns: int, rows: int) -> Iterator[tuple[int, Cell]]:
    """The cells for a block repeated edge to edge, row by row, each with its number on the checkerboard."""
    across, down = range(columns // first.columns), range(rows // first.rows)
    for y, x in product(down, across):
        yield x + y, Cell(first.column + x * first.columns, first.row + y * first.rows)


def _is_within(laid: Laid, cell: Cell, columns: int, rows: int) -> bool:
    right, bottom = cell.column + columns, cell.row + rows
    return laid.column + laid.columns <= right and laid.row + laid.rows <= bottom


def _in_step(start: int, step: int, first: int, spare: int) -> Sequence[int]:
    """The positions start + n * step from `first` to `first + spare`."""
    return range(first + (start - first) % step, first + spare + 1, step)


def _lay_if_free(wall: Wall, laid: Laid, replace: bool) -> bool:
    if not wall.is_inside(laid):
        return False
    lifted = lift_alike(wall, laid) if replace else []
    if not lifted and any(True for _ in wall.meeting(*laid[:4])):
        return False
    wall.lay(laid)
    return True

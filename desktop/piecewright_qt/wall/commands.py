"""What the actions of the window do on the wall: each one an edit of the selection."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from PySide6.QtGui import QGuiApplication

from piecewright.edit.footprint import Laid, footprints
from piecewright.edit.pasting import clip_of
from piecewright.edit.registry import Cell, EditCall, call
from piecewright.edit.turning import QuarterTurn
from piecewright.errors import EditError
from piecewright.model.quilt import Placement
from piecewright.words.message import message
from piecewright_qt.wall.drops import load_of
from piecewright_qt.wall.loads import ClipLoad
from piecewright_qt.wall.mime import clip_mime
from piecewright_qt.wall.selection import Area

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView


def copy(wall: "WallView") -> bool:
    """Put the selected blocks, with all they need, on the clipboard. False where none is selected."""
    try:
        clip = clip_of(wall.document.design, wall.selection.cells)
    except EditError as error:
        wall.say(error)
        return False
    QGuiApplication.clipboard().setMimeData(clip_mime(clip))
    wall.say(message("wall.copied", count=len(wall.selection)))
    return True


def paste(wall: "WallView", cell: Cell) -> None:
    """Lay copied blocks from a cell on; where they do not fit, take them in hand to be set down elsewhere."""
    data = QGuiApplication.clipboard().mimeData()
    load = None if data is None else load_of(wall, data)
    if not isinstance(load, ClipLoad):
        wall.say(message("wall.nothing-to-paste"))
        return
    edit = load.call(cell.column, cell.row, copying=False)
    fits = wall.document.preview(edit)
    wall.document.drop_preview()
    if not fits:
        wall.hand.hold(load, cell)
    elif wall.document.perform(edit):
        wall.selection.select(load.arrived(cell.column, cell.row))


def turn(wall: "WallView", by: QuarterTurn) -> None:
    """Turn the selected blocks clockwise, each or each group about its middle; where they then lie stays selected."""
    perform_on_selection(wall, call("turn-blocks", cells=wall.selection.cells, by=by))


def toggle_lock(wall: "WallView") -> None:
    """Lock the selected blocks where they lie; free them where all of them are locked already."""
    laid = wall.laid_at(wall.selection.cells)
    locked = not all(one.placement.locked for one in laid)
    if wall.document.perform(call("lock-blocks", cells=wall.selection.cells, locked=locked)):
        wall.say(message("wall.locked" if locked else "wall.freed", count=len(laid)))


def group(wall: "WallView") -> None:
    """Make one group of the selected blocks."""
    if wall.document.perform(call("group-blocks", cells=wall.selection.cells)):
        wall.say(message("wall.grouped", count=len(wall.selection)))


def ungroup(wall: "WallView") -> None:
    """Take the groups of the selected blocks apart; they stay selected."""
    if wall.document.perform(call("ungroup-blocks", cells=wall.selection.cells)):
        wall.say(message("wall.ungrouped"))


def remove(wall: "WallView") -> None:
    """Take the selected blocks off the wall."""
    perform_on_selection(wall, call("remove-blocks", cells=wall.selection.cells))


def restore_fabrics(wall: "WallView") -> None:
    """Give the selected blocks the fabrics their blocks have on the shelf."""
    perform_on_selection(wall, call("restore-fabrics", cells=wall.selection.cells))


def repeat(wall: "WallView", everywhere: bool = False) -> None:
    """Repeat the selected blocks over the cells drawn round them, or over the whole quilt."""
    selection, lattice = wall.selection, wall.still.design.quilt.lattice
    laid = wall.laid_at(selection.cells)
    if not laid:
        wall.say(message("edit.select-first"))
        return
    area = (0, 0, lattice.across, lattice.down) if everywhere else selection.area or _box_of(laid)
    column, row, columns, rows = area
    cells = selection.cells
    edit = call("repeat-blocks", cells=cells, cell=Cell(column, row), columns=columns, rows=rows)
    if wall.document.perform(edit):
        selection.select((item.id for item in wall.items.in_cells(*area)), None if everywhere else area)


def next_version(wall: "WallView", placement: Placement) -> tuple[int, int] | None:
    """The kind and layer that follow a block's own among all that its batch yields; None where there is no other.

    Kinds go forth in one layer and back in the next, so that one edit leads from each to the next.
    """
    try:
        kinds = footprints(wall.still.design).facts(placement.block).kinds
    except EditError:
        return None
    versions: list[tuple[int, int]] = []
    for layer in sorted({layer for kind in kinds for layer in kind.layers}):
        here = [index for index, kind in enumerate(kinds) if layer in kind.layers]
        versions += [(index, layer) for index in (here if layer % 2 == 0 else here[::-1])]
    if len(versions) < 2:
        return None
    at = (
        versions.index((placement.kind, placement.layer))
        if (placement.kind, placement.layer) in versions
        else -1
    )
    return versions[(at + 1) % len(versions)]


def next_layer(wall: "WallView") -> None:
    """Show the next block of the batch in the place of the selected ones, all as the first of them."""
    laid = wall.laid_at(wall.selection.cells)
    if not laid:
        wall.say(message("edit.select-first"))
        return
    placement = laid[0].placement
    version = next_version(wall, placement)
    if version is None:
        wall.say(message("wall.no-versions", name=wall.still.design.shelf.blocks[placement.block].name))
        return
    kind, layer = version
    same = tuple(Cell(one.column, one.row) for one in laid if one.placement.block == placement.block)
    if layer != placement.layer:
        perform_on_selection(wall, call("set-layer", cells=same, layer=layer))
    else:
        perform_on_selection(wall, call("set-kind", cells=same, kind=kind))


def perform_on_selection(wall: "WallView", edit: EditCall) -> None:
    """Do an edit; blocks that it moved by turning them stay selected."""
    before = wall.laid_at(wall.selection.cells)
    if not wall.document.perform(edit) or edit.name != "turn-blocks":
        return
    groups = {one.placement.group for one in before} - {0}
    inside = [
        wall.items.at_cell(one.column + (one.columns - 1) // 2, one.row + (one.rows - 1) // 2)
        for one in before
        if not one.placement.group
    ]
    grouped = [Cell(*laid[:2]) for laid, _ in wall.still.hung if laid.placement.group in groups]
    wall.selection.select([*(item.id for item in inside if item is not None), *grouped])


def _box_of(laid: Sequence[Laid]) -> Area:
    column, row = min(one.column for one in laid), min(one.row for one in laid)
    right = max(one.column + one.columns for one in laid)
    bottom = max(one.row + one.rows for one in laid)
    return (column, row, right - column, bottom - row)

"""The one list of what lies on the wall: it feeds hit test, keyboard, status line and accessibility alike."""

from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPolygonF

from piecewright.edit.footprint import Laid
from piecewright.edit.registry import Cell
from piecewright.making.facts import SeenPatch
from piecewright.model.fabric import Fabric
from piecewright.units.sizes import Finished
from piecewright.words.message import Message, message
from piecewright_qt.drawing.qt_shapes import qt_polygon
from piecewright_qt.wall.camera import Box, Inches
from piecewright_qt.wall.looks import Look
from piecewright_qt.wall.scene import Hung, Scene
from piecewright_qt.wall.sprites import turned_frame

BLOCK_ACTIONS = (
    *("turn", "turn-back", "next-layer", "cut", "copy", "remove"),
    *("select-alike", "repeat", "lock", "group", "ungroup"),
)
"""What can be done with a placed block, by the names of the window's actions."""


@dataclass(frozen=True)
class Item:
    """A placed block: `id` its top left cell, its box in inches, what it is called, what can be done with it."""

    id: Cell
    name: Message
    box: Box
    laid: Laid
    actions: tuple[str, ...] = BLOCK_ACTIONS


@dataclass(frozen=True)
class Spot:
    """A patch under a point: of which block, its outline on the quilt in inches, letter, layer and fabric."""

    item: Item
    patch: SeenPatch
    fabric: Fabric
    outline: QPolygonF


class Items:
    """Every placed block of a scene, row by row from the left; made when asked for."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene

    @cached_property
    def _made(self) -> dict[int, Item]:
        return {}

    @cached_property
    def _index(self) -> dict[tuple[int, int], int]:
        return {laid[:2]: index for index, (laid, _) in enumerate(self.scene.hung)}

    def __len__(self) -> int:
        return len(self.scene.hung)

    def __getitem__(self, index: int) -> Item:
        found = self._made.get(index)
        if found is None:
            found = self._made[index] = self._item(self.scene.hung[index][0])
        return found

    def index(self, cell: Cell) -> int | None:
        """The place in the list of the block with its top left on a cell."""
        return self._index.get((cell.column, cell.row))

    def hung(self, cell: Cell) -> Hung | None:
        """The block with its top left on a cell, with its look."""
        index = self.index(cell)
        return None if index is None else self.scene.hung[index]

    def at_cell(self, column: int, row: int) -> Item | None:
        """The block that covers a cell."""
        laid = self.scene.at(column, row) if self.scene.is_cell(column, row) else None
        return None if laid is None else self[self._index[laid[:2]]]

    def at(self, place: Inches) -> Item | None:
        """The block under a place of the quilt, found by the arithmetic of the grid; none under sashing."""
        scene = self.scene
        if scene.design.quilt.sashing is not None:
            inside, corner = scene.inside(place), scene.corner(0, 0)
            if scene.layout.frame.is_sash((inside[0] - corner[0], inside[1] - corner[1])):
                return None
        return self.at_cell(*scene.cell(place))

    def in_cells(self, column: int, row: int, columns: int, rows: int) -> list[Item]:
        """The blocks that lie on any of these cells."""
        found = (
            index for index, (laid, _) in enumerate(self.scene.hung) if laid.meets(column, row, columns, rows)
        )
        return [self[index] for index in found]

    def in_box(self, box: Box) -> list[Item]:
        """The blocks that a box of the quilt touches."""
        return [self[self._index[laid[:2]]] for laid, _ in self.scene.blocks_in(box)]

    def spot(self, place: Inches) -> Spot | None:
        """The patch under a place of the quilt."""
        item = self.at(place)
        look = None if item is None else self.scene.hung[self._index[item.laid[:2]]][1]
        if item is None or look is None:
            return None
        frame = turned_frame(look.width, look.height, item.laid.placement.turn, 1.0)
        corner = self.scene.corner(item.laid.column, item.laid.row)
        at = self.scene.inside(place)
        inside = frame.inverted()[0].map(QPointF(at[0] - corner[0], at[1] - corner[1]))
        index = _patch_under(look, inside)
        if index is None:
            return None
        outline = frame.map(qt_polygon(look.kind.patches[index].points)).translated(*corner)
        if self.scene.on_point:
            outline = QPolygonF([QPointF(*self.scene.outside((p.x(), p.y()))) for p in outline.toList()])
        return Spot(item, look.kind.patches[index], look.fabrics[index], outline)

    def size(self, item: Item) -> Finished | None:
        """The finished size of a block as it lies; None where it can not be made."""
        if self.scene.looks.fault(item.laid.placement) is not None:
            return None
        size = self.scene.looks.facts(item.laid.placement.block).finished
        return Finished(size.height, size.width) if item.laid.placement.turn in (90, 270) else size

    def _item(self, laid: Laid) -> Item:
        return Item(Cell(laid.column, laid.row), placed_name(self.scene, laid), self.scene.box_of(laid), laid)


def placed_name(scene: Scene, laid: Laid) -> Message:
    """Which block lies where, and turned how far: "Middle turned, column 3 row 2, turned 90, locked"."""
    name = scene.design.shelf.blocks[laid.placement.block].name
    column, row, turn = laid.column + 1, laid.row + 1, laid.placement.turn
    if turn:
        placed = message("wall.placed-turned", name=name, column=column, row=row, turn=turn)
    else:
        placed = message("wall.placed", name=name, column=column, row=row)
    if laid.placement.group:
        placed = message("wall.placed-grouped", placed=placed, group=laid.placement.group)
    return message("wall.placed-locked", placed=placed) if laid.placement.locked else placed


def _patch_under(look: Look, point: QPointF) -> int | None:
    for index, patch in enumerate(look.kind.patches):
        if qt_polygon(patch.points).containsPoint(point, Qt.FillRule.OddEvenFill):
            return index
    return None

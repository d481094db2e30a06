"""Drags that come from elsewhere: a block or a fabric from the shelf, copied blocks from another window."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QMimeData, QPointF, Qt

from piecewright.errors import PiecewrightError
from piecewright.model.quilt import Placement
from piecewright_qt.wall.carrying import Carrying, middle
from piecewright_qt.wall.loads import ClipLoad, Load, ShelfLoad
from piecewright_qt.wall.mime import carried_block, carried_clip, carried_fabric
from piecewright_qt.wall.recoloring import FabricOver

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

_BINDING_REACH = 5.0
"""Device-independent pixels round the quilt that count as its binding for a fabric."""


class Drops:
    """Follows one drag over the wall, from its coming in to its drop or leaving."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self.fabric: FabricOver | None = None

    def enter(self, data: QMimeData) -> bool:
        """Take up what a drag carries. False where it is nothing for the wall."""
        wall = self._wall
        fabric = carried_fabric(data)
        if fabric is not None:
            self.fabric = FabricOver(wall, fabric)
            return fabric in wall.still.design.shelf.fabrics
        load = load_of(wall, data)
        if load is None:
            return False
        wall.hand.carry(Carrying(wall, load, middle(load, wall.still)))
        return True

    def move(self, point: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Aim where the pointer is."""
        wall, fabric = self._wall, self.fabric
        if fabric is None:
            wall.hand.aim(point, keys)
            return
        whole = bool(keys & Qt.KeyboardModifier.ShiftModifier)
        before = fabric.target
        fabric.aim(wall.camera.inches(point), whole, _BINDING_REACH * wall.camera.ratio / wall.camera.pixels)
        if fabric.target != before:
            wall.viewport().update()
        wall.say(fabric.said)

    def drop(self) -> bool:
        """Do what the drag was aimed at. False where nothing came of it."""
        fabric, self.fabric = self.fabric, None
        if fabric is None:
            return self._wall.hand.set_down()
        self._wall.viewport().update()
        return fabric.settle()

    def leave(self) -> None:
        """The drag went elsewhere or was given up."""
        fabric, self.fabric = self.fabric, None
        if fabric is not None:
            fabric.leave()
            self._wall.viewport().update()
        self._wall.hand.put_back()


def load_of(wall: "WallView", data: QMimeData) -> Load | None:
    """The blocks that data carries as a load for this wall; None where it carries none that fit its design."""
    design = wall.still.design
    block = carried_block(data)
    if block is not None:
        known = block.block in design.shelf.blocks
        return ShelfLoad(design, Placement(0, block.block, 0, block.kind, block.layer)) if known else None
    clip = carried_clip(data)
    if clip is None:
        return None
    try:
        return ClipLoad(clip, design.quilt.lattice.unit, design.settings)
    except PiecewrightError:
        return None

"""A load on its way over the wall: where it would lie, what that edit would give, and why it may not."""

from typing import Protocol

from piecewright.edit.registry import Cell
from piecewright.errors import EditError
from piecewright.words.message import Message, message
from piecewright_qt.document import Document
from piecewright_qt.wall.camera import Inches
from piecewright_qt.wall.loads import Load, WallLoad
from piecewright_qt.wall.scene import Scene
from piecewright_qt.wall.selection import Selection


class Host(Protocol):
    """What carrying needs of the wall."""

    document: Document
    selection: Selection

    @property
    def still(self) -> Scene:
        """The design as it stands, without previews."""


class Carrying:
    """One load in the hand or on the pointer. Every new aim is previewed, so that everything that shows follows.

    `grab` is the place of the load that the pointer holds, inches from its top left as the blocks lie. `free`: it
    follows the pointer and will land in the nearest cell; else it snaps. `refusal` says why it may not lie where it is
    aimed.
    """

    def __init__(self, host: Host, load: Load, grab: Inches) -> None:
        self._host = host
        self.load = load
        self.grab = grab
        self.free = False
        self.corner: Inches = (0.0, 0.0)
        self.cell: Cell | None = None
        self.copying = False
        self.refusal: EditError | None = None

    def aim(self, place: Inches, free: bool = False, copying: bool = False) -> None:
        """Point at a place of the quilt."""
        scene = self._host.still
        self.free = free
        inside = scene.inside(place)
        self.corner = (inside[0] - self.grab[0], inside[1] - self.grab[1])
        self.aim_cell(scene.nearest_cell(self.corner, self.load.columns, self.load.rows), copying)

    def aim_cell(self, cell: Cell, copying: bool = False) -> None:
        """Let the load's top left lie on a cell."""
        if (cell, copying) != (self.cell, self.copying):
            self.cell, self.copying = cell, copying
            self._preview(cell)

    def exchange(self, load: Load) -> None:
        """Carry this instead, in the same place: the load was turned."""
        wide, high = load.columns / self.load.columns, load.rows / self.load.rows
        self.grab = (self.grab[0] * wide, self.grab[1] * high)
        self.load = load
        if self.cell is not None:
            self._preview(self.cell)

    def settle(self) -> bool:
        """Set the load down where it is aimed, as one step to undo. False where it may not lie, or was nowhere."""
        document, cell = self._host.document, self.cell
        call = None if cell is None else self.load.call(cell.column, cell.row, self.copying)
        document.drop_preview()
        if cell is None or call is None:
            return call is None and cell is not None
        done = document.perform(call)
        if done:
            self._host.selection.select(self.load.arrived(cell.column, cell.row))
        return done

    def leave(self) -> None:
        """Nowhere for now: the pointer has left the wall, or the load is put back."""
        self.cell, self.refusal = None, None
        self._host.document.drop_preview()

    @property
    def tag(self) -> Message | None:
        """The word that the carried picture bears."""
        if self.refusal is not None:
            return message("wall.tag-refused")
        if self.copying and self._is_away:
            return message("wall.tag-copy")
        if self._takes_a_place:
            return message("wall.tag-swap" if isinstance(self.load, WallLoad) else "wall.tag-replace")
        return None

    @property
    def said(self) -> Message | EditError | None:
        """What would happen, or why not, in words."""
        if self.refusal is not None or self.cell is None:
            return self.refusal
        return self.load.place(self.cell.column, self.cell.row)

    def top_left(self) -> Inches | None:
        """Where the picture of the load belongs, its top left in inches; None while it is nowhere."""
        if self.cell is None or self.free:
            return None if self.cell is None else self._host.still.outside(self.corner)
        scene = self._host.still
        return scene.outside(scene.corner(self.cell.column, self.cell.row))

    @property
    def _is_away(self) -> bool:
        cell = self.cell
        return cell is not None and self.load.call(cell.column, cell.row, self.copying) is not None

    @property
    def _takes_a_place(self) -> bool:
        """Whether a block lies just where one would come down."""
        cell, scene = self.cell, self._host.still
        if cell is None or not scene.is_cell(cell.column, cell.row) or self.load.count > 1:
            return False
        there = scene.at(cell.column, cell.row)
        alike = there is not None and there[:4] == (cell.column, cell.row, self.load.columns, self.load.rows)
        return alike and not (isinstance(self.load, WallLoad) and there in self.load.laid)

    def _preview(self, cell: Cell) -> None:
        document = self._host.document
        call = self.load.call(cell.column, cell.row, self.copying)
        if call is None:
            self.refusal = None
            document.drop_preview()
        else:
            document.preview(call)
            self.refusal = document.preview_refusal


def middle(load: Load, scene: Scene) -> Inches:
    """The middle of a load, inches from its top left."""
    return (load.columns * scene.unit / 2, load.rows * scene.unit / 2)


def grabbed(scene: Scene, load: WallLoad, place: Inches) -> Inches:
    """The place of blocks on the wall that a pointer holds, inches from their common top left."""
    inside, corner = scene.inside(place), scene.corner(load.column, load.row)
    return (inside[0] - corner[0], inside[1] - corner[1])

"""What the mouse does on the wall: a press becomes a click, a band, a drag of blocks, or a pan."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import Cell
from piecewright_qt.wall.camera import Inches
from piecewright_qt.wall.carrying import Carrying, grabbed
from piecewright_qt.wall.items import Item
from piecewright_qt.wall.loads import WallLoad
from piecewright_qt.wall.selection import Area

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

Keys = Qt.KeyboardModifier


class Gesture:
    """Something that began with a press; it hears of moves until the release, or is given up."""

    def __init__(self, wall: "WallView") -> None:
        self.wall = wall

    def move(self, point: QPointF, keys: Keys) -> None:
        """The pointer moved, or a key that changes the meaning went down or up."""

    def release(self, point: QPointF, keys: Keys) -> None:
        """The button went up: do what was meant."""

    def give_up(self) -> None:
        """Escape: leave everything as it was."""


class Pan(Gesture):
    """The quilt follows the hand."""

    def __init__(self, wall: "WallView", at: QPointF) -> None:
        super().__init__(wall)
        self._at = at

    def move(self, point: QPointF, keys: Keys) -> None:
        """Pan by as far as the pointer went."""
        del keys
        self.wall.pan(point - self._at)
        self._at = point


class Press(Gesture):
    """A press that has not moved yet: on a block or beside it, with the keys that were held."""

    def __init__(self, wall: "WallView", at: QPointF, keys: Keys) -> None:
        super().__init__(wall)
        self._at = at
        self._keys = keys
        self._item = wall.items.at(wall.camera.inches(at))
        self._was_selected = self._item is not None and self._item.id in wall.selection
        self._choose()

    def move(self, point: QPointF, keys: Keys) -> None:
        """Once it is no longer a click, go on as a drag or as a band."""
        away = point - self._at
        if max(abs(away.x()), abs(away.y())) < QApplication.startDragDistance():
            return
        if self._item is None or self._keys & Keys.ShiftModifier:
            following: Gesture = Band(self.wall, self._at, self._keys)
        else:
            following = Drag(self.wall, self._at, self._item)
        self.wall.gesture = following
        following.move(point, keys)

    def release(self, point: QPointF, keys: Keys) -> None:
        """A click: with Shift or Ctrl it adds or takes away; on one of several selected it leaves that one."""
        del point, keys
        selection, item = self.wall.selection, self._item
        adding = bool(self._keys & (Keys.ShiftModifier | Keys.ControlModifier))
        if item is not None and adding and (self._was_selected or self._keys & Keys.ControlModifier):
            self._toggle(item)
        elif item is not None and not adding:
            selection.select(self.wall.whole([item.id], self._keys))
        elif item is None and not adding:
            selection.clear()

    def _toggle(self, item: Item) -> None:
        """Select a block and its group, or let go of both."""
        selection, several = self.wall.selection, self.wall.whole([item.id], self._keys)
        if item.id in selection:
            selection.select(cell for cell in selection.cells if cell not in several)
        else:
            selection.add(several)

    def _choose(self) -> None:
        """What the press selects at once, so that what is dragged is seen to be selected."""
        selection, item = self.wall.selection, self._item
        if item is None:
            return
        self.wall.set_cursor_cell(item.id)
        if self._keys & Keys.ShiftModifier:
            if not self._was_selected:
                selection.add(self.wall.whole([item.id], self._keys))
        elif self._keys & Keys.AltModifier and item.laid.placement.group:
            selection.select([item.id])
        elif not self._was_selected and not self._keys & Keys.ControlModifier:
            selection.select(self.wall.whole([item.id], self._keys))


class Band(Gesture):
    """A rectangle drawn round blocks; with Shift they are added to what is selected."""

    def __init__(self, wall: "WallView", at: QPointF, keys: Keys) -> None:
        super().__init__(wall)
        self._from: Inches = wall.camera.inches(at)
        self._kept = wall.selection.cells if keys & Keys.ShiftModifier else ()
        self._before = (wall.selection.cells, wall.selection.area)

    def move(self, point: QPointF, keys: Keys) -> None:
        """Select what the rectangle touches."""
        wall = self.wall
        to = wall.camera.inches(point)
        left, right = sorted((self._from[0], to[0]))
        top, bottom = sorted((self._from[1], to[1]))
        wall.set_band((left, top, right, bottom))
        if not wall.scene.is_plain:
            found = [item.id for item in wall.items.in_box((left, top, right, bottom))]
            wall.selection.select((*self._kept, *wall.whole(found, keys)))
            return
        area = _cells_within(wall, (left, top), (right, bottom))
        if area is None:
            wall.selection.select(self._kept)
            return
        touched = [item.id for item in wall.items.in_cells(*area)]
        several = wall.whole(touched, keys)
        plain = not self._kept and len(several) == len(touched)
        wall.selection.select((*self._kept, *several), area if plain else None)

    def release(self, point: QPointF, keys: Keys) -> None:
        """Keep what is selected."""
        del point, keys
        self.wall.set_band(None)

    def give_up(self) -> None:
        """Select what was selected before."""
        self.wall.set_band(None)
        cells, area = self._before
        self.wall.selection.select(cells, area)


class Drag(Gesture):
    """Blocks of the wall on the pointer; Ctrl copies, Alt lets them follow freely."""

    def __init__(self, wall: "WallView", at: QPointF, item: Item) -> None:
        super().__init__(wall)
        if item.id not in wall.selection:
            wall.selection.select(wall.whole([item.id]))
        cells = wall.selection.cells
        load = WallLoad(wall.still.design, wall.laid_at(cells))
        wall.hand.carry(Carrying(wall, load, grabbed(wall.still, load, wall.camera.inches(at))))

    def move(self, point: QPointF, keys: Keys) -> None:
        """Aim where the pointer is."""
        self.wall.hand.aim(point, keys)

    def release(self, point: QPointF, keys: Keys) -> None:
        """Set the blocks down."""
        self.wall.hand.aim(point, keys)
        self.wall.hand.set_down()

    def give_up(self) -> None:
        """Put the blocks back."""
        self.wall.hand.put_back()


class HandClick(Gesture):
    """A press while something is in the hand: it comes down where the button goes up."""

    def move(self, point: QPointF, keys: Keys) -> None:
        """Aim where the pointer is."""
        self.wall.hand.aim(point, keys)

    def release(self, point: QPointF, keys: Keys) -> None:
        """Set down what is in the hand; with Shift one more stays in it."""
        self.wall.hand.aim(point, keys)
        self.wall.hand.set_down(keep_one=bool(keys & Keys.ShiftModifier))

    def give_up(self) -> None:
        """Put back what is in the hand."""
        self.wall.hand.put_back()


def begin(wall: "WallView", button: Qt.MouseButton, point: QPointF, keys: Keys) -> Gesture | None:
    """The gesture that a press begins."""
    if button == Qt.MouseButton.MiddleButton or (button == Qt.MouseButton.LeftButton and wall.space_held):
        return Pan(wall, point)
    if button != Qt.MouseButton.LeftButton:
        return None
    if wall.hand.carrying is not None:
        wall.hand.aim(point, keys)
        return HandClick(wall)
    if wall.measuring.is_on:
        return wall.measuring.press(point, keys)
    slip = wall.slips.press(point)
    if slip is not None:
        return slip
    wall.slips.choose(None)
    wall.set_cursor_cell(Cell(*wall.scene.cell(wall.camera.inches(point))))
    return Press(wall, point, keys)


def _cells_within(wall: "WallView", one: Inches, other: Inches) -> Area | None:
    """The lattice's cells that a rectangle in inches touches; None for none."""
    lattice = wall.scene.design.quilt.lattice
    left, top = wall.scene.cell(one)
    right, bottom = wall.scene.cell(other)
    if right < 0 or bottom < 0 or left >= lattice.columns or top >= lattice.rows:
        return None
    left, top = max(left, 0), max(top, 0)
    right, bottom = min(right, lattice.columns - 1), min(bottom, lattice.rows - 1)
    return (left, top, right - left + 1, bottom - top + 1)

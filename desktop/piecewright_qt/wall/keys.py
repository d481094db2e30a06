"""What the keys do on the wall that is no action of the window: the cursor, nudges, the hand."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from piecewright.edit.placing import Offset
from piecewright.edit.registry import Cell, call
from piecewright.words.message import message
from piecewright_qt.wall.selection import Area

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

Key = Qt.Key
Keys = Qt.KeyboardModifier
_ARROWS = {Key.Key_Left: (-1, 0), Key.Key_Right: (1, 0), Key.Key_Up: (0, -1), Key.Key_Down: (0, 1)}
_ENTER = (Key.Key_Return, Key.Key_Enter)
_HAND = (Key.Key_R, Key.Key_L, Key.Key_Delete, Key.Key_Backspace)
"""Keys of the window's actions that mean what is in the hand while something is."""


class WallKeys:
    """Turns key presses into moves of the cursor, of the selection, and of what is in the hand."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self._anchor: Cell | None = None
        self._nudging = False
        self._gesture = object()

    def wants(self, event: QKeyEvent) -> bool:
        """Whether a key belongs to the wall before it is looked up among the window's shortcuts."""
        return self._wall.hand.carrying is not None and Key(event.key()) in _HAND

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key means here. False where it means nothing."""
        key, held = Key(event.key()), event.modifiers()
        if self._wall.measuring.is_on and self._wall.measuring.key(event):
            return True
        if key == Key.Key_Escape:
            return self._wall.escape()
        if key in _ARROWS:
            self._arrow(*_ARROWS[key], held)
        elif key in (Key.Key_Home, Key.Key_End):
            self._to_end(key == Key.Key_End, held)
        elif key in _ENTER:
            self._enter(held)
        elif self._wall.hand.carrying is not None and key in _HAND:
            self._hand(key, held)
        else:
            return False
        return True

    def _arrow(self, columns: int, rows: int, held: Keys) -> None:
        if self._wall.hand.carrying is not None:
            self._wall.hand.move(columns, rows)
        elif held & Keys.ControlModifier:
            self._nudge(columns, rows)
        else:
            self._move_cursor(columns, rows, held)

    def _hand(self, key: Key, held: Keys) -> None:
        if key == Key.Key_R:
            self._wall.turn(270 if held & Keys.ShiftModifier else 90)
        elif key == Key.Key_L:
            self._wall.next_layer()
        else:
            self._wall.hand.put_back()

    def _enter(self, held: Keys) -> None:
        wall = self._wall
        if wall.hand.carrying is not None:
            wall.hand.set_down(keep_one=bool(held & Keys.ShiftModifier))
            return
        item = wall.items.at_cell(wall.cursor_cell.column, wall.cursor_cell.row)
        if item is not None:
            wall.hand.take_up(wall.selection.cells if item.id in wall.selection else wall.whole([item.id]))

    def _move_cursor(self, columns: int, rows: int, held: Keys) -> None:
        """Step to the next cell, past a block that lies there; the selection follows, or grows while Shift is held."""
        wall, extending = self._wall, bool(held & Keys.ShiftModifier)
        at = wall.cursor_cell
        item = None if extending else wall.items.at_cell(at.column, at.row)
        if item is None:
            self._go(Cell(at.column + columns, at.row + rows), held)
            return
        laid = item.laid
        column = {1: laid.column + laid.columns, -1: laid.column - 1, 0: at.column}[columns]
        row = {1: laid.row + laid.rows, -1: laid.row - 1, 0: at.row}[rows]
        self._go(Cell(column, row), held)

    def _to_end(self, last: bool, held: Keys) -> None:
        lattice = self._wall.scene.design.quilt.lattice
        column = lattice.across - 1 if last else 0
        row = self._wall.cursor_cell.row
        if held & Keys.ControlModifier:
            row = lattice.down - 1 if last else 0
        self._go(Cell(column, row), held)

    def _go(self, cell: Cell, held: Keys) -> None:
        wall, extending = self._wall, bool(held & Keys.ShiftModifier)
        if not extending:
            self._anchor = None
        elif self._anchor is None:
            self._anchor = wall.cursor_cell
        wall.set_cursor_cell(cell, by_key=True)
        if self._anchor is not None:
            area = _between(self._anchor, wall.cursor_cell)
            inside = [item.id for item in wall.items.in_cells(*area)]
            several = wall.whole(inside, held)
            wall.selection.select(several, area if len(several) == len(inside) else None)
            return
        item = wall.items.at_cell(wall.cursor_cell.column, wall.cursor_cell.row)
        wall.selection.select([] if item is None else wall.whole([item.id], held))

    def _nudge(self, columns: int, rows: int) -> None:
        """Move the selection by a cell; nudges in a row are one step to undo."""
        wall = self._wall
        cells = wall.selection.cells
        if not cells:
            wall.say(message("edit.select-first"))
            return
        at, self._nudging = wall.cursor_cell, True
        edit = call("nudge-blocks", cells=cells, path=(Offset(columns, rows),))
        if wall.document.perform(edit, self._gesture):
            wall.selection.select(Cell(cell.column + columns, cell.row + rows) for cell in cells)
            wall.set_cursor_cell(Cell(at.column + columns, at.row + rows), by_key=True)
        self._nudging = False

    def selected_anew(self) -> None:
        """Another selection: nudges from now on are another step."""
        if not self._nudging:
            self._gesture = object()


def _between(one: Cell, other: Cell) -> Area:
    column, row = min(one.column, other.column), min(one.row, other.row)
    return (column, row, abs(one.column - other.column) + 1, abs(one.row - other.row) + 1)

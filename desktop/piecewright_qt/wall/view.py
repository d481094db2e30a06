"""The Wall: the canvas with selection, drags, keys and words; it turns gestures into edits and calculates nothing."""

from collections.abc import Iterable

from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
)

from piecewright.edit.footprint import Laid
from piecewright.edit.grouping import with_groups
from piecewright.edit.registry import Cell
from piecewright.edit.turning import QuarterTurn
from piecewright.errors import PiecewrightError
from piecewright.model.quilt import Placement
from piecewright.words.message import Message, message
from piecewright_qt.document import Document
from piecewright_qt.look import Look as Dress
from piecewright_qt.messages import words
from piecewright_qt.wall import commands
from piecewright_qt.wall.accessible import WallVoice
from piecewright_qt.wall.camera import Box
from piecewright_qt.wall.canvas import Canvas
from piecewright_qt.wall.describing import describe_cell, describe_place
from piecewright_qt.wall.drops import Drops
from piecewright_qt.wall.gestures import Gesture, begin
from piecewright_qt.wall.hand import Hand
from piecewright_qt.wall.items import Item, Items
from piecewright_qt.wall.keys import WallKeys
from piecewright_qt.wall.loads import ShelfLoad
from piecewright_qt.wall.measuring import Measuring
from piecewright_qt.wall.menu import wall_menu
from piecewright_qt.wall.painting import Painting
from piecewright_qt.wall.rulers import Rulers
from piecewright_qt.wall.scene import Scene, room_near
from piecewright_qt.wall.selection import Selection, alike, all_cells
from piecewright_qt.wall.slips import Slips

Keys = Qt.KeyboardModifier


class WallView(Canvas):
    """The quilt one works on, with its `selection`.

    `description_changed(message)` says what is under the pointer or the cursor, or what a gesture would do;
    `status_changed(text)` says the same in words. `note_asked(number)` asks for a note to be
    written anew, `note_chosen(number or None)` says which is marked.
    """

    description_changed = Signal(object)
    status_changed = Signal(str)
    note_asked = Signal(int)
    note_chosen = Signal(object)

    def __init__(self, document: Document, look: Dress) -> None:
        super().__init__(document, look)
        self.selection = Selection()
        self.gesture: Gesture | None = None
        self.band: Box | None = None
        self.cursor_cell = Cell(0, 0)
        self.shows_cursor = False
        self.space_held = False
        self.drops = Drops(self)
        self.measuring = Measuring(self)
        self.rulers = Rulers(self)
        self.slips = Slips(self)
        self._items: Items | None = None
        self._keys = WallKeys(self)
        self.hand = Hand(self)
        self.marks = Painting(self)
        self._pointer = QPointF(-1, -1)
        self._held = Keys.NoModifier
        self._said: object = None
        self.setObjectName("wall")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAcceptDrops(True)
        self.viewport().setAcceptDrops(True)
        self.viewport().setMouseTracking(True)
        self.selection.changed.connect(self._show_selection)
        document.changed.connect(self._keep_selection)
        self._voice = WallVoice(self)

    # What lies where ------------------------------------------------------------------------------------------

    @property
    def items(self) -> Items:
        """Every placed block of what is shown."""
        scene = self.scene
        if self._items is None or self._items.scene is not scene:
            self._items = Items(scene)
        return self._items

    def laid_at(self, cells: Iterable[Cell]) -> list[Laid]:
        """The blocks of the design as it stands with their top left on these cells."""
        found = (self.still.at(cell.column, cell.row) for cell in cells)
        return [laid for laid in found if laid is not None]

    # What the actions ask for ---------------------------------------------------------------------------------

    def cut(self) -> None:
        """Copy the selected blocks, then take them off the wall."""
        if commands.copy(self):
            commands.remove(self)

    def copy(self) -> None:
        """Copy the selected blocks."""
        commands.copy(self)

    def paste(self) -> None:
        """Lay copied blocks at the pointer, or at the cursor while the keys are used."""
        self.hand.put_back()
        cell = Cell(*self.scene.cell(self.camera.inches(self._pointer)))
        over = self.viewport().rect().contains(self._pointer.toPoint()) and not self.shows_cursor
        commands.paste(self, cell if over and self.scene.is_cell(cell.column, cell.row) else self.cursor_cell)

    def remove(self) -> None:
        """Take the selected blocks off the wall."""
        commands.remove(self)

    def select_all(self) -> None:
        """Select every block."""
        self.selection.select(all_cells(self.document.design))

    def select_alike(self, same_fabrics: bool = False) -> None:
        """Select all blocks like the selected ones; `same_fabrics`: only those in the same fabrics."""
        self.selection.select(alike(self.document.design, self.selection.cells, same_fabrics))

    def turn(self, by: QuarterTurn) -> None:
        """Turn what is in hand, or else the selected blocks, clockwise."""
        if self.hand.carrying is None:
            commands.turn(self, by)
        else:
            self.hand.turn(by)

    def toggle_lock(self) -> None:
        """Lock the selected blocks where they lie, or free them."""
        commands.toggle_lock(self)

    def group(self) -> None:
        """Make one group of the selected blocks."""
        commands.group(self)

    def ungroup(self) -> None:
        """Take the groups of the selected blocks apart."""
        commands.ungroup(self)

    def whole(self, cells: Iterable[Cell], held: Keys = Keys.NoModifier) -> tuple[Cell, ...]:
        """Blocks with the rest of their groups; while Alt is held just these."""
        return tuple(cells) if held & Keys.AltModifier else with_groups(self.still.design.quilt, cells)

    def repeat(self) -> None:
        """Repeat the selected blocks over the cells drawn round them."""
        commands.repeat(self)

    def repeat_everywhere(self) -> None:
        """Repeat the selected blocks over the whole quilt."""
        commands.repeat(self, everywhere=True)

    def restore_fabrics(self) -> None:
        """Give the selected blocks the fabrics their blocks have on the shelf."""
        commands.restore_fabrics(self)

    def next_layer(self) -> None:
        """Show the next block of the batch: of what is in hand, or else in the place of the selected."""
        if self.hand.carrying is None:
            commands.next_layer(self)
        else:
            self.hand.next_layer()

    def take_in_hand(self, block: str, kind: int = 0, layer: int = 0) -> None:
        """Take a block of the shelf in hand: arrows or the pointer move it, Enter or a click sets it down."""
        load = ShelfLoad(self.still.design, Placement(0, block, kind=kind, layer=layer))
        self.hand.hold(load, room_near(self.still, load.columns, load.rows, self.cursor_cell))

    @property
    def edge(self) -> int:
        """The breadth of the rulers."""
        return self.rulers.breadth

    def set_look(self) -> None:
        """Other colors, other type, rulers shown or not."""
        super().set_look()
        self._arrange()

    def toggle_gray(self) -> None:
        """The wall in grays, or in color again."""
        self.show_values(gray=not self.is_gray, squint=self.squints)

    def toggle_squint(self) -> None:
        """The wall as one sees it with half-closed eyes, or sharp again."""
        self.show_values(gray=self.is_gray, squint=not self.squints)

    def toggle_rulers(self) -> None:
        """Show the rulers, or hide them; kept with what the user prefers."""
        self.look.prefer(rulers=not self.look.preferences.rulers)

    def measure(self) -> None:
        """Begin to measure, or be done."""
        self.measuring.toggle()

    def measuring_changed(self) -> None:
        """Measuring began or ended: the pointer says so."""
        self.viewport().update()
        self._dress_pointer()

    def escape(self) -> bool:
        """Give up a gesture, put back what is in hand, or else select nothing. False where there was nothing to do."""
        gesture, self.gesture = self.gesture, None
        if gesture is not None:
            gesture.give_up()
        elif self.hand.carrying is not None:
            self.hand.put_back()
        elif self.selection.cells:
            self.selection.clear()
        else:
            return False
        self._dress_pointer()
        return True

    # Cursor, band and words -----------------------------------------------------------------------------------

    def set_cursor_cell(self, cell: Cell, by_key: bool = False) -> None:
        """Put the cursor on a cell of the lattice, the nearest one inside; seen while the keys are used."""
        column, row = self.scene.nearest_inside(cell)
        self.cursor_cell, self.shows_cursor = Cell(column, row), by_key
        self.viewport().update()
        if by_key:
            self.reveal(self.marks.cursor_rect())
            self.say(describe_cell(self.scene, self.items, column, row))
        self._voice.cursor_moved()

    def set_band(self, band: Box | None) -> None:
        """Show the rectangle being drawn, in inches."""
        self.band = band
        self.viewport().update()

    def say(self, said: Message | PiecewrightError | None) -> None:
        """Tell what is under the pointer, or what a gesture would do."""
        if said is None or said == self._said:
            return
        self._said = said
        self.description_changed.emit(said)
        self.status_changed.emit(words(said, self.look.measure))

    # Qt's own calls -------------------------------------------------------------------------------------------

    def paint_over(self, painter: QPainter, area: QRectF) -> None:
        """Marks over the cloth."""
        self.marks.paint(painter, area)

    def scene_changed(self, before: Scene, after: Scene) -> None:
        """The blocks are others: the tree of accessible blocks is told."""
        super().scene_changed(before, after)
        self._voice.scene_changed(before, after)
        if before.design.quilt.notes != after.design.quilt.notes:
            self.viewport().update()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Begin a gesture."""
        self._pointer, self._held = event.position(), event.modifiers()
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if self.gesture is None:
            self.gesture = begin(self, event.button(), event.position(), event.modifiers())
            self._dress_pointer()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Go on with the gesture, move what is in hand, or tell what lies here."""
        self._pointer, self._held = event.position(), event.modifiers()
        self.rulers.follow(event.position())
        if self.gesture is not None:
            self.gesture.move(event.position(), event.modifiers())
            self._dress_pointer()
        elif self.hand.carrying is not None:
            self.hand.aim(event.position(), event.modifiers())
        elif self.measuring.is_on:
            self.measuring.hover(event.position(), event.modifiers())
        else:
            self.describe_pointer()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """End the gesture."""
        gesture = self.gesture
        if gesture is not None and event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            gesture.release(event.position(), event.modifiers())
            self.gesture = None
            self._dress_pointer()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """The second press of two is a press; on a note it asks for the note."""
        note = None if self.measuring.is_on else self.slips.at(event.position())
        if note is None:
            self.mousePressEvent(event)
        else:
            self.note_asked.emit(note)

    def event(self, event: QEvent) -> bool:
        """Keys that mean what is in hand come here before they are anyone's shortcut."""
        if (
            event.type() == QEvent.Type.ShortcutOverride
            and isinstance(event, QKeyEvent)
            and self._keys.wants(event)
        ):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Cursor, nudges and the hand; Space turns the pointer into a hand that pans."""
        if event.key() == Qt.Key.Key_Space and self.hand.carrying is None:
            self.space_held = True
            self._dress_pointer()
        elif event.key() in (Qt.Key.Key_Control, Qt.Key.Key_Alt):
            self._hold_modifier(event, held=True)
        elif not self._keys.press(event):
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Space lets go of the quilt; Ctrl and Alt change what a drag means."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self.space_held = False
            self._dress_pointer()
        elif event.key() in (Qt.Key.Key_Control, Qt.Key.Key_Alt):
            self._hold_modifier(event, held=False)
        else:
            event.ignore()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """Show the cursor to who came by keys."""
        super().focusInEvent(event)
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self.set_cursor_cell(self.cursor_cell, by_key=True)

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """Keys held here are no longer known."""
        super().focusOutEvent(event)
        self.space_held = False
        self.viewport().update()

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """Nothing is under the pointer any more."""
        super().leaveEvent(event)
        self._pointer = QPointF(-1, -1)
        self.rulers.follow(None)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: N802 - Qt's name
        """What can be done with what is selected, or with the block under the pointer."""
        if event.reason() == QContextMenuEvent.Reason.Keyboard:
            place = self.viewport().mapToGlobal(self.marks.cursor_rect().center().toPoint())
        else:
            place = event.globalPos()
            note = self.slips.at(QPointF(event.pos()))
            if note is not None:
                self.slips.menu(note).popup(place)
                return
            item = self.items.at(self.camera.inches(QPointF(event.pos())))
            if item is not None and item.id not in self.selection:
                self.selection.select([item.id])
        self.escape() if self.hand.carrying is not None else None
        wall_menu(self).popup(place)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """Take up what comes from the shelf or another window."""
        if self.drops.enter(event.mimeData()):
            self._drag_to(event)
        else:
            event.ignore()

    def dragMoveEvent(self, event: QDragMoveEvent) -> None:  # noqa: N802 - Qt's name
        """Aim it."""
        if self.hand.carrying is None and self.drops.fabric is None:
            event.ignore()
        else:
            self._drag_to(event)

    def dragLeaveEvent(self, event: QDragLeaveEvent) -> None:  # noqa: N802 - Qt's name
        """It went elsewhere, or Escape gave it up."""
        del event
        self.drops.leave()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Set it down."""
        self._drag_to(event)
        self.setFocus(Qt.FocusReason.MouseFocusReason)
        if self.drops.drop():
            event.acceptProposedAction()
        else:
            event.setDropAction(Qt.DropAction.IgnoreAction)
            event.accept()

    # Inside ---------------------------------------------------------------------------------------------------

    def item_at_screen(self, x: int, y: int) -> Item | None:
        """The block at a point of the screen."""
        point = self.viewport().mapFromGlobal(QPoint(x, y))
        inside = self.viewport().rect().contains(point)
        return self.items.at(self.camera.inches(QPointF(point))) if inside else None

    def screen_rect(self, box: Box | None) -> QRect:
        """Where a box of the quilt is on the screen; None: the whole view."""
        rect = self.viewport().rect() if box is None else self.camera.rect(box).toAlignedRect()
        return QRect(self.viewport().mapToGlobal(rect.topLeft()), rect.size())

    def _drag_to(self, event: QDropEvent) -> None:
        self._pointer, self._held = event.position(), event.modifiers()
        self.drops.move(event.position(), event.modifiers())
        event.acceptProposedAction()

    def describe_pointer(self) -> None:
        """Tell what lies under the pointer."""
        note = self.slips.at(self._pointer)
        if note is not None:
            self.say(message("wall.note", text=self.slips.notes[note].text))
        elif self.viewport().rect().contains(self._pointer.toPoint()):
            self.say(describe_place(self.scene, self.items, self.camera.inches(self._pointer)))

    def _show_selection(self) -> None:
        self.viewport().update()
        self._keys.selected_anew()
        self._voice.selection_changed()
        if len(self.selection) > 1:
            self.say(message("wall.selected", count=len(self.selection)))

    def _keep_selection(self, before: object, after: object) -> None:
        """Let go of what is no longer there; another arrangement has nothing selected."""
        del before, after
        still = self.still
        there = {(laid.column, laid.row) for laid, _ in still.hung}
        self.selection.keep(lambda cell: (cell.column, cell.row) in there)

    def _hold_modifier(self, event: QKeyEvent, held: bool) -> None:
        """Ctrl or Alt went down or up in the middle of a drag."""
        key = Keys.ControlModifier if event.key() == Qt.Key.Key_Control else Keys.AltModifier
        self._held = self._held | key if held else self._held & ~key
        if isinstance(self.gesture, Gesture) and self.hand.carrying is not None:
            self.hand.aim_again(self._held)
            event.accept()
        else:
            event.ignore()

    def _dress_pointer(self) -> None:
        """The pointer's shape says what a press would do."""
        shapes = Qt.CursorShape
        grabbing = self.gesture is not None and (self.hand.carrying is not None or self.space_held)
        free = shapes.CrossCursor if self.measuring.is_on else shapes.ArrowCursor
        open_or_not = shapes.OpenHandCursor if self.space_held else free
        shape = shapes.ClosedHandCursor if grabbing else open_or_not
        if self.viewport().cursor().shape() != shape:
            self.viewport().setCursor(shape)

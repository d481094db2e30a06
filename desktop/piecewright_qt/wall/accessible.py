"""The wall for assistive technology: a list whose items are the placed blocks, by name and position."""

from typing import TYPE_CHECKING
from weakref import WeakValueDictionary, ref

from PySide6.QtCore import QObject, QRect
from PySide6.QtGui import QAccessible, QAccessibleEvent, QAccessibleInterface, QColor, QWindow
from PySide6.QtWidgets import QAccessibleWidget

from piecewright.words.message import message
from piecewright_qt.messages import words
from piecewright_qt.wall.describing import describe_block, describe_empty, describe_quilt
from piecewright_qt.wall.items import Item
from piecewright_qt.wall.scene import Scene

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

_VOICES: "WeakValueDictionary[int, WallVoice]" = WeakValueDictionary()
"""The voice of each wall by the identity of the wall, which holds it; the factory knows walls by it."""


class WallVoice:
    """Tells assistive technology what the wall shows and where cursor and selection are."""

    def __init__(self, wall: "WallView") -> None:
        self.wall = wall
        self.tree = WallTree(wall)
        _VOICES[id(wall)] = self
        _install()

    def cursor_moved(self) -> None:
        """The block at the cursor has the focus."""
        cell = self.wall.cursor_cell
        item = self.wall.items.at_cell(cell.column, cell.row) if QAccessible.isActive() else None
        index = None if item is None else self.wall.items.index(item.id)
        if index is not None and self.wall.hasFocus():
            self._tell(QAccessible.Event.Focus, index)

    def scene_changed(self, before: Scene, after: Scene) -> None:
        """Blocks came, went or moved."""
        if QAccessible.isActive() and before.hung != after.hung:
            self.tree.forget()
            self._tell(QAccessible.Event.ObjectReorder)

    def selection_changed(self) -> None:
        """Other blocks are selected."""
        if QAccessible.isActive():
            self._tell(QAccessible.Event.SelectionWithin)

    def _tell(self, kind: QAccessible.Event, child: int = -1) -> None:
        event = QAccessibleEvent(self.wall, kind)
        if child >= 0:
            event.setChild(child)
        QAccessible.updateAccessibility(event)


class WallTree(QAccessibleWidget):
    """The wall as a list of blocks."""

    def __init__(self, wall: "WallView") -> None:
        super().__init__(wall, QAccessible.Role.List, wall.objectName())
        self._wall_seen = ref(wall)
        self._children: dict[int, BlockVoice] = {}

    @property
    def _wall(self) -> "WallView":
        """The wall; Qt may keep this list longer than the wall, but asks nothing of it then."""
        return _alive(self._wall_seen)

    def forget(self) -> None:
        """The list is another: its items are asked for anew."""
        self._children.clear()

    def childCount(self) -> int:  # noqa: N802 - Qt's name
        """How many blocks hang on the wall."""
        return len(self._wall.items)

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override] # none there is none
        """A placed block."""
        if not 0 <= index < self.childCount():
            return None
        found = self._children.get(index)
        if found is None:
            found = self._children[index] = BlockVoice(self._wall, self, index)
        return found

    def indexOfChild(self, child: QAccessibleInterface) -> int:  # noqa: N802 - Qt's name
        """The place of a block in the list."""
        return child.index if isinstance(child, BlockVoice) else -1

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: N802 - Qt's name
        """The block at a point of the screen."""
        item = self._wall.item_at_screen(x, y)
        index = None if item is None else self._wall.items.index(item.id)
        return None if index is None else self.child(index)

    def focusChild(self) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: N802 - Qt's name
        """The block at the cursor."""
        cell = self._wall.cursor_cell
        item = self._wall.items.at_cell(cell.column, cell.row)
        index = None if item is None else self._wall.items.index(item.id)
        return self if index is None else self.child(index)

    def text(self, kind: QAccessible.Text) -> str:
        """The wall's name, and what the whole quilt is."""
        measure = self._wall.look.measure
        if kind == QAccessible.Text.Name:
            return words(message("wall.name"), measure)
        if kind == QAccessible.Text.Description:
            scene = self._wall.scene
            return words(describe_quilt(scene) if scene.hung else describe_empty(scene), measure)
        return ""

    def state(self) -> QAccessible.State:
        """Several blocks may be selected."""
        state = super().state()
        state.multiSelectable = True
        state.extSelectable = True
        return state


class BlockVoice(QAccessibleInterface):
    """One placed block: its name with its position, its size, where it is on the screen, whether it is selected."""

    def __init__(self, wall: "WallView", tree: WallTree, index: int) -> None:
        super().__init__()
        self._wall_seen = ref(wall)
        self._tree = tree
        self.index = index

    @property
    def _wall(self) -> "WallView":
        return _alive(self._wall_seen)

    @property
    def item(self) -> Item | None:
        """The block in the one list of items; None once the list is shorter."""
        items = self._wall.items
        return items[self.index] if self.index < len(items) else None

    def isValid(self) -> bool:  # noqa: N802 - Qt's name
        """Whether the block is still there."""
        return self.item is not None

    def object(self) -> QObject | None:  # type: ignore[override]
        """No object of its own."""
        return None

    def window(self) -> QWindow | None:  # type: ignore[override]
        """The window that the wall is in."""
        return self._wall.window().windowHandle()

    def parent(self) -> QAccessibleInterface:
        """The wall."""
        return self._tree

    def childCount(self) -> int:  # noqa: N802 - Qt's name
        """None."""
        return 0

    def child(self, index: int) -> QAccessibleInterface | None:  # type: ignore[override]
        """None."""
        del index
        return None

    def childAt(self, x: int, y: int) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: N802 - Qt's name
        """None."""
        del x, y
        return None

    def indexOfChild(self, child: QAccessibleInterface) -> int:  # noqa: N802 - Qt's name
        """None."""
        del child
        return -1

    def focusChild(self) -> QAccessibleInterface | None:  # type: ignore[override]  # noqa: N802 - Qt's name
        """None."""
        return None

    def role(self) -> QAccessible.Role:
        """An item of a list."""
        return QAccessible.Role.ListItem

    def text(self, kind: QAccessible.Text) -> str:
        """Its name, such as "Middle turned, column 3 row 2, turned 90", and its size as its description."""
        item, measure = self.item, self._wall.look.measure
        if item is None:
            return ""
        if kind == QAccessible.Text.Name:
            return words(item.name, measure)
        if kind == QAccessible.Text.Description:
            return words(describe_block(self._wall.scene, self._wall.items, item), measure)
        return ""

    def setText(self, kind: QAccessible.Text, text: str) -> None:  # noqa: N802 - Qt's name
        """A block's name is not changed here."""
        del kind, text

    def rect(self) -> QRect:
        """Where the block is on the screen."""
        item = self.item
        return QRect() if item is None else self._wall.screen_rect(item.box)

    def state(self) -> QAccessible.State:
        """Selectable and focusable; selected and focused as the wall says."""
        state, item, wall = QAccessible.State(), self.item, self._wall
        state.selectable = state.focusable = state.multiSelectable = True
        if item is None:
            state.invalid = True
            return state
        state.selected = item.id in wall.selection
        at = wall.items.at_cell(wall.cursor_cell.column, wall.cursor_cell.row)
        state.focused = wall.hasFocus() and at is not None and at.id == item.id
        state.offscreen = not self.rect().intersects(wall.screen_rect(None))
        return state

    def foregroundColor(self) -> QColor:  # noqa: N802 - Qt's name
        """The wall's."""
        return QColor(self._wall.look.theme.text)

    def backgroundColor(self) -> QColor:  # noqa: N802 - Qt's name
        """The wall's."""
        return QColor(self._wall.look.theme.flannel)


def _alive(seen: "ref[WallView]") -> "WallView":
    wall = seen()
    if wall is None:
        raise ReferenceError("the wall is gone")
    return wall


def _wall_interface(name: str, thing: QObject | None) -> QAccessibleInterface | None:
    """Qt's question for the interface of an object: ours for walls, none for the rest."""
    del name
    voice = _VOICES.get(id(thing)) if thing is not None else None
    return None if voice is None else voice.tree


def _install() -> None:
    if not _installed:
        QAccessible.installFactory(_wall_interface)
        _installed.append(True)


_installed: list[bool] = []

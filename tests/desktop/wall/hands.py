"""Hands for the wall: the mouse as Qt delivers it, and drags from elsewhere."""

from PySide6.QtCore import QEvent, QMimeData, QPoint, QPointF, Qt
from PySide6.QtGui import (
    QDragEnterEvent,
    QDragLeaveEvent,
    QDragMoveEvent,
    QDropEvent,
    QMouseEvent,
    QWheelEvent,
)
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright_qt.wall.carrying import Carrying
from piecewright_qt.wall.view import WallView

Keys = Qt.KeyboardModifier
NONE, SHIFT, CTRL, ALT = Keys.NoModifier, Keys.ShiftModifier, Keys.ControlModifier, Keys.AltModifier
LEFT, MIDDLE = Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton


def at(wall: WallView, column: float, row: float) -> QPoint:
    """A point of the view: so many cells right of and below the lattice's top left."""
    left, top, unit = wall.scene.center[0], wall.scene.center[1], wall.scene.unit
    return wall.camera.point((left + column * unit, top + row * unit)).toPoint()


def press(wall: WallView, point: QPoint, keys: Keys = NONE, button: Qt.MouseButton = LEFT) -> None:
    """Press a button."""
    QTest.mousePress(wall.viewport(), button, keys, point)


def move(wall: WallView, point: QPoint, keys: Keys = NONE, button: Qt.MouseButton = LEFT) -> None:
    """Move with a button held."""
    port = wall.viewport()
    place = QPointF(point)
    event = QMouseEvent(
        QEvent.Type.MouseMove, place, port.mapToGlobal(place), Qt.MouseButton.NoButton, button, keys
    )
    QApplication.sendEvent(port, event)


def release(wall: WallView, point: QPoint, keys: Keys = NONE, button: Qt.MouseButton = LEFT) -> None:
    """Let a button go."""
    QTest.mouseRelease(wall.viewport(), button, keys, point)


def click(wall: WallView, point: QPoint, keys: Keys = NONE) -> None:
    """Press and let go."""
    QTest.mouseClick(wall.viewport(), LEFT, keys, point)


def pull(
    wall: WallView, start: QPoint, end: QPoint, keys: Keys = NONE, button: Qt.MouseButton = LEFT
) -> None:
    """Press and move on in steps, the button still held; keys from the first move on."""
    press(wall, start, NONE if keys in (CTRL, ALT) else keys, button)
    for step in range(1, 9):
        move(wall, start + (end - start) * step / 8, keys, button)


def drag(
    wall: WallView, start: QPoint, end: QPoint, keys: Keys = NONE, button: Qt.MouseButton = LEFT
) -> None:
    """Press, move, let go."""
    pull(wall, start, end, keys, button)
    release(wall, end, keys, button)


def drag_in(wall: WallView, data: QMimeData, point: QPoint, keys: Keys = NONE) -> bool:
    """A drag comes in over the wall. Whether the wall would take it."""
    action = Qt.DropAction.CopyAction
    event = QDragEnterEvent(point, action, data, LEFT, keys)
    event.setAccepted(False)
    QApplication.sendEvent(wall.viewport(), event)
    return event.isAccepted()


def drag_over(wall: WallView, data: QMimeData, point: QPoint, keys: Keys = NONE) -> None:
    """A drag moves on."""
    QApplication.sendEvent(wall.viewport(), QDragMoveEvent(point, Qt.DropAction.CopyAction, data, LEFT, keys))


def drag_away(wall: WallView) -> None:
    """A drag leaves, or is given up by Escape."""
    QApplication.sendEvent(wall.viewport(), QDragLeaveEvent())


def drop(wall: WallView, data: QMimeData, point: QPoint, keys: Keys = NONE) -> bool:
    """A drag comes in, moves to a point and is dropped. Whether something came of it."""
    if not drag_in(wall, data, point, keys):
        return False
    drag_over(wall, data, point, keys)
    event = QDropEvent(QPointF(point), Qt.DropAction.CopyAction, data, LEFT, keys)
    QApplication.sendEvent(wall.viewport(), event)
    return event.dropAction() == Qt.DropAction.CopyAction


def wheel(wall: WallView, point: QPoint, notches: float, keys: Keys = NONE) -> None:
    """Turn the wheel of a mouse."""
    place = QPointF(point)
    event = QWheelEvent(
        place,
        wall.viewport().mapToGlobal(place),
        QPoint(),
        QPoint(0, round(120 * notches)),
        Qt.MouseButton.NoButton,
        keys,
        Qt.ScrollPhase.NoScrollPhase,
        False,  # noqa: FBT003 - Qt's own signature
    )
    QApplication.sendEvent(wall.viewport(), event)


def slide(wall: WallView, point: QPoint, pixels: QPoint, keys: Keys = NONE) -> None:
    """Two fingers move on a trackpad."""
    place = QPointF(point)
    event = QWheelEvent(
        place,
        wall.viewport().mapToGlobal(place),
        pixels,
        pixels,
        Qt.MouseButton.NoButton,
        keys,
        Qt.ScrollPhase.ScrollUpdate,
        False,  # noqa: FBT003 - Qt's own signature
    )
    QApplication.sendEvent(wall.viewport(), event)


def key(wall: WallView, which: Qt.Key, keys: Keys = NONE) -> None:
    """Press a key and let it go."""
    QTest.keyClick(wall, which, keys)


def carried(wall: WallView) -> Carrying | None:
    """What the hand holds now."""
    return wall.hand.carrying


def tag(wall: WallView) -> str:
    """The word that what is carried bears; none where it bears none."""
    now = carried(wall)
    return "" if now is None or now.tag is None else str(now.tag)


def placed(design: Design) -> dict[tuple[int, int], Placement]:
    """Every placement by its top left column and row."""
    return {(one.column, row.row): one for row in design.quilt.rows for one in row.placements}


def blocks(design: Design) -> dict[tuple[int, int], str]:
    """The id of every placed block by its top left column and row."""
    return {place: one.block for place, one in placed(design).items()}


def selected(wall: WallView) -> list[tuple[int, int]]:
    """The selected cells, sorted."""
    return sorted((cell.column, cell.row) for cell in wall.selection.cells)


def cells(*places: tuple[int, int]) -> list[Cell]:
    """Cells by column and row."""
    return [Cell(*place) for place in places]

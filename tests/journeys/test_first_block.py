"""A block invented with mouse alone: a strip pieced nine-patch from nothing, and what the wall then has of it."""

from fractions import Fraction

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright_qt.sewing_table.table_top import TableTop
from piecewright_qt.wall.mime import fabric_mime
from piecewright_qt.workroom import Workroom
from tests.desktop.sewing_table.hands import drop_on
from tests.journeys.user import User, new_design

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
SHIFT = Qt.KeyboardModifier.ShiftModifier


def drag(top: TableTop, start: QPointF, end: QPointF, keys: Qt.KeyboardModifier = NONE) -> None:
    """Press, move, let go, as Qt delivers it."""
    QTest.mousePress(top, LEFT, NONE, start.toPoint())
    for share in (0.3, 0.7, 1.0):
        at = start + (end - start) * share
        event = QMouseEvent(
            QEvent.Type.MouseMove, at, top.mapToGlobal(at), Qt.MouseButton.NoButton, LEFT, keys
        )
        QApplication.sendEvent(top, event)
    QTest.mouseRelease(top, LEFT, keys, end.toPoint())
    QApplication.processEvents()


def sew_below(top: TableTop, name: str, to: str) -> None:
    """Drag a piece to the lower edge of another."""
    piece, other = top.piece(name), top.piece(to)
    assert piece is not None
    assert other is not None
    drag(top, piece.rect.center(), QPointF(other.rect.center().x(), other.rect.bottom() + 4))


def begun(workroom: Workroom, qtbot: QtBot) -> User:
    user = new_design(workroom, qtbot)
    user.window.resize(1500, 940)
    user.action("begin-block").trigger()
    QApplication.processEvents()
    return user


def test_a_nine_patch_of_one_set_is_invented_with_the_mouse_alone(workroom: Workroom, qtbot: QtBot) -> None:
    user = begun(workroom, qtbot)
    table = user.window.table
    top, bench = table.work.top, table.bench
    for index in (1, 0):
        drop_on(top, fabric_mime(user.design.fabrics[index].id), QPoint(80, 40))
    assert [piece.name for piece in top.pieces] == ["strip", "strip2", "strip3"]
    sew_below(top, "strip2", "strip")
    sew_below(top, "strip3", "sewn")
    assert bench.facts is not None
    assert bench.facts.unfinished.height == Fraction("6.5")
    piece = top.piece("sewn")
    assert piece is not None
    start = QPointF(piece.rect.left(), piece.rect.center().y() + 8)
    drag(top, start, start + QPointF(2.5 * piece.inch, 0), SHIFT)
    assert len(top.pieces) == 8
    middle = top.piece("part.2")
    assert middle is not None
    QTest.mouseClick(top, LEFT, NONE, middle.rect.center().toPoint())
    assert bench.fault_step is None
    block = bench.block
    assert block is not None
    assert block.name in [one.name for one in user.design.blocks]
    for _ in range(20):
        if not user.window.document.undo_stack.canUndo():
            break
        user.window.document.undo()
    assert block.id not in [one.id for one in user.design.blocks]


def test_two_blocks_begun_by_hand_do_not_change_each_other(workroom: Workroom, qtbot: QtBot) -> None:
    user = begun(workroom, qtbot)
    user.window.back_to_wall()
    user.action("begin-block").trigger()
    one, other = user.design.blocks[-2:]
    assert one.name != other.name
    assert one.recipe != other.recipe

"""A quilt brought to a size, once with the mouse and once by keys alone, through the real window."""

from fractions import Fraction

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright_qt.materials.ways_part import WaysPart
from piecewright_qt.workroom import Workroom
from tests.journeys.user import CTRL, SHIFT, User, new_design

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
Keys = Qt.Key


def wait(user: User, ways: WaysPart) -> None:
    """Until the ways are there and painted."""
    user.window.workroom.runner.finish()
    QApplication.processEvents()
    user.qtbot.waitUntil(lambda: ways.list.pictures.is_idle, timeout=20_000)


def test_with_the_mouse_a_size_is_typed_ways_are_looked_at_and_one_is_kept(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    before = user.design
    user.press("Resize the quilt", user.window.materials)
    ways = user.window.materials.resizer.ways
    QTest.mouseClick(ways.wish.target, LEFT)
    QTest.keyClicks(ways.wish.target, "66 x 80")
    user.press("Show ways", ways)
    wait(user, ways)
    cards = ways.list
    assert cards.cards.rowCount() > 1
    row = cards.cards.index(1, 0)
    cards.scrollTo(row)
    QTest.mouseMove(cards.viewport(), cards.visualRect(row).center())
    way = cards.cards.cards[1].way
    QTest.mouseClick(cards.viewport(), LEFT, NONE, cards.visualRect(row).center())
    assert user.window.document.shown == way.design
    assert user.window.wall.scene.design is user.window.document.shown
    assert user.design == before
    user.press("Keep this size", user.window.materials)
    assert user.design == way.design
    assert user.window.document.undo_stack.undoText() == "Resize the quilt"
    user.key(Keys.Key_Z, CTRL)
    assert user.design == before


def test_by_keys_a_bed_is_chosen_its_ways_are_stepped_through_and_one_is_kept(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    before = user.design
    user.key(Keys.Key_R, CTRL)
    ways = user.window.materials.resizer.ways
    assert QApplication.focusWidget() is ways.wish.target
    QTest.keyClick(ways.wish.target, Keys.Key_Backtab, SHIFT)
    box = QApplication.focusWidget()
    assert box is not None
    assert box is ways.wish.kind.box
    while ways.wish.kind.value != "bed:twin":
        QTest.keyClick(box, Keys.Key_Down)
    wait(user, ways)
    while QApplication.focusWidget() is not ways.list:
        QTest.keyClick(QApplication.focusWidget() or user.window, Keys.Key_Tab)
    QTest.keyClick(ways.list, Keys.Key_Down)
    way = ways.way
    assert way is not None
    assert user.window.document.shown == way.design
    QTest.keyClick(ways.list, Keys.Key_Return)
    assert user.design == way.design
    assert not user.window.materials.resizer.isVisible()
    size = user.design.quilt.finished
    assert Fraction(size.width) > Fraction(before.quilt.finished.width)
    user.key(Keys.Key_Z, CTRL)
    assert user.design == before

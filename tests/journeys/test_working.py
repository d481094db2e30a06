"""Working at the wall: group, pin a note, measure, count, hang what waits, replace, and go back by the list."""

from fractions import Fraction

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from piecewright.plan.tray import trays
from piecewright_qt.arranging.drawer import ArrangeDrawer
from piecewright_qt.history import HistoryDrawer
from piecewright_qt.notes_drawer import NotesDrawer
from piecewright_qt.workroom import Workroom
from tests.desktop.wall.hands import at, drag, selected
from tests.journeys.user import ALT, CTRL, NONE, SHIFT, new_design

LEFT = Qt.MouseButton.LeftButton
RAILS = "Rail fence of four"


def test_blocks_are_grouped_dragged_and_turned_as_one_and_taken_apart(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_block(RAILS, 2, 2)
    user.drop_block(RAILS, 6, 2)
    user.drop_block(RAILS, 18, 18)
    wall = user.window.wall
    user.band((-0.5, -0.5), (7.5, 3.5))
    user.key(Qt.Key.Key_G)
    user.key(Qt.Key.Key_Escape)
    user.click(2, 2)
    assert selected(wall) == [(0, 0), (4, 0)]
    drag(wall, user.cell(2, 2), user.cell(6, 10))
    assert selected(wall) == [(4, 8), (8, 8)]
    user.key(Qt.Key.Key_R)
    assert selected(wall) == [(6, 6), (6, 10)]
    user.click(8, 8, ALT)
    assert len(selected(wall)) == 1
    user.key(Qt.Key.Key_G, SHIFT)
    user.click(8, 8)
    assert len(selected(wall)) == 1


def test_a_note_is_pinned_written_and_dragged(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    user.key(Qt.Key.Key_Escape)
    user.key(Qt.Key.Key_N)
    drawer = user.window.findChild(NotesDrawer)
    assert drawer is not None
    QTest.keyClicks(drawer.text.area, "Brighter here")
    assert [note.text for note in user.design.quilt.notes] == ["Brighter here"]
    before = user.design.quilt.notes[0]
    wall = user.window.wall
    start = wall.slips.rect(0).center().toPoint()
    drag(wall, start, start + (at(wall, 4, 0) - at(wall, 0, 0)))
    moved = user.design.quilt.notes[0].across - before.across
    assert abs(moved - 8) <= Fraction(1, 4)  # a pixel of the screen is as much
    QTest.keyClick(drawer, Qt.Key.Key_Escape)
    user.key(Qt.Key.Key_Z, CTRL)
    assert user.design.quilt.notes[0] == before


def test_measuring_says_what_lies_between_two_corners(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    user.key(Qt.Key.Key_R, CTRL | SHIFT)
    assert user.window.wall.rulers.breadth > 0
    before = user.design
    user.key(Qt.Key.Key_M)
    drag(user.window.wall, user.cell(0, 0) + QPoint(2, 3), user.cell(20, 8) + QPoint(-3, 2))
    assert user.window.status_text.startswith("40 in wide, 16 in high")
    user.key(Qt.Key.Key_Escape)
    user.key(Qt.Key.Key_Escape)
    assert user.design == before


def test_made_blocks_are_counted_hung_replaced_and_all_taken_back_by_the_list(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    shelf = user.window.shelf.blocks
    shelf.list.choose(shelf.model.index_of(user.block(RAILS)))
    shelf.list.setFocus()
    for _ in range(13):
        QTest.keyClick(shelf.list, Qt.Key.Key_M)
    assert trays(user.design)[user.block(RAILS)].to_place == 3
    user.key(Qt.Key.Key_J, CTRL)
    drawer = user.window.findChild(ArrangeDrawer)
    assert drawer is not None
    QTest.mouseClick(drawer.hang, LEFT)
    QTest.mouseClick(drawer.set_down, LEFT)
    assert user.count == 13
    QTest.keyClick(drawer, Qt.Key.Key_Escape)

    shelf.list.setFocus()
    QTest.keyClick(shelf.list, Qt.Key.Key_D)
    copy = shelf.chosen
    assert copy is not None
    shelf.list.choose(shelf.model.index_of(user.block(RAILS)))
    QTest.keyClick(shelf.list, Qt.Key.Key_E)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    menu.setActiveAction(next(one for one in menu.actions() if one.text() == copy.block.name))
    QTest.keyClick(menu, Qt.Key.Key_Return)
    assert user.design.quilt.blocks == {copy.id}

    user.key(Qt.Key.Key_H, CTRL)
    history = user.window.findChild(HistoryDrawer)
    assert history is not None
    words = [history.model.data(history.model.index(row, 0)) for row in range(history.model.rowCount())]
    assert words[-4:] == [
        "Count the blocks made",
        "Arrange the blocks",
        f"Add the block {copy.block.name}",
        "Replace a block everywhere",
    ]
    place = history.list.visualRect(history.model.index(10, 0)).center()
    QTest.mouseClick(history.list.viewport(), LEFT, NONE, place)
    assert user.count == 10
    assert user.design.shelf.blocks[user.block(RAILS)].made == 0

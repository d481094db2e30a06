"""Assistive technology sees a list whose items are the placed blocks."""

from PySide6.QtGui import QAccessible
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import cells

Name, Description = QAccessible.Text.Name, QAccessible.Text.Description


def names(wall: WallView) -> list[str]:
    """What the items are called."""
    tree = QAccessible.queryAccessibleInterface(wall)
    return [tree.child(index).text(Name) for index in range(tree.childCount())]


def test_the_wall_is_a_list_that_says_what_the_quilt_is(hang: Hang) -> None:
    tree = QAccessible.queryAccessibleInterface(hang(quilts.mixed()))
    assert tree.role() == QAccessible.Role.List
    assert tree.text(Name) == "Wall"
    assert tree.text(Description) == "Quilt of 24 columns and 18 rows, 8 blocks, 48 x 36 in finished"
    assert tree.state().multiSelectable
    assert tree.state().focusable


def test_an_empty_wall_says_what_to_do(hang: Hang) -> None:
    tree = QAccessible.queryAccessibleInterface(hang(quilts.empty()))
    assert tree.childCount() == 0
    assert tree.text(Description).startswith("Drag a block from the shelf to here, or press Enter")


def test_with_an_empty_shelf_the_wall_asks_for_a_block_first(hang: Hang) -> None:
    tree = QAccessible.queryAccessibleInterface(hang(quilts.empty().changed(blocks=())))
    assert tree.text(Description) == "Add a block to the shelf first; then drag it here."


def test_every_placed_block_is_an_item_with_its_name_and_position(hang: Hang) -> None:
    assert names(hang(quilts.mixed())) == [
        "Middle end for end, column 1 row 1",
        "Two halves from thirds, column 7 row 1",
        "Rail fence of three, column 10 row 1",
        "Slanted exchange, column 13 row 1",
        "Rail fence of four, column 17 row 1, turned 90",
        "Rail fence of three, column 10 row 4, turned 90",
        "Two halves from thirds, column 1 row 7, turned 90",
        "Framed four-patch from a stack, column 7 row 7",
    ]


def test_an_item_is_where_its_block_is_and_knows_its_parent(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    tree = QAccessible.queryAccessibleInterface(wall)
    for index in range(tree.childCount()):
        child = tree.child(index)
        middle = child.rect().center()
        assert tree.childAt(middle.x(), middle.y()).text(Name) == child.text(Name)
        assert tree.indexOfChild(child) == index
        assert child.role() == QAccessible.Role.ListItem
        assert child.parent().role() == QAccessible.Role.List
        assert not child.state().offscreen
    wall.zoom_100()
    assert any(tree.child(index).state().offscreen for index in range(tree.childCount()))


def test_selection_and_focus_are_states(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    wall.selection.select(cells((9, 0)))
    wall.set_cursor_cell(Cell(9, 4), by_key=True)
    tree = QAccessible.queryAccessibleInterface(wall)
    states = {tree.child(index).text(Name): tree.child(index).state() for index in range(tree.childCount())}
    assert [name for name, state in states.items() if state.selected] == [
        "Rail fence of three, column 10 row 1"
    ]
    focused = [name for name, state in states.items() if state.focused]
    assert focused == ["Rail fence of three, column 10 row 4, turned 90"]
    assert tree.focusChild().text(Name) == focused[0]
    assert all(state.selectable for state in states.values())


def test_the_list_follows_every_edit(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    before = names(wall)
    wall.document.perform(call("remove-blocks", cells=(Cell(0, 0),)))
    assert names(wall) == before[1:]
    wall.document.perform(call("place-block", block=quilts.RAIL, cell=Cell(20, 14), turn=180))
    assert names(wall)[-1] == "Rail fence of three, column 21 row 15, turned 180"
    wall.document.undo()
    wall.document.undo()
    assert names(wall) == before


def test_an_item_that_is_gone_says_so(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    last = QAccessible.queryAccessibleInterface(wall).child(7)
    assert last.isValid()
    wall.document.perform(call("remove-blocks", cells=(Cell(0, 0), Cell(6, 0))))
    assert not last.isValid()
    assert last.text(Name) == ""
    assert last.rect().isNull()
    assert last.state().invalid


def test_two_walls_have_each_their_own_list(hang: Hang) -> None:
    one, other = hang(quilts.mixed()), hang(quilts.rails(2, 2))
    assert QAccessible.queryAccessibleInterface(one).childCount() == 8
    assert QAccessible.queryAccessibleInterface(other).childCount() == 4


def test_moving_the_cursor_tells_which_block_has_the_focus(hang: Hang, qtbot: QtBot) -> None:
    del qtbot
    wall = hang(quilts.mixed())
    told: list[tuple[QAccessible.Event, int]] = []
    wall._voice._tell = lambda kind, child=-1: told.append((kind, child))  # type: ignore[method-assign]
    QAccessible.setActive(True)
    try:
        wall.set_cursor_cell(Cell(9, 4), by_key=True)
        wall.selection.select(cells((9, 3)))
        wall.document.perform(call("remove-blocks", cells=(Cell(0, 0),)))
        assert wall.scene is not None
    finally:
        QAccessible.setActive(False)
    assert (QAccessible.Event.Focus, 5) in told
    assert (QAccessible.Event.SelectionWithin, -1) in told
    assert (QAccessible.Event.ObjectReorder, -1) in told

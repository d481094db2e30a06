"""To the Cutting table and back: a quilt is cut and shopped for, once with the mouse and once by keys alone."""

from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.cutting.table import best_cutting, cutting_plan
from piecewright_qt.cutting_table.cuts_list import CutsList
from piecewright_qt.cutting_table.table import CuttingTable
from piecewright_qt.workroom import Workroom
from tests.journeys.user import User, new_design

LEFT = Qt.MouseButton.LeftButton
Key = Qt.Key


def cutter(workroom: Workroom, qtbot: QtBot) -> tuple[User, CuttingTable]:
    """Ten blocks hang, and the quilter has stepped up to the table; the best plan is found."""
    user = new_design(workroom, qtbot)
    user.drop_ten()
    user.keys("cutting-table")
    table = user.window.cutting
    assert user.window.places.currentWidget() is table
    settle(workroom, table, qtbot)
    return user, table


def settle(workroom: Workroom, table: CuttingTable, qtbot: QtBot) -> None:
    """Wait for the best plan."""
    qtbot.waitUntil(lambda: table.work.is_searched and workroom.runner.is_idle, timeout=30_000)


def first_box(cuts: CutsList) -> int:
    """The first row that can be ticked."""
    return next(
        row for row in range(cuts.count()) if cuts.item(row).flags() & Qt.ItemFlag.ItemIsUserCheckable
    )


def test_a_quilt_is_cut_with_the_mouse(
    workroom: Workroom, qtbot: QtBot, chosen: list[Path | None], own_folders: Path
) -> None:
    user, table = cutter(workroom, qtbot)
    wanted = best_cutting(cutting_plan(user.design))
    assert [each.plan for each in table.work.table.fabrics] == [each.plan for each in wanted.fabrics]

    place = table.fabrics.rows.place(("cloth", wanted.fabrics[1].fabric))
    assert place is not None
    rect = table.fabrics.visualRect(table.fabrics.rows.index(place))
    QTest.mouseClick(table.fabrics.viewport(), LEFT, pos=rect.center())
    assert table.work.fabric == wanted.fabrics[1].fabric

    spot = next(spot for spot in table.canvas.spots if spot.key.split()[0] not in ("backing", "binding"))
    QTest.mouseClick(table.canvas.viewport(), LEFT, pos=table.canvas.middle_of(spot))
    assert table.canvas.describe(spot) == table.status.toolTip()

    row = first_box(table.cuts)
    item = table.cuts.visualItemRect(table.cuts.item(row))
    QTest.mouseClick(table.cuts.viewport(), LEFT, pos=QPoint(item.left() + 14, item.center().y()))
    assert table.cuts.done[0] == 1

    table.tabs.setCurrentIndex(1)
    chosen.append(own_folders / "list.csv")
    user.press("Save as CSV…", table)
    assert (own_folders / "list.csv").read_text().startswith("item,")
    table.tabs.setCurrentIndex(0)

    QTest.mouseDClick(table.canvas.viewport(), LEFT, pos=table.canvas.middle_of(spot))
    assert user.window.places.currentIndex() == 0
    assert user.window.wall.selection.cells


def test_a_quilt_is_cut_by_keys_alone(workroom: Workroom, qtbot: QtBot) -> None:
    user, table = cutter(workroom, qtbot)
    assert table.fabrics.hasFocus()
    QTest.keyClick(table.fabrics, Key.Key_Down)
    second = table.work.table.fabrics[1].fabric
    assert table.work.fabric == second
    QTest.keyClick(table.fabrics, Key.Key_Return)
    assert [row for row in table.fabrics.rows.rows if row.kind == "term"]
    QTest.keyClick(table.fabrics, Key.Key_Return)

    seen = []
    for _ in range(40):
        focused = QApplication.focusWidget()
        assert focused is not None
        seen.append(focused)
        if focused is table.cuts:
            break
        QTest.keyClick(focused, Key.Key_Tab)
    assert table.choice in seen
    assert table.canvas in seen
    assert seen[-1] is table.cuts
    table.cuts.setCurrentRow(first_box(table.cuts))
    QTest.keyClick(table.cuts, Key.Key_Space)
    assert table.cuts.done[0] == 1

    table.canvas.setFocus()
    QTest.keyClick(table.canvas, Key.Key_Home)
    assert table.status.toolTip()
    QTest.keyClick(table.canvas, Key.Key_Plus, Qt.KeyboardModifier.ControlModifier)
    QTest.keyClick(table.canvas, Key.Key_Return)
    assert user.window.places.currentIndex() == 0
    assert user.window.status_text

    user.keys("cutting-table")
    table.tabs.setFocus()
    QTest.keyClick(table.tabs, Key.Key_Right)
    assert table.pages.currentWidget() is table.shopping
    table.shopping.buttons[0].setFocus()
    QTest.keyClick(table.shopping.buttons[0], Key.Key_Space)
    assert "to buy" in QGuiApplication.clipboard().text()
    QTest.keyClick(table.shopping.buttons[0], Key.Key_Escape)
    assert user.window.places.currentIndex() == 0


def test_an_edit_at_the_table_is_followed_and_undone(workroom: Workroom, qtbot: QtBot) -> None:
    user, table = cutter(workroom, qtbot)
    before = [each.plan for each in table.work.table.fabrics]
    user.keys("undo")
    assert table.work.level == cutting_plan(user.design)
    assert table.isVisible()
    settle(workroom, table, qtbot)
    user.keys("redo")
    settle(workroom, table, qtbot)
    assert [each.plan for each in table.work.table.fabrics] == before


def test_a_number_of_the_materials_leads_from_any_place_to_its_blocks(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user, _table = cutter(workroom, qtbot)
    listed = user.window.materials.panel.list
    at = next(
        place for place, row in enumerate(listed.rows.rows) if row.section == "sets" and row.kind == "line"
    )
    listed.setCurrentIndex(listed.rows.index(at))
    listed.setFocus()
    QTest.keyClick(listed, Key.Key_Return)
    QTest.keyClick(listed, Key.Key_Down)
    assert listed.rows.rows[listed.currentIndex().row()].kind == "term"
    QTest.keyClick(listed, Key.Key_Return)
    assert user.window.places.currentIndex() == 0
    assert len(user.window.wall.selection.cells) == user.count


@pytest.mark.parametrize("percent", [100, 200])
def test_the_table_has_room_for_itself(workroom: Workroom, qtbot: QtBot, percent: int) -> None:
    user, table = cutter(workroom, qtbot)
    user.window.look.prefer(text_percent=percent)
    QApplication.sendPostedEvents(None, QEvent.Type.LayoutRequest)
    QApplication.processEvents()
    for widget in (table.fabrics, table.canvas, table.cuts, table.choice):
        assert widget.width() > 100
        assert table.rect().contains(table.mapFromGlobal(widget.mapToGlobal(widget.rect().center())))

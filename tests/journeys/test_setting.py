"""A quilter sets her quilt: on point, sashing, a drag and a band there, gaps, and the plan by which it is sewn."""

from fractions import Fraction
from pathlib import Path

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell
from piecewright_qt.setting.drawer import SettingDrawer
from piecewright_qt.workroom import Workroom
from tests.desktop.wall.hands import drag, placed
from tests.journeys.user import User, new_design

POINT = 1
LEFT = Qt.MouseButton.LeftButton


def drawer_of(user: User) -> SettingDrawer:
    """The drawer, pulled out by its key, its pictures painted."""
    user.keys("setting")
    (drawer,) = user.window.findChildren(SettingDrawer)
    user.qtbot.waitUntil(
        lambda: user.window.workroom.runner.is_idle and drawer.pictures.is_idle, timeout=30_000
    )
    assert drawer.isVisible()
    return drawer


def point_of(user: User, cell: Cell, columns: int = 4, rows: int = 4) -> QPoint:
    """The middle of so many cells on the wall."""
    wall = user.window.wall
    rect = wall.scene.layout.rect(cell.column, cell.row, columns, rows)
    inside = (float(rect.x + rect.width / 2), float(rect.y + rect.height / 2))
    return wall.camera.point(wall.scene.outside(inside)).toPoint()


def choose_fabric(drawer: SettingDrawer, field: object, index: int) -> str:
    """Choose a fabric by the keys of its field."""
    box = field.box  # type: ignore[attr-defined]
    box.setFocus()
    for _ in range(index):
        QTest.keyClick(box, Qt.Key.Key_Down)
    QApplication.processEvents()
    return str(box.currentData())


def test_on_point_by_the_mouse_with_sashing_a_drag_a_band_and_its_sewing_plan(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    window, wall, before = user.window, user.window.wall, user.design
    drawer = drawer_of(user)
    cards = drawer.cards
    spot = cards.visualItemRect(cards.item(POINT)).center()
    QTest.mouseMove(cards.viewport(), spot)
    qtbot.waitUntil(lambda: window.document.shown != before)
    assert user.design == before
    assert window.replan.is_preview
    QTest.mouseClick(cards.viewport(), LEFT, pos=spot)
    assert user.design.quilt.lattice.kind == "on point"
    assert user.count == 10
    assert drawer.said.text().startswith("On point: ")

    fabric = choose_fabric(drawer, drawer.sashing.fabric, 1)
    assert user.design.quilt.sashing is not None
    assert user.design.quilt.sashing.fabric == fabric
    assert user.design.quilt.sashing.columns == Fraction(2)
    choose_fabric(drawer, drawer.triangles.fabric, 2)
    assert user.design.quilt.triangles.fabric is not None

    wall.fit()
    wall.settle()
    lattice = user.design.quilt.lattice
    (one, other), space = list(placed(user.design))[:2], lattice.space_columns
    first, second = placed(user.design)[one], placed(user.design)[other]
    drag(wall, point_of(user, Cell(*one), space, space), point_of(user, Cell(*other), space, space))
    after = placed(user.design)
    assert (after[one].block, after[other].block) == (second.block, first.block)
    wall.selection.clear()
    drag(wall, QPoint(1, 1), QPoint(wall.viewport().width() - 2, wall.viewport().height() - 2))
    assert len(wall.selection.cells) == 10

    user.keys("sewing-plan")
    plan = window.sewing_plan
    qtbot.waitUntil(lambda: workroom.runner.is_idle and plan.steps.count() > 0, timeout=30_000)
    assert "slanted" in str(plan.picture.order.steps[-1].sentence) if plan.picture else False
    QTest.keyClick(plan.steps, Qt.Key.Key_Right)
    assert plan.index == 1
    chosen.append(tmp_path / "steps.svg")
    QTest.mouseClick(plan.save, LEFT)
    assert "slanted" in " ".join((tmp_path / "steps.svg").read_text().split())
    QTest.keyClick(plan.steps, Qt.Key.Key_Escape)
    assert window.places.currentIndex() == 0
    user.press("How it is sewn", within=drawer)
    assert window.places.currentWidget() is plan
    QTest.keyClick(plan.steps, Qt.Key.Key_Escape)

    while window.document.undo_stack.canUndo() and user.design != before:
        window.document.undo()
    assert user.design == before


def test_the_drawer_by_keys_alone_and_away_again(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    before = user.design
    drawer = drawer_of(user)
    QTest.keyClick(drawer.cards, Qt.Key.Key_Right)
    assert user.window.document.shown != before
    QTest.keyClick(drawer.cards, Qt.Key.Key_Escape)
    assert user.window.document.shown == before
    QTest.keyClick(drawer.cards, Qt.Key.Key_Escape)
    assert not drawer.isVisible()
    assert QApplication.focusWidget() is user.window.wall
    assert user.design == before

"""Every gesture of the mouse: what it selects, moves, copies, swaps, refuses, and that it is one step to undo."""

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QNativeGestureEvent, QPointingDevice
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import (
    ALT,
    CTRL,
    MIDDLE,
    NONE,
    SHIFT,
    at,
    blocks,
    carried,
    click,
    drag,
    key,
    move,
    press,
    pull,
    release,
    selected,
    slide,
    tag,
    wheel,
)


@pytest.fixture
def wall(hang: Hang) -> WallView:
    return hang(quilts.mixed())


def test_a_click_selects_the_block_under_it_and_beside_it_nothing(wall: WallView) -> None:
    click(wall, at(wall, 7, 5))
    assert selected(wall) == [(6, 0)]
    click(wall, at(wall, 10, 4))
    assert selected(wall) == [(9, 3)]
    click(wall, at(wall, 20, 15))
    assert selected(wall) == []


def test_shift_adds_and_takes_away_ctrl_toggles(wall: WallView) -> None:
    click(wall, at(wall, 1, 1))
    click(wall, at(wall, 7, 1), SHIFT)
    assert selected(wall) == [(0, 0), (6, 0)]
    click(wall, at(wall, 1, 1), SHIFT)
    assert selected(wall) == [(6, 0)]
    click(wall, at(wall, 17, 1), CTRL)
    assert selected(wall) == [(6, 0), (16, 0)]
    click(wall, at(wall, 17, 1), CTRL)
    assert selected(wall) == [(6, 0)]
    click(wall, at(wall, 20, 15), SHIFT)
    assert selected(wall) == [(6, 0)]


def test_a_click_on_one_of_several_selected_leaves_that_one(wall: WallView) -> None:
    wall.select_all()
    click(wall, at(wall, 17, 1))
    assert selected(wall) == [(16, 0)]


def test_a_band_selects_what_it_touches_and_remembers_its_cells(wall: WallView) -> None:
    drag(wall, at(wall, 20.5, 5.5), at(wall, 8.5, 2.5))
    assert selected(wall) == [(6, 0), (9, 0), (9, 3), (12, 0), (16, 0)]
    assert wall.selection.area == (8, 2, 13, 4)
    drag(wall, at(wall, 8.5, 8.5), at(wall, 4.5, 7.5), SHIFT)
    assert (0, 6) in selected(wall)
    assert (16, 0) in selected(wall)


def test_escape_gives_up_a_band_and_then_the_selection(wall: WallView) -> None:
    click(wall, at(wall, 1, 1))
    pull(wall, at(wall, 20, 10), at(wall, 10, 1))
    assert len(selected(wall)) > 1
    key(wall, Qt.Key.Key_Escape)
    assert selected(wall) == [(0, 0)]
    release(wall, at(wall, 10, 1))
    key(wall, Qt.Key.Key_Escape)
    assert selected(wall) == []


def test_a_drag_moves_a_block_to_the_cell_it_snaps_to(wall: WallView) -> None:
    before = wall.document.design
    drag(wall, at(wall, 17, 1), at(wall, 18.3, 8.4))
    assert blocks(wall.document.design)[(17, 7)] == quilts.FOUR
    assert (16, 0) not in blocks(wall.document.design)
    assert selected(wall) == [(17, 7)]
    assert wall.document.undo_stack.count() == 1
    wall.document.undo()
    assert wall.document.design == before


def test_a_drag_is_previewed_so_that_everything_that_shows_follows(wall: WallView) -> None:
    seen: list[Design | None] = []
    wall.document.previewed.connect(seen.append)
    pull(wall, at(wall, 17, 1), at(wall, 17, 8))
    assert blocks(wall.document.shown)[(16, 7)] == quilts.FOUR
    assert blocks(wall.document.design)[(16, 0)] == quilts.FOUR
    key(wall, Qt.Key.Key_Escape)
    assert wall.document.shown is wall.document.design
    assert seen[-1] is None
    assert any(design is not None for design in seen)
    release(wall, at(wall, 17, 8))
    assert wall.document.undo_stack.count() == 0


def test_several_blocks_move_together(wall: WallView) -> None:
    wall.selection.select([Cell(9, 0), Cell(9, 3)])
    drag(wall, at(wall, 10, 1), at(wall, 19, 9))
    assert blocks(wall.document.design)[(18, 8)] == quilts.RAIL
    assert blocks(wall.document.design)[(18, 11)] == quilts.RAIL
    assert selected(wall) == [(18, 8), (18, 11)]


def test_a_block_dropped_on_another_of_its_size_swaps_with_it(wall: WallView) -> None:
    pull(wall, at(wall, 13, 1), at(wall, 17, 1))
    assert tag(wall) == "Swap"
    release(wall, at(wall, 17, 1))
    assert blocks(wall.document.design)[(16, 0)] == quilts.SLANT
    assert blocks(wall.document.design)[(12, 0)] == quilts.FOUR
    assert wall.document.undo_stack.count() == 1


def test_ctrl_copies_and_may_go_down_in_the_middle_of_a_drag(wall: WallView) -> None:
    pull(wall, at(wall, 10, 1), at(wall, 20, 10))
    assert (9, 0) not in blocks(wall.document.shown)
    move(wall, at(wall, 20, 10), CTRL)
    assert blocks(wall.document.shown)[(9, 0)] == quilts.RAIL
    assert tag(wall) == "Copy"
    release(wall, at(wall, 20, 10), CTRL)
    assert blocks(wall.document.design)[(9, 0)] == quilts.RAIL
    assert blocks(wall.document.design)[(19, 9)] == quilts.RAIL


def test_alt_lets_the_block_follow_freely_and_it_lands_in_the_nearest_cell(wall: WallView) -> None:
    pull(wall, at(wall, 10, 1), at(wall, 20.4, 10.3), ALT)
    load = carried(wall)
    assert load is not None
    assert load.free
    place = load.top_left()
    assert place is not None
    corner = wall.camera.point(place) + QPointF(at(wall, 10, 1) - at(wall, 9, 0))
    assert (corner - QPointF(at(wall, 20.4, 10.3))).manhattanLength() <= 3
    snapped = wall.camera.rect(wall.still.box(19, 9)).topLeft()
    assert (wall.camera.point(place) - snapped).manhattanLength() > 5
    release(wall, at(wall, 20.4, 10.3), ALT)
    assert blocks(wall.document.design)[(19, 9)] == quilts.RAIL


def test_a_refused_drop_says_why_in_words_and_changes_nothing(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    before = wall.document.design
    pull(wall, at(wall, 17, 1), at(wall, 4, 3))
    assert tag(wall) == "Not here"
    assert '"Rail fence of four" does not fit' in said[-1]
    assert '"Middle end for end" lies there' in said[-1]
    release(wall, at(wall, 4, 3))
    assert wall.document.design == before
    assert carried(wall) is None
    assert "does not fit" in said[-1]


def test_a_block_dragged_beside_the_quilt_is_refused_with_the_nearest_place(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    drag(wall, at(wall, 17, 1), at(wall, 17, 20))
    assert "stick out of the quilt" in said[-1]
    assert "The nearest place inside is column 17, row 15." in said[-1]


def test_a_move_of_less_than_a_drag_is_a_click(wall: WallView) -> None:
    press(wall, at(wall, 17, 1))
    move(wall, at(wall, 17, 1) + QPoint(3, 3))
    release(wall, at(wall, 17, 1) + QPoint(3, 3))
    assert wall.document.undo_stack.count() == 0
    assert selected(wall) == [(16, 0)]


@pytest.mark.parametrize("way", ["middle", "space"])
def test_the_middle_button_and_space_pan(wall: WallView, way: str) -> None:
    place = wall.camera.inches(QPointF(at(wall, 3, 3)))
    start, end = at(wall, 3, 3), at(wall, 3, 3) + QPoint(-80, -60)
    if way == "space":
        QTest.keyPress(wall, Qt.Key.Key_Space)
    drag(wall, start, end, button=MIDDLE if way == "middle" else Qt.MouseButton.LeftButton)
    assert (wall.camera.point(place) - QPointF(end)).manhattanLength() <= 2
    assert wall.document.undo_stack.count() == 0
    assert selected(wall) == []


@pytest.mark.parametrize("keys", [NONE, CTRL])
@pytest.mark.parametrize("notches", [1, -2, 7, -9, 0.25])
def test_the_wheel_zooms_at_the_pointer(wall: WallView, keys: Qt.KeyboardModifier, notches: float) -> None:
    pointer, percents = at(wall, 5, 4), list[int]()
    wall.zoom_changed.connect(percents.append)
    place, level = wall.camera.inches(QPointF(pointer)), wall.camera.level
    for _ in range(4):
        wheel(wall, pointer, notches, keys)
        assert (wall.camera.point(place) - QPointF(pointer)).manhattanLength() <= 2
    assert (wall.camera.level > level) == (notches > 0)
    assert percents[-1] == wall.percent


def test_a_trackpad_pans_and_zooms_with_ctrl(wall: WallView) -> None:
    level, before = wall.camera.level, wall.camera.point((5.0, 5.0))
    slide(wall, at(wall, 5, 4), QPoint(-31, -17))
    assert wall.camera.level == level
    assert wall.camera.point((5.0, 5.0)) - before == QPointF(-31, -17)
    slide(wall, at(wall, 5, 4), QPoint(0, 90), CTRL)
    assert wall.camera.level > level


def test_a_pinch_zooms_at_the_fingers(wall: WallView) -> None:
    pointer = at(wall, 5, 4)
    place, before = wall.camera.inches(QPointF(pointer)), wall.camera.pixels
    for _ in range(10):
        point = QPointF(pointer)
        QApplication.sendEvent(
            wall.viewport(),
            QNativeGestureEvent(
                Qt.NativeGestureType.ZoomNativeGesture,
                QPointingDevice.primaryPointingDevice(),
                2,
                point,
                point,
                wall.viewport().mapToGlobal(point),
                0.05,
                QPointF(),
            ),
        )
    assert wall.camera.pixels / before == pytest.approx(1.05**10, rel=0.02)
    assert (wall.camera.point(place) - QPointF(pointer)).manhattanLength() <= 2


def test_fit_shows_all_and_stays_fitted_until_the_user_zooms(wall: WallView) -> None:
    wall.zoom_100()
    assert wall.percent == 100
    wall.fit()
    for size in ((600, 500), (1200, 800)):
        wall.resize(*size)
        QApplication.processEvents()
        seen = wall.camera.rect(wall.scene.whole)
        assert wall.viewport().rect().contains(seen.toAlignedRect())
    wall.zoom_in()
    level = wall.camera.level
    wall.resize(700, 500)
    QApplication.processEvents()
    assert wall.camera.level == level


def test_bars_stand_only_while_some_of_the_quilt_is_out_of_view(wall: WallView) -> None:
    assert not wall.horizontalScrollBar().isVisible()
    wall.zoom_100()
    QApplication.processEvents()
    assert wall.horizontalScrollBar().isVisible()
    place = wall.camera.inches(QPointF(100, 100))
    wall.horizontalScrollBar().setValue(wall.horizontalScrollBar().value() + 40)
    assert wall.camera.point(place).x() == pytest.approx(60, abs=1)


def test_the_status_says_what_lies_under_the_pointer(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    for column, row, expected in (
        (10.5, 4.5, "Rail fence of three, column 10 row 4, turned 90 · 6 x 6 in finished · B: Cloth 2"),
        (7, 1, "Two halves from thirds, column 7 row 1 · 6 x 12 in finished"),
        (1, 7, "Two halves from thirds, column 1 row 7, turned 90 · 12 x 6 in finished"),
        (7, 7, "Framed four-patch from a stack, column 7 row 7 · 8 x 8 in finished · layer 1 of 5"),
        (20.5, 10.5, "Column 21 row 11, empty"),
        (-1, -1, "Beside the quilt"),
    ):
        move(wall, at(wall, column, row), button=Qt.MouseButton.NoButton)
        assert said[-1].startswith(expected)

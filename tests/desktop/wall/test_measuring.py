"""Measuring by mouse and keys: corners are exact, the words are said, nothing of the design changes; and the rulers."""

from fractions import Fraction
from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from pytestqt.qtbot import QtBot

from piecewright.units.scale import INCHES_BY_UNIT
from piecewright_qt.wall.view import WallView
from tests.core.edit.quilts import laid
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import ALT, SHIFT, at, blocks, click, drag, key, selected


@pytest.fixture
def wall(hang: Hang) -> WallView:
    """Rails and a large block on cells of 6 in."""
    return hang(laid("rom-..", "..--..", "......"))


def said(wall: WallView) -> list[str]:
    heard: list[str] = []
    wall.status_changed.connect(heard.append)
    return heard


def near(wall: WallView, column: float, row: float) -> QPoint:
    return at(wall, column, row) + QPoint(4, -3)


def test_a_drag_measures_from_corner_to_corner_exactly(wall: WallView) -> None:
    before, heard = wall.document.design, said(wall)
    wall.measuring.toggle()
    drag(wall, near(wall, 0, 0), near(wall, 4, 2))
    found = wall.measuring.measured
    assert found is not None
    assert (found.width, found.height) == (Fraction(24), Fraction(12))
    assert found.distance == pytest.approx(26.832815729997)
    assert heard[-1] == "24 in wide, 12 in high, 26.833 in from point to point, finished."
    assert wall.document.design == before
    assert selected(wall) == []


def test_along_an_edge_the_distance_is_exact_and_free_points_are_eighths(wall: WallView) -> None:
    wall.measuring.toggle()
    drag(wall, near(wall, 1, 0), near(wall, 1, 1))
    found = wall.measuring.measured
    assert found is not None
    assert found.distance == Fraction(6)
    drag(wall, near(wall, 0, 0), near(wall, 1, 1), ALT)
    found = wall.measuring.measured
    assert found is not None
    assert all(isinstance(way, Fraction) and (8 * way).denominator == 1 for way in found.end)


def test_arrows_go_from_corner_to_corner_and_enter_sets_the_first(wall: WallView) -> None:
    heard = said(wall)
    wall.measuring.toggle()
    key(wall, Qt.Key.Key_Return)
    key(wall, Qt.Key.Key_Right)
    key(wall, Qt.Key.Key_Down)
    assert heard[-1] == "6 in wide, 6 in high, 8.485 in from point to point, finished."
    key(wall, Qt.Key.Key_Right, SHIFT)
    assert heard[-1].startswith("6 1/8 in wide")


def test_escape_clears_what_is_measured_then_ends_and_blocks_can_be_dragged_again(wall: WallView) -> None:
    wall.measuring.toggle()
    assert wall.viewport().cursor().shape() == Qt.CursorShape.CrossCursor
    drag(wall, near(wall, 0, 0), near(wall, 1, 1))
    key(wall, Qt.Key.Key_Escape)
    cleared = (wall.measuring.measured, wall.measuring.is_on)
    key(wall, Qt.Key.Key_Escape)
    assert (cleared, wall.measuring.is_on) == ((None, True), False)
    drag(wall, at(wall, 0.5, 0.5), at(wall, 4.5, 2.5))
    assert (4, 2) in blocks(wall.document.design)


def test_what_is_measured_is_drawn(wall: WallView, qtbot: QtBot) -> None:
    def picture() -> bytes:
        image = wall.viewport().grab().toImage()
        return bytes(image.constBits())

    wall.measuring.toggle()
    before = picture()
    drag(wall, near(wall, 0, 0), near(wall, 4, 2))
    qtbot.wait(1)
    assert picture() != before


def test_on_the_quilts_own_edge_and_its_borders_points_snap_too(hang: Hang) -> None:
    wall = hang(quilts.mixed())
    size = wall.scene.layout.size.finished
    wall.measuring.toggle()
    start = wall.camera.point((0.0, 0.0)).toPoint()
    end = wall.camera.point((float(size.width), float(size.height))).toPoint()
    drag(wall, start, end)
    found = wall.measuring.measured
    assert found is not None
    assert (found.width, found.height) == (size.width, size.height)


@pytest.mark.parametrize("unit", ["in", "cm", "mm"])
def test_rulers_stand_where_the_camera_sees_their_numbers(wall: WallView, unit: str) -> None:
    wall.look.prefer(rulers=True, unit=unit)
    zoomed = wall.camera.level
    for level in (zoomed - 64, zoomed, zoomed + 40, zoomed + 200):
        wall.zoom_to(level)
        marks = list(wall.rulers.marks(wall.viewport().width(), upright=False))
        written = [place for place, _, is_written in marks if is_written]
        for place, value, _ in marks:
            inches = float(value * INCHES_BY_UNIT[wall.look.measure.unit])
            assert place == pytest.approx(wall.camera.point((inches, 0.0)).x(), abs=1.0)
        assert all(after - before >= 40 for before, after in pairwise(written))
        places = [place for place, _, _ in marks]
        assert all(after - before >= 4.9 for before, after in pairwise(places))


def test_rulers_leave_the_fitted_quilt_free(wall: WallView) -> None:
    assert wall.rulers.breadth == 0
    wall.look.prefer(rulers=True, text_percent=200)
    wall.fit()
    corner = wall.camera.point((wall.scene.whole[0], wall.scene.whole[1]))
    assert min(corner.x(), corner.y()) >= wall.rulers.breadth
    click(wall, at(wall, 0.5, 0.5))
    assert selected(wall) == [(0, 0)]
    wall.rulers.follow(QPointF(30, 40))
    wall.look.prefer(rulers=False)
    assert wall.rulers.breadth == 0

"""Groups by mouse and keys: selected whole, moved whole, turned whole; Alt picks one out."""

import pytest
from PySide6.QtCore import Qt

from piecewright.edit.grouping import group_blocks
from piecewright_qt.wall.view import WallView
from tests.core.edit.quilts import at as cells_at
from tests.core.edit.quilts import drawn, laid
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import ALT, CTRL, SHIFT, at, click, drag, key, selected


@pytest.fixture
def wall(hang: Hang) -> WallView:
    return hang(group_blocks(laid("ro.r..", "......", "......"), cells=cells_at((0, 0), (1, 0))))


def test_a_click_selects_the_whole_group_and_with_alt_one_of_it(wall: WallView) -> None:
    click(wall, at(wall, 0.5, 0.5))
    assert selected(wall) == [(0, 0), (1, 0)]
    click(wall, at(wall, 1.5, 0.5), ALT)
    assert selected(wall) == [(1, 0)]
    click(wall, at(wall, 3.5, 0.5), SHIFT)
    click(wall, at(wall, 0.5, 0.5), CTRL)
    assert selected(wall) == [(0, 0), (1, 0), (3, 0)]
    click(wall, at(wall, 0.5, 0.5), CTRL)
    assert selected(wall) == [(3, 0)]


def test_a_drag_moves_the_group_and_a_band_takes_it_whole(wall: WallView) -> None:
    drag(wall, at(wall, 1.5, 0.5), at(wall, 2.5, 2.5))
    assert drawn(wall.document.design) == ("...r..", "......", ".ro...")
    assert selected(wall) == [(1, 2), (2, 2)]
    click(wall, at(wall, 5.5, 1.5))
    drag(wall, at(wall, 3.5, 1.3), at(wall, 2.5, 2.5))
    assert selected(wall) == [(1, 2), (2, 2)]


def test_keys_select_and_nudge_it_whole_and_turn_it_as_one(wall: WallView) -> None:
    key(wall, Qt.Key.Key_Home)
    assert selected(wall) == [(0, 0), (1, 0)]
    key(wall, Qt.Key.Key_Down, CTRL)
    assert drawn(wall.document.design) == ("...r..", "ro....", "......")
    wall.turn(90)
    assert drawn(wall.document.design) == ("...r..", "R.....", "O.....")
    assert selected(wall) == [(0, 1), (0, 2)]
    wall.turn(270)
    assert drawn(wall.document.design) == ("...r..", "ro....", "......")


def test_a_group_is_made_and_taken_apart_and_its_name_says_so(wall: WallView) -> None:
    wall.select_all()
    wall.group()
    click(wall, at(wall, 3.5, 0.5))
    assert len(selected(wall)) == 3
    assert "in group 2" in str(wall.items[0].name)
    wall.ungroup()
    click(wall, at(wall, 3.5, 0.5))
    assert selected(wall) == [(3, 0)]

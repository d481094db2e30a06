"""On a real X display: a hand moves a block on point."""

import pytest
from PySide6.QtCore import QPoint
from pytestqt.qtbot import QtBot

from piecewright_qt.wall.view import WallView
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import blocks
from tests.desktop.wall.test_every_setting import DESIGNS, free_cell, middle_of, place_in
from tests.desktop.wall.test_real_hand import drag_by_hand

pytestmark = pytest.mark.x11


def carry(qtbot: QtBot, wall: WallView, start: QPoint, end: QPoint) -> None:
    """Drag on the wall by a real mouse until it has come down."""
    port = wall.viewport()
    hand = drag_by_hand(port.mapToGlobal(start), port.mapToGlobal(end))
    qtbot.waitUntil(lambda: wall.document.undo_stack.count() == 1, timeout=10_000)
    assert hand.wait() == 0


@pytest.mark.parametrize("name", ["sashed", "on point", "on point with sashing"])
def test_a_hand_moves_a_block_in_every_setting(qtbot: QtBot, hang: Hang, name: str) -> None:
    wall = hang(DESIGNS[name]())
    item, cell = wall.items[0], free_cell(wall)
    carry(qtbot, wall, place_in(wall, item), middle_of(wall, cell))
    hung = blocks(wall.document.design)
    assert hung[cell.column, cell.row] == item.laid.placement.block
    assert (item.id.column, item.id.row) not in hung

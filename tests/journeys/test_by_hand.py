"""On a real X display, with a hand on the mouse: a block from the shelf to the wall changes the materials."""

import subprocess

import pytest
from PySide6.QtCore import QPoint
from pytestqt.qtbot import QtBot

from piecewright_qt.workroom import Workroom
from tests.desktop.wall.test_real_hand import drag_by_hand
from tests.journeys.user import User, new_design

pytestmark = pytest.mark.x11


def card(user: User, row: int) -> QPoint:
    """The middle of a block's picture on the shelf, on the screen."""
    view = user.window.shelf.blocks.list
    rect = view.visualRect(view.model().index(row, 0))
    return view.viewport().mapToGlobal(QPoint(rect.left() + 36, rect.center().y()))


def test_a_hand_drags_blocks_from_the_shelf_and_the_materials_follow(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    counts: list[int | None] = []
    user.window.replan.planned.connect(lambda: counts.append(user.tried_out))
    for number in range(1, 4):
        end = user.window.wall.viewport().mapToGlobal(user.cell(number * 6 - 3, 3))
        hand = drag_by_hand(card(user, 4), end)
        qtbot.waitUntil(lambda number=number: user.count == number, timeout=15_000)  # type: ignore[misc]
        assert hand.wait() == 0
    assert user.window.replan.standing.block_count == 3
    assert user.window.replan.standing.set_count >= 1
    assert 1 in counts, "the materials followed the drag before the drop"


def test_a_click_and_a_key_turn_a_block(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    assert user.drop_block("Rail fence of three", 3, 3)
    where = user.window.wall.viewport().mapToGlobal(user.cell(1.5, 1.5))
    subprocess.run(["xdotool", "mousemove", f"{where.x()}", f"{where.y()}", "click", "1"], check=True)
    qtbot.waitUntil(lambda: bool(user.window.wall.selection.cells), timeout=10_000)
    user.keys("turn")
    assert user.design.quilt.rows[0].placements[0].turn == 90


def test_a_hand_sews_and_cuts_at_the_sewing_table(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    user.action("begin-block").trigger()
    table = user.window.table
    top, bench = table.work.top, table.bench
    bench.lay(user.design.fabrics[1].id)
    strip, other = top.piece("strip"), top.piece("strip2")
    assert strip is not None
    assert other is not None
    qtbot.waitUntil(top.isVisible, timeout=10_000)
    end = QPoint(round(strip.rect.center().x()), round(strip.rect.bottom()) - 3)
    hand = drag_by_hand(top.mapToGlobal(other.rect.center().toPoint()), top.mapToGlobal(end))
    qtbot.waitUntil(lambda: [piece.name for piece in top.pieces] == ["sewn"], timeout=15_000)
    assert hand.wait() == 0
    sewn = top.piece("sewn")
    assert sewn is not None
    begun = QPoint(round(sewn.rect.left()), round(sewn.rect.center().y()) + 9)
    hand = drag_by_hand(top.mapToGlobal(begun), top.mapToGlobal(begun + QPoint(round(6 * sewn.inch), 0)))
    qtbot.waitUntil(lambda: len(top.pieces) == 2, timeout=15_000)
    assert hand.wait() == 0
    assert bench.draft is not None
    assert bench.draft.steps[-1]["widths"] == ["6", "14"]

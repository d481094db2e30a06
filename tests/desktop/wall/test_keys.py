"""Every key: the cursor, the selection, nudges, the hand, and the window's actions by their shortcuts."""

from types import SimpleNamespace

import pytest
from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtGui import QContextMenuEvent, QGuiApplication, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import Cell, call
from piecewright_qt.actions.table import ACTIONS
from piecewright_qt.wall.menu import wall_menu
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import (
    CTRL,
    SHIFT,
    at,
    blocks,
    carried,
    cells,
    click,
    key,
    move,
    placed,
    selected,
)

Key = Qt.Key
OF_THE_WALL = (
    *(
        "cut",
        "copy",
        "paste",
        "remove",
        "select-all",
        "select-alike",
        "turn",
        "turn-back",
        "repeat",
        "next-layer",
    ),
    *("fit", "zoom-in", "zoom-out"),
)
"""The window's actions that ask the wall for something."""


@pytest.fixture
def wall(hang: Hang) -> WallView:
    wall = hang(quilts.mixed())
    window = SimpleNamespace(wall=wall)
    for row in ACTIONS:
        if row.name in OF_THE_WALL:
            for keys in row.keys:
                QShortcut(QKeySequence(keys), wall, lambda row=row: row.run(window))
    return wall


def cell_in_hand(wall: WallView) -> Cell:
    """Where what is in hand is aimed."""
    load = carried(wall)
    assert load is not None
    assert load.cell is not None
    return load.cell


def test_arrows_go_past_blocks_and_the_selection_follows(wall: WallView) -> None:
    key(wall, Key.Key_Right)
    assert wall.cursor_cell == Cell(6, 0)
    assert selected(wall) == [(6, 0)]
    key(wall, Key.Key_Right)
    assert selected(wall) == [(9, 0)]
    key(wall, Key.Key_Down)
    assert selected(wall) == [(9, 3)]
    key(wall, Key.Key_Down)
    assert wall.cursor_cell == Cell(9, 6)
    key(wall, Key.Key_Left)
    assert selected(wall) == [(0, 6)] or wall.cursor_cell.row == 6
    key(wall, Key.Key_Up)
    assert wall.cursor_cell.row < 6


def test_the_cursor_stays_in_the_quilt_and_goes_to_its_ends(wall: WallView) -> None:
    for _ in range(3):
        key(wall, Key.Key_Up)
        key(wall, Key.Key_Left)
    assert wall.cursor_cell == Cell(0, 0)
    key(wall, Key.Key_End, CTRL)
    assert wall.cursor_cell == Cell(23, 17)
    key(wall, Key.Key_Right)
    assert wall.cursor_cell == Cell(23, 17)
    key(wall, Key.Key_Home)
    assert wall.cursor_cell == Cell(0, 17)


def test_shift_and_arrows_extend_a_rectangle_of_cells(wall: WallView) -> None:
    wall.set_cursor_cell(Cell(9, 2), by_key=True)
    key(wall, Key.Key_Down, SHIFT)
    assert selected(wall) == [(9, 0), (9, 3)]
    for _ in range(3):
        key(wall, Key.Key_Right, SHIFT)
    assert selected(wall) == [(9, 0), (9, 3), (12, 0)]
    assert wall.selection.area == (9, 2, 4, 2)
    key(wall, Key.Key_Right)
    assert wall.selection.area is None


def test_ctrl_and_arrows_nudge_and_nudges_in_a_row_are_one_step(wall: WallView) -> None:
    before = wall.document.design
    click(wall, at(wall, 17, 1))
    for arrow in (Key.Key_Right, Key.Key_Right, Key.Key_Down, Key.Key_Left):
        key(wall, arrow, CTRL)
    assert blocks(wall.document.design)[(17, 1)] == quilts.FOUR
    assert selected(wall) == [(17, 1)]
    assert wall.document.undo_stack.count() == 1
    click(wall, at(wall, 10, 4))
    click(wall, at(wall, 18, 2))
    key(wall, Key.Key_Down, CTRL)
    assert wall.document.undo_stack.count() == 2
    wall.document.undo()
    wall.document.undo()
    assert wall.document.design == before


def test_a_block_of_the_shelf_is_laid_by_keys_alone(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    wall.take_in_hand(quilts.HALVES)
    assert "Enter lays it down" in said[-1]
    start = cell_in_hand(wall)
    assert (start.column, start.row) in blocks(wall.document.shown)
    key(wall, Key.Key_R)
    key(wall, Key.Key_Down)
    key(wall, Key.Key_Right)
    assert wall.document.undo_stack.count() == 0
    key(wall, Key.Key_Return)
    laid = placed(wall.document.design)[(start.column + 1, start.row + 1)]
    assert (laid.block, laid.turn) == (quilts.HALVES, 90)
    assert carried(wall) is None
    assert wall.document.undo_stack.count() == 1


def test_in_hand_the_keys_of_actions_mean_what_is_in_hand(wall: WallView) -> None:
    before = wall.document.design
    click(wall, at(wall, 17, 1))
    wall.take_in_hand(quilts.STACK)
    key(wall, Key.Key_R, SHIFT)
    key(wall, Key.Key_L)
    key(wall, Key.Key_L)
    assert wall.document.design == before
    key(wall, Key.Key_Return, SHIFT)
    laid = [
        one for one in placed(wall.document.design).values() if one.block == quilts.STACK and one.layer == 2
    ]
    assert [one.turn for one in laid] == [270]
    assert carried(wall) is not None, "one more stays in hand"
    key(wall, Key.Key_Delete)
    assert carried(wall) is None
    assert wall.document.undo_stack.count() == 1


def test_a_refused_place_keeps_the_block_in_hand_and_says_why(wall: WallView) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    wall.take_in_hand(quilts.MIDDLE)
    for _ in range(30):
        key(wall, Key.Key_Right)
    key(wall, Key.Key_Return)
    assert carried(wall) is not None
    assert "stick out of the quilt" in said[-1]
    key(wall, Key.Key_Escape)
    assert carried(wall) is None
    assert wall.document.undo_stack.count() == 0


def test_enter_takes_up_and_sets_down_a_block_of_the_wall(wall: WallView) -> None:
    wall.set_cursor_cell(Cell(16, 0), by_key=True)
    key(wall, Key.Key_Return)
    for _ in range(6):
        key(wall, Key.Key_Down)
    assert blocks(wall.document.shown)[(16, 6)] == quilts.FOUR
    key(wall, Key.Key_Enter)
    assert blocks(wall.document.design)[(16, 6)] == quilts.FOUR
    assert selected(wall) == [(16, 6)]


def test_the_pointer_moves_what_is_in_hand_and_a_click_sets_it_down(wall: WallView) -> None:
    wall.take_in_hand(quilts.RAIL)
    move(wall, at(wall, 19.5, 12.5), button=Qt.MouseButton.NoButton)
    assert blocks(wall.document.shown)[(18, 11)] == quilts.RAIL
    click(wall, at(wall, 19.5, 12.5))
    assert blocks(wall.document.design)[(18, 11)] == quilts.RAIL
    assert carried(wall) is None


def test_r_turns_and_the_block_stays_selected_where_it_then_lies(wall: WallView) -> None:
    click(wall, at(wall, 1, 7))
    wall.hand.take_up(cells((0, 6)))
    key(wall, Key.Key_Down)
    key(wall, Key.Key_Down)
    key(wall, Key.Key_Down)
    key(wall, Key.Key_Return)
    key(wall, Key.Key_R)
    assert len(selected(wall)) == 1
    assert placed(wall.document.design)[selected(wall)[0]].turn == 180
    key(wall, Key.Key_R, SHIFT)
    assert placed(wall.document.design)[selected(wall)[0]].turn == 90
    assert selected(wall) == [(0, 9)]


def test_l_shows_each_block_of_the_stack_in_turn(wall: WallView) -> None:
    click(wall, at(wall, 7, 7))
    layers = []
    for _ in range(5):
        key(wall, Key.Key_L)
        layers.append(placed(wall.document.design)[(6, 6)].layer)
    assert layers == [1, 2, 3, 4, 0]
    said: list[str] = []
    wall.status_changed.connect(said.append)
    click(wall, at(wall, 1, 1))
    key(wall, Key.Key_L)
    assert said[-1] == '"Middle end for end" comes in one kind and layer only.'


def test_delete_takes_blocks_off_the_wall(wall: WallView) -> None:
    wall.selection.select(cells((9, 0), (16, 0)))
    key(wall, Key.Key_Delete)
    assert {(9, 0), (16, 0)}.isdisjoint(blocks(wall.document.design))
    assert selected(wall) == []
    assert wall.document.undo_stack.count() == 1


def test_select_all_and_all_alike(wall: WallView) -> None:
    key(wall, Key.Key_A, CTRL)
    assert len(selected(wall)) == 8
    click(wall, at(wall, 10, 1))
    key(wall, Key.Key_A, CTRL | SHIFT)
    assert selected(wall) == [(9, 0), (9, 3)]
    wall.document.perform(call("recolor-letter", cells=tuple(cells((9, 3))), letter="A", fabric="f7"))
    click(wall, at(wall, 10, 1))
    wall.select_alike(same_fabrics=True)
    assert selected(wall) == [(9, 0)]


def test_repeat_fills_the_cells_drawn_round_a_block(wall: WallView) -> None:
    wall.set_cursor_cell(Cell(16, 0), by_key=True)
    for _ in range(7):
        key(wall, Key.Key_Right, SHIFT)
        key(wall, Key.Key_Down, SHIFT)
    assert wall.selection.area == (16, 0, 8, 8)
    key(wall, Key.Key_D, CTRL)
    four = [place for place, block in blocks(wall.document.design).items() if block == quilts.FOUR]
    assert sorted(four) == [(16, 0), (16, 4), (20, 0), (20, 4)]
    assert wall.document.undo_stack.count() == 1
    click(wall, at(wall, 17, 1))
    wall.repeat_everywhere()
    assert len([block for block in blocks(wall.document.design).values() if block == quilts.FOUR]) > 4


def test_copy_cut_and_paste(wall: WallView) -> None:
    wall.selection.select(cells((9, 0), (9, 3)))
    key(wall, Key.Key_C, CTRL)
    wall.set_cursor_cell(Cell(20, 10), by_key=True)
    key(wall, Key.Key_V, CTRL)
    assert blocks(wall.document.design)[(20, 10)] == quilts.RAIL
    assert placed(wall.document.design)[(20, 13)].turn == 90
    assert selected(wall) == [(20, 10), (20, 13)]
    key(wall, Key.Key_X, CTRL)
    assert (20, 10) not in blocks(wall.document.design)


def test_paste_between_designs_brings_fabrics_and_recipes(wall: WallView, hang: Hang) -> None:
    wall.selection.select(cells((0, 0), (6, 0)))
    wall.copy()
    other = hang(quilts.empty(12, 12).changed(fabrics=(), recipes=(), blocks=()))
    other.paste()
    design = other.document.design
    assert sorted(blocks(design)) == [(0, 0), (6, 0)]
    assert [block.name for block in design.blocks] == ["Two halves from thirds", "Middle end for end"]
    assert other.document.undo_stack.count() == 1


def test_what_has_no_room_at_the_cursor_is_taken_in_hand(wall: WallView) -> None:
    wall.selection.select(cells((0, 0)))
    wall.copy()
    wall.set_cursor_cell(Cell(9, 3), by_key=True)
    wall.paste()
    load = carried(wall)
    assert load is not None
    assert load.refusal is not None
    assert wall.document.undo_stack.count() == 0


@pytest.mark.parametrize("data", [None, b"", b"{}", b'{"unit": "6", "rows": [{"row": -1}]}'])
def test_nothing_to_paste_is_said(wall: WallView, data: bytes | None) -> None:
    said: list[str] = []
    wall.status_changed.connect(said.append)
    carried = QMimeData()
    carried.setText("three blocks")
    if data is not None:
        carried.setData("application/x-piecewright-blocks", data)
    QGuiApplication.clipboard().setMimeData(carried)
    wall.paste()
    assert said[-1].startswith("There is nothing to paste")
    assert wall.document.undo_stack.count() == 0


def test_the_zoom_keys(wall: WallView) -> None:
    level = wall.camera.level
    key(wall, Key.Key_Equal, CTRL)
    assert wall.camera.level > level
    key(wall, Key.Key_Minus, CTRL)
    key(wall, Key.Key_Minus, CTRL)
    assert wall.camera.level < level
    key(wall, Key.Key_0, CTRL)
    assert wall.camera.level == level


def test_the_menu_has_the_actions_of_the_selection_with_their_keys(wall: WallView) -> None:
    click(wall, at(wall, 17, 1))
    menu = wall_menu(wall)
    texts = {action.text().split("\t")[0]: action for action in menu.actions() if action.text()}
    assert {"Turn", "Turn back", "Repeat over the whole quilt", "Cut", "Copy", "Paste"} <= texts.keys()
    assert texts["Turn"].text() == "Turn\tR"
    texts["Turn"].trigger()
    assert placed(wall.document.design)[(16, 0)].turn == 180
    menu.deleteLater()


@pytest.mark.parametrize("reason", [QContextMenuEvent.Reason.Mouse, QContextMenuEvent.Reason.Keyboard])
def test_the_menu_opens_for_the_block_under_the_pointer_or_for_the_selection(
    wall: WallView, reason: QContextMenuEvent.Reason, monkeypatch: pytest.MonkeyPatch
) -> None:
    places: list[QPoint] = []
    monkeypatch.setattr(
        "piecewright_qt.wall.view.wall_menu", lambda _wall: SimpleNamespace(popup=places.append)
    )
    click(wall, at(wall, 1, 1))
    point = at(wall, 17, 1)
    screen = wall.viewport().mapToGlobal(point)
    QApplication.sendEvent(wall.viewport(), QContextMenuEvent(reason, point, screen))
    by_mouse = reason == QContextMenuEvent.Reason.Mouse
    assert selected(wall) == ([(16, 0)] if by_mouse else [(0, 0)])
    box = wall.screen_rect(wall.items[0].box)
    assert places[0] == screen if by_mouse else box.contains(places[0])

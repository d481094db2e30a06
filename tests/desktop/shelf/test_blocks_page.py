"""The page of blocks by mouse and keys: find, favor, take, drag, duplicate, remove."""

import json

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QContextMenuEvent, QDrag, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright.model.design import Design
from piecewright_qt.shelf.blocks_page import BlocksPage
from piecewright_qt.wall.mime import BLOCK, carried_block
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import block_named, full_design, small_design, with_placed
from tests.desktop.shelf.hands import Key, click, double_click, drag, press, type_in


def names(page: BlocksPage) -> list[str]:
    return [card.block.name for card in page.model.cards]


def choose(place: Place, name: str) -> BlocksPage:
    page = place.shelf.blocks
    page.list.choose(page.model.index_of(block_named(place.document.design, name)))
    page.list.setFocus()
    return page


def part(page: BlocksPage, name: str, kind: str, number: int = 0) -> QPoint:
    """The middle of the star or of a face of a row, in the list's viewport."""
    index = page.model.index_of(block_named(page.document.design, name))
    row = page.list.visualRect(index)
    places = page._delegate.places(index, row.width())
    rect: QRect = places.star if kind == "star" else places.faces[number]
    return rect.center() + row.topLeft()


@pytest.fixture
def drags(monkeypatch: pytest.MonkeyPatch) -> list[QDrag]:
    """Drags that begin, caught before they take the pointer."""
    begun: list[QDrag] = []

    def exec_(drag: QDrag, actions: Qt.DropAction) -> Qt.DropAction:
        begun.append(drag)
        return actions

    monkeypatch.setattr(QDrag, "exec", exec_)
    return begun


def test_typing_finds_blocks_by_name_size_and_fabric(set_up: SetUp) -> None:
    page = set_up(small_design()).shelf.blocks
    assert names(page) == ["Halves", "Windows", "Rails"]
    for typed, found in (("wind", ["Windows"]), ("6 x 12", ["Halves"]), ("reed", ["Windows", "Rails"])):
        page.search.clear()
        type_in(page.search, typed)
        assert names(page) == found
    press(page.search, Key.Key_Return)
    assert page.chosen is not None
    assert page.chosen.block.name == "Windows"


def test_nothing_found_says_so_and_shows_all_again(set_up: SetUp) -> None:
    page = set_up(small_design()).shelf.blocks
    type_in(page.search, "zigzag")
    assert "zigzag" in page._empty_text.text()
    assert not page.list.isVisible()
    click(page._empty_way)
    assert page.model.rowCount() == 3
    assert page.list.isVisible()


def test_an_empty_shelf_says_what_to_do_and_does_it(set_up: SetUp) -> None:
    page = set_up(Design("Empty")).shelf.blocks
    assert "recipe" in page._empty_text.text()
    click(page._empty_way)
    assert page.editor is not None
    page.editor.reject()
    assert page.editor is None


def test_the_star_makes_a_favorite_that_comes_first(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = place.shelf.blocks
    click(page.list.viewport(), part(page, "Rails", "star"))
    assert names(page) == ["Rails", "Halves", "Windows"]
    assert page.model.data(page.model.index(0, 0)).endswith(", favorite")
    press(choose(place, "Rails").list, Key.Key_F)
    assert names(page) == ["Halves", "Windows", "Rails"]
    assert place.document.undo_stack.count() == 2
    assert place.wall.taken == []


def test_two_quick_presses_on_the_star_are_two_presses_and_take_nothing(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = place.shelf.blocks
    double_click(page.list.viewport(), part(page, "Halves", "star"))
    assert place.wall.taken == []


@pytest.mark.parametrize("how", ["enter", "double click", "menu"])
def test_a_block_is_taken_in_hand(set_up: SetUp, how: str) -> None:
    place = set_up(small_design())
    page = choose(place, "Rails")
    if how == "enter":
        press(page.list, Key.Key_Return)
    elif how == "double click":
        row = page.list.visualRect(page.list.currentIndex())
        double_click(page.list.viewport(), row.center())
    else:
        page.list.menu().actions()[0].trigger()
    assert place.wall.taken == [(block_named(place.document.design, "Rails"), 0, 0)]


def test_any_layer_of_a_stack_can_be_chosen_and_taken(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Windows")
    for _ in range(2):
        press(page.list, Key.Key_Right)
    press(page.list, Key.Key_Return)
    click(page.list.viewport(), part(page, "Windows", "face", 4))
    press(page.list, Key.Key_Return)
    press(page.list, Key.Key_Right)
    press(page.list, Key.Key_Return)
    assert [layer for _, _, layer in place.wall.taken] == [2, 4, 0]
    assert "layer 1 of 5" in page.model.data(page.list.currentIndex())


@pytest.mark.parametrize(("name", "face", "layer"), [("Rails", None, 0), ("Windows", 3, 3)])
def test_a_drag_carries_block_kind_and_layer(
    set_up: SetUp, drags: list[QDrag], name: str, face: int | None, layer: int
) -> None:
    place = set_up(small_design())
    page = place.shelf.blocks
    viewport = page.list.viewport()
    start = (
        part(page, name, "face", face)
        if face is not None
        else page.list.visualRect(page.model.index_of(block_named(place.document.design, name))).center()
    )
    drag(viewport, start, QPoint(40, 20))
    assert len(drags) == 1
    carried = carried_block(drags[0].mimeData())
    assert carried is not None
    assert (carried.block, carried.kind, carried.layer) == (
        block_named(place.document.design, name),
        0,
        layer,
    )
    assert json.loads(bytes(drags[0].mimeData().data(BLOCK).data()))["block"] == carried.block
    assert drags[0].pixmap().deviceIndependentSize().width() == pytest.approx(64)


def test_a_used_block_is_not_removed_and_the_reason_stands_under_the_list(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0), (3, 0)))
    page = choose(place, "Rails")
    press(page.list, Key.Key_Delete)
    assert place.refusals == ["edit.block-used"]
    assert page._said.isVisible()
    assert "2 places" in page._said.text()
    press(choose(place, "Halves").list, Key.Key_Delete)
    assert names(page) == ["Windows", "Rails"]
    assert not page._said.isVisible()


def test_a_duplicate_has_a_name_of_its_own_and_is_chosen(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Rails")
    for _ in range(2):
        press(page.list, Key.Key_D)
    assert names(page)[3:] == ["Rails (2)", "Rails (2) (2)"]
    assert page.chosen is not None
    assert page.chosen.block.name == "Rails (2) (2)"
    assert place.document.undo_stack.count() == 2


def test_only_the_card_of_a_placed_block_changes(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(small_design())
    page = place.shelf.blocks
    qtbot.waitUntil(lambda: page._pictures.drawn >= 8)
    drawn, rows = page._pictures.drawn, list[int]()
    page.model.dataChanged.connect(lambda first, _last, _roles: rows.append(first.row()))
    block = block_named(place.document.design, "Rails")
    place.document.perform(call("place-block", block=block, cell=Cell(0, 0)))
    assert rows == [2]
    assert "1 on the wall" in page.model.data(page.model.index(2, 0))
    page.grab()
    assert page._pictures.drawn == drawn


def test_keys_of_the_shelf_come_before_those_of_the_window_only_in_the_list(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Halves")
    heard: list[str] = []
    shortcut = QShortcut(QKeySequence("Del"), place.shelf)
    shortcut.activated.connect(lambda: heard.append("window"))
    press(page.list, Key.Key_Delete)
    assert names(page) == ["Windows", "Rails"]
    assert heard == []
    place.shelf.tabs.setFocus()
    press(place.shelf.tabs, Key.Key_Delete)
    assert heard == ["window"]
    assert names(page) == ["Windows", "Rails"]


def test_the_menu_comes_by_key_with_every_action_and_its_key(set_up: SetUp) -> None:
    page = choose(set_up(small_design()), "Windows")
    event = QContextMenuEvent(QContextMenuEvent.Reason.Keyboard, QPoint(5, 5), QPoint(5, 5))
    page.list.contextMenuEvent(event)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    texts = [action.text() for action in menu.actions() if not action.isSeparator()]
    assert len(texts) == 10
    assert all("\t" in text for text in texts)
    menu.close()


def test_a_full_shelf_draws_only_what_is_seen(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(full_design())
    page = place.shelf.blocks
    page.grab()
    qtbot.wait(50)
    assert 0 < page._pictures.drawn < 20
    place.shelf.show_fabrics()
    place.shelf.fabrics.grab()
    qtbot.wait(50)
    assert page._pictures.drawn < 40


def test_long_names_are_whole_in_the_tooltip(set_up: SetUp) -> None:
    page = set_up(full_design()).shelf.blocks
    card = max(page.model.cards, key=lambda card: len(card.block.name))
    tip = page.model.data(page.model.index_of(card.id), Qt.ItemDataRole.ToolTipRole)
    assert card.block.name in tip
    assert page.list.horizontalScrollBar().maximum() == 0


def test_numbers_follow_the_measure(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = place.shelf.blocks
    assert "6 x 12 in finished" in page.model.data(page.model.index(0, 0))
    place.look.prefer(unit="cm", decimal_comma=True)
    assert "15,24 x 30,48 cm finished" in page.model.data(page.model.index(0, 0))
    page.search.setText("15,24 x 30,48")
    assert names(page) == ["Halves"]


def test_undo_of_an_added_block_takes_its_card_away(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Rails")
    page.duplicate()
    assert len(names(page)) == 4
    place.document.undo()
    assert names(page) == ["Halves", "Windows", "Rails"]


def test_blocks_made_are_counted_by_key_and_told_beside_the_wall(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0), (3, 0)))
    page = choose(place, "Rails")

    def lines() -> tuple[str, ...]:
        assert page.chosen is not None
        return page._row(page.chosen).lines

    assert "none made, 2 to make" in lines()
    press(page.list, Key.Key_M)
    assert "1 made, 1 to make" in lines()
    for _ in range(3):
        press(page.list, Key.Key_M)
    assert "4 made, 2 to hang" in lines()
    assert place.document.undo_stack.count() == 1
    assert "4 made, 2 to hang" in page.spoken(page.chosen)  # type: ignore[arg-type]
    press(page.list, Key.Key_M, Qt.KeyboardModifier.ShiftModifier)
    assert "3 made, 1 to hang" in lines()
    press(page.list, Key.Key_M, Qt.KeyboardModifier.ControlModifier)
    assert "2 made, all hang" in lines()


def test_a_block_takes_the_place_of_another_everywhere_and_is_tried_on_the_wall_first(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0), (3, 0)))
    page = choose(place, "Rails")
    page.duplicate()
    copy = page.chosen
    assert copy is not None
    page = choose(place, "Rails")
    press(page.list, Key.Key_E)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    choice = next(action for action in menu.actions() if action.text() == copy.block.name)
    menu.setActiveAction(choice)
    assert copy.id in place.document.shown.quilt.blocks
    assert copy.id not in place.document.design.quilt.blocks
    press(menu, Key.Key_Return)
    assert place.document.design.quilt.blocks == {copy.id}


def test_where_nothing_else_fits_it_is_said(set_up: SetUp) -> None:
    page = choose(set_up(small_design()), "Halves")
    press(page.list, Key.Key_E)
    assert QApplication.activePopupWidget() is None
    assert "No other block" in page._said.text()


def test_the_chosen_block_is_put_in_the_place_of_the_selected(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0), (3, 0)))
    page = choose(place, "Rails")
    page.duplicate()
    place.wall.selection.select([Cell(0, 0)])
    press(page.list, Key.Key_P)
    assert page.chosen is not None
    assert [one.block == page.chosen.id for one in place.document.design.quilt.rows[0].placements] == [
        True,
        False,
    ]

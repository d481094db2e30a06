"""The page of fabrics by mouse and keys: find, use, drag, exchange, remove; and photos brought in."""

from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QDrag, QDropEvent, QGuiApplication, QImage, QKeySequence, QShortcut
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from piecewright.colour.value import values_by_terciles
from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright_qt.shelf.fabric_chooser import FabricChooser
from piecewright_qt.shelf.fabrics_page import FabricsPage
from piecewright_qt.wall.mime import FABRIC, carried_fabric
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import fabric_named, full_design, small_design, with_placed
from tests.desktop.shelf.hands import Button, Key, click, double_click, drag, press, type_in
from tests.desktop.shelf.test_photos import SVG, picture


def names(page: FabricsPage) -> list[str]:
    return [card.fabric.name for card in page.model.cards]


def choose(place: Place, name: str) -> FabricsPage:
    place.shelf.show_fabrics()
    page = place.shelf.fabrics
    page.list.choose(page.model.index_of(fabric_named(place.document.design, name)))
    page.list.setFocus()
    return page


def shown_letters(design: Design) -> list[dict[str, str]]:
    """What each placed block shows, by the names of fabrics."""
    fabrics = design.shelf.fabrics
    return [
        {letter: fabrics[ids[0]].name for letter, ids in design.letters(placement).items()}
        for row in design.quilt.rows
        for placement in row.placements
    ]


def drop(page: FabricsPage, mime: QMimeData) -> None:
    page.dropEvent(
        QDropEvent(QPointF(5, 5), Qt.DropAction.CopyAction, mime, Button, Qt.KeyboardModifier.NoModifier)
    )


def test_typing_finds_fabrics_by_name_and_print(set_up: SetUp) -> None:
    place = set_up(small_design())
    place.shelf.show_fabrics()
    page = place.shelf.fabrics
    for typed, found in (("re", ["Reed"]), ("dots", ["Clay"]), ("one-way", ["Clay"]), ("zzz", [])):
        page.search.clear()
        type_in(page.search, typed)
        assert names(page) == found


def test_values_come_in_words_relative_to_each_other(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(small_design())
    page = place.shelf.fabrics
    assert not page._values, "measured only once the page is seen: the library that measures loads slowly"
    place.shelf.show_fabrics()
    qtbot.waitUntil(lambda: bool(page._values))
    design = place.document.design
    wanted = values_by_terciles([fabric.color for fabric in design.fabrics])
    said = [page.model.data(page.model.index(row, 0)).rsplit(", ", 1)[-1] for row in range(5)]
    assert said == list(wanted)
    assert said[0] == "dark"
    assert said[1] == "light"


def test_a_drag_carries_the_fabric_and_a_swatch(set_up: SetUp, monkeypatch: pytest.MonkeyPatch) -> None:
    begun: list[QDrag] = []
    monkeypatch.setattr(QDrag, "exec", lambda drag, _actions: begun.append(drag))
    place = set_up(small_design())
    page = choose(place, "Clay")
    start = page.list.visualRect(page.list.currentIndex()).center()
    viewport = page.list.viewport()
    drag(viewport, start, QPoint(40, 20))
    assert [carried_fabric(drag.mimeData()) for drag in begun] == [
        fabric_named(place.document.design, "Clay")
    ]
    assert begun[0].mimeData().formats() == [FABRIC]
    assert not begun[0].pixmap().isNull()


def test_enter_recolors_the_selection_where_there_is_one_letter(set_up: SetUp) -> None:
    design = with_placed(small_design(), "Windows", (0, 0))
    block = design.blocks[1]
    one = block.changed(fabrics=block.fabrics.with_item("A", (fabric_named(design, "Chalk"),)))
    design = design.changed(blocks=(design.blocks[0], one, design.blocks[2]))
    place = set_up(design)
    place.wall.selection.select([Cell(0, 0)])
    press(choose(place, "Clay").list, Key.Key_Return)
    assert shown_letters(place.document.design) == [{"A": "Clay"}]


def test_enter_asks_which_letter_where_there_are_several(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0), (3, 0)))
    place.wall.selection.select([Cell(0, 0), Cell(3, 0)])
    press(choose(place, "Mist").list, Key.Key_Return)
    menu = QApplication.activePopupWidget()
    assert isinstance(menu, QMenu)
    heading, *rows = menu.actions()
    assert not heading.isEnabled()
    assert [action.text() for action in rows] == ["A  Reed", "B  Chalk", "C  Clay"]
    assert not any(action.icon().isNull() for action in rows)
    rows[2].trigger()
    menu.close()
    assert shown_letters(place.document.design) == [{"A": "Reed", "B": "Chalk", "C": "Mist"}] * 2
    assert place.document.undo_stack.count() == 1


def test_enter_without_a_selection_says_what_to_select(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Clay")
    press(page.list, Key.Key_Return)
    assert place.refusals == ["edit.nothing-selected"]
    assert page._said.isVisible()


@pytest.mark.parametrize(("key", "rails"), [("E", {"A": "Reed", "B": "Chalk", "C": "Ink"}), ("S", None)])
def test_replace_and_swap_show_on_the_wall_before_and_are_one_step(
    set_up: SetUp, key: str, rails: dict[str, str] | None
) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0)))
    page = choose(place, "Clay")
    type_in(page.list, key)
    chooser = page.findChild(FabricChooser)
    assert chooser is not None
    assert "Clay" not in [card.fabric.name for card in chooser.model.cards]
    assert shown_letters(place.document.shown)[0]["C"] == "Ink"
    assert shown_letters(place.document.design)[0]["C"] == "Clay"
    press(chooser.search, Key.Key_Return)
    assert shown_letters(place.document.design)[0] == (rails or {"A": "Reed", "B": "Chalk", "C": "Ink"})
    assert place.document.undo_stack.count() == 1
    windows = place.document.design.blocks[1].fabrics["A"]
    ink, clay = (fabric_named(place.document.design, name) for name in ("Ink", "Clay"))
    assert (windows[0], windows[3]) == ((ink, ink) if key == "E" else (clay, ink))


def test_a_choice_given_up_leaves_no_trace(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0)))
    before = place.document.design
    page = choose(place, "Clay")
    page.replace()
    chooser = page.findChild(FabricChooser)
    assert chooser is not None
    assert place.document.shown is not before
    press(chooser, Key.Key_Escape)
    assert place.document.shown is before


def test_a_used_fabric_is_not_removed_and_the_reason_stands_under_the_list(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Clay")
    press(page.list, Key.Key_Delete)
    assert place.refusals == ["edit.fabric-used"]
    assert page._said.isVisible()
    assert "2 blocks of the shelf" in page._said.text()
    page.duplicate()
    assert not page._said.isVisible()
    assert names(page)[-1] == "Clay (2)"
    press(choose(place, "Clay (2)").list, Key.Key_Delete)
    assert names(page)[-1] == "Mist"


def test_a_dropped_photo_becomes_a_fabric_in_one_step(set_up: SetUp, tmp_path: Path) -> None:
    place = set_up(small_design())
    file = tmp_path / "roll.png"
    file.write_bytes(picture("PNG", (60, 40), (10, 120, 200)))
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    drop(place.shelf.fabrics, mime)
    editor = place.shelf.fabric_editor
    assert editor.isVisible()
    assert place.document.design == small_design()
    click(editor.save)
    added = place.document.design.fabrics[-1]
    assert added.picture in place.document.pictures
    assert place.document.pictures[added.picture][:2] == b"\xff\xd8"
    assert added.color.startswith("#0")
    assert place.document.undo_stack.count() == 1
    assert place.shelf.fabrics.isVisible()
    assert place.shelf.fabrics.chosen is not None
    assert place.shelf.fabrics.chosen.id == added.id


@pytest.mark.qt_log_level_fail("CRITICAL")
@pytest.mark.parametrize("data", [SVG, b"words", picture("JPEG")[:200]])
def test_a_dropped_file_that_is_no_photo_is_told(set_up: SetUp, tmp_path: Path, data: bytes) -> None:
    place = set_up(small_design())
    place.shelf.show_fabrics()
    file = tmp_path / "cat.png"
    file.write_bytes(data)
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    drop(place.shelf.fabrics, mime)
    assert place.shelf.fabrics._said.isVisible()
    assert place.shelf.fabrics.isVisible()
    assert place.document.pictures == {}


def test_a_pasted_photo_becomes_a_fabric_and_blocks_are_left_to_the_wall(set_up: SetUp) -> None:
    place = set_up(small_design())
    heard: list[str] = []
    shortcut = QShortcut(QKeySequence("Ctrl+V"), place.shelf)
    shortcut.activated.connect(lambda: heard.append("wall"))
    page = choose(place, "Clay")
    control = Qt.KeyboardModifier.ControlModifier
    QGuiApplication.clipboard().setText("no photo")
    press(page.list, Key.Key_V, control)
    assert heard == ["wall"]
    assert page.isVisible()
    QGuiApplication.clipboard().setImage(QImage.fromData(picture("PNG")))
    press(page.list, Key.Key_V, control)
    assert heard == ["wall"]
    assert place.shelf.fabric_editor.isVisible()


def test_a_double_click_uses_the_fabric(set_up: SetUp) -> None:
    place = set_up(small_design())
    page = choose(place, "Clay")
    rect = page.list.visualRect(page.list.currentIndex())
    double_click(page.list.viewport(), rect.center())
    assert place.refusals == ["edit.nothing-selected"]


def test_sixty_fabrics_and_large_text_stay_within_the_column(set_up: SetUp) -> None:
    for percent, columns in ((100, 2), (200, 1)):
        place = set_up(full_design(), text_percent=percent)
        place.shelf.show_fabrics()
        QApplication.processEvents()
        page = place.shelf.fabrics
        rects = [page.list.visualRect(page.model.index(row, 0)) for row in range(4)]
        assert len({rect.left() for rect in rects}) == columns
        assert max(rect.right() for rect in rects) < page.list.viewport().width()
        longest = max(page.model.cards, key=lambda card: len(card.fabric.name))
        tip = page.model.data(page.model.index_of(longest.id), Qt.ItemDataRole.ToolTipRole)
        assert longest.fabric.name in tip


def test_no_fabrics_says_what_to_do(set_up: SetUp) -> None:
    place = set_up(Design("Empty"))
    place.shelf.show_fabrics()
    page = place.shelf.fabrics
    assert "photo" in page._empty_text.text()
    click(page._empty_way)
    assert place.shelf.fabric_editor.isVisible()

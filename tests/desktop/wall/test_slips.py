"""Notes on the wall: slips hang where they are pinned, are dragged, written and taken off, by mouse and by keys."""

from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, QRectF, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.notes import pin_note
from piecewright.model.note import Note
from piecewright_qt.notes_drawer import NotesDrawer
from piecewright_qt.wall.describing import describe_quilt
from piecewright_qt.wall.view import WallView
from tests.core.edit.quilts import laid
from tests.desktop.wall.conftest import Hang
from tests.desktop.wall.hands import at, blocks, click, drag, key, move, press, selected

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def wall(hang: Hang) -> WallView:
    """Rails with a note on the second, and one beside the quilt."""
    made = pin_note(laid("ro....", "......"), note=Note("More light here", Fraction(9), Fraction(3)))
    return hang(pin_note(made, note=Note("Ask Ida\nfor her blues", Fraction(20), Fraction(8))))


@pytest.fixture
def drawer(wall: WallView, qtbot: QtBot) -> NotesDrawer:
    made = NotesDrawer(wall.document, wall.look, wall)
    qtbot.addWidget(made)
    made.resize(300, 800)
    made.show()
    made.begin()
    return made


def middle(wall: WallView, index: int) -> QPoint:
    return wall.slips.rect(index).center().toPoint()


def test_a_slip_hangs_where_it_is_pinned_at_any_zoom(wall: WallView) -> None:
    for _ in range(3):
        pin = at(wall, 1.5, 0.5)
        rect = wall.slips.rect(0)
        assert abs(rect.center().x() - pin.x()) <= 1
        assert rect.top() <= pin.y() <= rect.bottom()
        wall.zoom_in()


def test_a_drag_moves_the_note_and_no_block_and_is_one_step(wall: WallView) -> None:
    before = blocks(wall.document.design)
    start = middle(wall, 0)
    drag(wall, start, start + (at(wall, 3, 1) - at(wall, 1, 1)))
    note = wall.document.design.quilt.notes[0]
    assert (note.across, note.down) == (Fraction(21), Fraction(3))
    assert blocks(wall.document.design) == before
    assert selected(wall) == []
    assert wall.document.undo_stack.count() == 1


def test_escape_in_the_middle_of_a_drag_leaves_it_where_it_was(wall: WallView) -> None:
    start, place = middle(wall, 0), QRectF(wall.slips.rect(0))
    press(wall, start)
    move(wall, start + QPoint(60, 40))
    assert wall.slips.rect(0) != place
    key(wall, Qt.Key.Key_Escape)
    assert wall.slips.rect(0) == place
    assert wall.document.undo_stack.count() == 0


def test_a_click_marks_it_two_ask_for_it_and_beside_it_none_is_marked(wall: WallView) -> None:
    asked: list[int] = []
    wall.note_asked.connect(asked.append)
    click(wall, middle(wall, 1))
    marked = [wall.slips.chosen]
    QTest.mouseDClick(wall.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, middle(wall, 1))
    assert asked == [1]
    click(wall, at(wall, 0.2, 0.2))
    assert [*marked, wall.slips.chosen] == [1, None]
    assert selected(wall) == [(0, 0)]


def test_its_menu_takes_it_off(wall: WallView) -> None:
    menu = wall.slips.menu(0)
    menu.actions()[1].trigger()
    assert [note.text for note in wall.document.design.quilt.notes] == ["Ask Ida\nfor her blues"]


def test_who_listens_hears_of_notes_and_pointing_reads_one(wall: WallView) -> None:
    assert "2 notes pinned" in str(describe_quilt(wall.scene))
    heard: list[str] = []
    wall.status_changed.connect(heard.append)
    move(wall, middle(wall, 0), button=Qt.MouseButton.NoButton)
    assert heard[-1] == "Note: More light here"


def test_far_away_slips_are_folded(wall: WallView) -> None:
    wall.zoom_to(-7 * 64)
    assert wall.slips.rect(0).width() < 20


def test_the_drawer_pins_writes_moves_and_takes_off_by_keys(drawer: NotesDrawer, wall: WallView) -> None:
    drawer.pin.setFocus()
    QTest.keyClick(drawer.pin, Qt.Key.Key_Space)
    assert drawer.list.count() == 3
    assert drawer.text.area.hasFocus() or drawer.text.area.textCursor().hasSelection()
    QTest.keyClicks(drawer.text.area, "Darker")
    notes = wall.document.design.quilt.notes
    assert notes[2].text == "Darker"
    steps = wall.document.undo_stack.count()
    for _ in range(3):
        QTest.keyClick(drawer._moves[1], Qt.Key.Key_Space)
    QTest.keyClick(drawer._moves[3], Qt.Key.Key_Space)
    moved = wall.document.design.quilt.notes[2]
    assert moved.across - notes[2].across == 3
    assert moved.down - notes[2].down == 1
    assert wall.document.undo_stack.count() == steps + 1
    QTest.keyClick(drawer.off, Qt.Key.Key_Space)
    assert len(wall.document.design.quilt.notes) == 2


def test_the_list_chooses_a_note_and_the_wall_marks_it(drawer: NotesDrawer, wall: WallView) -> None:
    drawer.list.setFocus()
    QTest.keyClick(drawer.list, Qt.Key.Key_Down)
    assert wall.slips.chosen == 1
    assert drawer.text.area.toPlainText() == "Ask Ida\nfor her blues"
    drawer.text.area.selectAll()
    QTest.keyClick(drawer.text.area, Qt.Key.Key_Delete)
    assert "no name" in drawer.text.fault
    assert len(wall.document.design.quilt.notes) == 2


def test_a_note_pressed_on_the_wall_is_chosen_in_the_drawer(drawer: NotesDrawer, wall: WallView) -> None:
    click(wall, middle(wall, 1))
    assert drawer.list.currentRow() == 1
    drawer.text.area.selectAll()
    QTest.keyClicks(drawer.text.area, "Blue")
    assert [note.text for note in wall.document.design.quilt.notes] == ["More light here", "Blue"]


def test_without_notes_it_says_so(hang: Hang, qtbot: QtBot) -> None:
    wall = hang(laid("ro...."))
    drawer = NotesDrawer(wall.document, wall.look, wall)
    qtbot.addWidget(drawer)
    drawer.show()
    drawer.begin()
    assert drawer.none.isVisible()
    assert not drawer.text.isVisible()

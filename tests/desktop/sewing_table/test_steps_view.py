"""The steps as sentences: numbers typed over in place, steps dragged to other places."""

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from piecewright.making.shipped import shipped_recipes
from piecewright_qt.sewing_table.sentence_numbers import numbers_in
from piecewright_qt.sewing_table.steps_list import STEP
from piecewright_qt.sewing_table.steps_view import NumberField, StepsView
from tests.desktop.sewing_table.conftest import NONE, Key, SetUp, Work
from tests.desktop.sewing_table.test_by_hand import PLAIN_CUT, plain_cut


@pytest.fixture
def work(set_up: SetUp) -> Work:
    made = set_up(plain_cut())
    made.show(3)
    return made


def view_of(work: Work) -> StepsView:
    return work.table.list


def shown(work: Work, row: int) -> list[str]:
    sentence = work.table.model.sentence(row)
    look = work.table._look
    return [sentence[n.start : n.start + n.length] for n in numbers_in(sentence, work.bench, look, row)]


def click_number(work: Work, row: int, at: int) -> NumberField:
    view = view_of(work)
    QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, NONE, view.number_rect(row, at).center())
    assert view.field is not None
    return view.field


def type_over(field: NumberField, text: str, end: Qt.Key = Key.Key_Return) -> None:
    field.selectAll()
    QTest.keyClicks(field, text)
    QTest.keyClick(field, end)
    QApplication.processEvents()


def test_the_numbers_of_a_sentence_are_fields_in_place(work: Work) -> None:
    assert shown(work, 3) == ["3", "6 1/2"]
    type_over(click_number(work, 3, 1), "7")
    assert work.steps[3]["every"] == "7"
    assert view_of(work).field is None
    type_over(click_number(work, 3, 0), "2")
    assert work.steps[3]["count"] == 2
    assert work.document.undo_stack.count() == 2


def test_tab_goes_from_number_to_number_and_keys_open_the_first(work: Work) -> None:
    work.key(Key.Key_F2)
    field = view_of(work).field
    assert field is not None
    type_over(field, "2", Key.Key_Tab)
    after = view_of(work).field
    assert after is not None
    assert after.text() == "6 1/2"
    type_over(after, "6 3/4")
    assert (work.steps[3]["count"], work.steps[3]["every"]) == (2, "6 3/4")


def test_escape_leaves_a_number_as_it_was(work: Work) -> None:
    type_over(click_number(work, 3, 1), "9", Key.Key_Escape)
    assert work.steps[3]["every"] == "6 1/2"
    assert work.document.undo_stack.count() == 0


def test_what_is_no_number_is_said_at_the_step(work: Work) -> None:
    type_over(click_number(work, 3, 1), "wide")
    assert work.bench.fault_step == 3
    assert "wide" in work.table.model.fault(3)
    work.document.undo()
    assert work.bench.fault is None


def test_a_number_that_is_worked_out_changes_the_size_it_hangs_on(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    row = work.index_of("cut")
    work.show(row)
    assert shown(work, row) == ["3", "13 1/2"]
    type_over(click_number(work, row, 1), "10 1/2")
    assert work.bench.block is not None
    assert work.bench.block.sizes["F"] == 9


def test_a_number_is_typed_in_the_unit_it_is_shown_in(set_up: SetUp) -> None:
    work = set_up(plain_cut(), unit="cm")
    work.show(3)
    field = click_number(work, 3, 1)
    assert field.text() == "16.51 cm"
    type_over(field, "20")
    value = work.bench.making
    assert value is not None
    (part, *_) = (pile for name, pile in value.table.piles.items() if name == "part.1")
    assert part[0].box.width == Fraction(20) * Fraction(50, 127)


@pytest.mark.parametrize("name", sorted(shipped_recipes()))
def test_every_number_found_stands_for_what_it_shows(set_up: SetUp, name: str) -> None:
    work = set_up(name)
    for row, step in enumerate(work.steps):
        spans = numbers_in(work.table.model.sentence(row), work.bench, work.table._look, row)
        assert len({number.place for number in spans}) == len(spans)
        if "lay" in step:
            assert {number.place.key for number in spans} == {"lay.width", "lay.length"}


def drop_step(work: Work, came: int, before: int) -> None:
    """Let a step fall before a row, as the list hands it to its model."""
    view = view_of(work)
    mime = view.model().mimeData([view.model().index(came, 0)])
    assert mime.hasFormat(STEP)
    view.model().dropMimeData(mime, Qt.DropAction.MoveAction, before, 0, view.rootIndex())
    QApplication.processEvents()


def test_a_step_dragged_elsewhere_is_one_step_of_undo_and_what_breaks_is_said_there(work: Work) -> None:
    drop_step(work, 1, 0)
    assert [step["make"] for step in work.steps][:2] == ["b", "a"]
    assert work.bench.fault is None
    drop_step(work, 5, 2)
    assert work.bench.fault_step == 2
    assert work.table.model.is_done(1)
    assert work.document.undo_stack.count() == 2
    work.document.undo()
    work.document.undo()
    assert work.steps == PLAIN_CUT["steps"]


def test_a_step_let_fall_past_the_last_comes_last(work: Work) -> None:
    view = view_of(work)
    mime = view.model().mimeData([view.model().index(0, 0)])
    view.model().dropMimeData(mime, Qt.DropAction.MoveAction, -1, -1, view.rootIndex())
    assert work.steps[-1]["make"] == "a"


def test_nudges_in_a_row_are_one_step_of_undo(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    canvas = work.table.canvas
    work.show(3)
    canvas.setFocus()
    for _ in range(4):
        work.key(Key.Key_Right, on=canvas)
    assert work.steps[3]["every"] == "7"
    assert work.document.undo_stack.count() == 1
    work.key(Key.Key_Space, on=canvas)
    work.key(Key.Key_Left, on=canvas)
    assert work.document.undo_stack.count() == 2
    work.document.undo()
    work.document.undo()
    assert work.steps == PLAIN_CUT["steps"]

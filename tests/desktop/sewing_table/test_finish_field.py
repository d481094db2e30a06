"""A finished size asked for at the Sewing table: the lengths that give it, or why there are none."""

import pytest
from PySide6.QtTest import QTest

from tests.desktop.sewing_table.conftest import Key, SetUp, Work
from tests.desktop.sewing_table.test_by_hand import plain_cut


def ask(work: Work, text: str) -> str:
    line = work.table.foot.wish.line
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, text)
    QTest.keyClick(line, Key.Key_Return)
    return work.table.foot.wish.said.text()


def test_a_finished_size_asked_for_moves_the_size_of_the_recipe(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    recipe = work.in_design
    assert ask(work, "9")
    assert work.bench.facts is not None
    assert (work.bench.facts.finished.width, work.bench.facts.finished.height) == (9, 9)
    assert work.in_design == recipe
    assert work.document.undo_stack.count() == 1
    work.document.undo()
    assert work.bench.facts.finished.width == 12


def test_a_finished_size_asked_for_moves_written_lengths_where_there_are_no_sizes(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    said = ask(work, "7 x 12")
    assert work.bench.facts is not None, said
    assert (work.bench.facts.finished.width, work.bench.facts.finished.height) == (7, 12)
    work.document.undo()
    assert work.in_design == plain_cut()


@pytest.mark.parametrize("text", ["", "x", "1 x 2 x 3", "-4", "400 x 1"])
def test_a_finished_size_that_can_not_be_is_said_and_changes_nothing(set_up: SetUp, text: str) -> None:
    work = set_up("middle-end-for-end")
    assert ask(work, text)
    assert work.document.undo_stack.count() == 0

"""At the Sewing table of the real window: numbers worked out off its thread, by mouse and keys, and taken back."""

import csv
from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.edit.facts_of import facts_of, given_of
from piecewright.making.pressing_plan import plan_of
from piecewright.plan.sizes_table import sizes_table
from piecewright_qt.sewing_table.numbers.panel import NumbersPanel
from piecewright_qt.sewing_table.numbers.section import Section
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from piecewright_qt.workroom import Workroom
from tests.journeys.user import User, new_design

LEFT = Qt.MouseButton.LeftButton


class AtTheTable:
    """A quilter at the Sewing table."""

    def __init__(self, user: User, block: str) -> None:
        self.user, self.window = user, user.window
        assert user.drop_block(block, 2, 2)
        user.click(1, 1)
        user.keys("sewing-table")
        assert self.window.places.currentWidget() is self.window.table
        self.settle()

    @property
    def numbers(self) -> NumbersPanel:
        return self.window.table.numbers

    @property
    def block(self) -> str:
        assert self.window.table.bench.block_id is not None
        return self.window.table.bench.block_id

    @property
    def size(self) -> tuple[object, object]:
        finished = facts_of(self.user.design, self.block).finished
        return finished.width, finished.height

    def settle(self) -> None:
        """Wait until every number asked for is there."""
        self.user.qtbot.waitUntil(lambda: not self.numbers.is_behind, timeout=20_000)

    def unfold(self, section: Section) -> None:
        """Press the heading of a section."""
        self.numbers.ensureWidgetVisible(section.head)
        QTest.mouseClick(section.head, LEFT)
        assert section.is_open
        self.settle()


@pytest.fixture
def table(workroom: Workroom, qtbot: QtBot) -> AtTheTable:
    """A new design, one block on the wall and in hand."""
    return AtTheTable(new_design(workroom, qtbot), "Rail fence of four")


def test_a_size_is_picked_from_the_table_and_taken_back_by_keys(table: AtTheTable, tmp_path: Path) -> None:
    before = table.size
    sizes = table.numbers.sizes
    table.unfold(sizes)
    design = table.user.design
    block = design.shelf.blocks[table.block]
    recipe = design.shelf.recipes[block.recipe]
    assert sizes.table is not None
    assert sizes.table.rows == sizes_table(recipe, given_of(design, block), Fraction(5, 2)).rows
    other = next(
        card
        for card, row in zip(sizes.cards, sizes.table.rows, strict=False)
        if (row.facts.finished.width, row.facts.finished.height) != before
        and row.facts.finished.width % design.quilt.lattice.unit == 0
    )
    other.setFocus()
    QTest.keyClick(other, Qt.Key.Key_Space)
    table.settle()
    assert table.size != before
    assert other.isChecked()
    table.user.keys("undo")
    table.settle()
    assert table.size == before
    assert not other.isChecked()


def test_the_table_of_sizes_is_kept_as_a_file(
    table: AtTheTable, tmp_path: Path, chosen: list[Path | None]
) -> None:
    table.unfold(table.numbers.sizes)
    chosen.append(tmp_path / "sizes.csv")
    QTest.mouseClick(table.numbers.sizes.save, LEFT)
    rows = list(csv.DictReader((tmp_path / "sizes.csv").read_text(encoding="utf-8-sig").splitlines()))
    assert table.numbers.sizes.table is not None
    assert len(rows) == len(table.numbers.sizes.table.rows)


def test_the_pressing_plan_is_looked_at_and_written_into_the_steps(table: AtTheTable) -> None:
    pressing = table.numbers.pressing
    table.unfold(pressing)
    assert any("press as its own plan says" in text for text in pressing.quilt_lines.texts)
    pressing.switch.box.setFocus()
    QTest.keyClick(pressing.switch.box, Qt.Key.Key_Space)
    assert table.window.table.middle.currentWidget() is table.window.table.face
    table.numbers.ensureWidgetVisible(pressing.write)
    QTest.mouseClick(pressing.write, LEFT)
    table.settle()
    block = table.user.design.shelf.blocks[table.block]
    recipe = table.user.design.shelf.recipes[block.recipe]
    assert all(seam.fixed for seam in plan_of(recipe, given_of(table.user.design, block)).seams)
    table.user.keys("undo")
    table.settle()
    assert table.user.design.shelf.recipes[block.recipe] != recipe
    assert isinstance(pressing.write, WrapButton)
    assert pressing.write.isVisibleTo(pressing)


def test_my_seam_typed_here_is_the_seam_of_the_design(table: AtTheTable) -> None:
    section = table.numbers.my_seam
    table.unfold(section)
    line = section.field.box.lineEdit()
    assert line is not None
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "6 1/4")
    table.settle()
    assert table.user.design.settings.lost_per_seam == Fraction(1, 8)
    assert any("with your seam" in text for text in section.messages.texts)
    table.user.keys("undo")
    table.settle()
    assert table.user.design.settings.lost_per_seam == 0


def test_numbers_asked_for_and_no_longer_waited_for_harm_nothing(
    table: AtTheTable, workroom: Workroom, qtbot: QtBot
) -> None:
    QTest.mouseClick(table.numbers.matters.head, LEFT)
    QTest.mouseClick(table.numbers.sizes.head, LEFT)
    assert table.numbers.is_behind
    table.window.document.undo_stack.setClean()
    assert table.window.close()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    qtbot.waitUntil(lambda: workroom.runner.is_idle, timeout=20_000)

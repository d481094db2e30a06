"""Different blocks at the Sewing table: drawn within limits, looked at as pictures, kept by mouse or keys."""

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLineEdit, QSpinBox

from piecewright.edit.facts_of import facts_of
from piecewright_qt.sewing_table.draws_panel import DrawsPanel
from tests.desktop.sewing_table.conftest import NONE, SetUp, Work

Key = Qt.Key


def at_draws(set_up: SetUp, recipe: str = "wonky-exchange", **preferences: object) -> tuple[Work, DrawsPanel]:
    """A table whose recipe leaves something to chance, with its contact sheet in view."""
    work = set_up(recipe, **preferences)
    assert work.table.varied.isVisible()
    QTest.mouseClick(work.table.varied, Qt.MouseButton.LeftButton)
    QApplication.processEvents()
    panel = work.table.draws
    assert panel is not None
    assert work.table.middle.currentWidget() is panel
    return work, panel


def click(panel: DrawsPanel, row: int) -> None:
    panel.sheet.scrollTo(panel.model.index(row, 0))
    at = panel.sheet.visualRect(panel.model.index(row, 0)).center()
    QTest.mouseClick(panel.sheet.viewport(), Qt.MouseButton.LeftButton, NONE, at)


def type_over(field: QLineEdit, text: str) -> None:
    field.selectAll()
    QTest.keyClicks(field, text)


def values(panel: DrawsPanel) -> list[dict[str, Fraction]]:
    return [dict(sheet.draw.values) for sheet in panel.model.sheets]


def test_a_recipe_that_leaves_nothing_to_chance_offers_no_draws(set_up: SetUp) -> None:
    assert not set_up("middle-end-for-end").table.varied.isVisible()


def test_the_sheet_shows_unlike_blocks_each_with_its_values_in_words(set_up: SetUp) -> None:
    work, panel = at_draws(set_up)
    assert len(values(panel)) == 8
    assert len({tuple(one.items()) for one in values(panel)}) == 8
    assert work.document.undo_stack.count() == 0
    for row, sheet in enumerate(panel.model.sheets):
        said = panel.model.data(panel.model.index(row, 0), Qt.ItemDataRole.AccessibleTextRole)
        assert said == sheet.said
        assert sheet.said.startswith(f"Block {row + 1}: 8 x 8 in finished; foot ")
        icon = panel.model.data(panel.model.index(row, 0), Qt.ItemDataRole.DecorationRole)
        assert not icon.isNull()  # type: ignore[attr-defined]


def test_kept_by_mouse_they_are_blocks_of_the_design_in_one_step(set_up: SetUp) -> None:
    work, panel = at_draws(set_up)
    click(panel, 1)
    click(panel, 4)
    click(panel, 6)
    click(panel, 4)
    assert panel.model.data(panel.model.index(1, 0)) == "✓ 2"
    assert panel.model.data(panel.model.index(4, 0)) == "5"
    wanted = [panel.model.sheets[row].draw for row in (1, 6)]
    before = work.document.design
    QTest.mouseClick(panel.keep_button, Qt.MouseButton.LeftButton)
    kept = work.document.design.blocks[len(before.blocks) :]
    assert [dict(one.draws) for one in kept] == [dict(one.values) for one in wanted]
    assert [facts_of(work.document.design, one.id) for one in kept] == [one.facts for one in wanted]
    assert panel.said.text() == f"Kept on the shelf: {kept[0].name}, {kept[1].name}"
    assert work.document.undo_stack.count() == 1
    work.document.undo()
    assert work.document.design == before


def test_all_of_it_by_keyboard(set_up: SetUp) -> None:
    work, panel = at_draws(set_up)
    first = values(panel)
    work.key(Key.Key_F5, on=panel.again)
    assert not any(one in first for one in values(panel))
    panel.sheet.setFocus()
    panel.sheet.setCurrentIndex(panel.model.index(0, 0))
    panel.sheet.clearSelection()
    work.key(Key.Key_Return, on=panel.sheet)
    assert panel.said.text().startswith("Choose the blocks to keep")
    work.key(Key.Key_Space, on=panel.sheet)
    wanted = values(panel)[min(panel.sheet.rows)]
    work.key(Key.Key_Return, on=panel.sheet)
    assert dict(work.document.design.blocks[-1].draws) == wanted
    work.key(Key.Key_Escape, on=panel.sheet)
    assert work.table.middle.currentWidget() is work.table.work


def test_blocks_kept_do_not_come_again(set_up: SetUp) -> None:
    work, panel = at_draws(set_up)
    panel.sheet.selectAll()
    panel.keep()
    kept = [dict(block.draws) for block in work.document.design.blocks if block.draws]
    assert len(kept) == 8
    for _ in range(4):
        panel.draw_again()
        assert not any(one in kept for one in values(panel))


def test_draws_keep_to_the_limits_typed(set_up: SetUp) -> None:
    _, panel = at_draws(set_up)
    for name, low, high in (("top", "3", "3 1/2"), ("foot", "5", "6")):
        for field, text in zip(panel.ranges[name], (low, high), strict=True):
            line = field.box.lineEdit()
            assert line is not None
            assert line.accessibleName().startswith(f"{name}: ")
            type_over(line, text)
    panel.draw_again()
    for one in values(panel):
        assert 3 <= one["top"] <= Fraction(7, 2)
        assert 5 <= one["foot"] <= 6
    panel.most.box.setValue(10)
    panel.draw_again()
    assert values(panel) == []
    assert panel.said.text()


def test_a_limit_that_is_none_is_told_and_the_sheet_stays(set_up: SetUp) -> None:
    _, panel = at_draws(set_up)
    before = values(panel)
    line = panel.ranges["top"][0].box.lineEdit()
    assert line is not None
    type_over(line, "wide")
    panel.draw_again()
    assert panel.ranges["top"][0].fault
    assert panel.said.text() == "Mend the limit that is marked first."
    assert values(panel) == before


def test_how_many_are_asked_for_come(set_up: SetUp) -> None:
    _, panel = at_draws(set_up, "wonky-cross")
    panel.count.box.setValue(3)
    panel.draw_again()
    assert len(values(panel)) == 3


def test_a_click_on_a_step_goes_back_to_it(set_up: SetUp) -> None:
    work, _ = at_draws(set_up)
    work.show(3)
    assert work.table.middle.currentWidget() is work.table.work


@pytest.mark.parametrize("text", [100, 200])
def test_every_part_has_a_name_for_the_ear_and_room_for_its_words(set_up: SetUp, text: int) -> None:
    _, panel = at_draws(set_up, text_percent=text)
    parts = [*panel.findChildren(QLineEdit), *panel.findChildren(QSpinBox), panel.sheet]
    own = [part for part in parts if part.objectName() != "qt_spinbox_lineedit"]
    assert all(part.accessibleName() for part in own)
    for button in panel.findChildren(QAbstractButton):
        if button.isVisible() and button.text():
            assert button.width() >= button.fontMetrics().horizontalAdvance(button.text())


def test_the_measure_changes_the_limits_and_what_is_said(set_up: SetUp) -> None:
    work, panel = at_draws(set_up)
    before = values(panel)
    work.table.work.canvas._look.prefer(unit="cm")
    QApplication.processEvents()
    assert values(panel) == before
    assert " cm" in panel.model.sheets[0].said
    assert panel.edge.box.currentText() == "2.54 cm"

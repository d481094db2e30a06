"""The panel follows every edit and every preview, counts what changed, and says errors and faults loudly."""

import logging
from fractions import Fraction
from random import Random

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QPushButton
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright.model.design import Design
from piecewright.plan.difference import difference
from piecewright.plan.materials import Materials, materials
from piecewright.units.measure import Measure
from piecewright_qt.document import Document
from piecewright_qt.materials.lister import rows
from piecewright_qt.replan import Replan
from tests.core.edit_strategies import random_call
from tests.core.strategies import random_design
from tests.desktop.materials.conftest import Place, SetUp
from tests.desktop.materials.plans import sample, too_wide, two_colorings, without_first
from tests.desktop.wall.quilts import unmade

INCH = Measure()
PLAN = "piecewright_qt.replan.materials"


def told(place: Place) -> tuple[str, str]:
    """What the head says of the last change."""
    return place.column.panel.head.cost.caption, place.column.panel.head.cost.text


def is_behind(replan: Replan) -> bool:
    """Whether the numbers shown are older than the design; asked anew each time."""
    return replan.is_behind


def shows(place: Place, design: Design) -> bool:
    """Whether the list is that of a design, apart from what is gone."""
    return [row for row in place.plan_rows if not row.gone] == [
        row for row in rows(materials(design), place.look.measure) if row.section != "errors"
    ]


def test_the_panel_follows_edits_undo_and_redo(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    start = place.document.design
    assert shows(place, start)
    place.document.perform(without_first())
    assert shows(place, place.document.design)
    place.document.undo()
    assert shows(place, start)
    place.document.redo()
    assert shows(place, place.document.design)


def test_the_panel_after_random_edits_and_previews_is_that_from_nothing(set_up: SetUp) -> None:
    random = Random(11)
    place = set_up(random_design(random))
    for _ in range(60):
        wanted = random_call(random, place.document.design)
        place.document.preview(wanted)
        assert shows(place, place.document.shown)
        if random.random() < 0.3:
            place.document.drop_preview()
        else:
            place.document.perform(wanted)
        if random.random() < 0.2:
            place.document.undo()
        assert shows(place, place.document.design)


def test_a_preview_is_counted_and_costed_and_gone_when_dropped(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    assert told(place) == ("From 42 in usable width, with 1/4 in seams", "")
    place.document.preview(without_first())
    caption, cost = told(place)
    lines = [row for row in place.rows if row.kind == "line" and place.delta(row) is not None]
    assert caption == f"This would change {len(lines)} lines"
    assert cost.split(" · ")[:2] == ["−1 set", "−2 strips"]
    place.document.drop_preview()
    assert told(place) == ("From 42 in usable width, with 1/4 in seams", "")
    assert not place.list.rows.comparison.marks


def test_the_cost_of_the_last_step_is_what_the_two_plans_differ_by(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    before = place.replan.standing
    place.document.perform(without_first())
    caption, cost = told(place)
    assert caption.startswith("The last step changed ")
    changes = difference(before, place.replan.standing)
    sets = sum(change.by for change in changes if change.part == "sets")
    strips = sum(change.by for change in changes if change.part == "strips")
    cloth = sum((Fraction(change.by) for change in changes if change.part == "cloth"), Fraction(0))
    assert cost == f"−{-sets} set · −{-strips} strips · −{INCH.yards(-cloth)}"
    for change in changes:
        if change.part == "cloth":
            row = place.row(change.what.text(), "cloth")
            assert (
                place.delta(row) == f"{'+' if change.by > 0 else '−'}{INCH.yards(abs(Fraction(change.by)))}"
            )


def test_after_a_dropped_preview_the_last_step_is_told_again(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.document.perform(without_first())
    said, marks = told(place), place.list.rows.comparison.marks
    place.document.preview(call("remove-blocks", cells=(Cell(6, 0),)))
    assert told(place) != said
    place.document.drop_preview()
    assert told(place) == said
    assert place.list.rows.comparison.marks == marks


def test_a_change_that_costs_nothing_says_so(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.document.perform(call("turn-blocks", cells=(Cell(0, 0),), by=180))
    assert told(place) == ("The last step changed nothing here", "")


def test_another_arrangement_in_view_is_no_change_of_this_one(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.document.perform(call("duplicate-arrangement", index=0, name="Second"))
    place.document.perform(without_first())
    assert place.list.rows.comparison.marks
    place.document.perform(call("switch-arrangement", index=0))
    assert not place.list.rows.comparison.marks
    place.document.perform(call("remove-arrangement", index=0))
    assert not place.list.rows.comparison.marks


def test_the_head_keeps_its_height_while_previews_come_and_go(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(sample("tideline"))
    head, heights = place.column.panel.head, set()
    for cell in (Cell(0, 0), Cell(6, 12), Cell(18, 24)):
        place.document.preview(call("remove-blocks", cells=(cell,)))
        qtbot.wait(1)
        heights.add(head.height())
        place.document.drop_preview()
        qtbot.wait(1)
        heights.add(head.height())
    assert len(heights) == 1


def test_cloth_that_gives_no_block_is_said_above_the_list_wherever_that_is_scrolled(set_up: SetUp) -> None:
    place = set_up(too_wide())
    alerts = place.column.panel.alerts
    assert alerts.isVisible()
    assert alerts.geometry().bottom() < place.list.geometry().top()
    (said,) = alerts.said
    assert "40 1/2 from 40 usable: no block" in said
    assert said in alerts.accessibleName()
    assert not [row for row in place.rows if row.tone == "error"]  # not said twice
    place.document.perform(
        call("change-settings", settings=place.document.design.settings.changed(usable=Fraction(42)))
    )
    assert not alerts.isVisible()


def test_more_errors_than_have_room_are_counted_and_listed(set_up: SetUp) -> None:
    place = set_up(unmade())
    alerts = place.column.panel.alerts
    assert alerts.said == alerts.sentences
    assert len(list(alerts.said)) == 2
    alerts.say(("One.", "Two.", "Three.", "Four."))
    assert tuple(alerts.said) == ("One.", "Two.", "And 2 more errors, listed below.")


def test_an_error_that_a_preview_brings_is_loud_too(set_up: SetUp) -> None:
    design = too_wide().changed(settings=two_colorings().settings)
    place = set_up(design)
    assert not place.column.panel.alerts.isVisible()
    place.document.preview(call("change-settings", settings=design.settings.changed(usable=Fraction(30))))
    assert place.column.panel.alerts.isVisible()
    place.document.drop_preview()
    assert not place.column.panel.alerts.isVisible()


def test_a_fault_in_the_plan_keeps_the_last_numbers_and_says_so(
    set_up: SetUp, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    place = set_up(two_colorings())
    kept = place.plan_rows

    def broken(design: Design) -> Materials:
        raise ZeroDivisionError("a fault put in on purpose")

    with caplog.at_level(logging.ERROR), monkeypatch.context() as patch:
        patch.setattr(PLAN, broken)
        place.document.preview(without_first())
        assert place.plan_rows == kept
        assert is_behind(place.replan)
        assert "could not be worked out" in place.column.panel.alerts.said[0]
        place.document.drop_preview()
        assert not is_behind(place.replan)  # the design as it stands was worked out
        assert not place.column.panel.alerts.isVisible()
        place.document.perform(without_first())
        assert is_behind(place.replan)
        assert [row for row in place.plan_rows if not row.gone] == list(kept)
    assert "a fault put in on purpose" in caplog.text
    place.document.undo()
    assert not is_behind(place.replan)
    assert not place.column.panel.alerts.isVisible()
    place.document.redo()
    assert shows(place, place.document.design)


def test_a_plan_that_never_worked_out_leaves_a_window_that_goes_on(
    monkeypatch: pytest.MonkeyPatch, qapp: object
) -> None:
    seen: list[Design] = []

    def broken_at_first(design: Design) -> Materials:
        seen.append(design)
        if len(seen) == 1:
            raise ZeroDivisionError("a fault put in on purpose")
        return materials(design)

    monkeypatch.setattr(PLAN, broken_at_first)
    document = Document(two_colorings())
    replan = Replan(document)
    assert is_behind(replan)
    assert replan.shown.block_count == 0
    document.perform(without_first())
    assert not is_behind(replan)
    assert replan.shown.block_count == 5


def test_sizes_and_totals_are_told_in_the_measure_in_force(set_up: SetUp) -> None:
    place = set_up(two_colorings(), unit="cm", decimal_comma=True)
    head = place.column.panel.head
    assert head.size_label.text().replace("\N{NO-BREAK SPACE}", " ") == "93,98 x 78,74 cm finished"
    assert "unfinished" in head.top_label.text()
    cloth = place.row("Cloth to buy")
    assert cloth.value.endswith(" m")
    assert cloth.value.replace(" ", "\N{NO-BREAK SPACE}") in head.totals.text()
    place.look.prefer(unit="in", decimal_comma=False)
    assert head.size_label.text().replace("\N{NO-BREAK SPACE}", " ") == "37 x 31 in finished"
    assert place.row("Cloth to buy").value.endswith(" yd")


def test_totals_are_those_of_the_plan(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    plan = place.replan.shown
    text = place.column.panel.head.totals.text().replace("\N{NO-BREAK SPACE}", " ")
    assert text.split(" · ")[:3] == [
        f"{plan.block_count} blocks",
        f"{plan.set_count} sets to sew",
        f"{plan.strip_count} strips to cut",
    ]


@pytest.mark.parametrize("percent", [100, 200])
def test_every_part_of_the_head_has_room_for_its_words(set_up: SetUp, percent: int, qtbot: QtBot) -> None:
    place = set_up(sample("tideline"), width=320, text_percent=percent)
    place.document.preview(without_first())
    qtbot.wait(1)
    for label in place.column.panel.head.findChildren(QLabel):
        if label.isHidden():
            assert label is place.column.panel.head.real_label
            continue
        assert label.height() >= label.heightForWidth(label.width()) > 0, label.text()
        assert label.wordWrap()


def test_controls_have_names_tips_and_room_for_a_finger(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.column.show_resize()
    for button in place.column.findChildren(QPushButton):
        assert button.accessibleName() or button.text()
        assert button.toolTip()
        assert min(button.height(), button.width()) >= 24
    assert place.column.panel.accessibleName() == "Materials"
    assert place.list.accessibleDescription()


def test_tab_goes_from_the_button_to_the_list(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.column.panel.head.resize_button.setFocus()
    QTest.keyClick(place.column.panel.head.resize_button, Qt.Key.Key_Tab)
    assert place.list.hasFocus()


def test_what_the_top_really_measures_stands_beside_the_nominal_size(set_up: SetUp) -> None:
    """Two seams in a block of three rails: three strips sewn 6 3/8 in wide lose 1/16 in at each."""
    design = two_colorings()
    place = set_up(design)
    head = place.column.panel.head
    assert head.real_label.isHidden()
    place.document.perform(
        call("change-settings", settings=design.settings.changed(three_strips=Fraction(51, 8)))
    )
    assert head.real_label.isVisibleTo(head)
    assert head.real_label.text().endswith("with your seam, row by row")
    assert (
        head.top_label.text().replace("\N{NO-BREAK SPACE}", " ").startswith("37 1/2 x 31 1/2 in unfinished")
    )
    place.document.undo()
    assert head.real_label.isHidden()

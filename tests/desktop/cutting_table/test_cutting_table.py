"""The Cutting table: what it shows is the engine's plan, it follows edits, and mouse and keys reach every piece."""

from collections import Counter
from dataclasses import replace
from fractions import Fraction

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QKeyEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QComboBox, QListView, QWidget
from pytestqt.qtbot import QtBot

from piecewright.cutting.any_order import AnyOrderPlan, any_order_plan, cuts_said
from piecewright.cutting.cutting_list import cutting_list
from piecewright.cutting.left_overs import left_overs
from piecewright.cutting.table import DesignCutting, best_cutting, cutting_plan
from piecewright.cutting.why import amount_why
from piecewright.edit.registry import EditCall, call
from piecewright.model.design import Design
from piecewright.plan.why import Refers
from piecewright_qt.cutting_table.cuts_list import CutsList
from piecewright_qt.cutting_table.table import CuttingTable
from piecewright_qt.preferences import PreferencesDialog
from piecewright_qt.runner import Runner
from piecewright_qt.samples import empty_design
from tests.desktop.cutting_table.conftest import Open, sample

LEFT = Qt.MouseButton.LeftButton
Key = Qt.Key


def usable(design: Design, width: int) -> EditCall:
    """Cloth of another usable width."""
    return call("change-settings", settings=design.settings.changed(usable=Fraction(width)))


def boxes(cuts: CutsList) -> list[int]:
    """The rows that can be ticked."""
    return [row for row in range(cuts.count()) if cuts.item(row).flags() & Qt.ItemFlag.ItemIsUserCheckable]


def test_every_fabric_that_is_cut_is_listed_with_what_is_bought(stand_at: Open) -> None:
    table, plan = stand_at(), cutting_plan(sample())
    rows = [row for row in table.fabrics.rows.rows if row.kind == "line"]
    assert [row.fabrics[0] for row in rows] == [each.fabric for each in plan.fabrics]
    assert all(row.value.endswith("yd") for row in rows)
    assert table.work.fabric == plan.fabrics[0].fabric


@pytest.mark.parametrize("number", [0, 1, 2, 3])
def test_every_piece_of_the_plan_is_drawn_and_can_be_pointed_at(stand_at: Open, number: int) -> None:
    """As many places on the cloth as the plan cuts pieces, counted by key; of strips cut up, their parts."""
    table = stand_at(sample(number))
    for each in table.work.table.fabrics:
        table.work.choose_fabric(each.fabric)
        pieces = each.plan.pieces_cut
        wanted: Counter[str] = Counter()
        for laid in each.plan.laid:  # sheets that are cut alike are drawn once
            for strip in laid.strips:
                for cut in strip.cuts:
                    for key, count in cut.pieces:
                        parts = sum(many for _, many in pieces[key].inside) or 1
                        wanted[key] += count * parts * strip.count
        assert Counter(spot.key for spot in table.canvas.spots) == wanted


def test_pointing_tells_size_and_use_and_leaving_falls_silent(stand_at: Open) -> None:
    table = stand_at()
    spot = table.canvas.spots[0]
    port = table.canvas.viewport()
    QTest.mouseMove(port, table.canvas.middle_of(spot))
    assert "cut" in table.status.toolTip()
    assert table.status.toolTip() == table.canvas.describe(spot)


def test_arrows_walk_through_every_piece_and_round(stand_at: Open) -> None:
    table = stand_at()
    table.canvas.setFocus()
    count = len(table.canvas.spots)
    seen = []
    for _ in range(count):
        QTest.keyClick(table.canvas, Key.Key_Right)
        assert table.canvas.current is not None
        seen.append(table.canvas.current)
    assert seen == list(table.canvas.spots)
    QTest.keyClick(table.canvas, Key.Key_Right)
    assert table.canvas.current is table.canvas.spots[0]
    QTest.keyClick(table.canvas, Key.Key_Left)
    assert table.canvas.current is table.canvas.spots[-1]


def test_enter_asks_for_the_blocks_that_a_piece_is_for(stand_at: Open, qtbot: QtBot) -> None:
    table = stand_at()
    table.canvas.setFocus()
    QTest.keyClick(table.canvas, Key.Key_Home)
    with qtbot.waitSignal(table.refers) as asked:
        QTest.keyClick(table.canvas, Key.Key_Return)
    refers = asked.args[0]
    assert isinstance(refers, Refers)
    assert refers.cells or refers.parts


def test_the_list_is_the_engines_and_ends_with_what_is_worth_keeping(stand_at: Open) -> None:
    table = stand_at()
    for each in table.work.table.fabrics:
        table.work.choose_fabric(each.fabric)
        lines = sum(len(setting.lines) for setting in cutting_list(each.plan)) + len(left_overs(each.plan))
        assert len(boxes(table.cuts)) == lines
        assert table.cuts.done == (0, lines)


def test_ticks_stay_with_their_fabric_and_go_when_asked(stand_at: Open) -> None:
    table = stand_at()
    first, second = table.work.table.fabrics[:2]
    row = boxes(table.cuts)[0]
    table.cuts.setFocus()
    table.cuts.setCurrentRow(row)
    QTest.keyClick(table.cuts, Key.Key_Space)
    assert table.cuts.done[0] == 1
    table.work.choose_fabric(second.fabric)
    assert table.cuts.done[0] == 0
    table.work.choose_fabric(first.fabric)
    assert table.cuts.done[0] == 1
    QTest.mouseClick(table.untick, LEFT)
    assert table.cuts.done[0] == 0


def test_a_line_of_the_list_lights_up_what_it_cuts(stand_at: Open) -> None:
    table = stand_at()
    marked: list[frozenset[str]] = []
    table.cuts.pointed.connect(marked.append)
    table.cuts.setCurrentRow(boxes(table.cuts)[0])
    keys = {spot.key for spot in table.canvas.spots}
    assert marked
    assert marked[-1]
    assert marked[-1] <= keys


def test_it_follows_an_edit_at_once_and_what_is_tried_out(stand_at: Open) -> None:
    table = stand_at()
    document = table.property("document")
    wider = usable(document.design, 20)
    before = table.work.table
    assert document.preview(wider)
    assert table.work.table == cutting_plan(document.shown)
    assert table.work.table != before
    document.drop_preview()
    assert table.work.table == before
    assert document.perform(wider)
    assert table.work.table == cutting_plan(document.design)
    shown = [row.fabrics[0] for row in table.fabrics.rows.rows if row.kind == "line"]
    assert shown == [each.fabric for each in table.work.table.fabrics]


def test_out_of_view_nothing_is_planned_until_it_is_stepped_up_to_again(stand_at: Open) -> None:
    table = stand_at()
    document = table.property("document")
    before = table.work.table
    table.hide()
    document.perform(usable(document.design, 20))
    assert table.work.table is before
    table.show()
    assert table.work.table == cutting_plan(document.design)


def test_the_best_plan_is_searched_for_and_is_the_engines(stand_at: Open, runner: Runner) -> None:
    table = stand_at(sample(3), searching=True)
    assert table.stop.isVisible()
    runner.finish()
    assert not table.work.is_searching
    wanted = best_cutting(cutting_plan(sample(3)))
    assert [each.plan for each in table.work.table.fabrics] == [each.plan for each in wanted.fabrics]
    assert not table.progress.isVisible()


def test_the_newest_question_wins(stand_at: Open, runner: Runner) -> None:
    table = stand_at(sample(3), searching=True)
    document = table.property("document")
    for width in (20, 30, 38):
        document.perform(usable(document.design, width))
    runner.finish()
    assert table.work.is_searched
    assert table.work.table.materials is table.work.level.materials


def test_a_search_that_is_stopped_leaves_a_plan_that_is_no_worse(stand_at: Open, runner: Runner) -> None:
    table = stand_at(sample(0), searching=True)
    QTest.mouseClick(table.stop, LEFT)
    runner.finish()
    assert not table.work.is_searching
    for each, level in zip(table.work.table.fabrics, table.work.level.fabrics, strict=True):
        assert each.plan.amount <= level.plan.amount
    if table.work.was_stopped:  # it may have ended before it heard
        assert table.stop.text() == "Search on"
        QTest.mouseClick(table.stop, LEFT)
        runner.finish()
    assert not table.work.was_stopped
    wanted = best_cutting(cutting_plan(sample(0)))
    assert [each.plan for each in table.work.table.fabrics] == [each.plan for each in wanted.fabrics]


def test_a_search_left_early_goes_on_when_one_comes_back(stand_at: Open, runner: Runner) -> None:
    table = stand_at(sample(3), searching=True)
    table.hide()
    runner.finish()
    table.show()
    runner.finish()
    wanted = best_cutting(cutting_plan(sample(3)))
    assert [each.plan for each in table.work.table.fabrics] == [each.plan for each in wanted.fabrics]


def test_every_choice_shows_its_plan_and_its_difference(stand_at: Open, runner: Runner) -> None:
    table = stand_at(searching=True)
    runner.finish()
    box = table.choice
    assert "less than plain cutting" in box.itemText(1) or "as much as plain cutting" in box.itemText(1)
    for place in range(box.count()):
        box.setCurrentIndex(place)
        box.activated.emit(place)
        assert table.work.choice == box.itemData(place)
        for each in table.work.table.fabrics:
            assert each.plan.amount <= each.plain.amount


def test_an_empty_wall_still_cuts_what_goes_behind_and_round_it(stand_at: Open) -> None:
    table = stand_at(empty_design())
    rows = [row for row in table.fabrics.rows.rows if row.kind == "line"]
    assert [row.fabrics[0] for row in rows] == [each.fabric for each in cutting_plan(empty_design()).fabrics]
    assert not table.grab().isNull()


def test_a_left_hand_sees_the_cloth_mirrored_and_the_same_list(stand_at: Open) -> None:
    right, left = stand_at(), stand_at(left_handed=True)
    assert [right.cuts.item(n).text() for n in range(right.cuts.count())] == [
        left.cuts.item(n).text() for n in range(left.cuts.count())
    ]
    at_right, at_left = right.canvas.spots, left.canvas.spots
    assert [spot.key for spot in at_right] == [spot.key for spot in at_left]
    sums = {
        round((one.rect.center() + other.rect.center()).x())
        for one, other in zip(at_right, at_left, strict=True)
    }
    assert max(sums) - min(sums) <= 1  # every piece lies as far from one side as it lay from the other


def test_coming_closer_keeps_what_lies_under_the_pointer(stand_at: Open) -> None:
    table = stand_at()
    canvas = table.canvas
    canvas.zoom_in()
    canvas.zoom_in()
    spot = canvas.spots[len(canvas.spots) // 2]
    at = QPointF(canvas.middle_of(spot))
    before = canvas.percent
    canvas._zoom_to(1.2 * canvas._zoom, at)
    moved = QPointF(canvas.middle_of(canvas.spots[len(canvas.spots) // 2])) - at
    assert canvas.percent > before
    assert abs(moved.y()) < canvas.spots[0].rect.height()
    canvas.fit()
    assert canvas.percent == 100


def test_escape_goes_back_from_wherever_the_keys_are(stand_at: Open, qtbot: QtBot) -> None:
    table = stand_at()
    for widget in (table.fabrics, table.cuts, table.canvas, table.tabs):
        widget.setFocus()
        with qtbot.waitSignal(table.left):
            QTest.keyClick(widget, Key.Key_Escape)


def test_everything_that_can_be_used_has_a_name(stand_at: Open) -> None:
    table = stand_at()
    for widget in table.findChildren(QWidget):
        if isinstance(widget, QAbstractButton | QComboBox | QListView) and widget.isVisible():
            inside = widget.parent()
            if isinstance(inside, QComboBox) or widget.objectName().startswith("qt_"):
                continue
            named = widget.accessibleName() or (isinstance(widget, QAbstractButton) and widget.text())
            assert named, widget


def test_a_key_event_that_is_not_ours_goes_on(stand_at: Open) -> None:
    table: CuttingTable = stand_at()
    event = QKeyEvent(QKeyEvent.Type.KeyPress, Key.Key_Q, Qt.KeyboardModifier.NoModifier)
    table.canvas.keyPressEvent(event)
    assert not event.isAccepted()


def test_an_amount_opens_to_its_sum_and_its_strips_point_at_the_wall(stand_at: Open, qtbot: QtBot) -> None:
    table = stand_at()
    each = table.work.chosen
    assert each is not None
    QTest.keyClick(table.fabrics, Key.Key_Return)
    told = amount_why(table.work.design, each)
    rows = table.fabrics.rows
    assert [row.label for row in rows.rows if row.kind == "term"] == [term.said.text() for term in told.terms]
    at = rows.place(("cloth", each.fabric))
    assert at is not None
    assert rows.reason(rows.rows[at]) == told.said.text()
    QTest.keyClick(table.fabrics, Key.Key_Down)
    with qtbot.waitSignal(table.refers) as asked:
        QTest.keyClick(table.fabrics, Key.Key_Return)
    assert asked.args == [told.terms[0].refers]


def test_the_hand_is_said_in_the_preferences(stand_at: Open) -> None:
    table = stand_at()
    before = [spot.rect.center().x() for spot in table.canvas.spots]
    dialog = PreferencesDialog(table._look)
    dialog.left_handed.box.click()
    assert table._look.preferences.left_handed
    assert [spot.rect.center().x() for spot in table.canvas.spots] != before
    dialog.deleteLater()


def test_straight_cuts_in_any_order_are_drawn_and_listed_cut_by_cut(stand_at: Open) -> None:
    table = stand_at(sample(3))
    work = table.work
    fabrics = tuple(replace(each, second=any_order_plan(each.plan.job)) for each in work.level.fabrics)
    work._found = DesignCutting(work.level.materials, "best", fabrics)
    work.choose("any-order")
    drawn = [each for each in work.table.fabrics if each.second is not None]
    assert drawn
    for each in drawn:
        work.choose_fabric(each.fabric)
        plan = work.table.shown(each)
        assert isinstance(plan, AnyOrderPlan)
        assert len(table.canvas.spots) >= sum(len(section.pieces) for section in plan.sections)
        assert table.cuts.done == (0, len(list(cuts_said(plan))))
        assert not table.canvas.grab().isNull()

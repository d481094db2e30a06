"""Two arrangements beside each other: pictures, lists, and the differences, which are those of the plans."""

from collections.abc import Callable
from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, apply, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright.plan.difference import difference
from piecewright.plan.materials import Materials, materials
from piecewright.units.measure import Measure
from piecewright_qt.arrangements.side_by_side import SideBySide
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.materials.lister import rows
from tests.desktop.materials.plans import two_colorings, without_first

INCH = Measure()
PLAN = "piecewright_qt.replan.materials"
Show = Callable[..., SideBySide]


def three() -> Design:
    """Three arrangements: all blocks, one less, all again with a wider border."""
    design = two_colorings()
    design = apply(design, call("duplicate-arrangement", index=0, name="Wider border"))
    design = apply(design, call("resize-quilt", border=Fraction(8)))
    design = apply(design, call("duplicate-arrangement", index=0, name="One less"))
    design = apply(design, without_first())
    return apply(design, call("switch-arrangement", index=0))


@pytest.fixture
def show(qtbot: QtBot) -> Show:
    """Shows a design's arrangements side by side."""

    def shown(design: Design, **preferences: object) -> SideBySide:
        register_fonts()
        look = Look(LoadedPreferences(Preferences(**preferences)))  # type: ignore[arg-type]
        look.dress()
        dialog = SideBySide(Document(design), look)
        qtbot.addWidget(dialog)
        with qtbot.waitExposed(dialog):
            dialog.show()
        return dialog

    return shown


def choose(dialog: SideBySide, first: int, second: int) -> tuple[Materials, Materials]:
    """Choose two, and their plans."""
    for choice, index in zip(dialog.choices, (first, second), strict=True):
        choice.setCurrentIndex(index)
    design = dialog._design
    return materials(design.changed(current=first)), materials(design.changed(current=second))


def test_it_opens_on_the_one_in_view_and_the_next(show: Show) -> None:
    dialog = show(three())
    assert [choice.currentIndex() for choice in dialog.choices] == [0, 1]
    design = dialog._design
    for side, index in enumerate((0, 1)):
        plan = materials(design.changed(current=index))
        assert dialog.lists[side].rows.rows == rows(plan, INCH)
        assert f"{plan.set_count} sets to sew" in dialog.totals[side].text().replace(
            "\N{NO-BREAK SPACE}", " "
        )
        assert "finished" in dialog.totals[side].text()


@pytest.mark.parametrize("pair", [(0, 1), (1, 0), (0, 2), (1, 2), (2, 1)])
def test_the_differences_are_those_of_the_plans(show: Show, pair: tuple[int, int]) -> None:
    dialog = show(three())
    first, second = choose(dialog, *pair)
    changes = difference(first, second)
    cloth = {change.what.text(): change for change in changes if change.part == "cloth"}
    told = {
        row.label: row.value
        for row in dialog.difference.rows.rows
        if row.section == "cloth" and row.kind == "line"
    }
    assert told == {
        name[0].upper() + name[1:]: _signed(Fraction(change.by)) for name, change in cloth.items()
    }
    sets = sum(change.by for change in changes if change.part == "sets")
    heading = [
        row.value for row in dialog.difference.rows.rows if row.kind == "heading" and row.section == "sets"
    ]
    if sets:
        assert heading == [f"{'+' if sets > 0 else '−'}{abs(sets)}"]


def _signed(inches: Fraction) -> str:
    return f"{'+' if inches > 0 else '−'}{INCH.yards(abs(inches))}"


def test_each_difference_tells_both_numbers(show: Show) -> None:
    dialog = show(three())
    first, second = choose(dialog, 0, 1)
    row = next(row for row in dialog.difference.rows.rows if row.section == "cloth" and row.kind == "line")
    old = next(each.buy for each in first.cloth if each.fabric == row.fabrics[0])
    new = next(each.buy for each in second.cloth if each.fabric == row.fabrics[0])
    assert row.notes[-1].text == f"{INCH.yards(old)} → {INCH.yards(new)}"
    block = next(row for row in dialog.difference.rows.rows if row.section == "blocks" and row.kind == "line")
    assert "Middle end for end" in (block.label, *(note.text for note in block.notes))


def test_alike_says_so(show: Show) -> None:
    dialog = show(three())
    choose(dialog, 1, 1)
    assert dialog.summary.text() == "Both take the same."
    assert not dialog.difference.rows.rows
    choose(dialog, 0, 1)
    lines = [row for row in dialog.difference.rows.rows if row.kind == "line"]
    assert dialog.summary.text() == f"{len(lines)} lines differ."


def test_pictures_come_and_follow_the_choice(show: Show, qtbot: QtBot) -> None:
    dialog = show(three())
    qtbot.waitUntil(lambda: dialog.pictures.is_idle)
    before = [canvas.pixmap().toImage() for canvas in dialog.canvases]
    assert not any(image.isNull() for image in before)
    assert before[0] != before[1]
    dialog.choices[1].setFocus()
    QTest.keyClick(dialog.choices[1], Qt.Key.Key_Down)
    assert dialog.choices[1].currentIndex() == 2
    qtbot.waitUntil(lambda: dialog.pictures.is_idle)
    assert dialog.canvases[1].pixmap().toImage() != before[1]
    assert dialog.canvases[1].accessibleName() == "Picture of Wider border"


def test_a_fault_in_one_plan_is_said_and_the_other_shown(show: Show, monkeypatch: pytest.MonkeyPatch) -> None:

    def broken(design: Design) -> Materials:
        if design.current == 1:
            raise ZeroDivisionError("a fault put in on purpose")
        return materials(design)

    monkeypatch.setattr(PLAN, broken)
    dialog = show(three())
    assert dialog.totals[1].text() == "This arrangement could not be worked out."
    assert dialog.lists[0].rows.rows
    assert not dialog.lists[1].rows.rows


def test_keys_and_names_for_everyone(show: Show) -> None:
    dialog = show(three())
    for widget in (*dialog.choices, *dialog.lists, dialog.difference):
        assert widget.accessibleName()
        assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    tree = QAccessible.queryAccessibleInterface(dialog.difference)
    assert tree.childCount() == len(dialog.difference.rows.rows)
    QTest.keyClick(dialog, Qt.Key.Key_Escape)
    assert not dialog.isVisible()


def test_it_shows_without_waiting_for_pictures(show: Show) -> None:
    dialog = show(three())
    assert dialog.lists[0].rows.rows
    assert dialog.pictures.painted < 2  # they are painted when the screen has time


@pytest.mark.parametrize(("theme", "percent"), [("light", 100), ("dark", 200)])
def test_it_stays_within_a_small_screen(show: Show, theme: str, percent: int) -> None:
    dialog = show(three(), theme=theme, text_percent=percent)
    assert dialog.minimumSizeHint().width() <= 1366
    assert dialog.minimumSizeHint().height() <= 768


def test_one_arrangement_is_compared_with_itself(show: Show) -> None:
    dialog = show(apply(two_colorings(), call("remove-blocks", cells=(Cell(0, 0),))))
    assert dialog.summary.text() == "Both take the same."

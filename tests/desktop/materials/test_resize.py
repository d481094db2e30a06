"""The sliders: every value is tried out at once, kept as one undo step or put back as it was."""

from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel, QSlider, QStyle, QStyleOptionSlider
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright.edit.resizing import leaving_text
from piecewright.edit.scaling import block_units
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from piecewright.units.measure import Measure
from piecewright_qt.materials.stops import border_stops, count_stops, unit_stops
from piecewright_qt.wall.view import WallView
from tests.desktop.materials.conftest import Place, SetUp
from tests.desktop.materials.plans import sample, two_colorings, without_first
from tests.desktop.wall.quilts import empty, rails

Keys = Qt.Key
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def unfolded(set_up: SetUp, design: Design, **preferences: object) -> Place:
    """The column with the sliders unfolded by a click on their button."""
    place = set_up(design, **preferences)
    QTest.mouseClick(place.column.panel.head.resize_button, LEFT)
    assert place.sliders.isVisible()
    return place


def handle(slider: QSlider) -> QPoint:
    """The middle of a slider's handle."""
    option = QStyleOptionSlider()
    slider.initStyleOption(option)
    style = slider.style()
    return style.subControlRect(
        QStyle.ComplexControl.CC_Slider, option, QStyle.SubControl.SC_SliderHandle, slider
    ).center()


def pull(slider: QSlider, by: int) -> None:
    """Drag a handle by so many pixels, one at a time."""
    start = handle(slider)
    QTest.mousePress(slider, LEFT, NONE, start)
    for step in range(1, abs(by) + 1):
        QTest.mouseMove(slider, start + QPoint(step if by > 0 else -step, 0))
    QTest.mouseRelease(slider, LEFT, NONE, start + QPoint(by, 0))


def lattice(place: Place) -> tuple[int, int, Fraction]:
    """What is shown: columns, rows, size of a cell."""
    shown = place.document.shown.quilt.lattice
    return shown.columns, shown.rows, shown.unit


def verdict(place: Place) -> str:
    """The sentence under the sliders."""
    return place.sliders.verdict.text()


def test_a_dragged_slider_tries_every_value_out_and_changes_nothing_yet(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    shown: list[int] = []
    values: list[object] = []

    def note(design: Design | None) -> None:
        if design is not None:
            shown.append(design.quilt.lattice.columns)

    place.document.previewed.connect(note)
    slider = place.sliders.columns.slider
    slider.valueChanged.connect(lambda value: values.append(place.sliders.columns.stops[value]))
    start = place.document.design
    pull(slider, 40)
    assert len(values) > 3
    assert [value for value in values if value != 12] == shown
    assert place.document.design is start
    assert place.document.undo_stack.count() == 0


def test_wall_and_materials_follow_each_value(set_up: SetUp, qtbot: QtBot) -> None:
    place = unfolded(set_up, rails(6, 6))
    wall = WallView(place.document, place.look)
    qtbot.addWidget(wall)
    for columns in (7, 5, 8):
        place.sliders.columns.bring(columns)
        assert lattice(place)[0] == columns
        assert wall.scene.design is place.document.shown
        assert place.replan.shown == materials(place.document.shown)
        assert place.list.rows.comparison.count > 0
        finished = place.replan.shown.size.finished
        size = Measure().size(finished.width, finished.height)
        assert place.sliders.outcome.cells[0][1].text() == size
        assert size in place.column.panel.head.size_label.text().replace("\N{NO-BREAK SPACE}", " ")


def test_keeping_is_one_undo_step_however_much_was_moved(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    start = place.document.design
    for _ in range(3):
        QTest.keyClick(place.sliders.columns.slider, Keys.Key_Left)
    QTest.keyClick(place.sliders.rows.slider, Keys.Key_Right)
    place.sliders.border.bring(Fraction(2))
    wanted = place.document.shown
    assert lattice(place)[:2] == (9, 10)
    QTest.mouseClick(place.sliders._keep, LEFT)
    assert place.document.design == wanted
    assert place.document.undo_stack.count() == 1
    assert not place.sliders.isVisible()
    assert place.column.panel.head.resize_button.hasFocus()
    place.document.undo()
    assert place.document.design == start
    place.document.redo()
    assert place.document.design == wanted


@pytest.mark.parametrize("how", ["button", "escape", "escape in the field", "the same button"])
def test_as_it_was(set_up: SetUp, how: str) -> None:
    place = unfolded(set_up, two_colorings())
    start = place.document.design
    place.sliders.columns.bring(8)
    place.sliders.border.bring(Fraction(1))
    assert place.document.shown is not start
    if how == "button":
        QTest.mouseClick(place.sliders._leave, LEFT)
    elif how == "escape":
        QTest.keyClick(place.sliders.columns.slider, Keys.Key_Escape)
    elif how == "escape in the field":
        QTest.keyClick(place.sliders.ways.wish.target, Keys.Key_Escape)
    else:
        QTest.mouseClick(place.column.panel.head.resize_button, LEFT)
    assert place.document.shown is start
    assert place.document.design is start
    assert place.document.undo_stack.count() == 0
    assert not place.sliders.isVisible()
    assert not place.list.rows.comparison.marks


def test_before_and_after_stand_side_by_side_with_what_leaves(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    assert verdict(place) == "Every block stays on the wall."
    assert not place.sliders._keep.isEnabled()
    place.sliders.columns.bring(8)
    before, after = materials(place.document.design), materials(place.document.shown)
    cells = [(was.text(), now.text()) for was, now in place.sliders.outcome.cells]
    assert cells[1:3] == [
        (str(before.block_count), str(after.block_count)),
        (str(before.set_count), str(after.set_count)),
    ]
    assert verdict(place) == "3 blocks leave the wall: 2 Rail fence of three, 1 Middle end for end."
    assert leaving_text(place.document.design, place.document.shown).text().count("3 blocks") == 1
    assert "Blocks: 6 before, 3 after" in place.sliders.outcome.accessibleName()
    assert place.sliders._keep.isEnabled()
    place.sliders.columns.bring(12)
    assert not place.sliders._keep.isEnabled()  # back where it began: nothing to keep


def test_cells_stop_at_sizes_that_the_blocks_can_be_made_in(set_up: SetUp) -> None:
    design = rails(4, 4)
    stops = unit_stops(design, Measure())
    assert set(stops) == {*block_units(design), Fraction(6)}
    place = unfolded(set_up, design)
    for stop in stops:
        place.sliders.unit.bring(stop)
        assert lattice(place)[2] == stop
        assert verdict(place) == "Every block stays on the wall."
        assert place.sliders.unit.shown == f"{Measure().length(stop)} finished"


def test_an_empty_wall_takes_round_sizes_in_the_measure_in_force() -> None:
    inches, metric = unit_stops(empty(), Measure()), unit_stops(empty(), Measure("cm"))
    assert Fraction(5, 2) in inches
    assert all((2 * stop).denominator == 1 for stop in inches)
    assert Fraction(5, 2) not in metric
    assert Measure("cm").length(metric[0]) == "1 cm"


def test_the_value_it_has_is_a_stop_even_where_it_is_odd() -> None:
    design = empty(7, 9).with_quilt(
        empty(7, 9).quilt.changed(lattice=empty(7, 9).quilt.lattice.changed(unit=Fraction(17, 7)))
    )
    assert Fraction(17, 7) in unit_stops(design, Measure())
    assert count_stops(design, 7)[-1] >= 14
    bordered = rails(3, 3)
    assert bordered.quilt.borders[-1].width in border_stops(bordered, Measure("cm"))
    assert border_stops(empty(), Measure()) == ()


def test_a_slider_left_alone_keeps_its_value_to_the_last_fraction(set_up: SetUp) -> None:
    design = rails(4, 4)
    inner, outer = design.quilt.borders
    odd = design.with_quilt(design.quilt.changed(borders=(inner, outer.changed(width=Fraction(17, 7)))))
    place = unfolded(set_up, odd)
    place.sliders.columns.bring(5)
    place.sliders.apply()
    assert place.document.design.quilt.borders[-1].width == Fraction(17, 7)


def test_without_a_border_the_slider_says_why_it_is_still(set_up: SetUp) -> None:
    place = unfolded(set_up, empty())
    assert not place.sliders.border.slider.isEnabled()
    assert place.sliders.border.shown == "none yet"
    assert place.sliders.border.slider.accessibleDescription() == "This quilt has no border yet."


def test_values_are_heard_as_they_are_seen(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings(), unit="cm", decimal_comma=True)
    assert place.sliders.ways.wish.target.hasFocus()
    place.sliders.border.bring(Fraction(500, 127))
    assert place.sliders.border.shown == "10 cm finished"
    assert place.sliders.border.slider.accessibleName() == "Outer border, 10 cm finished"
    assert place.sliders.ways.wish.target.placeholderText().endswith("cm")


def test_sashing_comes_is_widened_and_goes(set_up: SetUp) -> None:
    place = unfolded(set_up, rails(4, 4))
    assert place.sliders.sashing.shown == "none"
    place.sliders.sashing.bring(Fraction(2))
    sashing = place.document.shown.quilt.sashing
    assert sashing is not None
    assert (sashing.columns, sashing.rows) == (Fraction(2), Fraction(2))
    assert place.sliders.sashing.shown == "2 in finished"
    QTest.mouseClick(place.sliders._keep, LEFT)
    assert place.document.undo_stack.count() == 1
    QTest.mouseClick(place.column.panel.head.resize_button, LEFT)
    place.sliders.sashing.bring(Fraction(0))
    assert place.document.shown.quilt.sashing is None


def test_the_sliders_begin_anew_when_the_design_changes_under_them(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    place.sliders.columns.bring(8)
    place.document.perform(without_first())
    assert place.sliders.columns.value == 12
    assert place.document.shown is place.document.design
    place.sliders.columns.bring(9)
    place.document.undo()
    assert place.sliders.columns.value == 12
    assert place.document.shown is place.document.design


def test_a_drag_on_the_wall_takes_the_place_of_the_sliders_and_gives_it_back(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    place.sliders.columns.bring(8)
    place.document.preview(call("remove-blocks", cells=(Cell(0, 0),)))
    place.document.drop_preview()
    assert place.sliders.columns.value == 12
    assert place.document.shown is place.document.design


def test_the_focus_stays_where_it_is_when_the_design_changes(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    place.list.setFocus()
    place.document.perform(without_first())
    assert place.list.hasFocus()


@pytest.mark.parametrize(("percent", "width"), [(100, 320), (200, 420), (200, 320)])
def test_head_buttons_and_verdict_stay_in_sight(
    set_up: SetUp, percent: int, width: int, qtbot: QtBot
) -> None:
    place = unfolded(set_up, sample("tideline"), width=width, text_percent=percent)
    place.sliders.columns.bring(20)
    qtbot.wait(1)
    column = place.column.rect()
    for widget in (
        place.sliders._keep,
        place.sliders._leave,
        place.sliders.verdict,
        place.column.panel.head.size_label,
    ):
        there = widget.rect().translated(widget.mapTo(place.column, QPoint(0, 0)))
        assert column.contains(there), widget
    if percent == 100:
        assert place.sliders._scroll.verticalScrollBar().maximum() == 0
    labels = [label for label in place.sliders._scroll.findChildren(QLabel) if label.isVisible()]
    assert all(label.mapTo(place.column, QPoint(label.width(), 0)).x() <= width for label in labels)

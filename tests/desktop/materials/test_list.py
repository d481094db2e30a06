"""The list by keys, mouse and screen reader: sums opened in place, sections folded, the place kept where one reads."""

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QAccessible, QColor, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QToolTip
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright_qt.materials.row_painter import BAR
from piecewright_qt.materials.rows import Row
from piecewright_qt.materials.typesetting import kept_whole
from tests.desktop.materials.conftest import Place, SetUp
from tests.desktop.materials.plans import named, tight, two_colorings, without_first
from tests.desktop.wall.quilts import unlike

Keys = Qt.Key
SETS = "Strip sets to sew"


def rect_of(place: Place, row: Row) -> QRect:
    """Where a row is seen."""
    return place.list.visualRect(place.list.rows.index(place.rows.index(row)))


def press(place: Place, key: Qt.Key) -> None:
    """Press a key in the list."""
    QTest.keyClick(place.list, key)


def first_set(place: Place) -> Row:
    """The first strip set."""
    return next(row for row in place.rows if row.section == "sets" and row.kind == "line")


def grabbed(place: Place) -> QImage:
    """The list as it is painted."""
    return place.list.viewport().grab().toImage()


def test_enter_opens_the_sum_below_the_row_and_closes_it_again(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    row = first_set(place)
    place.put_at(row)
    height, below = rect_of(place, row).height(), rect_of(place, place.rows[place.rows.index(row) + 1]).top()
    press(place, Keys.Key_Return)
    grown = rect_of(place, row).height() - height
    assert grown > 0
    assert rect_of(place, place.rows[place.rows.index(row) + 1]).top() == below + grown
    assert row.why is not None
    assert row.why.text() == place.list.rows.reason(row)
    press(place, Keys.Key_Space)
    assert rect_of(place, row).height() == height


def test_a_click_opens_the_sum(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    row = first_set(place)
    height = rect_of(place, row).height()
    QTest.mouseClick(
        place.list.viewport(),
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
        rect_of(place, row).center(),
    )
    assert rect_of(place, row).height() > height


def test_the_sum_is_told_where_pointer_or_keys_are(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(two_colorings())
    row = first_set(place)
    index = place.list.rows.index(place.rows.index(row))
    tip = index.data(Qt.ItemDataRole.ToolTipRole)
    assert tip == f"<p>{place.list.rows.reason(row)}</p>"
    assert index.data(Qt.ItemDataRole.AccessibleDescriptionRole) in tip
    place.put_at(place.rows[place.rows.index(row) - 1])
    press(place, Keys.Key_Down)
    qtbot.waitUntil(lambda: QToolTip.text() == tip)
    press(place, Keys.Key_Up)  # a heading has no sum
    qtbot.waitUntil(lambda: not QToolTip.isVisible() or QToolTip.text() != tip)


def test_markup_in_names_is_shown_not_obeyed(set_up: SetUp) -> None:
    design = two_colorings()
    cloth = (design.fabrics[0].changed(name="<b>Bold</b> & <img src=x>"), *design.fabrics[1:])
    place = set_up(design.changed(fabrics=cloth))
    row = next(row for row in place.rows if row.section == "cloth" and "Bold" in row.label)
    assert row.label.startswith("<b>Bold</b>")
    tip = place.list.rows.index(place.rows.index(row)).data(Qt.ItemDataRole.ToolTipRole)
    assert "<img" not in tip


def test_sections_are_folded_by_key_and_by_click_and_keep_their_totals(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    heading, whole = place.row(SETS), len(place.rows)
    inside = sum(1 for row in place.rows if row.section == "sets") - 1
    place.put_at(heading)
    press(place, Keys.Key_Return)
    assert len(place.rows) == whole - inside
    assert place.row(SETS).value == heading.value
    assert place.list.currentIndex().row() == place.rows.index(heading)  # the keys stay at the heading
    QTest.mouseClick(
        place.list.viewport(),
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
        rect_of(place, heading).center(),
    )
    assert len(place.rows) == whole


def test_left_folds_the_section_one_reads_in_and_right_unfolds_it(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    whole = place.rows
    place.put_at(first_set(place))
    press(place, Keys.Key_Left)
    assert place.rows[place.list.currentIndex().row()].label == SETS
    assert not [row for row in place.rows if row.section == "sets" and row.kind == "line"]
    press(place, Keys.Key_Right)
    assert place.rows == whole


def test_a_folded_section_stays_folded_while_the_design_changes(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.list.fold("sets", away=True)
    place.document.preview(without_first())
    assert not [row for row in place.rows if row.section == "sets" and row.kind != "heading"]
    assert place.delta(place.row(SETS)) == "−1"


def test_keys_reach_every_row_and_stop_at_the_ends(set_up: SetUp) -> None:
    place = set_up(two_colorings(), height=420)
    place.list.setFocus()
    press(place, Keys.Key_Home)
    seen = [place.list.currentIndex().row()]
    for _ in range(len(place.rows)):
        press(place, Keys.Key_Down)
        seen.append(place.list.currentIndex().row())
        rect = place.list.visualRect(place.list.currentIndex())
        assert place.list.viewport().rect().contains(rect)
    assert seen == [*range(len(place.rows)), len(place.rows) - 1]
    press(place, Keys.Key_PageUp)
    assert place.list.currentIndex().row() < len(place.rows) - 1
    press(place, Keys.Key_End)
    assert place.list.currentIndex().row() == len(place.rows) - 1


def test_keys_are_at_a_row_as_soon_as_the_list_has_them(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    assert not place.list.currentIndex().isValid()
    place.list.setFocus()
    assert place.list.currentIndex().row() == 0


def test_what_one_reads_stays_where_it_is_while_lines_come_and_go_above(set_up: SetUp) -> None:
    place = set_up(unlike(6, 6), height=500)
    bar = place.list.verticalScrollBar()
    bar.setValue(bar.maximum() // 2)
    place_of_top = place.list.indexAt(QPoint(5, 1)).row()
    row, top = place.rows[place_of_top], place.list.visualRect(place.list.indexAt(QPoint(5, 1))).top()
    place.document.preview(without_first())
    assert rect_of(place, row).top() == top
    place.document.drop_preview()
    assert rect_of(place, row).top() == top


def test_the_keys_keep_their_row_when_others_come(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    row = place.row("Batting")
    place.put_at(row)
    place.document.preview(without_first())
    assert place.rows[place.list.currentIndex().row()].label == "Batting"


@pytest.mark.parametrize("theme", ["light", "dark"])
def test_a_bar_of_its_own_shape_stands_beside_what_changed(set_up: SetUp, theme: str) -> None:
    place = set_up(two_colorings(), theme=theme)
    accent = QColor(place.look.theme.accent)

    def barred() -> list[bool]:
        image = grabbed(place)
        shown = [row for row in place.rows if rect_of(place, row).bottom() < image.height()]
        middles = [rect_of(place, row) for row in shown]
        return [image.pixelColor(BAR // 2, rect.bottom() - 4) == accent for rect in middles]

    assert not any(barred())
    place.document.preview(without_first())
    marked = [place.list.rows.mark(row) is not None for row in place.rows]
    found = barred()
    assert any(found)
    assert found == marked[: len(found)]


def test_a_set_with_little_to_spare_is_marked_by_sign_word_and_tone(set_up: SetUp) -> None:
    place = set_up(tight())
    marked = [
        row
        for row in place.rows
        for note in row.notes
        if note.tone == "warn" and row.section in ("sets", "strips")
    ]
    plans = [found for found in place.replan.shown.sets if found.tight]
    assert len(marked) == len(plans) > 0
    for row in marked:
        note = next(note for note in row.notes if note.tone)
        assert note.text.startswith("only ")
        setting = place.list._faces.set_row(row, 300)
        assert [piece.text for piece in setting.pieces if piece.caution] == [kept_whole(note.text)]


def test_a_screen_reader_meets_each_row_by_name(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.document.preview(without_first())
    tree = QAccessible.queryAccessibleInterface(place.list)
    assert tree.text(QAccessible.Text.Name) == "Materials, line by line"
    assert tree.childCount() == len(place.rows)
    for number, row in enumerate(place.rows):
        child = tree.child(number)
        name = child.text(QAccessible.Text.Name)
        assert name == place.list.rows.spoken(row)
        assert row.label in name
        assert row.value in name
        mark = place.list.rows.mark(row)
        if mark is not None:
            assert (mark.delta in name) or row.gone
        rect = rect_of(place, row)
        assert child.rect().size() == rect.size()
    heading = place.rows.index(place.row(SETS))
    assert tree.child(heading).text(QAccessible.Text.Name).endswith("unfolded")


@pytest.mark.parametrize(("width", "percent"), [(320, 100), (260, 100), (420, 200), (320, 200), (320, 300)])
@pytest.mark.parametrize("length", [12, 60, 200])
def test_no_words_run_out_of_the_list_or_into_numbers(
    set_up: SetUp, width: int, percent: int, length: int
) -> None:
    place = set_up(named(length, 14), width=width, text_percent=percent)
    place.document.preview(without_first())
    faces = place.list._faces
    for row in place.rows:
        setting = place.list._setting(row)
        for piece in (*setting.pieces, *setting.why):
            right = piece.x + faces.width(piece.text, piece.face)
            assert right <= place.list._wide - 10, (row.label, piece.text)
            if piece.y == setting.base and piece.note is None and row.value:
                assert right <= setting.value_left
        bottom = max(piece.y for piece in setting.pieces)
        assert bottom < setting.height


def test_rows_can_be_pressed_with_a_finger(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    for row in place.rows:
        assert rect_of(place, row).height() >= 24


def test_a_narrower_column_breaks_lines_anew_and_keeps_the_place(set_up: SetUp) -> None:
    place = set_up(named(60, 14), height=500)
    bar = place.list.verticalScrollBar()
    bar.setValue(bar.maximum() // 2)
    row = place.rows[place.list.indexAt(QPoint(5, 1)).row()]
    whole = place.list._tops[-1]
    place.column.resize(240, 500)
    assert place.list._tops[-1] > whole
    assert place.rows[place.list.indexAt(QPoint(5, 1)).row()] is row


def test_a_preview_sets_only_what_changed(set_up: SetUp) -> None:
    place = set_up(unlike(6, 6))
    whole = len(place.rows)
    before = place.list.set_rows
    place.document.preview(without_first())
    assert place.list.set_rows - before < whole / 3
    before = place.list.set_rows
    place.document.drop_preview()
    assert place.list.set_rows == before  # all this was set before


def test_swatches_show_cloth_and_one_is_blank_where_none_is_chosen(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(two_colorings())
    swatches = place.list._swatches
    qtbot.waitUntil(lambda: not swatches._asked and bool(swatches._kept))
    row = next(row for row in place.rows if row.section == "cloth" and row.fabrics == ("f1",))
    place.list.scrollTo(place.list.rows.index(place.rows.index(row)))
    grabbed(place)
    qtbot.waitUntil(lambda: not swatches._asked)
    rect, side = rect_of(place, row), place.list._faces.swatch
    image = grabbed(place)
    colors = {image.pixelColor(x, rect.top() + 12).name() for x in range(18, 16 + 2 * side - 2)}
    assert len(colors) > 1  # dots on a ground, not one color
    unchosen = place.row("Backing fabric, not chosen yet")
    assert unchosen.fabrics[0] not in place.document.design.shelf.fabrics


def test_theme_and_size_of_type_follow_the_preferences(set_up: SetUp) -> None:
    place = set_up(two_colorings(), theme="light")
    light, height = grabbed(place).pixelColor(1, 1), place.list._tops[-1]
    place.look.prefer(theme="dark", text_percent=200)
    assert grabbed(place).pixelColor(1, 1) != light
    assert place.list._tops[-1] > 1.4 * height


def test_lines_of_a_design_with_nothing_on_the_wall(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    place.document.perform(call("remove-blocks", cells=tuple(_cells(place))))
    assert place.row("Blocks on the wall").value == "0"
    assert not [row for row in place.rows if row.section == "sets" and not row.gone]


def _cells(place: Place) -> list[Cell]:
    return [Cell(one.column, row.row) for row in place.document.design.quilt.rows for one in row.placements]

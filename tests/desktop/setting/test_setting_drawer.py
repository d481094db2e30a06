"""The drawer of the setting: what is looked at is only shown, what is chosen is one step, what it moves is said."""

from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from piecewright.edit.registry import apply, call
from piecewright.model.setting import Sashing, Triangles
from piecewright_qt.setting.ways import Asked, tried, ways
from tests.desktop.setting.conftest import Place, Pull, on_point
from tests.desktop.wall.hands import cells, placed
from tests.desktop.wall.quilts import mixed, rails

STRAIGHT, POINT, TURNS, PLAIN, COLUMNS, MEDALLION = range(6)
LEFT = Qt.MouseButton.LeftButton


def card_point(place: Place, number: int) -> QPoint:
    cards = place.drawer.cards
    return cards.visualItemRect(cards.item(number)).center()


def test_every_way_has_a_picture_of_the_own_quilt_and_says_what_moves(pull: Pull) -> None:
    place = pull()
    cards = place.drawer.cards
    pictures = [cards.item(n).icon().pixmap(84, 84).toImage() for n in range(cards.count())]
    assert len(pictures) == 6
    assert all(not picture.isNull() for picture in pictures)
    assert pictures[POINT] != pictures[STRAIGHT]
    assert "moved" in cards.item(POINT).toolTip() or "move" in cards.item(POINT).toolTip()
    assert "set so already" in cards.item(STRAIGHT).toolTip()


@pytest.mark.parametrize("number", [POINT, TURNS, PLAIN, MEDALLION])
def test_looking_shows_it_and_choosing_is_one_step(pull: Pull, number: int) -> None:
    place = pull()
    before = place.design
    QTest.mouseMove(place.drawer.cards.viewport(), QPoint(1, 1))
    place.point_at(number)
    place.qtbot.waitUntil(lambda: place.document.shown != before)
    assert place.design == before
    shown, said = place.document.shown, place.drawer.said.text()
    assert said.startswith(ways()[number].name)
    QTest.mouseClick(
        place.drawer.cards.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, card_point(place, number)
    )
    assert place.design == shown
    assert place.drawer.said.text() == said
    assert place.document.undo_stack.count() == 1
    place.document.undo()
    assert place.design == before


def test_arrows_look_enter_chooses_and_escape_puts_back_before_it_pushes_in(pull: Pull) -> None:
    place = pull()
    before, cards = place.design, place.drawer.cards
    place.drawer.activateWindow()
    cards.setFocus(Qt.FocusReason.TabFocusReason)
    QTest.keyClick(cards, Qt.Key.Key_Right)
    assert cards.currentRow() == POINT
    assert place.document.shown.quilt.lattice.kind == "on point"
    QTest.keyClick(cards, Qt.Key.Key_Escape)
    assert place.document.shown == before
    with place.qtbot.waitSignal(place.drawer.done):
        QTest.keyClick(cards, Qt.Key.Key_Escape)
    cards.looked.emit(POINT)
    QTest.keyClick(cards, Qt.Key.Key_Return)
    assert place.design.quilt.lattice.kind == "on point"


def test_a_way_that_can_not_be_says_why(pull: Pull) -> None:
    place = pull(on_point())
    place.drawer.look_at(COLUMNS)
    assert place.document.shown == place.design
    assert place.drawer.said.text() == place.drawer.cards.item(COLUMNS).toolTip().split(". ", 1)[1]
    place.drawer.take(COLUMNS)
    assert not place.document.undo_stack.count()


def test_the_selected_block_becomes_the_middle_of_a_medallion(pull: Pull) -> None:
    place = pull(rails(3, 3))
    place.selection.select(cells((0, 0)))
    fabrics = placed(place.design)[0, 0]
    wanted = ways()[MEDALLION].edit(place.design, Asked(None, place.selection.cells))
    assert wanted is not None
    place.drawer.take(MEDALLION)
    quilt = place.design.quilt
    middle = placed(place.design)[quilt.lattice.columns // 2, quilt.lattice.rows // 2]
    assert (middle.block, middle.turn) == (fabrics.block, fabrics.turn)


def test_an_empty_wall_asks_for_blocks(pull: Pull) -> None:
    bare = rails(2, 2)
    place = pull(bare.with_quilt(bare.quilt.changed(rows=())))
    assert tried(place.design, ways()[TURNS], Asked("f1")).call is None
    place.drawer.look_at(TURNS)
    assert place.drawer.said.text() == "Hang blocks on the wall first."
    assert place.drawer.gaps.found.text() == "No blocks hang yet."


def test_sashing_comes_goes_and_is_set_in_every_part(pull: Pull) -> None:
    place = pull()
    part, fabrics = place.drawer.sashing, [fabric.id for fabric in place.design.fabrics]
    assert not part.columns.isVisible()
    place.choose(part.fabric, fabrics[0])
    assert place.design.quilt.sashing == Sashing(fabrics[0], Fraction(2), Fraction(2))
    assert part.columns.isVisible()
    part.rows.box.setEditText("1 1/2")
    place.choose(part.stones, fabrics[1])
    QTest.mouseClick(part.outside.box, LEFT, pos=QPoint(10, part.outside.box.height() // 2))
    assert place.design.quilt.sashing == Sashing(
        fabrics[0], Fraction(2), Fraction(3, 2), fabrics[1], outside=False
    )
    assert not part.long.isVisible()
    place.choose(part.stones, None)
    place.choose(part.long, "columns")
    assert place.design.quilt.sashing is not None
    assert place.design.quilt.sashing.long == "columns"
    part.rows.box.setEditText("wide")
    assert part.rows.fault
    place.choose(part.fabric, None)
    assert place.design.quilt.sashing is None


def test_sashing_that_a_block_reaches_over_is_refused_under_its_field(pull: Pull) -> None:
    place = pull(apply(rails(4, 4), call("set-unit", unit=Fraction(3))))
    fabric = place.design.fabrics[0].id
    place.choose(place.drawer.sashing.fabric, fabric)
    assert place.design.quilt.sashing is not None
    wide = place.drawer.sashing.wide
    wide.box.setValue(1)
    wide.edited.emit()
    assert "space" in wide.fault
    assert place.design.quilt.lattice.space_columns == 2


def test_triangles_are_there_on_point_alone_and_set_in_every_part(pull: Pull) -> None:
    place = pull()
    part = place.drawer.triangles
    assert not part.isVisible()
    place.document.perform(call("change-setting", kind="on point", columns=3, rows=3))
    assert part.isVisible()
    fabric = place.design.fabrics[1].id
    place.choose(part.fabric, fabric)
    part.floating.box.setEditText("1/2")
    part.spare.box.setEditText("1/4")
    part.step.box.setEditText("1/2")
    place.choose(part.allowance, "exact")
    assert place.design.quilt.triangles == Triangles(
        fabric, Fraction(1, 2), "exact", Fraction(1, 4), Fraction(1, 2)
    )
    assert not place.drawer.sashing.rows.isVisible()


def test_gaps_are_counted_filled_to_look_at_and_kept(pull: Pull) -> None:
    full = rails(3, 3)
    place = pull(apply(full, call("remove-blocks", cells=tuple(cells((1, 1), (2, 2))))))
    part, before = place.drawer.gaps, place.design
    assert part.found.text() == "2 gaps stay open"
    assert not part.keep.isVisible()
    choice = part.filling.box.itemData(0)
    place.choose(part.filling, choice)
    assert place.design == before
    assert len(placed(place.document.shown)) == 9
    QTest.mouseClick(part.back, LEFT)
    assert place.document.shown == before
    place.choose(part.filling, choice)
    QTest.mouseClick(part.keep, LEFT)
    assert len(placed(place.design)) == 9
    assert place.document.undo_stack.count() == 1
    assert part.found.text().startswith("No gaps")
    place.document.undo()
    place.choose(part.coping, place.design.fabrics[0].id)
    assert part.found.text() == "2 gaps, filled by coping strips"
    assert place.design.quilt.coping == place.design.fabrics[0].id


def test_the_grid_unit_is_refused_where_blocks_would_not_lie_on_it(pull: Pull) -> None:
    place = pull()
    unit = place.design.quilt.lattice.unit
    place.drawer.unit.box.setEditText("1 in")
    assert place.design.quilt.lattice.unit == 1
    place.drawer.unit.box.setEditText("5 in")
    assert place.drawer.unit.fault
    assert place.design.quilt.lattice.unit == 1
    place.document.undo()
    assert place.design.quilt.lattice.unit == unit


def test_pushed_in_it_leaves_the_wall_as_it_is_and_large_text_takes_one_column(pull: Pull) -> None:
    place = pull()
    place.drawer.look_at(POINT)
    assert place.document.shown != place.design
    place.drawer.hide()
    assert place.document.shown == place.design
    cards = place.drawer.cards
    assert card_point(place, STRAIGHT).y() == card_point(place, POINT).y()
    font = cards.font()
    font.setPixelSize(30)
    cards.setFont(font)
    assert card_point(place, STRAIGHT).y() < card_point(place, POINT).y()


def test_columns_are_as_wide_as_they_must_be_and_short_ones_lie_as_asked(pull: Pull) -> None:
    """By hand: in the mixed quilt of 24 cells blocks begin or end at every edge but 12's: two columns of 12."""
    place = pull(mixed())
    place.drawer.take(COLUMNS)
    assert place.design.quilt.lattice.space_columns == 12
    spread = placed(place.design)
    place.document.undo()
    place.choose(place.drawer.short, "top")
    place.settle()
    place.drawer.take(COLUMNS)
    at_top = placed(place.design)
    assert at_top != spread
    assert max(row for _, row in at_top) < max(row for _, row in spread)

"""The planner above the sliders: a wish, its ways as cards, each seen on the wall before one is kept as one step."""

from fractions import Fraction

import pytest
from PySide6.QtCore import QEvent, QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QStyle
from pytestqt.qtbot import QtBot

from piecewright.edit.blocks import set_made
from piecewright.edit.registry import apply
from piecewright.edit.setting import change_setting
from piecewright.model.design import Design
from piecewright.plan.materials import materials
from piecewright.plan.resize_ways import ways_to
from piecewright.plan.resize_wish import BedWish, BlocksWish, SizeWish, Wish
from piecewright_qt.materials.way_cards import texts
from tests.desktop.materials.conftest import Place, SetUp
from tests.desktop.materials.plans import sample, two_colorings, without_first
from tests.desktop.wall.quilts import empty, rails

Keys = Qt.Key
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def unfolded(set_up: SetUp, design: Design, **preferences: object) -> Place:
    """The column with the planner unfolded."""
    place = set_up(design, **preferences)
    QTest.mouseClick(place.column.panel.head.resize_button, LEFT)
    return place


def type_size(place: Place, text: str) -> None:
    """Type a size over the old one, press Enter, and wait for the ways."""
    field = place.sliders.ways.wish.target
    field.selectAll()
    QTest.keyClick(field, Keys.Key_Delete)
    QTest.keyClicks(field, text)
    QTest.keyClick(field, Keys.Key_Return)
    wait(place)


def choose(place: Place, kind: str) -> None:
    """Choose another wish by keys, as a user steps through the choices."""
    box = place.sliders.ways.wish.kind.box
    box.setFocus()
    target = [box.itemData(number) for number in range(box.count())].index(kind)
    while box.currentIndex() != target:
        QTest.keyClick(box, Keys.Key_Down if box.currentIndex() < target else Keys.Key_Up)
    wait(place)


def wait(place: Place) -> None:
    """Until the ways that were asked for are there."""
    place.sliders.ways._runner.finish()
    QApplication.processEvents()


def point_at(place: Place, row: int) -> None:
    """Bring the pointer over a card."""
    cards = place.sliders.ways.list
    cards.scrollTo(cards.cards.index(row, 0))
    QTest.mouseMove(cards.viewport(), cards.visualRect(cards.cards.index(row, 0)).center() + QPoint(1, 0))
    QTest.mouseMove(cards.viewport(), cards.visualRect(cards.cards.index(row, 0)).center())


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("60 x 72", (Fraction(60), Fraction(72))),
        ("60,5 x 71.5", (Fraction(121, 2), Fraction(143, 2))),
        ("152.4 x 182.88 cm", (Fraction(60), Fraction(72))),
        ("61 in by 2 yd", (Fraction(61), Fraction(72))),
        ("28x30", (Fraction(28), Fraction(30))),
    ],
)
def test_a_typed_size_has_its_ways_the_best_on_the_wall(
    set_up: SetUp, text: str, size: tuple[Fraction, Fraction]
) -> None:
    place = unfolded(set_up, rails(6, 6))
    type_size(place, text)
    ways = ways_to(place.document.design, SizeWish(*size))
    assert ways
    assert [card.way for card in place.sliders.ways.list.cards.cards] == list(ways)
    assert place.document.shown == ways[0].design
    assert place.replan.shown == materials(ways[0].design)
    assert place.document.undo_stack.count() == 0


def test_arrows_show_each_way_and_enter_keeps_it_as_one_step(set_up: SetUp) -> None:
    place = unfolded(set_up, rails(6, 6))
    start = place.document.design
    type_size(place, "60 x 72")
    cards = place.sliders.ways.list
    cards.setFocus()
    shown = []
    for _ in range(3):
        QTest.keyClick(cards, Keys.Key_Down)
        assert cards.way is not None
        assert place.document.shown == cards.way.design
        shown.append(place.document.shown)
    assert len(set(shown)) == 3
    QTest.keyClick(cards, Keys.Key_Return)
    assert place.document.design == shown[-1]
    assert place.document.undo_stack.count() == 1
    assert place.document.undo_stack.undoText() == "Resize the quilt"
    assert not place.sliders.isVisible()
    place.document.undo()
    assert place.document.design == start


def test_the_pointer_shows_a_way_and_leaving_gives_the_chosen_one_back(set_up: SetUp) -> None:
    place = unfolded(set_up, rails(6, 6))
    type_size(place, "60 x 72")
    cards = place.sliders.ways.list
    ways = [card.way for card in cards.cards.cards]
    point_at(place, 1)
    assert place.document.shown == ways[1].design
    assert cards.way == ways[0]
    QApplication.sendEvent(cards, QEvent(QEvent.Type.Leave))
    assert place.document.shown == ways[0].design
    QTest.mouseClick(cards.viewport(), LEFT, NONE, cards.visualRect(cards.cards.index(1, 0)).center())
    QApplication.sendEvent(cards, QEvent(QEvent.Type.Leave))
    assert place.document.shown == ways[1].design
    QTest.mouseClick(place.sliders._keep, LEFT)
    assert place.document.design == ways[1].design
    assert place.document.undo_stack.count() == 1


def test_sliders_go_on_from_the_way_that_is_chosen(set_up: SetUp) -> None:
    place = unfolded(set_up, rails(6, 6))
    type_size(place, "60 x 72")
    way = place.sliders.ways.way
    assert way is not None
    assert place.sliders.columns.value == way.design.quilt.lattice.columns
    place.sliders.rows.bring(way.design.quilt.lattice.rows - 1)
    wanted = place.document.shown
    assert wanted.quilt.lattice.rows == way.design.quilt.lattice.rows - 1
    assert wanted.quilt.lattice.columns == way.design.quilt.lattice.columns
    QTest.mouseClick(place.sliders._keep, LEFT)
    assert place.document.design == wanted
    assert place.document.undo_stack.count() == 1


@pytest.mark.parametrize(
    ("kind", "wish"), [("bed:twin", BedWish("twin")), ("blocks", BlocksWish())], ids=["bed", "blocks"]
)
def test_a_bed_or_the_blocks_at_hand_are_asked_for_by_choosing_them(
    set_up: SetUp, kind: str, wish: Wish
) -> None:
    place = unfolded(set_up, set_made(rails(6, 6), block=next(iter(rails(6, 6).quilt.blocks)), made=50))
    choose(place, kind)
    ways = ways_to(place.document.design, wish)
    assert ways
    assert [card.way for card in place.sliders.ways.list.cards.cards] == list(ways)
    assert place.sliders.ways.wish.note.text()
    assert not place.sliders.ways.wish.target.isVisible()


def test_the_beds_are_those_of_the_country_of_the_settings(set_up: SetUp) -> None:
    design = rails(4, 4)
    design = design.changed(settings=design.settings.changed(country="uk"))
    place = unfolded(set_up, design)
    box = place.sliders.ways.wish.kind.box
    names = [box.itemText(number) for number in range(box.count())]
    assert any("double" in name for name in names)
    assert not any("california" in name for name in names)


@pytest.mark.parametrize("text", ["", "sixty", "60 x", "60 x 72 parsecs", "0 x 5"])
def test_a_size_that_is_none_is_answered_in_place(set_up: SetUp, text: str) -> None:
    place = unfolded(set_up, two_colorings())
    start = place.document.design
    type_size(place, text)
    assert place.sliders.verdict.text().endswith(".")
    assert place.sliders.verdict.property("tone") == "error"
    assert place.document.shown is start
    assert not place.sliders.ways.list.isVisible()
    place.sliders.columns.bring(11)  # the next move is answered anew
    assert place.sliders.verdict.property("tone") != "error"


@pytest.mark.parametrize(("design", "text"), [(empty(4, 4), "400 x 300"), (two_colorings(), "60 x 9999 yd")])
def test_sizes_beyond_any_bed_are_borne(set_up: SetUp, design: Design, text: str) -> None:
    place = unfolded(set_up, design)
    type_size(place, text)
    assert place.sliders.ways.status.text().endswith(("first", "1 way", "is."))


def test_nothing_to_do_is_said(set_up: SetUp) -> None:
    bare = empty(1, 1)
    place = unfolded(set_up, bare.changed(fabrics=(), blocks=(), recipes=()))
    type_size(place, "1 x 1")
    assert place.sliders.ways.status.text() == "No way leads nearer than the quilt is."
    assert place.document.shown is place.document.design


def test_escape_on_a_card_leaves_the_quilt_as_it_was(set_up: SetUp) -> None:
    place = unfolded(set_up, rails(6, 6))
    start = place.document.design
    type_size(place, "60 x 72")
    QTest.keyClick(place.sliders.ways.list, Keys.Key_Escape)
    assert place.document.shown is start
    assert not place.sliders.isVisible()
    QTest.mouseClick(place.column.panel.head.resize_button, LEFT)
    assert not place.sliders.ways.list.isVisible()
    assert not place.sliders._keep.isEnabled()


def test_ways_are_worked_out_anew_when_the_design_changes_under_them(set_up: SetUp) -> None:
    place = unfolded(set_up, two_colorings())
    type_size(place, "60 x 60")
    place.document.perform(without_first())
    wait(place)
    for card in place.sliders.ways.list.cards.cards:
        assert apply(place.document.design, card.way.call) == card.way.design


def test_a_card_is_heard_and_read_alike(set_up: SetUp) -> None:
    place = unfolded(set_up, rails(6, 6), unit="cm")
    type_size(place, "152 x 183")
    cards = place.sliders.ways.list
    card = cards.cards.cards[0]
    heard = str(cards.cards.data(cards.cards.index(0, 0), Qt.ItemDataRole.AccessibleTextRole))
    for line in texts(card.way, place.look.measure):
        assert line.rstrip(".") in heard
    assert "cm" in heard
    assert "finished" in heard
    assert cards.accessibleName() == "Ways to the size"


def test_every_card_gets_its_picture(set_up: SetUp, qtbot: QtBot) -> None:
    place = unfolded(set_up, change_setting(rails(4, 4), kind="on point"))
    type_size(place, "60 x 72")
    cards = place.sliders.ways.list
    for row in range(cards.cards.rowCount()):
        cards.scrollTo(cards.cards.index(row, 0))
        cards.viewport().repaint()
    qtbot.waitUntil(lambda: cards.pictures.is_idle, timeout=20_000)
    assert cards.pictures.painted >= cards.cards.rowCount() - 1


@pytest.mark.parametrize(("percent", "width"), [(100, 320), (200, 420), (200, 320)])
def test_with_ways_the_buttons_stay_in_sight_and_no_words_are_cut(
    set_up: SetUp, percent: int, width: int, qtbot: QtBot
) -> None:
    place = unfolded(set_up, sample("tideline"), width=width, text_percent=percent)
    type_size(place, "66 x 80")
    qtbot.wait(50)
    column = place.column.rect()
    for widget in (place.sliders._keep, place.sliders._leave, place.sliders.verdict):
        there = widget.rect().translated(widget.mapTo(place.column, QPoint(0, 0)))
        assert column.contains(there), widget
    cards = place.sliders.ways.list
    assert cards.isVisible()
    assert cards.width() <= width
    first = cards.visualRect(cards.cards.index(0, 0)).translated(
        cards.viewport().mapTo(place.sliders._scroll.viewport(), QPoint(0, 0))
    )
    assert (
        first.bottom() <= place.sliders._scroll.viewport().height()
    )  # the best way is seen without scrolling
    assert cards.style().pixelMetric(QStyle.PixelMetric.PM_ScrollBarExtent) < cards.viewport().width()

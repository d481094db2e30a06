"""The drawer of arranging: what is shown is only tried, what is kept is one step, what is locked stays."""

from collections.abc import Iterator
from random import Random

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.arranging import lock_blocks
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.plan.dealt import dealt
from piecewright.plan.materials import materials
from piecewright_qt.arranging.drawer import ArrangeDrawer
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.wall.selection import Selection
from tests.core.arrange.test_arranging import rails
from tests.core.edit.quilts import at, design

LEFT = Qt.MouseButton.LeftButton
SCATTER, ACROSS, RINGS, SHAPE, BARN = 0, 1, 3, 6, 7


@pytest.fixture
def runner() -> Iterator[Runner]:
    """A runner that is stopped at the end."""
    made = Runner()
    yield made
    made.stop()


class Place:
    """A drawer pulled out over a wall of rails."""

    def __init__(self, qtbot: QtBot, runner: Runner) -> None:
        self.document = Document(lock_blocks(rails(5, 4, Random(2)), cells=at((0, 0))))
        self.selection = Selection()
        self.drawer = ArrangeDrawer(
            self.document, Look(LoadedPreferences(Preferences())), self.selection, runner
        )
        qtbot.addWidget(self.drawer)
        self.drawer.resize(300, 900)
        self.drawer.show()
        self.drawer.begin()

    def choose(self, way: int) -> None:
        """Choose a way as a user does."""
        self.drawer.way.box.setCurrentIndex(way)
        self.drawer.way.box.activated.emit(way)


@pytest.fixture
def place(qtbot: QtBot, runner: Runner) -> Place:
    """The drawer and what it works on."""
    return Place(qtbot, runner)


def test_a_way_is_only_shown_until_it_is_kept(place: Place) -> None:
    before = place.document.design
    place.choose(ACROSS)
    assert place.document.shown != before
    assert place.document.design == before
    assert place.drawer.score.text().startswith("On average")
    shown = place.document.shown
    QTest.mouseClick(place.drawer.set_down, LEFT)
    assert place.document.design == shown
    assert place.document.undo_stack.count() == 1
    place.document.undo()
    assert place.document.design == before


def test_escape_puts_back_what_was_shown_and_then_pushes_the_drawer_in(place: Place, qtbot: QtBot) -> None:
    before = place.document.design
    place.choose(RINGS)
    QTest.keyClick(place.drawer, Qt.Key.Key_Escape)
    assert place.document.shown == before
    with qtbot.waitSignal(place.drawer.done):
        QTest.keyClick(place.drawer, Qt.Key.Key_Escape)


def test_scattering_goes_on_looking_while_the_first_answer_is_shown(place: Place, qtbot: QtBot) -> None:
    place.choose(SCATTER)
    assert place.document.shown != place.document.design
    assert "Looking for a better one" in place.drawer.more.text()
    qtbot.waitUntil(lambda: place.drawer.more.text() == "This is the best that was found.", timeout=60_000)
    locked = [
        one for one in all_laid(place.document.shown, place.document.shown.quilt) if one.placement.locked
    ]
    assert [one[:2] for one in locked] == [(0, 0)]
    assert "1 locked" in place.drawer.whom.text()


def test_another_chance_gives_another_answer(place: Place) -> None:
    place.choose(ACROSS)
    first = place.document.shown
    place.choose(RINGS)
    place.choose(ACROSS)
    assert place.document.shown == first
    place.choose(SCATTER)
    scattered = place.document.shown
    QTest.mouseClick(place.drawer.again, LEFT)
    assert place.document.shown != scattered


def test_only_the_selected_blocks_are_arranged(place: Place) -> None:
    place.selection.select(at((1, 1), (2, 1), (3, 3)))
    place.drawer.begin()
    assert place.drawer.whom.text().startswith("3 selected blocks")
    place.choose(ACROSS)
    was, now = (set(all_laid(one, one.quilt)) for one in (place.document.design, place.document.shown))
    assert {one[:2] for one in was - now} <= {(1, 1), (2, 1), (3, 3)}


def test_a_selected_block_tells_which_set_it_is_cut_from(place: Place) -> None:
    assert not place.drawer.origin.isVisible()
    place.selection.select(at((1, 1)))
    assert place.drawer.origin.isVisible()
    found = dealt(place.document.design)[at((1, 1))[0]].segments[0]
    assert place.drawer.origin.text().startswith(f"Cut {found.cut} of set {found.set} of ")


def test_a_selected_shape_becomes_lighter(place: Place) -> None:
    place.selection.select(at((1, 1), (2, 1), (1, 2), (2, 2)))
    place.drawer.begin()
    place.choose(SHAPE)
    assert place.document.shown != place.document.design


def test_only_what_a_way_is_asked_is_offered(place: Place) -> None:
    place.choose(ACROSS)
    assert place.drawer.direction.isVisible()
    assert not place.drawer.broad.isVisible()
    place.choose(BARN)
    assert place.drawer.other.isVisible()
    assert not place.drawer.again.isEnabled()
    place.choose(SCATTER)
    assert place.drawer.turning.isVisible()


def test_the_slider_of_mixes_tells_what_each_costs_and_shows_it(place: Place) -> None:
    mixes = place.drawer.mixes
    mixes.slider.bring(1)
    assert place.document.shown != place.document.design
    assert str(materials(place.document.shown).set_count) in mixes.cost.text()
    assert "now" in mixes.cost.text()
    QTest.mouseClick(place.drawer.set_down, LEFT)
    assert place.document.undo_stack.count() == 1


def test_an_empty_wall_says_what_to_do(qtbot: QtBot, runner: Runner) -> None:
    drawer = ArrangeDrawer(Document(design()), Look(LoadedPreferences(Preferences())), Selection(), runner)
    qtbot.addWidget(drawer)
    drawer.begin()
    drawer.way.box.setCurrentIndex(ACROSS)
    drawer.way.box.activated.emit(ACROSS)
    assert drawer.score.text().startswith("Nothing here may be moved")
    assert "Hang blocks" in drawer.mixes.free.text()
    assert not drawer.set_down.isEnabled()


def test_what_waits_is_hung_once_it_is_kept_and_can_then_be_arranged(place: Place) -> None:
    assert not place.drawer.hang.isVisible()
    start = place.document.design
    free = place.document.perform(call("remove-blocks", cells=at((4, 3), (3, 3))))
    assert free
    rails_id = start.quilt.rows[0].placements[0].block
    place.document.perform(call("set-made", block=rails_id, made=20))
    assert "2 blocks are made" in place.drawer.waiting.text()
    QTest.mouseClick(place.drawer.hang, LEFT)
    assert "2 waiting blocks hang." in place.drawer.score.text()
    assert len(all_laid(place.document.shown, place.document.shown.quilt)) == 20
    assert len(all_laid(place.document.design, place.document.design.quilt)) == 18
    QTest.mouseClick(place.drawer.set_down, LEFT)
    assert len(all_laid(place.document.design, place.document.design.quilt)) == 20
    assert not place.drawer.hang.isVisible()
    place.choose(SCATTER)
    assert len(all_laid(place.document.shown, place.document.shown.quilt)) == 20


def test_a_group_stays_as_it_hangs_when_all_is_arranged(place: Place) -> None:
    place.document.perform(call("group-blocks", cells=at((1, 0), (2, 0), (1, 1))))
    before = {one[:2]: one.placement for one in all_laid(place.document.design, place.document.design.quilt)}
    place.choose(ACROSS)
    after = {one[:2]: one.placement for one in all_laid(place.document.shown, place.document.shown.quilt)}
    grouped = [(1, 0), (2, 0), (1, 1)]
    assert [after[cell] for cell in grouped] == [before[cell] for cell in grouped]
    assert after != before

"""The place of the sewing plan: every step in words and as a picture, followed from edit to edit, by keys alone."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import apply, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright.model.quilt import Border
from piecewright.render.style import ACCENT
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.sewing_plan.page import SewingPlan
from tests.desktop.wall.quilts import rails

KEY = Qt.Key


@pytest.fixture
def runner() -> Iterator[Runner]:
    """A runner that is stopped at the end."""
    made = Runner()
    yield made
    made.stop()


class Place:
    """The plan of a design, looked at."""

    def __init__(self, qtbot: QtBot, runner: Runner, design: Design) -> None:
        register_fonts()
        self.qtbot, self.runner, self.document = qtbot, runner, Document(design)
        self.look = Look(LoadedPreferences(Preferences()))
        self.plan = SewingPlan(self.document, self.look, runner)
        qtbot.addWidget(self.plan)
        self.plan.resize(900, 700)
        with qtbot.waitExposed(self.plan):
            self.plan.show()
        self.plan.begin()
        self.settle()

    def settle(self) -> None:
        """Until the plan is worked out and its step painted."""
        self.qtbot.waitUntil(lambda: self.runner.is_idle, timeout=20_000)

    def image(self) -> QImage:
        """The picture in view."""
        assert self.plan.canvas.image is not None
        return self.plan.canvas.image.copy()

    def key(self, which: Qt.Key) -> None:
        """A key pressed where the keys are."""
        QTest.keyClick(self.plan.steps, which)
        self.settle()


def bordered() -> Design:
    """Three rows of four, and a border."""
    found = rails(4, 3)
    border = Border(found.fabrics[1].id, Fraction(2))
    return apply(found, call("add-border", border=border))


def test_every_step_is_listed_told_and_painted(qtbot: QtBot, runner: Runner) -> None:
    place = Place(qtbot, runner, bordered())
    plan = place.plan
    assert plan.picture is not None
    order = plan.picture.order
    assert plan.steps.count() == len(order.steps)
    assert plan.summary.text().startswith(str(order.summary))
    seen: list[QImage] = []
    for number, step in enumerate(order.steps, 1):
        assert plan.title.text() == f"Step {number} of {len(order.steps)}: {step.name}"
        assert plan.words.text().startswith(str(step.sentence))
        assert plan.canvas.accessibleDescription() == plan.words.text()
        seen.append(place.image())
        place.key(KEY.Key_Right)
    assert all(one != other for one, other in pairwise(seen))
    accent = QColor(ACCENT).rgb()
    first = seen[0]
    assert any(
        first.pixel(x, y) == accent for x in range(0, first.width(), 2) for y in range(0, first.height(), 2)
    )


def test_keys_go_through_the_steps_and_escape_goes_back_to_the_wall(qtbot: QtBot, runner: Runner) -> None:
    place = Place(qtbot, runner, bordered())
    plan = place.plan
    assert plan.index == 0
    assert not plan.back.isEnabled()
    place.key(KEY.Key_Left)
    assert plan.index == 0
    for key in (KEY.Key_Right, KEY.Key_PageDown, KEY.Key_Space, KEY.Key_Down):
        place.key(key)
    assert plan.index == 4
    place.key(KEY.Key_PageUp)
    place.key(KEY.Key_Up)
    assert plan.index == 2
    place.key(KEY.Key_End)
    assert plan.index == plan.steps.count() - 1
    assert not plan.next.isEnabled()
    QTest.mouseClick(plan.back, Qt.MouseButton.LeftButton)
    assert plan.index == plan.steps.count() - 2
    with qtbot.waitSignal(plan.left):
        QTest.keyClick(plan.steps, KEY.Key_Escape)


def test_it_follows_edits_and_what_is_tried_out_and_keeps_its_step(qtbot: QtBot, runner: Runner) -> None:
    place = Place(qtbot, runner, bordered())
    plan = place.plan
    place.key(KEY.Key_Right)
    before = plan.steps.count()
    place.document.perform(
        call("add-border", border=Border(place.document.design.fabrics[0].id, Fraction(3)))
    )
    place.settle()
    assert (plan.steps.count(), plan.index) == (before + 2, 1)
    place.document.preview(call("change-setting", kind="on point"))
    place.settle()
    assert plan.picture is not None
    assert plan.picture.laid.frame.on_point
    place.document.drop_preview()
    place.settle()
    assert plan.steps.count() == before + 2
    plan.hide()
    place.document.undo()
    place.settle()
    assert plan.steps.count() == before + 2  # nobody looks
    plan.show()
    place.settle()
    assert plan.steps.count() == before


def test_an_empty_wall_says_what_to_do(qtbot: QtBot, runner: Runner) -> None:
    bare = rails(2, 2)
    place = Place(qtbot, runner, bare.with_quilt(bare.quilt.changed(rows=())))
    assert place.plan.steps.count() == 0
    assert "Hang blocks on the wall first" in place.plan.summary.text()
    assert place.plan.canvas.image is None


def test_while_it_is_worked_out_the_page_says_so(qtbot: QtBot, runner: Runner) -> None:
    plan = SewingPlan(Document(rails(2, 2)), Look(LoadedPreferences(Preferences())), runner)
    qtbot.addWidget(plan)
    plan.show()
    assert plan.summary.text() == "Working out how the top is sewn…"
    assert not any(button.isEnabled() for button in (plan.save, plan.back, plan.next))
    qtbot.waitUntil(lambda: plan.steps.count() > 0, timeout=20_000)
    assert plan.save.isEnabled()
    assert plan.next.isEnabled()


def test_words_follow_the_unit(qtbot: QtBot, runner: Runner) -> None:
    place = Place(qtbot, runner, bordered())
    place.look.prefer(unit="cm")
    place.settle()
    assert " cm long" in place.plan.words.text()
    assert " in long" not in place.plan.words.text() + place.plan.summary.text()

"""Values: grays as light as the cloth, a squint that blurs, values by hand, warnings where two read as one."""

from itertools import pairwise

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.colour.value import gray, lightness
from piecewright.edit.registry import call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.plan.values import value_report
from piecewright.render.gray import grayed
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.values.drawer import ValuesDrawer
from piecewright_qt.wall.view import WallView
from tests.core.edit.quilts import design, laid

LEFT = Qt.MouseButton.LeftButton


class Place:
    """A drawer beside a wall of rails."""

    def __init__(self, qtbot: QtBot, *rows: str) -> None:
        made = laid(*rows) if rows else design()
        self.document = Document(made)
        look = Look(LoadedPreferences(Preferences()))
        self.wall = WallView(self.document, look)
        self.drawer = ValuesDrawer(self.document, look, self.wall)
        for widget in (self.wall, self.drawer):
            qtbot.addWidget(widget)
            widget.resize(420, 700)
            widget.show()
        self.wall.settle()
        self.drawer.begin()

    def picture(self) -> QImage:
        """What the wall shows."""
        self.wall.settle()
        return self.wall.viewport().grab().toImage()


def saturation(image: QImage) -> int:
    """The most that any of many spots near the middle is colored, 0 to 255."""
    middle = image.rect().center()
    return max(image.pixelColor(middle.x() + dx, middle.y()).saturation() for dx in range(-60, 60, 3))


@pytest.mark.parametrize("color", ["#000000", "#ffffff", "#aa3344", "#2f6b3a", "#0000ff", "#ffff00"])
def test_a_gray_is_neutral_and_just_as_light(color: str) -> None:
    found = QColor(gray(color))
    assert found.red() == found.green() == found.blue()
    assert lightness(gray(color)) == pytest.approx(lightness(color), abs=0.3)


def test_a_grayed_design_differs_in_nothing_but_color() -> None:
    made = laid("ro....")
    assert grayed(made).quilt == made.quilt
    assert grayed(made) is grayed(made)
    assert [fabric.name for fabric in grayed(made).fabrics] == [fabric.name for fabric in made.fabrics]


def test_the_wall_turns_gray_and_back(qtbot: QtBot) -> None:
    place = Place(qtbot, "rorror", "rorror", "rorror")
    assert saturation(place.picture()) > 80
    QTest.mouseClick(place.drawer.gray.box, LEFT)
    assert saturation(place.picture()) < 10  # the seams keep the ink of the theme
    QTest.mouseClick(place.drawer.gray.box, LEFT)
    assert saturation(place.picture()) > 80


def test_squinting_blurs_what_is_small(qtbot: QtBot) -> None:
    place = Place(qtbot, "rorror", "rorror", "rorror")

    def steepest(image: QImage) -> int:
        middle = image.rect().center()
        levels = [image.pixelColor(middle.x(), middle.y() + dy).value() for dy in range(-40, 40)]
        return max(abs(one - other) for one, other in pairwise(levels))

    sharp = steepest(place.picture())
    QTest.mouseClick(place.drawer.squint.box, LEFT)
    assert steepest(place.picture()) < sharp / 2


def test_a_value_set_by_hand_is_one_step(qtbot: QtBot) -> None:
    place = Place(qtbot, "ro....")
    field = place.drawer._fields["f1"]
    field.box.setCurrentIndex(3)
    field.box.activated.emit(3)
    assert place.document.design.shelf.fabrics["f1"].value == "dark"
    assert place.document.undo_stack.count() == 1
    assert place.drawer.shares.text() == "light 33 %, medium 0 %, dark 67 %"
    place.document.undo()
    assert place.document.design == laid("ro....")
    assert place.drawer._fields["f1"].box.currentText() == "medium"


def test_two_that_read_as_one_are_named(qtbot: QtBot) -> None:
    place = Place(qtbot, "oo....")
    assert not place.drawer.warnings.isVisible()
    made = place.document.design
    alike = made.shelf.fabrics["f3"].changed(color="#2f6b3b")
    place.document.perform(call("change-fabric", fabric=alike))
    assert place.drawer.warnings.isVisible()
    assert place.drawer.warnings.text() == "Fern and Dusk, beside each other along 12 in"
    assert value_report(place.document.design).as_one


def test_an_empty_wall_says_so(qtbot: QtBot) -> None:
    place = Place(qtbot)
    assert place.drawer.shares.text() == "Nothing hangs yet."
    assert place.drawer.none.isVisible()

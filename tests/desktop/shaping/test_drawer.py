"""The shape drawer: sizes are edits at once, corners are set by hand and by keys, a block covers it."""

from fractions import Fraction

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.plan.layout import layout
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.shaping.drawer import ShapeDrawer
from tests.core.edit.quilts import RAILS, design

LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
TOTE, DRAWN = 1, 7


class Place:
    """A drawer over an empty wall."""

    def __init__(self, qtbot: QtBot) -> None:
        self.document = Document(design())
        self.drawer = ShapeDrawer(self.document, Look(LoadedPreferences(Preferences())))
        qtbot.addWidget(self.drawer)
        self.drawer.resize(320, 1000)
        self.drawer.show()
        self.drawer.begin()

    def choose(self, index: int) -> None:
        """Choose a shape as a user does."""
        self.drawer.kind.box.setCurrentIndex(index)
        self.drawer.kind.box.activated.emit(index)


@pytest.fixture
def place(qtbot: QtBot) -> Place:
    """The drawer and what it works on."""
    return Place(qtbot)


def test_a_chosen_shape_is_covered_by_the_cells_it_needs(place: Place) -> None:
    place.choose(TOTE)
    quilt = place.document.design.quilt
    assert quilt.shape is not None
    assert quilt.shape.kind == "tote panel"
    assert (quilt.lattice.columns, quilt.lattice.rows) == (3, 4)
    assert set(place.drawer.sizes) == {"width", "height", "bottom corner"}
    QTest.mouseClick(place.drawer.cover, LEFT)
    assert layout(place.document.design).missing == 0
    assert place.document.design.quilt.blocks == {RAILS}


def test_a_size_typed_is_an_edit_at_once_and_a_wrong_one_says_so(place: Place) -> None:
    place.choose(TOTE)
    field = place.drawer.sizes["width"]
    field.box.setEditText("22")
    shape = place.document.design.quilt.shape
    assert shape is not None
    assert dict(shape.sizes) == {"width": Fraction(22)}
    corner = place.drawer.sizes["bottom corner"]
    corner.box.setEditText("12")
    assert place.document.design.quilt.shape == shape


def test_a_shape_is_drawn_by_hand(place: Place) -> None:
    place.choose(DRAWN)
    drawing = place.drawer.drawing
    assert drawing.isVisible()
    before = len(drawing.corners)
    middle = (drawing._at(*drawing.corners[0]) + drawing._at(*drawing.corners[1])) / 2
    QTest.mousePress(drawing, LEFT, NONE, middle.toPoint())
    QTest.mouseMove(drawing, middle.toPoint() + QPoint(0, 30))
    QTest.mouseRelease(drawing, LEFT, NONE, middle.toPoint() + QPoint(0, 30))
    shape = place.document.design.quilt.shape
    assert shape is not None
    assert len(shape.corners) == before + 1 == len(drawing.corners)


def test_corners_are_chosen_moved_added_and_taken_away_by_keys(place: Place) -> None:
    place.choose(DRAWN)
    drawing = place.drawer.drawing
    drawing.setFocus()
    QTest.keyClick(drawing, Qt.Key.Key_PageDown)
    QTest.keyClick(drawing, Qt.Key.Key_Right)
    shape = place.document.design.quilt.shape
    assert shape is not None
    assert shape.width == Fraction(37, 2)
    QTest.keyClick(drawing, Qt.Key.Key_Insert)
    assert len(drawing.corners) == 5
    QTest.keyClick(drawing, Qt.Key.Key_Delete)
    assert len(drawing.corners) == 4
    assert "corner" in drawing.accessibleName()


def test_none_gives_the_whole_quilt_back(place: Place) -> None:
    place.choose(TOTE)
    place.drawer.begin()
    place.choose(0)
    assert place.document.design.quilt.shape is None
    assert not place.drawer.cover.isVisible()
    place.document.undo()
    assert place.drawer.kind.value == "tote panel"

"""The history as a list: every step by its words, the present one marked; click and Enter go there, the journal too."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, call
from piecewright.files.journal import Journal
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.history import HistoryDrawer
from piecewright_qt.look import Look
from tests.core.edit.quilts import RAILS, design
from tests.core.files.test_journal import crash, recovered_in

ROLES = Qt.ItemDataRole


class Place:
    """A drawer of the history beside a wall with four blocks laid in four steps."""

    def __init__(self, qtbot: QtBot, folder: Path) -> None:
        self.document = Document(design())
        self.journal = self.document.recorder = Journal.begin(folder, design())
        self.drawer = HistoryDrawer(self.document, Look(LoadedPreferences(Preferences())))
        qtbot.addWidget(self.drawer)
        self.drawer.resize(300, 600)
        self.drawer.show()
        self.drawer.begin()
        self.seen: list[tuple[Design, Design]] = []
        for column in range(4):
            self.document.perform(call("place-block", block=RAILS, cell=Cell(column, 0)))
        self.document.changed.connect(lambda before, after: self.seen.append((before, after)))

    @property
    def hung(self) -> int:
        """How many blocks hang."""
        return sum(len(row.placements) for row in self.document.design.quilt.rows)

    def texts(self, role: int = ROLES.DisplayRole) -> list[str]:
        """What the list says."""
        model = self.drawer.model
        return [model.data(model.index(row, 0), role) for row in range(model.rowCount())]

    def point(self, row: int) -> QPoint:
        """The middle of a row in the list's viewport."""
        return self.drawer.list.visualRect(self.drawer.model.index(row, 0)).center()


@pytest.fixture
def place(qtbot: QtBot, tmp_path: Path) -> Place:
    """The drawer and what it works on."""
    return Place(qtbot, tmp_path)


def test_every_step_stands_there_by_its_words_and_the_present_one_is_marked(place: Place) -> None:
    assert place.texts() == ["As it was opened", *["Lay a block"] * 4]
    assert place.texts(ROLES.AccessibleTextRole)[4] == "Lay a block, where you are"
    assert [bool(one) for one in place.texts(ROLES.DecorationRole)] == [False] * 4 + [True]
    assert [bool(one) for one in place.texts(ROLES.FontRole)] == [False] * 4 + [True]


def test_a_click_goes_there_at_once_and_nothing_is_lost(place: Place) -> None:
    last = place.document.design
    QTest.mouseClick(
        place.drawer.list.viewport(),
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
        place.point(1),
    )
    assert place.hung == 1
    assert [(before, after.quilt.rows[0].placements[0].column) for before, after in place.seen] == [(last, 0)]
    assert len(place.texts()) == 5
    assert place.texts(ROLES.AccessibleTextRole)[1] == "Lay a block, where you are"
    assert place.drawer.model.data(place.drawer.model.index(3, 0), ROLES.ForegroundRole) is not None


def test_arrows_only_look_and_enter_goes(place: Place) -> None:
    steps = place.drawer.list
    for _ in range(4):
        QTest.keyClick(steps, Qt.Key.Key_Up)
    assert place.hung == 4
    QTest.keyClick(steps, Qt.Key.Key_Return)
    assert place.hung == 0
    QTest.keyClick(steps, Qt.Key.Key_End)
    QTest.keyClick(steps, Qt.Key.Key_Return)
    assert place.hung == 4


def test_the_journal_ends_where_the_list_went(place: Place, tmp_path: Path) -> None:
    place.document.go_to(1)
    place.document.go_to(3)
    place.document.perform(call("place-block", block=RAILS, cell=Cell(0, 1)))
    assert place.texts() == ["As it was opened", *["Lay a block"] * 4]
    place.document.go_to(2)
    crash(place.journal)
    assert recovered_in(tmp_path).design == place.document.design


def test_a_step_that_is_not_there_is_refused(place: Place) -> None:
    with pytest.raises(ValueError, match="steps 0 to 4"):
        place.document.go_to(5)

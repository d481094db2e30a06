"""Shelf and materials fold away where the Sewing table would be too narrow between them, and come back."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QSplitter, QStackedWidget, QWidget
from pytestqt.qtbot import QtBot

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright_qt.look import Look
from piecewright_qt.side_room import SideRoom


class Room:
    """A window's three columns, at the table."""

    def __init__(self, qtbot: QtBot, width: int, percent: int) -> None:
        self.splitter, self.places = QSplitter(Qt.Orientation.Horizontal), QStackedWidget()
        qtbot.addWidget(self.splitter)
        self.look = Look(LoadedPreferences(Preferences(text_percent=percent)))
        self.shelf, self.materials, self.wall, self.table = (QWidget() for _ in range(4))
        for column in (self.shelf, self.places, self.materials):
            self.splitter.addWidget(column)
        self.places.addWidget(self.wall)
        self.places.addWidget(self.table)
        self.side = SideRoom(self.splitter, (self.shelf, self.materials), self.places, self.table, self.look)
        self.splitter.resize(width, 700)
        self.splitter.show()
        self.places.setCurrentWidget(self.table)

    @property
    def seen(self) -> tuple[bool, bool]:
        return self.shelf.isVisibleTo(self.splitter), self.materials.isVisibleTo(self.splitter)


@pytest.mark.parametrize(
    ("width", "percent", "seen"),
    [
        (1480, 100, (True, True)),
        (1366, 100, (True, False)),
        (1480, 200, (False, False)),
        (2400, 200, (True, True)),
    ],
)
def test_columns_fold_where_there_is_no_room(
    qtbot: QtBot, width: int, percent: int, seen: tuple[bool, bool]
) -> None:
    room = Room(qtbot, width, percent)
    assert room.seen == seen
    offered = tuple(not button.isHidden() for button in room.side.buttons)
    assert offered == tuple(not one for one in seen), "what is folded has a button, what is not needs none"
    room.places.setCurrentWidget(room.wall)
    assert room.seen == (True, True)


def test_a_folded_column_is_brought_back_until_the_table_is_left(qtbot: QtBot) -> None:
    room = Room(qtbot, 1366, 100)
    room.side.materials.click()
    assert room.seen == (True, True)
    room.splitter.resize(1360, 700)
    assert room.seen == (True, True)
    room.places.setCurrentWidget(room.wall)
    room.places.setCurrentWidget(room.table)
    assert room.seen == (True, False)

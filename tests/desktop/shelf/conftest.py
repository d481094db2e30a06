"""Shelves to work at: shown off-screen beside a wall that notes what it is handed."""

from collections.abc import Callable
from dataclasses import dataclass

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.shelf.shelf import Shelf
from piecewright_qt.wall.selection import Selection


class NotingWall:
    """Stands where the wall stands, and notes what is put in its hand."""

    def __init__(self) -> None:
        self.selection = Selection()
        self.taken: list[tuple[str, int, int]] = []

    def take_in_hand(self, block: str, kind: int = 0, layer: int = 0) -> None:
        self.taken.append((block, kind, layer))


@dataclass
class Place:
    """A shelf with all it hangs on."""

    shelf: Shelf
    document: Document
    look: Look
    wall: NotingWall
    refusals: list[str]


SetUp = Callable[..., Place]


@pytest.fixture
def set_up(qtbot: QtBot) -> SetUp:
    """Sets a shelf up for a design: `set_up(design, theme="light", text_percent=100, unit="in")`."""

    def made(design: Design, **preferences: object) -> Place:
        register_fonts()
        look = Look(LoadedPreferences(Preferences(**preferences)))  # type: ignore[arg-type]
        look.dress()
        document, wall = Document(design), NotingWall()
        shelf = Shelf(document, look, wall)
        qtbot.addWidget(shelf)
        shelf.resize(264, 760)
        with qtbot.waitExposed(shelf):
            shelf.show()
        shelf.activateWindow()
        QApplication.processEvents()
        refusals: list[str] = []
        document.refused.connect(lambda error: refusals.append(error.message.code))
        kept.append(Place(shelf, document, look, wall, refusals))
        return kept[-1]

    kept: list[Place] = []
    return made

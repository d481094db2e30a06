"""Walls to work on: hung off-screen, painted sharp, closed after the test."""

from collections.abc import Callable

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.wall.view import WallView

Hang = Callable[..., WallView]


@pytest.fixture
def hang(qtbot: QtBot) -> Hang:
    """Hangs a design: `hang(design, theme="light", size=(900, 700))`."""

    def hung(design: Design, theme: str = "light", size: tuple[int, int] = (900, 700)) -> WallView:
        register_fonts()
        look = Look(LoadedPreferences(Preferences(theme=theme), (), ()))  # type: ignore[arg-type]
        wall = WallView(Document(design), look)
        qtbot.addWidget(wall)
        wall.resize(*size)
        with qtbot.waitExposed(wall):
            wall.show()
        wall.activateWindow()
        QApplication.processEvents()
        wall.setFocus()
        wall.settle()
        QApplication.processEvents()
        return wall

    return hung

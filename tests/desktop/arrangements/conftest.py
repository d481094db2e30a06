"""The strip of arrangements, shown off-screen for a design."""

from collections.abc import Callable
from dataclasses import dataclass

import pytest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.errors import EditError
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.arrangements.strip import ArrangementStrip
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look


@dataclass
class Place:
    """The strip with all it hangs on."""

    strip: ArrangementStrip
    document: Document
    look: Look
    refusals: list[EditError]

    @property
    def names(self) -> list[str]:
        """The names on the tabs."""
        return [self.strip.tabs.tabText(number) for number in range(self.strip.tabs.count())]


SetUp = Callable[..., Place]


@pytest.fixture
def set_up(qtbot: QtBot) -> SetUp:
    """Sets the strip up: `set_up(design, theme="light", text_percent=100)`."""

    def made(design: Design, width: int = 900, **preferences: object) -> Place:
        register_fonts()
        look = Look(LoadedPreferences(Preferences(**preferences)))  # type: ignore[arg-type]
        look.dress()
        document = Document(design)
        strip = ArrangementStrip(document, look)
        qtbot.addWidget(strip)
        strip.resize(width, strip.sizeHint().height())
        with qtbot.waitExposed(strip):
            strip.show()
        strip.activateWindow()
        QApplication.processEvents()
        refusals: list[EditError] = []
        document.refused.connect(refusals.append)
        return Place(strip, document, look, refusals)

    return made

"""The right column of the window, shown off-screen for a design."""

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
from piecewright_qt.materials.column import MaterialsColumn
from piecewright_qt.materials.list_view import MaterialsList
from piecewright_qt.materials.resize import ResizePanel
from piecewright_qt.materials.rows import Row
from piecewright_qt.replan import Replan


@dataclass
class Place:
    """The column with all it hangs on."""

    column: MaterialsColumn
    document: Document
    replan: Replan
    look: Look

    @property
    def list(self) -> MaterialsList:
        """The list of materials."""
        return self.column.panel.list

    @property
    def sliders(self) -> ResizePanel:
        """The sliders under it."""
        return self.column.resizer

    @property
    def rows(self) -> tuple[Row, ...]:
        """What the list shows."""
        return self.list.rows.rows

    @property
    def plan_rows(self) -> tuple[Row, ...]:
        """The same without what the last step changed."""
        return tuple(row for row in self.rows if row.section != "changes")

    def row(self, label: str, section: str = "") -> Row:
        """The shown row of this label."""
        return next(row for row in self.rows if row.label == label and section in ("", row.section))

    def delta(self, row: Row) -> str | None:
        """What is marked in a row: None where nothing is."""
        mark = self.list.rows.mark(row)
        return None if mark is None else mark.delta

    def put_at(self, row: Row) -> None:
        """Bring the keys to a row."""
        self.list.setFocus()
        self.list.setCurrentIndex(self.list.rows.index(self.rows.index(row)))


SetUp = Callable[..., Place]


@pytest.fixture
def set_up(qtbot: QtBot) -> SetUp:
    """Sets the column up: `set_up(design, width=320, theme="light", text_percent=100, unit="in")`."""

    def made(design: Design, width: int = 320, height: int = 900, **preferences: object) -> Place:
        register_fonts()
        look = Look(LoadedPreferences(Preferences(**preferences)))  # type: ignore[arg-type]
        look.dress()
        document = Document(design)
        replan = Replan(document)
        column = MaterialsColumn(document, replan, look)
        qtbot.addWidget(column)
        column.resize(width, height)
        with qtbot.waitExposed(column):
            column.show()
        column.activateWindow()
        QApplication.processEvents()
        return Place(column, document, replan, look)

    return made

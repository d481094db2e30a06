"""Cutting tables to stand at, off-screen, with a quilt on the wall."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.files.design_file import load_design
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.cutting_table.table import CuttingTable
from piecewright_qt.document import Document
from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.samples import sample_files

Open = Callable[..., CuttingTable]


def sample(number: int = 1) -> Design:
    """One of the shipped samples: the table runner, unless another is asked for."""
    return load_design(sample_files()[number]).design


@pytest.fixture
def runner(qtbot: QtBot) -> Iterator[Runner]:
    """A runner that ends with the test."""
    made = Runner()
    yield made
    made.stop()


@pytest.fixture
def stand_at(qtbot: QtBot, runner: Runner) -> Iterator[Open]:
    """Steps up to a table with a design on the wall."""
    register_fonts()
    tables: list[CuttingTable] = []

    def open_one(design: Design | None = None, *, searching: bool = False, **liked: object) -> CuttingTable:
        look = Look(LoadedPreferences(Preferences(**liked)))  # type: ignore[arg-type]  # the test's own words
        document = Document(sample() if design is None else design)
        table = CuttingTable(document, look, runner if searching else None)
        table.setProperty("document", document)
        table.resize(900, 800)
        table.show()
        qtbot.waitExposed(table)
        table.begin()
        tables.append(table)
        return table

    yield open_one
    for table in tables:
        table.close()
        table.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)

"""Taking the cutting along: what is copied, saved and printed is what lies on the table."""

from pathlib import Path

import pytest
from PySide6.QtGui import QGuiApplication, QTextDocument
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QFileDialog

from piecewright.cutting.table_text import cutting_csv, cutting_text
from piecewright_qt.cutting_table.cuts_list import cut_lines
from piecewright_qt.cutting_table.list_html import list_html
from piecewright_qt.cutting_table.table import CuttingTable
from tests.desktop.cutting_table.conftest import Open


def choose(table: CuttingTable, place: int) -> None:
    """A line of the menu."""
    table.files.menu().actions()[place].trigger()


def test_the_lists_are_copied_as_the_command_prints_them(stand_at: Open) -> None:
    table = stand_at()
    choose(table, 0)
    assert QGuiApplication.clipboard().text() == cutting_text(table.work.table, table._look.measure)
    assert "clipboard" in table.status.toolTip()


def test_the_page_has_every_line_of_every_fabric(stand_at: Open) -> None:
    table, document = stand_at(), QTextDocument()
    document.setHtml(list_html(table.work.table, table._look.measure, "11pt"))
    text = document.toPlainText().replace("\xa0", " ")
    for each in table.work.table.fabrics:
        for line in cut_lines(table.work.table, each, table._look.measure):
            assert line.text in text


def test_csv_and_pdf_are_saved_whole(stand_at: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    table = stand_at()
    places = [tmp_path / "cut.csv", tmp_path / "cut.pdf"]
    answers = iter(places)

    def save_as(dialog: QFileDialog) -> int:
        dialog.selectFile(str(next(answers)))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", save_as)
    choose(table, 1)
    choose(table, 2)
    assert places[0].read_text() == cutting_csv(table.work.table, table._look.measure)
    data = places[1].read_bytes()
    assert data.startswith(b"%PDF-")
    assert data.count(b"/Type /Page\n") + data.count(b"/Type /Page ") >= 2  # lists, then drawings


def test_it_prints_what_the_pdf_shows(
    stand_at: Open, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    table = stand_at()
    place = tmp_path / "printed.pdf"

    def accept(dialog: QPrintDialog) -> int:
        dialog.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        dialog.printer().setOutputFileName(str(place))
        return 1

    monkeypatch.setattr(QPrintDialog, "exec", accept)
    choose(table, 3)
    assert place.read_bytes().startswith(b"%PDF-")
    assert "printer" in table.status.toolTip()

"""Taking the cutting along: the lists copied, saved as a table, or with the drawings on paper or in a PDF."""

from PySide6.QtCore import Signal
from PySide6.QtGui import QGuiApplication, QPagedPaintDevice, QTextDocument
from PySide6.QtWidgets import QMenu, QPushButton

from piecewright.cutting.table_text import cutting_csv, cutting_text
from piecewright.render.cutting_picture import cutting_pages
from piecewright_qt.cutting_table.list_html import list_html
from piecewright_qt.cutting_table.taking_along import Saver, paint_all, pdf_of, print_out
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.look import Look

_PRINTED = "11pt"


class ListMenu(QPushButton):
    """A button with its menu; `said` tells what was done."""

    said = Signal(str)

    def __init__(self, work: CuttingWork, look: Look) -> None:
        super().__init__()
        self._work = work
        self._look = look
        self._saver = Saver(self, look)
        self.setText(self.tr("Save or print"))
        self.setToolTip(self.tr("The lists and drawings of all fabrics, to take along"))
        menu = QMenu(self)
        menu.addAction(self.tr("Copy the lists as text"), self.copy)
        menu.addAction(self.tr("Save as a table, CSV…"), self.save_csv)
        menu.addAction(self.tr("Save lists and drawings as PDF…"), self.save_pdf)
        menu.addAction(self.tr("Print lists and drawings…"), self.print)
        self.setMenu(menu)

    def copy(self) -> None:
        """Put the lists on the clipboard as text."""
        QGuiApplication.clipboard().setText(cutting_text(self._work.table, self._look.measure))
        self.said.emit(self.tr("The cutting lists are on the clipboard."))

    def save_csv(self) -> None:
        """Save every cut as a row of a table."""
        data = cutting_csv(self._work.table, self._look.measure).encode()
        self._tell(self._saver.save(self._name(), self.tr("Tables (*.csv)"), ".csv", data))

    def save_pdf(self) -> None:
        """Save the lists and then the drawings as pages."""
        self._tell(self._saver.save(self._name(), "PDF (*.pdf)", ".pdf", pdf_of(self._name(), self.paint)))

    def print(self) -> None:
        """Print the lists and then the drawings."""
        if print_out(self, self._name(), self.paint):
            self.said.emit(self.tr("The cutting lists are sent to the printer."))

    def paint(self, device: QPagedPaintDevice) -> None:
        """Everything on the pages of a device."""
        table, measure = self._work.table, self._look.measure
        document = QTextDocument()
        document.setHtml(list_html(table, measure, _PRINTED))
        left_handed = self._look.preferences.left_handed
        paint_all(device, document, cutting_pages(table, self._work.design, measure, left_handed=left_handed))

    def _name(self) -> str:
        return self.tr("{name}, to cut").format(name=self._work.design.name)

    def _tell(self, text: str) -> None:
        if text:
            self.said.emit(text)

"""The shopping list as a page of the Cutting table: on the screen as on paper, to copy, save and print."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice, QLocale, QMarginsF, Qt, QUrl, Signal
from PySide6.QtGui import QGuiApplication, QPageLayout, QPageSize, QPdfWriter, QTextDocument
from PySide6.QtWidgets import QFrame, QGridLayout, QPushButton, QTextBrowser, QVBoxLayout, QWidget

from piecewright.cutting.buying import amounts
from piecewright.errors import PiecewrightError
from piecewright.files.atomic import write_whole
from piecewright.plan.shopping import Shopping, shopping
from piecewright.plan.shopping_text import shopping_csv, shopping_text
from piecewright_qt.asking import ask_where_to_save
from piecewright_qt.cutting_table.shopping_html import Inks, shopping_html
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.shelf.letter_slots import ElidedLabel
from piecewright_qt.theme.tokens import LIGHT, SPACE, SPACE_TIGHT, SPACE_WIDE

_MARGIN = 15.0  # millimeters of paper
_PRINTED = 11  # points of type on paper
_DOTS = 300
_ONE_ROW = 1.3  # the largest text scale at which all buttons stand in one row


class ShoppingPage(QWidget):
    """What to buy by the plan that is cut by; an amount is a link that opens to its sum. `said` tells what is done."""

    said = Signal(str)

    def __init__(self, work: CuttingWork, look: Look) -> None:
        super().__init__()
        self._work = work
        self._look = look
        self._opened: frozenset[str] = frozenset()
        self.folder = Path.home()
        self.page = QTextBrowser()
        self.page.setFrameShape(QFrame.Shape.NoFrame)
        self.page.setOpenLinks(False)
        self.page.setAccessibleName(self.tr("Shopping list"))
        self.page.setAccessibleDescription(
            self.tr("Tab goes from amount to amount, Enter opens one to its sum.")
        )
        self.page.anchorClicked.connect(self._open)
        self._lay_out()
        work.planned.connect(self.refresh)
        look.changed.connect(self.refresh)

    @property
    def list(self) -> Shopping:
        """What is to buy for the design in view."""
        return shopping(self._work.design, cut=amounts(self._work.table))

    def refresh(self) -> None:
        """Show the list as it is now, scrolled as it was."""
        if not self.isVisible():
            return
        self._place()
        theme = self._look.theme
        inks = Inks(theme.text, theme.text_soft, theme.line, theme.accent)
        bar = self.page.verticalScrollBar()
        at = bar.value()
        self.page.document().setDocumentMargin(SPACE_WIDE)
        self.page.setHtml(self._html(inks, f"{self._look.scale.body}px", self._opened))
        bar.setValue(at)

    def copy(self) -> None:
        """Put the list on the clipboard as text."""
        QGuiApplication.clipboard().setText(shopping_text(self.list, self._look.measure))
        self.said.emit(self.tr("The shopping list is on the clipboard."))

    def save_csv(self) -> None:
        """Save the list as a table for a spreadsheet."""
        self._save(".csv", self.tr("Tables (*.csv)"), shopping_csv(self.list, self._look.measure).encode())

    def save_pdf(self) -> None:
        """Save the list as a page to print."""
        self._save(".pdf", "PDF (*.pdf)", self.pdf())

    def print(self) -> None:
        """Print the list on a printer that the system's dialog lets one choose."""
        from PySide6.QtPrintSupport import QPrintDialog, QPrinter

        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setDocName(self._work.design.name)
        dialog = QPrintDialog(printer, self)
        if dialog.exec():
            self.document().print_(printer)
            self.said.emit(self.tr("The shopping list is sent to the printer."))
        dialog.deleteLater()

    def pdf(self) -> bytes:
        """The list as PDF pages."""
        buffer = QBuffer()
        buffer.open(QIODevice.OpenModeFlag.WriteOnly)
        writer = QPdfWriter(buffer)
        writer.setResolution(_DOTS)
        writer.setTitle(self._work.design.name)
        writer.setPageSize(QPageSize(_page_size()))
        margins = QMarginsF(_MARGIN, _MARGIN, _MARGIN, _MARGIN)
        writer.setPageMargins(margins, QPageLayout.Unit.Millimeter)
        self.document().print_(writer)
        buffer.close()
        return bytes(buffer.data().data())

    def document(self) -> QTextDocument:
        """The list for paper: dark on light, without sums."""
        document = QTextDocument()
        inks = Inks(LIGHT.text, LIGHT.text_soft, LIGHT.line, LIGHT.text)
        document.setHtml(self._html(inks, f"{_PRINTED}pt", frozenset(), links=False))
        return document

    def _html(self, inks: Inks, size: str, opened: frozenset[str], *, links: bool = True) -> str:
        return shopping_html(
            self.list, self._work.table, self._look.measure, inks, size, opened=opened, links=links
        )

    def _open(self, url: QUrl) -> None:
        """Open an amount to its sum, or close it."""
        self._opened ^= {url.path()}
        self.refresh()

    def _save(self, ending: str, kind: str, data: bytes) -> None:
        name = self.tr("{name}, to buy").format(name=self._work.design.name)
        chosen = ask_where_to_save(
            self, self.tr("Save the shopping list"), self.folder / f"{name}{ending}", (kind,), ending
        )
        if chosen is None:
            return
        try:
            write_whole(chosen, data)
        except PiecewrightError as error:
            self.said.emit(words(error, self._look.measure))
        else:
            self.folder = chosen.parent
            self.said.emit(self.tr("Shopping list saved: {name}").format(name=chosen.name))

    def _lay_out(self) -> None:
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        self._row = row = QGridLayout()
        row.setContentsMargins(SPACE_WIDE, SPACE, SPACE, SPACE_TIGHT)
        row.setSpacing(SPACE)
        self.buttons = tuple(
            self._button(text, tip, act)
            for text, tip, act in (
                (self.tr("Copy as text"), self.tr("Put the shopping list on the clipboard"), self.copy),
                (self.tr("Save as CSV…"), self.tr("Save it as a table for a spreadsheet"), self.save_csv),
                (self.tr("Save as PDF…"), self.tr("Save it as pages to print"), self.save_pdf),
                (self.tr("Print…"), self.tr("Print the shopping list"), self.print),
            )
        )
        self.told = ElidedLabel()
        self.told.setProperty("type", "soft")
        self.said.connect(self.told.show_text)
        column.addLayout(row)
        column.addWidget(self.page, 1)
        self._place()

    def _place(self) -> None:
        """The buttons in one row; in two where large text leaves no room."""
        across = 4 if self._look.scale.text <= _ONE_ROW else 2
        for place, button in enumerate(self.buttons):
            self._row.addWidget(button, place // across, place % across)
        self._row.addWidget(self.told, 2, 0, 1, 4)
        if across == 4:
            self._row.addWidget(self.told, 0, across)
        self._row.setColumnStretch(4, 1 if across == 4 else 0)

    def _button(self, text: str, tip: str, act: Callable[[], None]) -> QPushButton:
        button = QPushButton(text)
        button.setToolTip(tip)
        button.clicked.connect(lambda _checked=False: act())
        return button


def _page_size() -> QPageSize.PageSizeId:
    """Letter where inches are at home, else A4."""
    imperial = QLocale().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem
    return QPageSize.PageSizeId.Letter if imperial else QPageSize.PageSizeId.A4

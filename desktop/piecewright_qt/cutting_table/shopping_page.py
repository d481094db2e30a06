"""The shopping list as a page of the Cutting table: on the screen as on paper, to copy, save and print."""

from collections.abc import Callable

from PySide6.QtCore import Qt, QUrl, Signal
from PySide6.QtGui import QGuiApplication, QPagedPaintDevice, QTextDocument
from PySide6.QtWidgets import QFrame, QGridLayout, QPushButton, QTextBrowser, QVBoxLayout, QWidget

from piecewright.cutting.buying import amounts
from piecewright.plan.shopping import Shopping, shopping
from piecewright.plan.shopping_text import shopping_csv, shopping_text
from piecewright_qt.cutting_table.shopping_html import Inks, shopping_html
from piecewright_qt.cutting_table.taking_along import Saver, paint_all, pdf_of, print_out
from piecewright_qt.cutting_table.work import CuttingWork
from piecewright_qt.look import Look
from piecewright_qt.shelf.letter_slots import ElidedLabel
from piecewright_qt.theme.tokens import LIGHT, SPACE, SPACE_TIGHT, SPACE_WIDE

_PRINTED = 11  # points of type on paper
_ONE_ROW = 1.3  # the largest text scale at which all buttons stand in one row


class ShoppingPage(QWidget):
    """What to buy by the plan that is cut by; an amount is a link that opens to its sum. `said` tells what is done."""

    said = Signal(str)

    def __init__(self, work: CuttingWork, look: Look) -> None:
        super().__init__()
        self._work = work
        self._look = look
        self._opened: frozenset[str] = frozenset()
        self._saver = Saver(self, look)
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
        data = shopping_csv(self.list, self._look.measure).encode()
        self._tell(self._saver.save(self._name(), self.tr("Tables (*.csv)"), ".csv", data))

    def save_pdf(self) -> None:
        """Save the list as pages to print."""
        self._tell(self._saver.save(self._name(), "PDF (*.pdf)", ".pdf", pdf_of(self._name(), self.paint)))

    def print(self) -> None:
        """Print the list on a printer that the system's dialog lets one choose."""
        if print_out(self, self._name(), self.paint):
            self.said.emit(self.tr("The shopping list is sent to the printer."))

    def paint(self, device: QPagedPaintDevice) -> None:
        """The list on the pages of a device."""
        paint_all(device, self.document())

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

    def _name(self) -> str:
        return self.tr("{name}, to buy").format(name=self._work.design.name)

    def _tell(self, text: str) -> None:
        if text:
            self.said.emit(text)

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

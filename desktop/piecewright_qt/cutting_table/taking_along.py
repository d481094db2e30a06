"""What leaves the Cutting table: files saved where the user says, and pages on paper or in a PDF."""

from collections.abc import Callable, Sequence
from pathlib import Path

from PySide6.QtCore import QBuffer, QIODevice, QLocale, QMarginsF, QRectF, QSizeF
from PySide6.QtGui import (
    QPagedPaintDevice,
    QPageLayout,
    QPageSize,
    QPainter,
    QPdfWriter,
    QTextDocument,
)
from PySide6.QtWidgets import QWidget

from piecewright.errors import PiecewrightError
from piecewright.files.atomic import write_whole
from piecewright.geometry.motion import Motion
from piecewright.render.layout import Draw, room
from piecewright_qt.asking import ask_where_to_save
from piecewright_qt.cutting_table.saying import said
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.messages import words

_MARGIN = 15.0  # millimeters of paper
_DOTS = 300
Paint = Callable[[QPagedPaintDevice], None]


class Saver:
    """Asks where, writes whole, and answers what to say; the next question begins in the same folder."""

    def __init__(self, parent: QWidget, look: Look) -> None:
        self._parent = parent
        self._look = look
        self.folder = Path.home()

    def save(self, name: str, kind: str, ending: str, data: bytes) -> str:
        """Save under a name the user chooses; "" where that is given up."""
        suggested = self.folder / f"{name}{ending}"
        chosen = ask_where_to_save(self._parent, said("Save"), suggested, (kind,), ending)
        if chosen is None:
            return ""
        try:
            write_whole(chosen, data)
        except PiecewrightError as error:
            return words(error, self._look.measure)
        self.folder = chosen.parent
        return said("Saved: {name}").format(name=chosen.name)


def pdf_of(title: str, paint: Paint) -> bytes:
    """Pages as PDF: letter paper where inches are at home, else A4."""
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QPdfWriter(buffer)
    writer.setResolution(_DOTS)
    writer.setTitle(title)
    imperial = QLocale().measurementSystem() == QLocale.MeasurementSystem.ImperialUSSystem
    writer.setPageSize(QPageSize(QPageSize.PageSizeId.Letter if imperial else QPageSize.PageSizeId.A4))
    writer.setPageMargins(QMarginsF(_MARGIN, _MARGIN, _MARGIN, _MARGIN), QPageLayout.Unit.Millimeter)
    paint(writer)
    buffer.close()
    return bytes(buffer.data().data())


def print_out(parent: QWidget, title: str, paint: Paint) -> bool:
    """Print on a printer that the system's dialog lets one choose; False where that is given up."""
    from PySide6.QtPrintSupport import QPrintDialog, QPrinter

    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(title)
    dialog = QPrintDialog(printer, parent)
    chosen = bool(dialog.exec())
    if chosen:
        paint(printer)
    dialog.deleteLater()
    return chosen


def paint_all(device: QPagedPaintDevice, document: QTextDocument, pages: Sequence[Draw] = ()) -> None:
    """A text from page to page, then drawings at their true size, each on a page; too large ones are shrunk."""
    dots = device.logicalDpiX()
    area = QSizeF(device.pageLayout().paintRectPixels(dots).size())
    painter = QPainter(device)
    document.documentLayout().setPaintDevice(device)
    document.setPageSize(area)
    for page in range(document.pageCount()):
        if page:
            device.newPage()
        painter.save()
        painter.translate(0, -page * area.height())
        document.drawContents(painter, QRectF(0, page * area.height(), area.width(), area.height()))
        painter.restore()
    for draw in pages:
        device.newPage()
        box = room(draw)
        fits = min(1.0, area.width() / dots / box.width, area.height() / dots / box.height)
        painter.save()
        pen = QtPen(painter, dots * fits)
        with pen.framed(Motion(dx=-box.left, dy=-box.top)):
            draw(pen)
        painter.restore()
    painter.end()

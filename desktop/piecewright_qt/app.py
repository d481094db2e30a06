"""Start the window: application, looks, fault catching; the engine is read in after the first paint."""

import signal
import sys
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QTimer
from PySide6.QtGui import QFont, QGuiApplication
from PySide6.QtWidgets import QApplication, QMessageBox

from piecewright_qt.drawing.fonts import register_fonts
from piecewright_qt.faults import FaultTeller, begin_log
from piecewright_qt.workroom import Workroom


def start(path: Path | None) -> int:
    """Open the window on a design, or on the start page; returns the exit code when the last window has closed."""
    application = make_application()
    begin_log()
    teller = FaultTeller()
    teller.install()
    workroom = Workroom()
    teller.told.connect(_tell)
    signal.signal(signal.SIGINT, lambda *_: workroom.quit())
    QTimer.singleShot(0, workroom, lambda: _begin(workroom, path))
    return application.exec()


def make_application() -> QApplication:
    """The application with its name, style and font; the one there is, if there is one."""
    found = QApplication.instance()
    if isinstance(found, QApplication):
        return found
    application = QApplication(sys.argv[:1])
    application.setApplicationName("piecewright")
    application.setApplicationDisplayName("Piecewright")
    application.setStyle("Fusion")
    application.setQuitOnLastWindowClosed(False)
    QGuiApplication.setDesktopFileName("piecewright")
    register_fonts()
    application.setFont(QFont("Inter"))
    return application


def _begin(workroom: Workroom, path: Path | None) -> None:
    """The design asked for, and the start page where there is none or a crash left something."""
    opened = path is not None and workroom.open(path)
    if not opened or workroom.has_something_left():
        workroom.show_start()


def _tell(text: str) -> None:
    QMessageBox.warning(
        None,
        "Piecewright",
        QCoreApplication.translate(
            "faults",
            "Something went wrong inside Piecewright. Your design is as it was, and its changes are in the journal. "
            "It is wise to save now. What happened is written down in the log: {what}",
        ).format(what=text),
    )

"""Start the window: application, looks, fault catching; the engine is read in after the first paint."""

import os
import signal
import sys
from pathlib import Path

from PySide6.QtCore import QSocketNotifier, QTimer
from PySide6.QtGui import QFont, QGuiApplication
from PySide6.QtWidgets import QApplication

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
    teller.told.connect(workroom.tell_fault)
    _hear_signals(application)
    QTimer.singleShot(0, workroom, lambda: workroom.begin(path))
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


def _hear_signals(application: QApplication) -> None:
    """End at Ctrl+C and when the session ends, without a question: what is not saved is in the journals.

    Python runs a signal's handler only once it runs again; a byte through a pipe wakes it in the event loop.
    """
    for ending in (signal.SIGINT, signal.SIGTERM):
        signal.signal(ending, lambda *_: application.quit())
    if sys.platform == "win32":
        return
    read, write = os.pipe()
    for end in (read, write):
        os.set_blocking(end, False)
    signal.set_wakeup_fd(write)
    notifier = QSocketNotifier(read, QSocketNotifier.Type.Read, application)
    notifier.activated.connect(lambda: os.read(read, 1))

"""A fault anywhere in the window is caught, logged and said once; the design stays as it is."""

import faulthandler
import logging
import sys
import threading
from logging.handlers import RotatingFileHandler
from types import TracebackType

from PySide6.QtCore import QObject, QTimer, Signal

from piecewright.files.folders import make_folder, state_folder

log = logging.getLogger("piecewright")
_LOG_BYTES = 500_000


class FaultTeller(QObject):
    """Catches what no slot, override or thread has caught; `told` carries the sentence to show, one at a time."""

    told = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._seen: set[str] = set()

    def install(self) -> None:
        """Begin catching."""
        sys.excepthook = self._caught
        threading.excepthook = lambda hook: self._caught(hook.exc_type, hook.exc_value, hook.exc_traceback)

    def _caught(
        self, kind: type[BaseException], fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, fault or kind(), trace)
            return
        log.error("uncaught", exc_info=(kind, fault or kind(), trace))
        name = f"{kind.__name__}: {fault}"
        if name not in self._seen:
            self._seen.add(name)
            QTimer.singleShot(0, self, lambda: self.told.emit(name))


def begin_log() -> None:
    """Log to a file in the state folder, and to the error stream; dump the stack of a crash there too."""
    log.setLevel(logging.INFO)
    log.addHandler(logging.StreamHandler())
    folder = state_folder()
    try:
        make_folder(folder)
        log.addHandler(
            RotatingFileHandler(folder / "piecewright.log", maxBytes=_LOG_BYTES, backupCount=1, delay=True)
        )
    except OSError as error:
        log.warning("no log file: %s", error)
    faulthandler.enable()

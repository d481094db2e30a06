"""A fault anywhere in the window is caught, logged and said once; the design stays as it is."""

import faulthandler
import logging
import sys
import threading
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QObject, Qt, Signal

from piecewright.files.folders import make_folder, state_folder

log = logging.getLogger("piecewright")
_LOG_BYTES = 500_000
_LONGEST = 300
"""Letters of a fault that are shown; the log has all of them."""


class FaultTeller(QObject):
    """Catches what no slot, override or thread has caught; `told` carries what to show, each fault once."""

    told = Signal(str)
    _caught_in_any_thread = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._seen: set[str] = set()
        self._caught_in_any_thread.connect(self._tell, Qt.ConnectionType.QueuedConnection)

    def install(self) -> None:
        """Begin catching."""
        sys.excepthook = self.catch
        sys.unraisablehook = lambda hook: self.catch(hook.exc_type, hook.exc_value, hook.exc_traceback)
        threading.excepthook = lambda hook: self.catch(hook.exc_type, hook.exc_value, hook.exc_traceback)

    def catch(
        self, kind: type[BaseException], fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Log a fault, and have it told on the window's own thread. An interrupt from the keyboard is none."""
        if issubclass(kind, KeyboardInterrupt):
            sys.__excepthook__(kind, fault or kind(), trace)
            return
        log.error("uncaught", exc_info=(kind, fault or kind(), trace))
        self._caught_in_any_thread.emit(f"{kind.__name__}: {fault}"[:_LONGEST])

    def _tell(self, name: str) -> None:
        if name not in self._seen:
            self._seen.add(name)
            self.told.emit(name)


class _LateFile(logging.Handler):
    """A log file with one predecessor, opened with the first record: most starts have nothing to log."""

    def __init__(self, place: Path) -> None:
        super().__init__()
        self._place = place
        self._file: logging.Handler | None = None

    def emit(self, record: logging.LogRecord) -> None:
        """Write it down; a full disk is told on the error stream, and nowhere else."""
        if self._file is None:
            from logging.handlers import RotatingFileHandler

            self._file = RotatingFileHandler(
                self._place, maxBytes=_LOG_BYTES, backupCount=1, encoding="utf-8", delay=True
            )
            self._file.setFormatter(logging.Formatter("%(asctime)s %(levelname)s %(message)s"))
        self._file.handle(record)

    def close(self) -> None:
        """Close the file, if there is one."""
        if self._file is not None:
            self._file.close()
        super().close()


def begin_log() -> None:
    """Log to a file in the state folder, and to the error stream; dump the stack of a crash there too."""
    log.setLevel(logging.INFO)
    log.addHandler(logging.StreamHandler())
    folder = state_folder()
    try:
        make_folder(folder)
        log.addHandler(_LateFile(folder / "piecewright.log"))
    except OSError as error:
        log.warning("no log file: %s", error)
    faulthandler.enable()

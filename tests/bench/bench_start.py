"""Times the start: from the process to the first paint of the window, beside an empty window with the same libraries.

Run as `python -m tests.bench.bench_start`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import os
import platform
import subprocess
import sys
import tempfile
from statistics import median

ROUNDS = 9
EMPTY = """
import time
from PySide6.QtCore import QEvent, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
import PySide6.QtSvg, PySide6.QtGui
class Window(QMainWindow):
    def paintEvent(self, event):
        print("painted", flush=True)
        QTimer.singleShot(0, application.quit)
application = QApplication([])
window = Window()
window.resize(1480, 920)
window.show()
application.exec()
"""
LIBRARIES = "import numpy, shapely, msgspec\n" + EMPTY
PROGRAM = """
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
from piecewright_qt import app
class Watcher(QObject):
    seen = False
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint and isinstance(watched, QMainWindow) and not self.seen:
            self.seen = True
            print("painted", flush=True)
            if not FILLED:
                QTimer.singleShot(0, QApplication.instance().quit)
        return False
FILLED = %r
watcher = Watcher()
make = app.make_application
def watched():
    application = make()
    application.installEventFilter(watcher)
    if FILLED:
        from piecewright_qt.workroom import Workroom
        def look():
            rooms = [w for w in application.topLevelWidgets() if getattr(w, "is_filled", False)]
            if rooms:
                print("filled", flush=True)
                application.quit()
            else:
                QTimer.singleShot(2, look)
        QTimer.singleShot(0, look)
    return application
app.make_application = watched
from pathlib import Path
from importlib.resources import files
app.start(Path(str(files("piecewright_data"))) / "examples" / "tideline.piecewright")
"""


def seconds(source: str, until: str) -> float:
    """From the start of a process to a word it prints."""
    import time

    with tempfile.TemporaryDirectory() as folder:
        environment = {
            **os.environ,
            "QT_QPA_PLATFORM": os.environ.get("QT_QPA_PLATFORM", "offscreen"),
            "XDG_STATE_HOME": folder,
            "XDG_CONFIG_HOME": folder,
        }
        begun = time.perf_counter()
        with subprocess.Popen(
            [sys.executable, "-c", source],
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
            env=environment,
        ) as child:
            assert child.stdout is not None
            for line in child.stdout:
                if line.strip() == until:
                    break
            taken = time.perf_counter() - begun
            child.kill()
    return taken


def main() -> None:
    """Print the figures, the kinds of start taken in turn."""
    kinds = {
        "an empty window": (EMPTY, "painted"),
        "an empty window, numpy, shapely and msgspec imported first": (LIBRARIES, "painted"),
        "Piecewright, first paint": (PROGRAM % False, "painted"),
        "Piecewright, the sample in view": (PROGRAM % True, "filled"),
    }
    times: dict[str, list[float]] = {name: [] for name in kinds}
    for _ in range(ROUNDS):
        for name, (source, until) in kinds.items():
            times[name].append(seconds(source, until))
    print(f"{platform.machine()}, Python {platform.python_version()}, {os.cpu_count()} cores")
    libraries = median(times["an empty window, numpy, shapely and msgspec imported first"])
    for name, taken in times.items():
        print(
            f"{name}: {median(taken) * 1000:.0f} ms, {median(taken) / libraries:.2f} x the empty window with libraries"
        )


if __name__ == "__main__":
    main()

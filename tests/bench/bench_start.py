"""Times the start: the window with the sample beside an empty window that imports the same libraries.

Run as `python -m tests.bench.bench_start [PAIRS]`. Each start is a process of its own, the kinds in turns, and the
medians are printed: wall clock from the process's beginning to the paint, and the processor's own seconds until then,
which other programs do not lengthen. Prints figures and the machine, asserts nothing: times are not tests.
"""

import os
import platform
import subprocess
import sys
import tempfile
import time
from pathlib import Path
from statistics import median

KINDS = ("bare", "libraries", "sample")
LIBRARIES = ("numpy", "shapely", "msgspec", "coloraide", "PySide6.QtSvg")
PAIRS = 9
SAMPLE = "tideline.piecewright"


def show_empty(libraries: tuple[str, ...]) -> None:
    """An empty window; says when it has been painted."""
    from importlib import import_module

    from PySide6.QtCore import QTimer
    from PySide6.QtGui import QPaintEvent
    from PySide6.QtWidgets import QApplication, QMainWindow

    for name in libraries:
        import_module(name)

    class Empty(QMainWindow):
        """Ends once it has been painted."""

        def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
            """Painted."""
            super().paintEvent(event)
            QTimer.singleShot(0, lambda: end("window"))

    application = QApplication([])
    window = Empty()
    window.resize(1480, 920)
    window.show()
    application.exec()


def show_sample() -> None:
    """The program with its sample; says when its window, and when its quilt has been painted, and when all is sharp."""
    from PySide6.QtCore import QEvent, QObject, QTimer
    from PySide6.QtWidgets import QApplication

    from piecewright_qt.__main__ import main
    from piecewright_qt.app import make_application

    class Watcher(QObject):
        """Hears every paint."""

        is_seen = False

        def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
            """The first paint of anything."""
            if event.type() == QEvent.Type.Paint and not self.is_seen:
                self.is_seen = True
                QTimer.singleShot(0, lambda: note("window"))
            return False

    def look() -> None:
        """Whether every tile of the wall is painted by now."""
        walls = (one for one in QApplication.allWidgets() if one.objectName() == "wall" and one.isVisible())
        if any(wall.tiles.is_idle for wall in walls):  # type: ignore[attr-defined]
            QTimer.singleShot(0, lambda: end("quilt"))
        else:
            QTimer.singleShot(2, look)

    watcher = Watcher()
    make_application().installEventFilter(watcher)
    QTimer.singleShot(2, look)
    from importlib.resources import files

    main(["open", str(files("piecewright_data").joinpath("examples", SAMPLE))])


def note(what: str) -> None:
    """Say that something has been painted: when, and after how many seconds of work."""
    print(what, time.clock_gettime(time.CLOCK_MONOTONIC), time.process_time(), flush=True)


def end(what: str) -> None:
    """The same, and end at once."""
    note(what)
    os._exit(0)


def start(kind: str, folder: str) -> dict[str, tuple[float, float]]:
    """Start one kind; wall and processor milliseconds to each thing it painted."""
    environment = {
        **os.environ,
        "QT_QPA_PLATFORM": os.environ.get("QT_QPA_PLATFORM", "offscreen"),
        "XDG_STATE_HOME": f"{folder}/state",
        "XDG_CONFIG_HOME": f"{folder}/config",
    }
    begun = time.clock_gettime(time.CLOCK_MONOTONIC)
    told = subprocess.run(
        [sys.executable, "-m", "tests.bench.bench_start", "--show", kind],
        env=environment,
        cwd=Path(__file__).parents[2],
        stdout=subprocess.PIPE,
        text=True,
        check=True,
    ).stdout
    lines = (line.split() for line in told.splitlines())
    return {what: ((float(when) - begun) * 1000, float(worked) * 1000) for what, when, worked in lines}


def main_bench(pairs: int) -> None:
    """Print the medians of so many starts of each kind, in turns."""
    found: dict[tuple[str, str], list[tuple[float, float]]] = {}
    with tempfile.TemporaryDirectory() as folder:
        for number in range(pairs + 1):
            for kind in KINDS:
                for what, times in start(kind, folder).items():
                    if number:  # the first of each fills the disk's cache
                        found.setdefault((kind, what), []).append(times)
    print(
        f"{platform.platform()}, {os.cpu_count()} cores, Python {platform.python_version()}; median of {pairs}"
    )
    base = [median(one[side] for one in found["libraries", "window"]) for side in (0, 1)]
    words = {
        ("bare", "window"): "empty window, Qt alone",
        ("libraries", "window"): f"empty window, with {', '.join(LIBRARIES)}",
        ("sample", "window"): "our window painted, the quilt not yet hung",
        ("sample", "quilt"): "our window with the sample hung and sharp",
    }
    for key, said in words.items():
        wall, work = (median(one[side] for one in found[key]) for side in (0, 1))
        print(
            f"{said:66} {wall:6.0f} ms {work:6.0f} ms of work   {wall / base[0]:5.2f} x {work / base[1]:5.2f} x"
        )


if __name__ == "__main__":
    if sys.argv[1:2] == ["--show"]:
        {
            "bare": lambda: show_empty(()),
            "libraries": lambda: show_empty(LIBRARIES),
            "sample": show_sample,
        }[sys.argv[2]]()
    else:
        main_bench(int(sys.argv[1]) if len(sys.argv) > 1 else PAIRS)

"""How fast the wall is: drag, drop, pan, zoom, sharp again, at 10 000 and 40 000 patches; run by name.

`python -m tests.bench.canvas` prints each figure beside the one that a prototype of the same canvas reached on two
cores without a graphics card (blocks of about 20 patches, every block in other fabrics, 1600 x 1000, off-screen).
Times are those of the processor in this program, so that other programs do not count: median / 95th percentile.
"""

import os
import platform
import resource
import statistics
from collections.abc import Callable
from functools import partial
from pathlib import Path
from time import process_time

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEvent, QPoint, QPointF
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import Cell, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.quilt import Placement
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.wall.camera import STEPS
from piecewright_qt.wall.view import WallView
from tests.desktop.wall import quilts
from tests.desktop.wall.hands import at, move, press, wheel

SIZES = ((25, 22), (50, 45))
PATCHES = 18
RUNS = 60
Times = list[float]


def hung(columns: int, rows: int) -> WallView:
    """A wall of blocks that are all unlike, with one cell free, 1600 x 1000, painted sharp."""
    look = Look(LoadedPreferences(Preferences(theme="light"), (), ()))
    document = Document(quilts.unlike(columns, rows))
    document.perform(call("remove-blocks", cells=(Cell(columns // 2, rows // 2),)))
    wall = WallView(document, look)
    wall.resize(1600, 1000)
    wall.show()
    QApplication.processEvents()
    wall.settle()
    paint()
    return wall


def paint() -> None:
    """Let everything that was asked for be painted."""
    for _ in range(3):
        QApplication.processEvents()


def timed(run: Callable[[], object]) -> float:
    """Milliseconds that something takes with the frame that shows it."""
    start = process_time()
    run()
    QApplication.sendPostedEvents()
    QApplication.processEvents()
    return (process_time() - start) * 1000


def drags(wall: WallView, free: tuple[int, int]) -> tuple[Times, Times]:
    """Frames while a block is dragged: within a cell, and over to the next one with its preview."""
    start = at(wall, free[0] + 1.5, free[1] + 0.5)
    press(wall, start)
    for step in range(1, 5):
        move(wall, start + QPoint(step * 4, 0))
    paint()
    within = [timed(partial(move, wall, start + QPoint(16 + n % 2, n % 3))) for n in range(RUNS)]
    home, away = at(wall, free[0] + 1.5, free[1] + 0.5), at(wall, free[0] + 0.5, free[1] + 0.5)
    across = [timed(partial(move, wall, away if n % 2 else home)) for n in range(RUNS)]
    wall.escape()
    paint()
    return within, across


def drops(wall: WallView, free: tuple[int, int]) -> tuple[Times, float]:
    """Frames of a block laid, turned and taken away, and the pixels painted anew for one."""
    cell = Cell(*free)
    fabrics = Placement(0, quilts.MIDDLE).fabrics
    times: Times = []
    painted = wall.tiles.pixels_painted
    for number in range(RUNS):
        turn = 90 * (number % 4)
        lay = call("place-block", block=quilts.MIDDLE, cell=cell, turn=turn, fabrics=fabrics)
        turned, taken = call("turn-blocks", cells=(cell,), by=90), call("remove-blocks", cells=(cell,))
        times += [timed(partial(wall.document.perform, edit)) for edit in (lay, turned, taken)]
    wall.settle()
    return times, (wall.tiles.pixels_painted - painted) / (3 * RUNS)


def pans(wall: WallView) -> Times:
    """Frames while the quilt is moved, unpainted parts shown small."""
    times = [timed(partial(wall.pan, QPointF(7 if n % 40 < 20 else -7, 3))) for n in range(RUNS)]
    wall.settle()
    paint()
    return times


def zooms(wall: WallView) -> tuple[Times, Times]:
    """Frames of single wheel steps, and the time after a burst of five until all is sharp again."""
    steps: Times = []
    sharp: Times = []
    middle = wall.viewport().rect().center()
    for burst in range(8):
        notch = 1.06 if burst % 2 == 0 else -0.98  # never back to a level seen before
        steps += [timed(partial(wheel, wall, middle, notch)) for _ in range(5)]
        start = process_time()
        while not wall.tiles.is_sharp:
            QApplication.processEvents()
        sharp.append((process_time() - start) * 1000)
        wall.settle()
        paint()
    return steps, sharp


def shown(name: str, times: Times, reached: str) -> None:
    """One line: median and 95th percentile beside what the prototype reached."""
    ordered = sorted(times)
    p95 = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
    print(f"  {name:<44}{statistics.median(times):8.2f} /{p95:8.2f} ms    {reached}")


def bench(columns: int, rows: int) -> None:
    """All figures of one quilt."""
    start = process_time()
    wall = hung(columns, rows)
    free = (columns // 2, rows // 2)
    print(f"\n{columns * rows * PATCHES} patches in {columns * rows} blocks, all unlike")
    print(f"  first picture, all tiles and the overview {(process_time() - start) * 1000:16.0f} ms")
    for name, closer in (("fit", 0), ("4x", 2 * STEPS)):
        wall.fit()
        wall.zoom_to(wall.camera.level + closer, QPointF(at(wall, free[0] + 0.5, free[1] + 0.5)))
        wall.settle()
        paint()
        within, across = drags(wall, free)
        laid, pixels = drops(wall, free)
        shown(f"{name}: drag, within a cell", within, "0.2 / 0.4")
        shown(f"{name}: drag, to another cell with preview", across, "goal p95 8 at 10 000, 16 at 40 000")
        shown(f"{name}: drop, turn, take away", laid, "0.9 / 1.3" if name == "fit" else "2.0 / 2.9")
        print(f"  {name + ': pixels painted for a drop':<44}{pixels:8.0f}")
        shown(f"{name}: pan", pans(wall), "")
        steps, sharp = zooms(wall)
        shown(f"{name}: wheel step, old picture at new size", steps, "0.6 and up to 4 of painting")
        shown(f"{name}: sharp again after the last step", sharp, "112")
    print(
        f"  tiles {wall.tiles.bytes / 1e6:.0f} MB, pictures {wall.sprites.bytes / 1e6:.0f} MB, "
        f"resident {resident()}    117"
    )
    wall.close()
    wall.deleteLater()
    QApplication.sendPostedEvents(wall, QEvent.Type.DeferredDelete)


def resident() -> str:
    """Megabytes in memory now, or where the system does not say so the most there were."""
    statm = Path("/proc/self/statm")
    if statm.exists():
        return f"{int(statm.read_text().split()[1]) * resource.getpagesize() / 2**20:.0f} MB"
    return f"at most {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB"


def main() -> None:
    """Run it all."""
    QApplication([])
    print(f"{platform.platform()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    for columns, rows in SIZES:
        bench(columns, rows)


if __name__ == "__main__":
    main()

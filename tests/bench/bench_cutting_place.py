"""Times the Cutting table of the window: an edit until list and drawing stand, and what painting and zooming take.

Run as `python -m tests.bench.bench_cutting_place`. Prints figures and the machine, asserts nothing.
"""

import os
import platform
from collections.abc import Callable
from fractions import Fraction
from functools import partial
from statistics import median
from time import thread_time

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from piecewright.edit.registry import EditCall, call
from piecewright.files.design_file import load_design
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.app import make_application
from piecewright_qt.cutting_table.table import CuttingTable
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.samples import sample_files

_TIMES = 9


def spent(work: Callable[[], object]) -> float:
    """Milliseconds of this thread."""
    began = thread_time()
    work()
    return (thread_time() - began) * 1000


def wider(design: Design, step: int) -> EditCall:
    """One fabric of another width: its plan alone is another."""
    fabric = design.fabrics[step % len(design.fabrics)]
    return call("change-fabric", fabric=fabric.changed(width=Fraction(36) + Fraction(step, 8)))


def measure(name: str, design: Design) -> None:
    """One line of figures."""
    look, document = Look(LoadedPreferences(Preferences())), Document(design)
    table = CuttingTable(document, look)
    table.resize(900, 850)
    opening = spent(table.show)
    edits = [spent(partial(document.perform, wider(design, step))) for step in range(_TIMES)]

    def paint() -> None:
        table.canvas.lay_out()
        table.canvas.grab()

    paints = [spent(paint) for _ in range(_TIMES)]
    zooms = [spent(table.canvas.zoom_in) for _ in range(_TIMES)]
    figures = (opening, median(edits), max(edits), median(paints), median(zooms))
    print(f"{name:<24}{len(table.canvas.spots):>8}" + "".join(f"{figure:>10.1f}" for figure in figures))
    table.close()


def main() -> None:
    """Every sample."""
    application = make_application()
    print(platform.platform(), platform.python_version())
    print(f"{'':<24}{'pieces':>8}{'open':>10}{'edit':>10}{'worst':>10}{'paint':>10}{'zoom':>10}  ms")
    for path in sample_files():
        measure(path.stem, load_design(path).design)
    application.processEvents()


if __name__ == "__main__":
    main()

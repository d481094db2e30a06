"""Times what the Materials panel and the sliders of a resize add to a frame.

Run as `python -m tests.bench.bench_panel`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import gc
import os
import platform
from collections.abc import Callable, Iterator
from fractions import Fraction
from random import Random
from statistics import median
from time import thread_time

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import Cell, EditCall, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Placement, Quilt, Row
from piecewright.model.settings import Settings
from piecewright.model.value import Letters
from piecewright.plan.materials import materials
from piecewright_qt.app import make_application
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.column import MaterialsColumn
from piecewright_qt.replan import Replan
from piecewright_qt.wall.view import WallView
from tests.desktop.wall.quilts import MIDDLE, TURNS, design, fabrics

FABRICS, PAIRS = 60, 150
SIDE = 24
STEPS = 200


def quilt_of(side: int) -> Design:
    """A square quilt of blocks of 18 patches in 150 pairs of 60 fabrics: 150 strip sets."""
    random, cloth = Random(5), fabrics(FABRICS)
    pairs = [random.sample(cloth, 2) for _ in range(PAIRS)]
    letters = [Letters({"A": (one.id,), "B": (other.id,)}) for one, other in pairs]
    rows = tuple(
        Row(
            row,
            tuple(
                Placement(
                    column, MIDDLE, random.choice(TURNS), fabrics=letters[(row * side + column) % PAIRS]
                )
                for column in range(side)
            ),
        )
        for row in range(side)
    )
    quilt = Quilt("Bench", Lattice(Fraction(12), side, side), rows, (Border("f1", Fraction(3)),))
    return design(quilt, cloth).changed(settings=Settings(usable=Fraction(42)))


class Bench:
    """A document with the panel, and with the wall beside it."""

    def __init__(self, shown: Design) -> None:
        self.look = Look(LoadedPreferences(Preferences(theme="light")))
        self.look.dress()
        self.document = Document(shown)
        self.replan = Replan(self.document)
        self.column = MaterialsColumn(self.document, self.replan, self.look)
        self.column.resize(320, 900)
        self.wall = WallView(self.document, self.look)
        self.wall.resize(1000, 900)
        for widget in (self.column, self.wall):
            widget.show()
        self.settle()

    def settle(self) -> None:
        """Let everything be painted."""
        for _ in range(30):
            QApplication.processEvents()

    def panel_frame(self, shown: Design) -> tuple[float, float]:
        """Milliseconds of the panel alone: rows and places, and painting."""
        plan = materials(shown)
        self.replan.shown, self.replan.before = plan, self.replan.standing
        begin = thread_time()
        self.column.panel.refresh()
        middle = thread_time()
        self.column.panel.list.viewport().repaint()
        self.column.panel.head.repaint()
        return 1000 * (middle - begin), 1000 * (thread_time() - middle)


def previews(shown: Design) -> Iterator[EditCall]:
    """Drags of a block over the quilt: each leaves its own cell and lands on another."""
    random, side = Random(6), shown.quilt.lattice.columns
    letters = [placement.fabrics for row in shown.quilt.rows for placement in row.placements]
    for _ in range(STEPS):
        cell = Cell(column=random.randrange(side), row=random.randrange(side))
        yield call("set-block-fabrics", cells=(cell,), fabrics=random.choice(letters))


def told(name: str, values: list[float]) -> None:
    """Print the median and the 95th percentile."""
    ordered = sorted(values)
    p95 = ordered[int(0.95 * (len(ordered) - 1))]
    print(f"{name:56} median {median(values):6.2f} ms   p95 {p95:6.2f} ms   most {ordered[-1]:6.2f} ms")


def bench_panel(bench: Bench) -> None:
    """The panel's part of a preview's frame."""
    from piecewright.edit.registry import apply

    words, paint = [], []
    for wanted in previews(bench.document.design):
        after = apply(bench.document.design, wanted)
        one, other = bench.panel_frame(after)
        words.append(one)
        paint.append(other)
    told("panel: rows, marks and places of a preview", words)
    told("panel: painting the rows in view", paint)


def bench_slider(bench: Bench, name: str, move: Callable[[int], None], values: list[int]) -> None:
    """One step of a slider: edit, plan, panel, wall, all painted."""
    times = []
    for value in values:
        begin = thread_time()
        move(value)
        bench.column.repaint()
        bench.wall.viewport().repaint()
        times.append(1000 * (thread_time() - begin))
        QApplication.processEvents()
    told(f"resize: a step of {name}", times)


def main() -> None:
    """Print every figure."""
    make_application()
    shown = quilt_of(SIDE)
    plan = materials(shown)
    print(f"{platform.machine()}, {os.cpu_count()} cores, Python {platform.python_version()}")
    print(
        f"{SIDE * SIDE * 18} patches, {len(shown.fabrics)} fabrics, {plan.set_count} sets in {len(plan.sets)} kinds"
    )
    bench = Bench(shown)
    print(f"{len(bench.column.panel.list.rows.rows)} rows, {bench.column.panel.list.set_rows} set in type")
    gc.collect()
    gc.freeze()
    bench_panel(bench)
    begin = thread_time()
    bench.column.show_resize()
    unfolded = thread_time() - begin
    bench.settle()
    print(f"resize unfolded in {1000 * unfolded:.1f} ms")
    sliders = bench.column.resizer
    there_and_back = [*range(SIDE, SIDE - 12, -1), *range(SIDE - 12, SIDE + 8)]
    bench_slider(bench, "columns", lambda n: sliders.columns.bring(n), there_and_back)
    bench_slider(bench, "rows", lambda n: sliders.rows.bring(n), there_and_back)
    bench_slider(
        bench, "cells", lambda n: sliders.unit.slider.setValue(n), [*range(len(sliders.unit.stops))] * 6
    )
    bench_slider(
        bench, "border", lambda n: sliders.border.slider.setValue(n), list(range(len(sliders.border.stops)))
    )


if __name__ == "__main__":
    main()

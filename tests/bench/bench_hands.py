"""Times one edit at the Sewing table until its picture is painted, and counts the steps that ran again for it.

Run as `python -m tests.bench.bench_hands`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import os
import platform
from collections.abc import Callable
from statistics import median
from time import process_time
from typing import Any

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import apply, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.making import run as running
from piecewright.making.recipe import Recipe
from piecewright.model.design import Design
from piecewright.model.value import Letters
from piecewright_qt.app import make_application
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.carrying import Carry
from piecewright_qt.sewing_table.table import SewingTable

_TIMES = 15


def sixty_patches() -> Recipe:
    """Four strips sewn, cut in three, sewn, cut in five, every other column turned: 60 patches."""
    lay = [
        {"make": name, "lay": {"fabric": name.upper(), "width": "2 1/2", "length": "40 1/2"}}
        for name in "abcd"
    ]
    steps: list[dict[str, Any]] = [
        *lay,
        {"make": "set", "sew": list("abcd"), "axis": "down"},
        {"make": "third", "cut": "set", "axis": "across", "every": "13 1/2", "count": 3},
        {"make": "slab", "sew": ["third.*"], "axis": "down"},
        {"make": "col", "cut": "slab", "axis": "across", "every": "2 1/2", "count": 5},
        {"make": "way", "turn": "col.*", "which": "even", "by": 180},
        {"make": "block", "sew": ["way.*"], "axis": "across"},
    ]
    return Recipe.from_plain({"recipe": 1, "name": "Sixty patches", "steps": steps, "block": ["block"]})


def with_block() -> Design:
    """A design with one block of it."""
    design = Design("Bench")
    for number, color in enumerate(("#1d2733", "#f4f1e8", "#7d8c5c", "#b4634a")):
        design = apply(design, call("add-fabric", name=f"Cloth {number}", color=color, print=None))
    ids = [fabric.id for fabric in design.fabrics]
    fabrics = Letters({letter: (ids[at],) for at, letter in enumerate("ABCD")})
    return apply(design, call("add-block", name="Sixty", new_recipe=sixty_patches(), fabrics=fabrics))


def timed(table: SewingTable, act: Callable[[int], None]) -> tuple[float, float]:
    """Milliseconds of work from an edit to its picture, the usual and the longest; others' work does not count."""
    times = []
    for number in range(_TIMES):
        begun = process_time()
        act(number)
        table.repaint()
        QApplication.processEvents()
        times.append((process_time() - begun) * 1000)
    return median(times), max(times)


def main() -> None:
    """Time an edit at each step that has a number, a ghost under way, and count what ran again."""
    make_application()
    document = Document(with_block())
    table = SewingTable(document, Look(LoadedPreferences(Preferences())))
    table.resize(1480, 860)
    table.show()
    table.open_block(document.design.blocks[0].id)
    bench = table.bench
    print(f"{platform.platform()}, Python {platform.python_version()}")
    made = bench.facts
    print(f"{0 if made is None else len(made.kinds[0].patches)} patches, {len(table.bench.fabrics)} fabrics")
    for step, key, lengths in ((5, "every", ("13 1/2", "13 3/8")), (7, "every", ("2 1/2", "2 3/8"))):
        bench.show_step(step)
        QApplication.processEvents()

        def edit(number: int, step: int = step, key: str = key, lengths: tuple[str, str] = lengths) -> None:
            assert bench.draft is not None
            plain = bench.draft.plain
            plain["steps"][step][key] = (
                lengths[(number + 1) % 2] if number else "13 1/4" if step == 5 else "2 1/4"
            )
            bench.change(plain, "bench")

        before = running._done.cache_info().misses
        edit(0)
        again = running._done.cache_info().misses - before
        usual, longest = timed(table, edit)
        steps = len(bench.draft.steps) if bench.draft is not None else 0
        print(
            f"edit at step {step + 1} of {steps}: {again} steps ran again; "
            f"edit to picture {usual:.1f} ms, longest {longest:.1f} ms (aim 16)"
        )
    bench.show_step(5)
    QApplication.processEvents()
    top = table.work.top
    carry = Carry(top.ground, top.pieces[0], top.pieces[0].rect.center())
    top.hold = carry

    def follow(number: int) -> None:
        carry.move(
            top.pieces[1 + number % 2].rect.center() + QPointF(number % 7, 30), Qt.KeyboardModifier.NoModifier
        )

    usual, longest = timed(table, follow)
    print(f"a ghost that follows the pointer: {usual:.1f} ms, longest {longest:.1f} ms")
    document.undo_stack.clear()


if __name__ == "__main__":
    main()

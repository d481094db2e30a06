"""Times sewing: tops put together by straight seams, and pressing balanced in blocks and across the joins of quilts.

Run as `python -m tests.bench.bench_sewing`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import platform
from collections.abc import Callable
from fractions import Fraction
from random import Random
from time import perf_counter

from piecewright.geometry.shapes import Rect
from piecewright.making.given import Given
from piecewright.making.pressing_plan import pressing_plan
from piecewright.making.run import run
from piecewright.making.shipped import shipped_recipes
from piecewright.plan.layout import layout
from piecewright.plan.pressing import quilt_pressing
from piecewright.plan.sewing_order import sewing_order
from piecewright.plan.stage import forget
from piecewright.sewing.assembly import assemble, seam_count
from tests.core.plan.samples import rails
from tests.core.sewing.tilings import rects, tiling

TURNS = 5


def best(act: Callable[[], object]) -> float:
    """The shortest of a few turns, milliseconds."""
    times = []
    for _ in range(TURNS):
        start = perf_counter()
        act()
        times.append(perf_counter() - start)
    return 1000 * min(times)


def grid(columns: int, rows: int) -> list[Rect]:
    """Squares of 6 in."""
    cells = [(x, y, x + 1, y + 1) for y in range(rows) for x in range(columns)]
    return rects(cells, Fraction(6))


def tops() -> None:
    """Rectangles put together."""
    for name, boxes in (
        ("grid 25 x 40", grid(25, 40)),
        ("cut at random", rects(tiling(Random(1), 1000))),
        ("with pinwheels", rects(tiling(Random(1), 1000, 0.2))),
        ("grid 100 x 100", grid(100, 100)),
    ):
        count = seam_count(assemble(boxes))
        print(
            f"{name}: {len(boxes)} rectangles, {count.seams} seams, {count.partial} partial, "
            f"{best(lambda boxes=boxes: assemble(boxes)):.1f} ms"  # type: ignore[misc]
        )


def blocks() -> None:
    """Pressing plans of the shipped recipes."""
    for name, recipe in shipped_recipes().items():
        making = run(recipe, Given())
        plan = pressing_plan(making)
        took = best(lambda making=making: pressing_plan(making))  # type: ignore[misc]
        print(
            f"{name}: {plan.crossings} crossings, {len(plan.clashes)} clashes (at least {plan.bound}), {took:.1f} ms"
        )


def quilts() -> None:
    """Order and pressing of quilts of rails, from the layout on."""
    for count in (400, 1000, 2000):
        design = rails(count)
        forget()
        layout(design)
        start = perf_counter()
        sewing_order(design)
        ordered = perf_counter()
        pressing = quilt_pressing(design)
        print(
            f"{count} rails: order {1000 * (ordered - start):.0f} ms, pressing "
            f"{1000 * (perf_counter() - ordered):.0f} ms, {pressing.crossings} crossings on joins, "
            f"{len(pressing.clashes)} clashes (at least {pressing.bound})"
        )


if __name__ == "__main__":
    print(platform.platform(), platform.processor(), platform.python_version())
    tops()
    blocks()
    quilts()

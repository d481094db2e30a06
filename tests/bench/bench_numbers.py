"""Times the numbers of the Sewing table: each section of the panel for a block of 64 patches.

Run as `python -m tests.bench.bench_numbers`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import platform
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from itertools import count
from time import perf_counter

from piecewright.making.bias_care import bias_care
from piecewright.making.given import Given
from piecewright.making.matters import folds, matters
from piecewright.making.my_seam import my_seam
from piecewright.making.pressing_plan import pressing_plan
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, run
from piecewright.making.stretch import stretch_of
from piecewright.plan.sizes_table import sizes_table

SIDE = 8
TURNS = 3
FRESH = count()  # widths not made before, so that nothing is remembered


def checkers(width: Fraction) -> Recipe:
    """Eight strips sewn, cut in eight, every second turned: 64 patches."""
    steps: list[dict[str, object]] = [
        {"lay": {"fabric": "AB"[number % 2], "width": str(width), "length": "20"}, "make": f"s{number}"}
        for number in range(SIDE)
    ]
    steps.append({"sew": [f"s{number}" for number in range(SIDE)], "axis": "down", "make": "set"})
    steps.append({"cut": "set", "axis": "across", "every": str(width), "count": SIDE, "make": "row"})
    turned = range(2, SIDE + 1, 2)
    steps += [{"turn": f"row.{number}", "by": 180, "make": f"t{number}"} for number in turned]
    rows = [f"t{number}" if number in turned else f"row.{number}" for number in range(1, SIDE + 1)]
    steps.append({"sew": rows, "axis": "across", "make": "block"})
    return Recipe.from_plain({"recipe": 1, "name": "Checkers", "steps": steps, "block": ["block"]})


def timed(work: Callable[[Recipe], object]) -> float:
    """The shortest of a few turns, milliseconds, each for a recipe not seen before."""
    times = []
    for _ in range(TURNS):
        recipe = checkers(Fraction(3, 2) + Fraction(next(FRESH), 128))
        start = perf_counter()
        work(recipe)
        times.append(perf_counter() - start)
    return 1000 * min(times)


def main() -> None:
    """Every section of the panel."""
    print(f"Python {platform.python_version()}, {platform.machine()}")
    given = Given()
    sections: dict[str, Callable[[Recipe], object]] = {
        "facts": lambda recipe: facts(recipe, given),
        "sizes": lambda recipe: sizes_table(recipe, given),
        "matters": lambda recipe: (matters(recipe, given), folds(recipe, given)),
        "my seam": lambda recipe: my_seam(recipe, replace(given, lost=Fraction(1, 16))),
        "pressing": lambda recipe: pressing_plan(run(recipe, given)),
        "bias": lambda recipe: bias_care(facts(recipe, given)),
        "stretch": lambda recipe: stretch_of(run(recipe, given)),
    }
    for name, work in sections.items():
        print(f"{name:<10} {timed(work):8.1f} ms")


if __name__ == "__main__":
    main()

"""Times what a recipe can do to the program at worst: traps that are refused, and the most that is let through.

Run as `python -m tests.bench.bench_limits [SPOILED]`. Prints figures and the machine, asserts nothing: times are no
tests. SPOILED recipes with parts replaced are opened too, and the slowest is told.
"""

import json
import platform
import sys
from collections.abc import Iterator
from itertools import islice
from random import Random
from time import perf_counter
from typing import Any

from piecewright.errors import PiecewrightError
from piecewright.making.given import Given
from piecewright.making.limits import MOST_WORK
from piecewright.making.recipe import read_recipe
from piecewright.making.run import attempt, facts, forget_makings
from piecewright.making.shipped import shipped_recipes
from tests.core.making.hostile import HOSTILE, grid, layered, leaning, turned_on_and_on, used_on_and_on
from tests.core.making.recipe_spoiling import WORDS, places

Plain = dict[str, Any]
LET_THROUGH: dict[str, Plain] = {
    "as many patches as may be": grid(100, 99),
    "as many layers as may be": layered(10, 10, 99),
    "as many slanted turns as may be": turned_on_and_on(90),
    "as many slanted cuts as may be": leaning(30, 2, 90, "1/8"),
    "as fine a square as may be": leaning(4, 2, 3, "1/100"),
    "as many recipes used as may be": used_on_and_on(250),
}
_LENGTHS = ("1/3", "0", "-1", "9999", "1/8", "F*F*F", "seam/1000", "usable", "1/7919", "20 cm")
_COUNTS = (0, 1, 7, 99, 1999, 2000, 10**9, "fit", "odd", 0.1, 359.999)


def opened(plain: Plain) -> tuple[float, int, str]:
    """Seconds to read and make a recipe from nothing, the work counted, and what was said of it."""
    forget_makings()
    data = json.dumps(plain).encode()
    start = perf_counter()
    work, said = 0, "made"
    try:
        recipe = read_recipe(data)
        work = attempt(recipe, Given()).table.work
        facts(recipe, Given())
    except PiecewrightError as fault:
        said = fault.sentence()
    return perf_counter() - start, work, said


def spoiled(seed: int) -> Iterator[Plain]:
    """Shipped recipes with one to six of their parts replaced by what does most harm."""
    random = Random(seed)
    sources = [*shipped_recipes().values()]
    while True:
        plain: Any = random.choice(sources).plain
        for _ in range(random.randint(1, 6)):
            path = random.choice(places(plain))
            part = plain
            for key in path[:-1]:
                part = part[key]
            part[path[-1]] = random.choice(_likely(path[-1], part[path[-1]]))
        yield plain


def _likely(key: str | int, old: object) -> tuple[object, ...]:
    """What gets past the reader in the place of a value, more often than not."""
    if isinstance(old, dict | list):
        return (old,)
    if key in ("make", "name", "note", "about", "axis", "fabric") or not isinstance(old, str):
        return (old, old, *_COUNTS) if isinstance(old, int) else (old,)
    return (*_LENGTHS, *_LENGTHS, old, old, *WORDS) if any(sign in old for sign in "0123456789Fw") else (old,)


def main() -> None:
    """Print the figures."""
    print(f"{platform.machine()}, Python {platform.python_version()}; work allowed {MOST_WORK}")
    for title, recipes in (("refused", HOSTILE), ("let through", LET_THROUGH)):
        for name, plain in recipes.items():
            seconds, work, said = opened(plain)
            print(f"{title:12} {name:32} {seconds:6.2f} s  work {work:6}  {said[:80]}")
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 500
    times = sorted((opened(plain) for plain in islice(spoiled(1), count)), reverse=True)
    made = sum(said == "made" for _, _, said in times)
    past = sum(work > 0 for _, work, _ in times)
    print(
        f"{count} spoiled recipes: {made} made, {past} past the reader; slowest {times[0][0]:.2f} s: {times[0][2][:80]}"
    )


if __name__ == "__main__":
    main()

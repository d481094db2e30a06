"""Times the making of a block of sixty patches, from nothing and after a change at its last step.

Run as `python -m tests.bench.bench_making`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import platform
from statistics import median
from time import perf_counter

from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts, forget_makings

ROUNDS = 50


def sixty_patches(turned: str = "even") -> Recipe:
    """Ten strips sewn, cut in six, every other column turned end for end: sixty patches."""
    names = [f"s{number}" for number in range(10)]
    lays = [
        {"make": name, "lay": {"fabric": "AB"[number % 2], "width": "2 1/2", "length": "27"}}
        for number, name in enumerate(names)
    ]
    steps = [
        *lays,
        {"make": "set", "sew": names, "axis": "down"},
        {"make": "column", "cut": "set", "axis": "across", "every": "4 1/2", "count": 6},
        {"make": "turned", "turn": "column.*", "which": turned, "by": 180},
        {"make": "block", "sew": ["turned.*"], "axis": "across"},
    ]
    return Recipe.from_plain({"recipe": 1, "name": "Sixty", "steps": steps, "block": ["block"]})


def timed(recipe: Recipe) -> float:
    """Milliseconds for the facts of a recipe."""
    start = perf_counter()
    facts(recipe, Given())
    return (perf_counter() - start) * 1000


def main() -> None:
    """Print the figures."""
    whole, changed = [], []
    for _ in range(ROUNDS):
        forget_makings()
        whole.append(timed(sixty_patches("even")))
        changed.append(timed(sixty_patches("odd")))
    count = len(facts(sixty_patches(), Given()).kinds[0].patches)
    print(f"{platform.machine()}, Python {platform.python_version()}")
    print(f"a block of {count} patches from nothing: median {median(whole):.2f} ms")
    print(f"the same after a change at its last turn: median {median(changed):.2f} ms")


if __name__ == "__main__":
    main()

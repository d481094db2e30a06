"""Counts what the recipes that ship can do: sizes solved, clashes proven, steps that an edit runs again; times an edit.

Run as `python -m tests.bench.bench_recipes`. Prints figures and the machine, asserts nothing: times are not tests.
"""

from collections import Counter
from collections.abc import Mapping
from fractions import Fraction
from time import perf_counter

from piecewright.errors import PiecewrightError
from piecewright.making import run as running
from piecewright.making.given import Given
from piecewright.making.matters import folds, matters
from piecewright.making.nudging import Spot, places, with_lengths
from piecewright.making.pressing_plan import plan_of
from piecewright.making.recipe import Recipe
from piecewright.making.run import attempt, forget_makings, run
from piecewright.making.shipped import shipped_recipes
from piecewright.making.solve import Finish, solve
from piecewright.making.verbs.verb import Place
from piecewright.plan.sizes_table import sizes_table
from tests.bench.bench_hands import main as time_hands
from tests.bench.bench_hands import sixty_patches

GIVEN = Given()
SIZES = tuple(Fraction(twelfths, 12) for twelfths in (73, 84, 100, 111, 144, 163))


def solved(recipes: Mapping[str, Recipe]) -> None:
    """Every recipe asked for six widths and six heights."""
    begun, found, refused = perf_counter(), 0, []
    for name, recipe in recipes.items():
        for size in SIZES:
            for goal in (Finish(width=size), Finish(height=size)):
                try:
                    solve(recipe, GIVEN, goal)
                except PiecewrightError as fault:
                    refused.append(f"{name}: {fault.sentence()}")
                else:
                    found += 1
    took = perf_counter() - begun
    print(f"sizes solved {found}, refused {len(refused)}, {1000 * took / (found + len(refused)):.1f} ms each")
    print(*refused, sep="\n", end="\n" if refused else "")


def pressed(recipes: Mapping[str, Recipe]) -> None:
    """Crossings, clashes, and how many plans are proven to have the fewest."""
    plans = [plan_of(recipe, GIVEN) for recipe in recipes.values()]
    crossings, clashes = sum(plan.crossings for plan in plans), sum(len(plan.clashes) for plan in plans)
    proven = sum(plan.proven for plan in plans)
    print(
        f"crossings {crossings}, clashes {clashes}, plans proven to have the fewest {proven} of {len(plans)}"
    )


def told(recipes: Mapping[str, Recipe]) -> None:
    """Marks of all numbers, cuts that need no ruler, rows of sizes tables."""
    begun = perf_counter()
    marks = Counter(matter.mark for recipe in recipes.values() for matter in matters(recipe, GIVEN))
    without_ruler = sum(len(folds(recipe, GIVEN)) for recipe in recipes.values())
    print(f"marks {dict(marks)}, cuts on folds {without_ruler}, {perf_counter() - begun:.1f} s")
    begun = perf_counter()
    rows = sum(len(sizes_table(recipe, GIVEN).rows) for recipe in recipes.values())
    print(f"rows of sizes tables {rows}, {perf_counter() - begun:.1f} s")


def rerun(recipe: Recipe) -> None:
    """How many steps run again when a number of one step is another, step by step."""
    for length in places(recipe, GIVEN):
        if not isinstance(length.place, Place):
            continue
        forget_makings()
        run(recipe, GIVEN)
        before = running._done.cache_info().misses
        shorter: dict[Spot, Fraction] = {length.place: length.value - Fraction(1, 8)}
        done = len(attempt(with_lengths(recipe, shorter), GIVEN).outcomes)
        again = running._done.cache_info().misses - before
        print(f"edit at step {length.place.step + 1} of {len(recipe.steps)}: {again} run again, {done} stand")


def main() -> None:
    """All figures, then one edit to its picture."""
    recipes = shipped_recipes()
    print(f"recipes {len(recipes)}")
    solved(recipes)
    pressed(recipes)
    told(recipes)
    rerun(sixty_patches())
    time_hands()


if __name__ == "__main__":
    main()

"""Lengths that a ruler has no mark for, and finished sizes near that need none such."""

from collections.abc import Iterator
from fractions import Fraction

from piecewright.making.given import Given
from piecewright.making.goals import Finish, meets
from piecewright.making.nudging import Length, Named, places
from piecewright.making.recipe import Recipe
from piecewright.making.tracing import Trace
from piecewright.making.trying import exact_values, tried, with_values
from piecewright.units.rounding import down_to
from piecewright.units.sizes import Finished

_STEPS = 16
"""How many steps away from the size asked for another one is still near."""


def off_the_ruler(recipe: Recipe, given: Given, step: Fraction) -> list[Length]:
    """The lengths of steps that are no multiple of the step."""
    lengths = places(recipe, given)
    return [length for length in lengths if not isinstance(length.place, Named) and length.value % step]


def sizes_on_the_ruler(
    recipe: Recipe, given: Given, goal: Finish, traced: Trace, step: Fraction
) -> tuple[Finished, ...]:
    """The nearest finished sizes below and above what is asked whose lengths are all multiples of the step."""
    found = (next(_on_the_ruler(recipe, given, goal, traced, step, way), None) for way in (-1, 1))
    return tuple(size for size in found if size is not None)


def _on_the_ruler(
    recipe: Recipe, given: Given, goal: Finish, traced: Trace, step: Fraction, way: int
) -> Iterator[Finished]:
    down = down_to(step)
    for count in range(_STEPS):
        more = (count + 1 if way > 0 else -count) * step
        sizes = (None if size is None else down(size) + more for size in (goal.width, goal.height))
        other = Finish(*sizes)
        for values in exact_values(other, traced, given.usable):
            if off_the_ruler(*with_values(recipe, given, values), step):
                continue
            made = tried(recipe, given, values).facts
            if made is not None and meets(other, made):
                yield made.finished

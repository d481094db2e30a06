"""A making tried with other lengths: what comes of it, or why it can not be."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.errors import PiecewrightError
from piecewright.geometry.tolerance import alike
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.goals import Changes, Goal, changes_to, ways_to
from piecewright.making.names import evaluate_at, resolve_names
from piecewright.making.nudging import Spot, exact_text, is_size, with_lengths, without_claim
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts_of, run
from piecewright.making.tracing import Trace


@dataclass(frozen=True, slots=True)
class Tried:
    """A recipe with other lengths, the given it was tried with, and what came of it: facts, or a fault."""

    recipe: Recipe
    given: Given
    outcome: Facts | PiecewrightError

    @property
    def facts(self) -> Facts | None:
        """What the making gives; None where it fails."""
        return None if isinstance(self.outcome, PiecewrightError) else self.outcome

    @property
    def fault(self) -> PiecewrightError | None:
        """Why the making fails; None where it does not."""
        return self.outcome if isinstance(self.outcome, PiecewrightError) else None


def tried(recipe: Recipe, given: Given, values: Mapping[Spot, Fraction]) -> Tried:
    """The making with other lengths: sizes are overridden in the given, other lengths are written into the recipe.

    A finished size that the recipe claims and that no longer holds is written anew.
    """
    try:
        changed, new = with_values(recipe, given, values)
        found = facts_of(run(without_claim(changed), new))
        return Tried(with_true_claim(changed, new, found), new, found)
    except PiecewrightError as fault:
        return Tried(recipe, given, fault)


def with_values(recipe: Recipe, given: Given, values: Mapping[Spot, Fraction]) -> tuple[Recipe, Given]:
    """The same without trying: sizes in the given, other lengths in the recipe, its claim as it was."""
    sizes = {place.name: value for place, value in values.items() if is_size(place)}
    written = {place: value for place, value in values.items() if not is_size(place)}
    new = replace(given, sizes={**given.sizes, **sizes}) if sizes else given
    return with_lengths(recipe, written) if written else recipe, new


def with_true_claim(recipe: Recipe, given: Given, found: Facts) -> Recipe:
    """The recipe; the finished size that it claims is written anew where the facts are other."""
    if recipe.finished is None:
        return recipe
    names = resolve_names(recipe, given)
    sizes = (found.finished.width, found.finished.height)
    claims = [evaluate_at(claim, names, f"finished[{index}]") for index, claim in enumerate(recipe.finished)]
    if all(alike(claim, size) for claim, size in zip(claims, sizes, strict=True)):
        return recipe
    plain = recipe.plain
    del plain["finished"]
    if not any(isinstance(size, float) for size in sizes):
        plain["finished"] = [exact_text(Fraction(size)) for size in sizes]
    return Recipe.from_plain(plain)


def exact_values(goal: Goal, traced: Trace, usable: Fraction) -> Iterator[dict[Spot, Fraction]]:
    """The lengths that exact equations give for a goal, way by way; only those that change."""
    for equations in ways_to(goal, traced, usable):
        changes = changes_to(equations, traced)
        if changes is not None:
            yield changed_values(traced, changes)


def changed_values(traced: Trace, changes: Changes) -> dict[Spot, Fraction]:
    """The new lengths of the spots that change."""
    every = zip(traced.spots, traced.values, changes, strict=True)
    return {place: value + change for place, value, change in every if change}

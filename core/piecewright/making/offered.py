"""What a recipe offers before anything is made: the sizes it claims to finish at, and the words it is found by."""

from collections.abc import Iterator
from itertools import islice, product

from piecewright.errors import PiecewrightError
from piecewright.making.given import Given
from piecewright.making.names import evaluate_at, resolve_names
from piecewright.making.reading import verb_word
from piecewright.making.recipe import Recipe
from piecewright.making.verbs.use import Use
from piecewright.units.sizes import Finished

_MOST_SIZES = 200


def claimed_sizes(recipe: Recipe, given: Given) -> tuple[Finished, ...]:
    """The finished size of every combination of a recipe's choices, the first of all first, none twice.

    Empty where the recipe claims nothing; what can not be worked out is left out. `given` has seam and usable width.
    """
    return tuple(dict.fromkeys(_claims(recipe, given)))


def verb_words(recipe: Recipe) -> tuple[str, ...]:
    """The verbs of a recipe in order of first use, those of recipes it uses included."""
    return tuple(dict.fromkeys(_verbs(recipe)))


def _claims(recipe: Recipe, given: Given) -> Iterator[Finished]:
    if recipe.finished is None:
        return
    width, height = recipe.finished
    for choice in islice(product(*recipe.sizes.values()), _MOST_SIZES):
        chosen = Given(dict(zip(recipe.sizes, choice, strict=True)), given.seam, given.usable)
        try:
            names = resolve_names(recipe, chosen)
            size = (evaluate_at(side, names, "finished") for side in (width, height))
            yield Finished(*size)
        except PiecewrightError:
            continue


def _verbs(recipe: Recipe) -> Iterator[str]:
    for step in recipe.steps:
        yield verb_word(step)
        if isinstance(step, Use):
            yield from _verbs(step.use.recipe)

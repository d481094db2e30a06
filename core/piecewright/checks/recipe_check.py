"""Looks a recipe over: it is made at the sizes it offers, and what stops it or is to be minded is said."""

from collections.abc import Iterator
from itertools import islice

from piecewright.errors import Finding, PiecewrightError
from piecewright.making.given import Given
from piecewright.making.limits import MOST_WORK
from piecewright.making.recipe import Recipe
from piecewright.making.run import attempt, facts
from piecewright.words.message import Message, message

_MOST_TRIED = 64


def check_recipe(recipe: Recipe) -> tuple[Finding, ...]:
    """An error where it can not be made at its first sizes; warnings for its other choices, and for what to mind.

    Choices are tried one at a time, and no more of them than all together take the work allowed to one making, twice.
    """
    found: list[Finding] = []
    work = 0
    for given in islice(_choices(recipe), _MOST_TRIED):
        try:
            making = attempt(recipe, given)
            work += making.table.work
            if making.fault is not None:
                raise making.fault
            warnings = facts(recipe, given).warnings
        except PiecewrightError as fault:
            found.append(_finding(given, fault))
        else:
            found += [Finding(f"making.{one.code}", "warning", one.message, one.step) for one in warnings]
        if work > MOST_WORK or any(one.severity == "error" for one in found):
            break
    return tuple(dict.fromkeys(found))


def _choices(recipe: Recipe) -> Iterator[Given]:
    """The first sizes; then every other choice, one at a time."""
    yield Given()
    for name, sizes in recipe.sizes.items():
        for size in sizes[1:]:
            yield Given({name: size})


def _finding(given: Given, fault: PiecewrightError) -> Finding:
    """The fault at the first sizes, or at another choice, which is named."""
    if not given.sizes:
        return Finding(fault.message.code, "error", fault.message, fault.where, fault.hint)
    ((name, size),) = given.sizes.items()
    said: Message = message("checks.at-size", name=name, size=size, said=fault.message)
    return Finding(fault.message.code, "warning", said, fault.where, fault.hint)

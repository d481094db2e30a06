"""The names of a recipe and their exact values, in their one order: seam, usable, sizes, vary, let."""

from collections.abc import Iterable, Mapping
from fractions import Fraction
from types import MappingProxyType

import msgspec

from piecewright.errors import RecipeError
from piecewright.making.declaring import Declarations, Vary
from piecewright.making.expressions import RESERVED, Expression
from piecewright.making.faults import nearest, placed, refuse, shown
from piecewright.making.given import Given
from piecewright.making.lengths import read_length
from piecewright.words.message import Message, message

MOST_INCHES = 10_000

Names = Mapping[str, Fraction]


def resolve_names(recipe: Declarations, given: Given) -> Names:
    """Every name's exact value in inches.

    Raises RecipeError for a size or a draw that the recipe does not have or that can not be, and for a name
    that can not be worked out.
    """
    names = {"seam": given.seam if recipe.seam is None else recipe.seam, "usable": given.usable}
    for name, value in names.items():
        if not 0 < value <= MOST_INCHES:
            refuse("recipe.no-inches", where=name, name=name, value=value, most=Fraction(MOST_INCHES))
    names |= _chosen(recipe, given.sizes)
    _add_drawn(recipe, given.draws, names)
    for name, worked_out in recipe.let.items():
        names[name] = evaluate_at(worked_out, names, f"let.{name}")
    return MappingProxyType(names)


def evaluate_at(length: Expression, names: Names, place: str) -> Fraction:
    """The value of a length; a fault carries the place."""
    try:
        return length.evaluate(names)
    except RecipeError as fault:
        raise placed(fault, place) from None


def _chosen(recipe: Declarations, sizes: Names) -> dict[str, Fraction]:
    for name, value in sizes.items():
        _check_size(recipe, name)
        if not 0 <= value <= MOST_INCHES:
            refuse("recipe.no-size", where=name, value=value, most=Fraction(MOST_INCHES))
    return {name: sizes.get(name, choices[0]) for name, choices in recipe.sizes.items()}


def _check_size(recipe: Declarations, name: str) -> None:
    if name in recipe.sizes:
        return
    if name in RESERVED or name in recipe.let or name in recipe.vary:
        refuse("recipe.not-a-size", _sizes_hint(recipe), name=name)
    near = nearest(name, recipe.sizes)
    hint = message("recipe.did-you-mean", word=near) if near else _sizes_hint(recipe)
    refuse("recipe.unknown-size", hint, name=shown(name))


def _sizes_hint(recipe: Declarations) -> Message:
    names = tuple(recipe.sizes)
    return message("recipe.sizes-known", names=names) if names else message("recipe.sizes-none")


def _add_drawn(recipe: Declarations, draws: Names, names: dict[str, Fraction]) -> None:
    for name in draws:
        if name not in recipe.vary:
            refuse("recipe.unknown-draw", message("recipe.draw-anew"), name=shown(name))
    for name, varied in recipe.vary.items():
        choices = vary_range(varied, names, f"vary.{name}")
        value = draws.get(name, choices.start)
        if value not in choices:
            args = {"value": value, "start": choices.start, "end": choices.end, "step": choices.step}
            refuse("recipe.draw-outside", message("recipe.draw-anew"), f"vary.{name}", **args)
        names[name] = value


class VaryRange(msgspec.Struct, frozen=True):
    """The values a varied name may take: `start`, `start + step` ... up to `end`, inches."""

    start: Fraction
    end: Fraction
    step: Fraction

    @property
    def count(self) -> int:
        """How many values there are."""
        return (self.end - self.start) // self.step + 1

    def value(self, index: int) -> Fraction:
        """The value at an index from 0."""
        return self.start + index * self.step

    def __contains__(self, value: Fraction) -> bool:
        return self.start <= value <= self.end and (value - self.start) % self.step == 0


def vary_range(varied: Vary, names: Names, place: str) -> VaryRange:
    """What may be drawn once the earlier names are known. Raises RecipeError when nothing may."""
    start = evaluate_at(varied.start, names, f"{place}.from")
    end = evaluate_at(varied.end, names, f"{place}.to")
    step = evaluate_at(varied.step, names, f"{place}.step")
    if step <= 0:
        refuse("recipe.vary-step", message("recipe.vary-step-positive"), f"{place}.step", value=step)
    if end < start:
        refuse("recipe.vary-order", message("recipe.vary-swap"), place, start=start, end=end)
    return VaryRange(start, end, step)


def read_sizes(recipe: Declarations, settings: Iterable[str]) -> dict[str, Fraction]:
    """Sizes from texts such as "F=9" or "F=22.5 cm".

    Raises RecipeError for a text without =, for what is no size of the recipe or no length, and for a
    size given twice.
    """
    sizes: dict[str, Fraction] = {}
    for setting in settings:
        name, equals, text = (part.strip() for part in setting.partition("="))
        if not equals:
            refuse("recipe.set-without-equals", message("recipe.write-set"), text=shown(setting))
        _check_size(recipe, name)
        if name in sizes:
            refuse("recipe.set-twice", message("recipe.set-once"), name=name)
        try:
            sizes[name] = read_length(text)
        except RecipeError as fault:
            raise placed(fault, name) from None
    return sizes

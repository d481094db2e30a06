"""The lengths of a recipe one by one: where each is written, what it measures, and the recipe with another there."""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeGuard

from piecewright.errors import RecipeError
from piecewright.making.draft import with_length
from piecewright.making.expressions import Expression
from piecewright.making.faults import nearest, shown
from piecewright.making.given import Given
from piecewright.making.lengths import read_length
from piecewright.making.names import Names, evaluate_at, resolve_names
from piecewright.making.reading import lengths_in, verb_word
from piecewright.making.recipe import Recipe
from piecewright.making.steps import Step
from piecewright.making.verbs.face import Face, SewnLine
from piecewright.making.verbs.slice import Slice
from piecewright.making.verbs.verb import Place
from piecewright.units.measure import Measure
from piecewright.words.message import Arg, Message, message

_PLACE = re.compile(r"steps\[(\d+)\]\.(.+?)(?:\[(\d+)\])?")
_ROUNDING_STEPS = {("cut", "step"), ("square", "step")}
"""Keys that hold a length by which others are rounded: no measure of any cloth."""
_SPOKEN = {
    "lay.width": "solve.width-of-strip",
    "lay.length": "solve.length-of-strip",
    "every": "solve.every-segment",
    "widths": "solve.one-segment",
    "trim": "solve.trim",
    "width": "solve.squared-width",
    "height": "solve.squared-height",
    "from": "solve.slice-from",
    "to": "solve.slice-to",
    "step": "solve.sewn-step",
    "leave": "solve.left-open",
}
_LINE = re.compile(r"seams\[(\d+)\]\.(from|to|beside)")


@dataclass(frozen=True, slots=True)
class Named:
    """A length that a recipe gives a name in its table "sizes" or "let"."""

    table: Literal["sizes", "let"]
    name: str


Spot = Place | Named
"""Where a length stands: at a key of a step, or under a name."""


@dataclass(frozen=True, slots=True)
class Length:
    """A length of a recipe: where it stands, as written, in inches, and what it is in words ("the width of strip a").

    `names` are the names it is worked out from; where there are none it is a plain number.
    """

    place: Spot
    text: str
    value: Fraction
    names: frozenset[str]
    what: Message

    @property
    def literal(self) -> bool:
        """Whether it is written as a number."""
        return not self.names

    @property
    def sentence(self) -> Message:
        """What it is and how much."""
        return message("solve.length-is", what=self.what, value=self.value)


def is_size(place: Spot) -> TypeGuard[Named]:
    """Whether a place is a size of the recipe, which is chosen rather than written."""
    return isinstance(place, Named) and place.table == "sizes"


_PLAIN_GIVEN = Given()


def places(recipe: Recipe, given: Given = _PLAIN_GIVEN) -> tuple[Length, ...]:
    """Every length of a recipe: its sizes, its worked-out names, then step by step.

    Raises RecipeError where names can not be worked out.
    """
    names = resolve_names(recipe, given)
    return (*_named(recipe, names), *_in_steps(recipe, names))


def _named(recipe: Recipe, names: Names) -> Iterator[Length]:
    for name, choices in recipe.sizes.items():
        what = message("solve.named", name=name)
        yield Length(Named("sizes", name), exact_text(choices[0]), names[name], frozenset(), what)
    for name, written in recipe.let.items():
        what = message("solve.named", name=name)
        yield Length(Named("let", name), written.text, names[name], written.names, what)


def _in_steps(recipe: Recipe, names: Names) -> Iterator[Length]:
    for index, step in enumerate(recipe.steps):
        for place, written in lengths_of_step(step, index):
            value = evaluate_at(written, names, spot_text(place))
            yield Length(place, written.text, value, written.names, _what(step, place))


def lengths_of_step(step: Step, index: int) -> Iterator[tuple[Place, Expression]]:
    """The lengths of the `index`-th step that measure cloth, each with its place."""
    for text, written in lengths_in(step, f"steps[{index}]"):
        found = _PLACE.fullmatch(text)
        if found is None or (verb_word(step), found[2]) in _ROUNDING_STEPS:
            continue
        yield Place(index, found[2], None if found[3] is None else int(found[3])), written


def _what(step: Step, place: Place) -> Message:
    """A length in words, by what its key means to the verb."""
    piece = getattr(step, "make", "")
    args: dict[str, Arg] = {"number": place.step + 1, "piece": piece, "key": place.key}
    line = _LINE.fullmatch(place.key)
    if isinstance(step, Face) and line is not None:
        return _what_of_line(step.seams[int(line[1])], line[2], {**args, "line": int(line[1]) + 1})
    if place.key.startswith("sizes."):
        return message("solve.used-size", name=place.key.removeprefix("sizes."), **args)
    if isinstance(step, Slice):
        args["side"] = (step.from_ if place.key == "from" else step.to)[0]
    elif place.key in ("from", "to"):
        return message("solve.any-length", **args)
    if place.key == "widths":
        args["segment"] = (place.index or 0) + 1
    return message(_SPOKEN.get(place.key, "solve.any-length"), **args)


def _what_of_line(line: SewnLine, key: str, args: Mapping[str, Arg]) -> Message:
    """A length of a line that two faced pieces are sewn on."""
    if key == "beside":
        return message("solve.sewn-beside", **args)
    side = (line.from_ if key == "from" else line.to)[0]
    return message(f"solve.line-{key}", side=side, **args)


def with_lengths(recipe: Recipe, values: Mapping[Spot, Fraction]) -> Recipe:
    """The recipe with other lengths, each written exactly where it stands; a size becomes the first choice.

    What was worked out there is replaced by the number. The size that the recipe claims is left as it is. Raises
    RecipeError for a value that the format refuses and KeyError for a place that the recipe does not have.
    """
    plain = recipe.plain
    for place, value in values.items():
        text = exact_text(value)
        if isinstance(place, Place):
            plain = with_length(plain, place.step, place.key, text, place.index)
        elif place.table == "let":
            plain["let"][place.name] = text
        else:
            others = [choice for choice in plain["sizes"][place.name] if read_length(choice) != value]
            plain["sizes"][place.name] = [text, *others]
    return Recipe.from_plain(plain)


def without_claim(recipe: Recipe) -> Recipe:
    """The recipe claiming no finished size, so that its lengths may be tried out."""
    if recipe.finished is None:
        return recipe
    plain = recipe.plain
    del plain["finished"]
    return Recipe.from_plain(plain)


def exact_text(value: Fraction) -> str:
    """A length as a recipe writes it: inches, as a mixed number."""
    return Measure().bare(value)


def spot_text(place: Spot) -> str:
    """A place as errors name it: "steps[4].every", "steps[2].widths[0]", "sizes.F"."""
    if isinstance(place, Named):
        return f"{place.table}.{place.name}"
    index = "" if place.index is None else f"[{place.index}]"
    return f"steps[{place.step}].{place.key}{index}"


def spot_at(recipe: Recipe, text: str) -> Spot:
    """The place of a text such as "steps[4].every", "sizes.F" or "F". Raises RecipeError where there is none."""
    found = {spot_text(length.place): length.place for length in places(recipe)}
    names = {place.name: place for place in found.values() if isinstance(place, Named)}
    place = found.get(text.strip()) or names.get(text.strip())
    if place is None:
        near = nearest(text, [*found, *names])
        hint = message("recipe.did-you-mean", word=near) if near else None
        raise RecipeError(message("solve.no-place", text=shown(text)), hint)
    return place

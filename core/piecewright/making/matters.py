"""Which numbers matter: each length of a step is moved up and down, and the block that comes out is compared.

Where slices alone make slants, and only these move, a block counts as unchanged: a slice is cut by eye.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, partial
from typing import Literal

from piecewright.making.comparing import Effect, compared, slants_by_eye
from piecewright.making.events import Severed, first
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.nudging import Length, Spot, exact_text, places, without_claim
from piecewright.making.recipe import Recipe
from piecewright.making.run import attempt, facts, facts_of
from piecewright.making.slants import tied
from piecewright.making.tracing import trace
from piecewright.making.trying import tried
from piecewright.making.verbs.cut import Cut
from piecewright.making.verbs.verb import Place
from piecewright.words.message import Message, message

Mark = Literal["exact", "at least", "at most", "as you like"]
EIGHTH = Fraction(1, 8)
_HARMLESS = ("slant", "nothing")
_FAR = 64
"""So many steps to one side without harm, and there is taken to be no end to it."""


@dataclass(frozen=True, slots=True)
class Matter:
    """How much a length matters, with what a step less (`down`) and a step more (`up`) does.

    From `low` to `high` inches, on the step, it does no harm; None where there is no end to it.
    """

    length: Length
    mark: Mark
    low: Fraction | None
    high: Fraction | None
    down: Effect
    up: Effect

    @property
    def sentence(self) -> Message:
        """The mark in words, with the range where there is one."""
        args = {"what": self.length.what}
        if self.mark == "exact":
            return message("solve.exact", value=self.length.value, **args)
        if self.mark == "at least" and self.low is not None:
            return message("solve.at-least", value=self.low, **args)
        if self.mark == "at most" and self.high is not None:
            return message("solve.at-most", value=self.high, **args)
        if self.low is None or self.high is None:
            return message("solve.never-matters", **args)
        return message("solve.as-you-like", low=self.low, high=self.high, **args)


@dataclass(frozen=True, slots=True)
class Fold:
    """A cut that needs no ruler: the piece of step `step` (from 0) is folded in `count` and cut on the folds."""

    step: int
    piece: str
    count: int

    @property
    def sentence(self) -> Message:
        """Fold it, cut on the folds."""
        return message("solve.fold", piece=self.piece, count=self.count)


def matters(recipe: Recipe, given: Given, by: Fraction = EIGHTH) -> tuple[Matter, ...]:
    """How much every length of every step matters, moved by steps of `by` inches.

    Lengths of strips that are sewn side by side are moved together. Raises RecipeError and MakingError where the making
    fails as it is.
    """
    lengths = [length for length in places(recipe, given) if isinstance(length.place, Place)]
    plain = without_claim(recipe)
    now, by_eye = facts(plain, given), slants_by_eye(plain)
    values = {length.place: length.value for length in lengths}
    groups = _moved_together(plain, given, lengths)

    @cache
    def effect(group: Sequence[Spot], steps: int) -> Effect:
        moved = {place: values[place] + steps * by for place in group}
        return compared(now, tried(plain, given, moved).facts, by_eye=by_eye)

    found = {group: _ranged(partial(effect, group)) for group in set(groups.values())}
    return tuple(_matter(length, found[groups[length.place]], by) for length in lengths)


def _moved_together(
    recipe: Recipe, given: Given, lengths: Sequence[Length]
) -> Mapping[Spot, tuple[Spot, ...]]:
    """For each place those that move with it: strips of one length that are sewn to each other, else itself alone."""
    traced = trace(recipe, given, [length.place for length in lengths])
    strips = tuple(
        length.place
        for length in lengths
        if isinstance(length.place, Place) and length.place.key == "lay.length"
    )
    groups: dict[Spot, tuple[Spot, ...]] = {length.place: (length.place,) for length in lengths}
    for group in tied(traced, strips):
        groups.update(dict.fromkeys(group, group))
    return groups


@dataclass(frozen=True, slots=True)
class _Range:
    """What a step down and up does, and how many steps do no harm either way (None: without end)."""

    down: Effect
    up: Effect
    below: int | None
    above: int | None


def _ranged(effect: Callable[[int], Effect]) -> _Range:
    return _Range(
        effect(-1),
        effect(1),
        _harmless(lambda steps: effect(-steps) in _HARMLESS),
        _harmless(lambda steps: effect(steps) in _HARMLESS),
    )


def _harmless(works: Callable[[int], bool]) -> int | None:
    """The most steps that do no harm, sought in growing strides and then by halves; None where there is no end."""
    low, high = 0, 1
    while works(high):
        low, high = high, high * 2
        if high > _FAR:
            return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if works(middle) else (low, middle)
    return low


def _matter(length: Length, found: _Range, by: Fraction) -> Matter:
    low = None if found.below is None else length.value - found.below * by
    high = None if found.above is None else length.value + found.above * by
    return Matter(length, _mark(found), low, high, found.down, found.up)


def _mark(found: _Range) -> Mark:
    if found.below == 0:
        return "exact" if found.above == 0 else "at least"
    if found.above == 0:
        return "at most"
    if (found.below is None) == (found.above is None):
        return "as you like"
    return "at most" if found.below is None else "at least"


def folds(recipe: Recipe, given: Given, by: Fraction = EIGHTH) -> tuple[Fold, ...]:
    """The cuts into equal parts that need no ruler, because no exact number hangs on them.

    The piece as it is, whatever would be left over, is folded; that has to give the same block, and so do folds that
    lie off by `by` inches, to one side and to the other.
    """
    plain = without_claim(recipe)
    now = facts(plain, given)
    folded = []
    for index, step in enumerate(recipe.steps):
        count = _equal_parts(step) if isinstance(step, Cut) else 0
        if isinstance(step, Cut) and count > 1 and _is_safe(plain, given, now, (index, count), by):
            folded.append(Fold(index, step.cut, count))
    return tuple(folded)


def _equal_parts(step: Cut) -> int:
    """Into how many parts written alike a straight cut goes; 0 where they are not, or only the cloth tells."""
    if step.angle or step.trim is not None:
        return 0
    if step.widths is not None:
        return len(step.widths) if len({width.text for width in step.widths}) == 1 else 0
    return step.into or (step.count if isinstance(step.count, int) else 0)


def _is_safe(recipe: Recipe, given: Given, now: Facts, cut: tuple[int, int], by: Fraction) -> bool:
    """Whether a cut (its step, into how many) on folds that are off gives the same block."""
    index, count = cut
    by_eye = slants_by_eye(recipe)
    folded = attempt(_cut_otherwise(recipe, index, into=count), given)
    if folded.fault is not None or compared(now, facts_of(folded), by_eye=by_eye) not in _HARMLESS:
        return False
    part = first(folded.outcomes[index].events, Severed).widths[0]
    if isinstance(part, float):
        return False
    for off in (by, -by):
        pairs = [part + off, part - off] * (count // 2)
        widths = [exact_text(width) for width in (*pairs, part)[:count]]
        made = tried(_cut_otherwise(recipe, index, widths=widths), given, {}).facts
        if compared(now, made, by_eye=by_eye) not in _HARMLESS:
            return False
    return True


def _cut_otherwise(recipe: Recipe, index: int, **how: object) -> Recipe:
    plain = recipe.plain
    step = plain["steps"][index]
    for key in ("every", "count", "widths", "into", "step"):
        step.pop(key, None)
    step |= how
    return Recipe.from_plain(plain)

"""Which numbers matter: each length of a step is moved up and down, and the block that comes out is compared.

A slant is cut by eye: where only slanted lines move, and every piece keeps its corners, a block counts as unchanged.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from typing import Literal

from piecewright.geometry.tolerance import alike
from piecewright.making.facts import Facts, Kind, SeenPatch
from piecewright.making.given import Given
from piecewright.making.nudging import Length, Spot, places, without_claim
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.making.slants import tied
from piecewright.making.tracing import trace
from piecewright.making.trying import tried
from piecewright.making.verbs.cut import Cut
from piecewright.making.verbs.verb import Place
from piecewright.words.message import Message, message

Mark = Literal["exact", "at least", "at most", "as you like"]
Effect = Literal["fails", "size", "pieces", "fewer", "lines", "warns", "slant", "nothing"]
"""What a change does, the gravest first: no block, another size, other pieces, fewer blocks, lines elsewhere, a new
warning, only slants elsewhere, nothing."""

EIGHTH = Fraction(1, 8)
_HARMLESS = ("slant", "nothing")
_FAR = 64
"""So many steps to one side without harm, and there is taken to be no end to it."""
_PLACES = 6


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
        low = self.length.value if self.low is None else self.low
        high = self.length.value if self.high is None else self.high
        match self.mark:
            case "exact":
                return message("solve.exact", value=self.length.value, **args)
            case "at least":
                return message("solve.at-least", value=low, **args)
            case "at most":
                return message("solve.at-most", value=high, **args)
        return message("solve.as-you-like", low=low, high=high, **args)


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
    now = facts(plain, given)
    values = {length.place: length.value for length in lengths}
    groups = _moved_together(plain, given, lengths)

    def effect(group: Sequence[Spot], steps: int) -> Effect:
        moved = {place: values[place] + steps * by for place in group}
        return compared(now, tried(plain, given, moved).facts)

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
    return "at least" if found.above is None and found.below is not None else "as you like"


def compared(now: Facts, then: Facts | None) -> Effect:
    """What of a block is other once it is made otherwise (None: it can not be made)."""
    if then is None:
        return "fails"
    sizes = ((now.finished.width, then.finished.width), (now.finished.height, then.finished.height))
    if not all(alike(one, other) for one, other in sizes):
        return "size"
    looks = [[_look(kind) for kind in found.kinds] for found in (now, then)]
    if looks[0] != looks[1]:
        pieces = [[_pieces(kind) for kind in found.kinds] for found in (now, then)]
        return "pieces" if pieces[0] != pieces[1] else "lines"
    if then.blocks < now.blocks:
        return "fewer"
    known = {(warning.code, warning.step) for warning in now.warnings}
    if any((warning.code, warning.step) not in known for warning in then.warnings):
        return "warns"
    same = all(_lie_alike(one, other) for one, other in zip(now.kinds, then.kinds, strict=True))
    return "nothing" if same else "slant"


def _look(kind: Kind) -> Counter[object]:
    """The patches by fabric, corners, and where their edges lie that are square to the block."""
    return Counter(
        (patch.fabric, patch.layer, len(patch.points), _square_lines(patch)) for patch in kind.patches
    )


def _pieces(kind: Kind) -> Counter[object]:
    return Counter((patch.fabric, patch.layer, len(patch.points)) for patch in kind.patches)


def _square_lines(patch: SeenPatch) -> tuple[tuple[int, float], ...]:
    """The lines that edges square to the block lie on: 0 and its x for an upright one, 1 and its y for a level one."""
    found = set()
    for index, (x, y) in enumerate(patch.points):
        before = patch.points[index - 1]
        if alike(x, before[0]):
            found.add((0, _rounded(x)))
        elif alike(y, before[1]):
            found.add((1, _rounded(y)))
    return tuple(sorted(found))


def _rounded(value: object) -> float:
    return round(float(value), _PLACES) + 0.0  # type: ignore[arg-type]


def _lie_alike(one: Kind, other: Kind) -> bool:
    return _corners(one.patches) == _corners(other.patches)


def _corners(patches: Iterable[SeenPatch]) -> Counter[object]:
    return Counter(
        (patch.fabric, patch.layer, *((_rounded(x), _rounded(y)) for x, y in patch.points))
        for patch in patches
    )


def folds(recipe: Recipe, given: Given, found: Sequence[Matter]) -> tuple[Fold, ...]:
    """The cuts into equal parts that need no ruler, because no exact number hangs on them.

    A cut "into" parts without rounding; and one of equal widths whose number is not exact, where folding the piece as
    it is, whatever is left over, gives the same block. `found` is what `matters` tells.
    """
    plain = without_claim(recipe)
    now = facts(plain, given)
    exact = {_step_of_width(matter) for matter in found if matter.mark == "exact"}
    folded = []
    for index, step in enumerate(recipe.steps):
        count = _equal_parts(step) if isinstance(step, Cut) else 0
        if isinstance(step, Cut) and count > 1 and index not in exact:
            said = Fold(index, step.cut, count)
            if (step.into and step.step is None) or _folds_to_the_same(plain, given, now, said):
                folded.append(said)
    return tuple(folded)


def _step_of_width(matter: Matter) -> int | None:
    """The step of the width of a segment; None for any other length."""
    place = matter.length.place
    return place.step if isinstance(place, Place) and place.key in ("every", "widths") else None


def _equal_parts(step: Cut) -> int:
    """Into how many parts written alike a straight cut goes; 0 where they are not, or only the cloth tells."""
    if step.angle:
        return 0
    if step.widths is not None:
        return len(step.widths) if len({width.text for width in step.widths}) == 1 else 0
    return step.into or (step.count if isinstance(step.count, int) else 0)


def _folds_to_the_same(recipe: Recipe, given: Given, now: Facts, fold: Fold) -> bool:
    plain = recipe.plain
    step = plain["steps"][fold.step]
    for key in ("every", "count", "widths", "step"):
        step.pop(key, None)
    step["into"] = fold.count
    return compared(now, tried(Recipe.from_plain(plain), given, {}).facts) in _HARMLESS

"""The quilter's own seam carried through a making: real sizes beside the nominal ones, and what to do about them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.errors import PiecewrightError
from piecewright.geometry.motion import Number
from piecewright.geometry.tolerance import alike, apart
from piecewright.making.cloth import Pile
from piecewright.making.comparing import compared
from piecewright.making.facts import Facts, Kind
from piecewright.making.given import Given
from piecewright.making.nudging import Length, places, without_claim
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, attempt, facts, facts_of, run
from piecewright.making.tracing import Row, trace
from piecewright.making.trying import tried
from piecewright.making.verbs.lay import Lay
from piecewright.making.verbs.verb import Place
from piecewright.units.rounding import nearest
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

_MARKS = nearest(Fraction(1, 64))
_CUT_KEYS = ("every", "widths", "width", "height")
_KEEPS_POINTS = ("size", "lines", "nothing")


@dataclass(frozen=True, slots=True)
class Real:
    """A piece of a step (from 0): what it measures by the recipe, and really, with the seam as sewn."""

    step: int
    piece: str
    nominal: Unfinished
    real: Unfinished

    @property
    def sentence(self) -> Message:
        """Both sizes, with the number of the step from 1."""
        number = self.step + 1
        return message(
            "solve.seam-step", number=number, piece=self.piece, real=self.real, nominal=self.nominal
        )


@dataclass(frozen=True, slots=True)
class Trim:
    """What to take off, inches: at a step, by cutting `length` at `value`; without a length, half from either edge.

    `side` is the side of the block that it makes shorter, "width" or "height".
    """

    side: str
    amount: Number
    length: Length | None
    value: Number | None

    @property
    def sentence(self) -> Message:
        """Where to trim and how much."""
        if self.length is None or self.value is None:
            return message(f"solve.trim-block-{self.side}", amount=self.amount, half=self.amount / 2)
        number = self.length.place.step + 1 if isinstance(self.length.place, Place) else 0
        side, what = _side(self.side), self.length.what
        return message("solve.trim-at", number=number, what=what, value=_MARKS(self.value), side=side)


@dataclass(frozen=True, slots=True)
class MySeam:
    """What a seam that takes `lost` inches more than its two allowances makes of a block.

    `steps` are the pieces of every step that could be done, cut to the recipe's numbers; `real` is the block's
    unfinished size, None where a step can not be done with this seam: then `fault` says which. `trims` bring the block
    back to its shape (and to its size where it is too large), each at the earliest step where no point is lost.
    """

    lost: Fraction
    steps: tuple[Real, ...]
    nominal: Unfinished
    real: Unfinished | None
    fault: PiecewrightError | None
    trims: tuple[Trim, ...]
    messages: tuple[Message, ...]


def my_seam(recipe: Recipe, given: Given) -> MySeam:
    """The block as it comes out with `given.lost` in every seam.

    Raises RecipeError and MakingError where the making fails even with a true seam.
    """
    plain = without_claim(recipe)
    true = replace(given, lost=Fraction(0))
    nominal = facts(plain, true)
    real = attempt(plain, given)
    steps = tuple(_compared_steps(run(plain, true), real))
    found, fault = _facts_or_fault(real)
    trims = () if found is None else tuple(_trims(plain, given, nominal, found))
    said = tuple(_said(given.lost, nominal, found, fault, trims))
    size = None if found is None else found.unfinished
    return MySeam(given.lost, steps, nominal.unfinished, size, fault, trims, said)


def _facts_or_fault(making: Making) -> tuple[Facts | None, PiecewrightError | None]:
    if making.fault is not None:
        return None, making.fault
    try:
        return facts_of(making), None
    except PiecewrightError as fault:
        return None, fault


def _compared_steps(nominal: Making, real: Making) -> Iterator[Real]:
    """Every piece sewn or cut, as far as the real making goes."""
    for one, other in zip(nominal.outcomes, real.outcomes, strict=False):
        if isinstance(nominal.recipe.steps[one.step_index], Lay):
            continue
        for name, pile in one.made.items():
            if name in other.made:
                yield Real(one.step_index, name, _size(pile), _size(other.made[name]))


def _size(pile: Pile) -> Unfinished:
    return Unfinished(pile[0].box.width, pile[0].box.height)


def _trims(recipe: Recipe, given: Given, nominal: Facts, real: Facts) -> Iterator[Trim]:
    for side, amount in _excess(nominal, real).items():
        yield from _trim(recipe, given, real, side, amount)


def _excess(nominal: Facts, real: Facts) -> dict[str, Number]:
    """By how much a side finishes too long for the other, or for the recipe where both do."""
    sides = {
        "width": (nominal.finished.width, real.finished.width),
        "height": (nominal.finished.height, real.finished.height),
    }
    share = min(Fraction(1), *(now / then for then, now in sides.values()))
    over = {side: now - share * then for side, (then, now) in sides.items()}
    return {side: amount for side, amount in over.items() if not alike(amount, 0 * amount)}


def _trim(recipe: Recipe, given: Given, real: Facts, side: str, amount: Number) -> Iterator[Trim]:
    """At the earliest cut that makes this side alone shorter, or at the edges; nothing where points are lost."""
    if not isinstance(amount, float):
        for length, slope in _cuts_of_side(recipe, given, side):
            value = length.value - amount / slope
            made = tried(recipe, given, {length.place: value}).facts
            if (
                made is not None
                and compared(real, made, by_eye=False) in _KEEPS_POINTS
                and _is_shorter(real, made, side, amount)
            ):
                yield Trim(side, amount, length, value)
                return
    if not any(_has_points(kind, real, side) for kind in real.kinds):
        yield Trim(side, amount, None, None)


def _cuts_of_side(recipe: Recipe, given: Given, side: str) -> Iterator[tuple[Length, Fraction]]:
    """The lengths of cuts that this side of the block hangs on and the other does not, with how much, step by step."""
    lengths = [length for length in places(recipe, given) if _is_cut(length)]
    if not lengths:
        return
    traced = trace(recipe, given, [length.place for length in lengths])
    rows: tuple[Row, Row] = (traced.width, traced.height)
    own, other = rows if side == "width" else rows[::-1]
    for index, length in enumerate(lengths):
        slope = own.slopes.get(index, Fraction(0))
        if slope > 0 and index not in other.slopes:
            yield length, slope


def _is_cut(length: Length) -> bool:
    return isinstance(length.place, Place) and length.place.key in _CUT_KEYS


def _is_shorter(real: Facts, made: Facts, side: str, amount: Number) -> bool:
    """Whether the side is shorter by the amount and the other as it was."""
    pairs = {
        "width": (real.finished.width, made.finished.width),
        "height": (real.finished.height, made.finished.height),
    }
    return all(
        alike(before - after, amount if each == side else Fraction(0))
        for each, (before, after) in pairs.items()
    )


def _has_points(kind: Kind, real: Facts, side: str) -> bool:
    """Whether a slanted line of a patch ends at one of the two edges that would be trimmed."""
    axis, far = (0, real.finished.width) if side == "width" else (1, real.finished.height)
    for patch in kind.patches:
        for index, end in enumerate(patch.points):
            start = patch.points[index - 1]
            slanted = not alike(apart(start[0], end[0]), 0.0) and not alike(apart(start[1], end[1]), 0.0)
            if slanted and any(alike(point[axis], edge) for point in (start, end) for edge in (0.0, far)):
                return True
    return False


def _said(
    lost: Fraction,
    nominal: Facts,
    real: Facts | None,
    fault: PiecewrightError | None,
    trims: tuple[Trim, ...],
) -> Iterator[Message]:
    if not lost:
        yield message("solve.seam-true")
        return
    each = abs(lost)
    yield message("solve.seam-wide" if lost > 0 else "solve.seam-narrow", lost=each, half=each / 2)
    if fault is not None:
        yield message("solve.seam-breaks", said=fault.message)
    if real is not None:
        yield message("solve.seam-block", nominal=nominal.unfinished, real=real.unfinished)
        for trim in trims:
            yield trim.sentence
        if not _excess(nominal, real):
            yield message("solve.seam-no-trim")
        elif not trims:
            yield message("solve.seam-points")


def _side(side: str) -> Message:
    return message("solve.side-of-width" if side == "width" else "solve.side-of-height")

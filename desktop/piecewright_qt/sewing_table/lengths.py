"""A length of a step set by hand: as a number where it is one, through the size it hangs on where it is worked out."""

from fractions import Fraction

from piecewright.edit.registry import EditCall, call
from piecewright.errors import PiecewrightError
from piecewright.making.draft import length_at, with_length
from piecewright.making.expressions import Expression
from piecewright.making.given import Given
from piecewright.making.names import resolve_names
from piecewright.making.recipe import Recipe
from piecewright.making.verbs.verb import Place
from piecewright.model.value import Sizes
from piecewright.units.measure import Measure
from piecewright_qt.sewing_table.bench import Bench


def value_at(bench: Bench, place: Place) -> Fraction | None:
    """The length now in force at a place; None where it can not be worked out."""
    recipe = bench.draft.shown if bench.draft is not None else None
    return None if recipe is None else _worth(_text(bench, place), recipe, bench.given)


def set_length(bench: Bench, place: Place, value: Fraction, gesture: object | None = None) -> None:
    """Set it: the size it hangs on where it is worked out from exactly one, the written number elsewhere."""
    sizing = _through_size(bench, place, value)
    if sizing is not None:
        bench.document.perform(sizing, gesture)
    elif bench.draft is not None:
        bench.change(_written(bench, place, value), gesture)


def try_length(bench: Bench, place: Place, value: Fraction) -> None:
    """Show what setting it would give."""
    sizing = _through_size(bench, place, value)
    if sizing is not None:
        bench.document.preview(sizing)
        bench.look_at_preview()
    elif bench.draft is not None:
        bench.try_out(_written(bench, place, value))


def _text(bench: Bench, place: Place) -> str:
    if bench.standing is None:
        return ""
    return length_at(bench.standing.plain, place.step, place.key, place.index)


def _written(bench: Bench, place: Place, value: Fraction) -> dict[str, object]:
    plain = bench.standing.plain if bench.standing is not None else {}
    return with_length(plain, place.step, place.key, Measure().bare(value), place.index)


def _worth(text: str, recipe: Recipe, given: Given) -> Fraction | None:
    try:
        return Expression.parse(text).evaluate(resolve_names(recipe, given))
    except PiecewrightError:
        return None


def _through_size(bench: Bench, place: Place, value: Fraction) -> EditCall | None:
    """The change of the block's size that gives a worked-out length its value, where it hangs on one size alone."""
    block, text = bench.block, _text(bench, place)
    recipe = bench.standing.sound if bench.standing is not None else None
    if block is None or recipe is None or not _is_worked_out(text):
        return None
    slopes = {name: _slope(text, recipe, bench.given, name) for name in recipe.sizes}
    moving = {name: slope for name, slope in slopes.items() if slope}
    now = _worth(text, recipe, bench.given)
    if len(moving) != 1 or now is None:
        return None
    ((name, slope),) = moving.items()
    size = bench.given.sizes.get(name, recipe.sizes[name][0]) + (value - now) / slope
    if size <= 0:
        return None
    return call("change-block", block=block.changed(sizes=Sizes({**block.sizes, name: size})))


def _is_worked_out(text: str) -> bool:
    try:
        return bool(Expression.parse(text).names)
    except PiecewrightError:
        return False


def _slope(text: str, recipe: Recipe, given: Given, name: str) -> Fraction:
    """By how much a length grows with a size: exact, since lengths are worked out by sums and shares."""
    size = given.sizes.get(name, recipe.sizes[name][0])
    more = Given({**given.sizes, name: size + 1}, given.seam, given.usable, given.draws, given.lost)
    now, then = _worth(text, recipe, given), _worth(text, recipe, more)
    return Fraction(0) if now is None or then is None else then - now

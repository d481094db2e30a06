"""Lengths past a slant, where nothing is exact: searched for, and rounded up to the step one cuts by."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from fractions import Fraction

from piecewright.making.given import Given
from piecewright.making.goals import Finish, meets
from piecewright.making.nudging import Named, Spot
from piecewright.making.recipe import Recipe
from piecewright.making.tracing import Trace
from piecewright.making.trying import Tried, tried
from piecewright.making.verbs.verb import Place
from piecewright.units.rounding import Rounding, up_to

_MOST_STEPS = 1024
_HALVINGS = 17
"""From an eighth of an inch down to a millionth."""

Values = Mapping[Spot, Fraction]


@dataclass(frozen=True, slots=True)
class Searched:
    """The making that was found, the lengths that moved, on the step; and what would just do, to a millionth."""

    made: Tried
    values: Values
    just: Mapping[Spot, float]


def searched(
    recipe: Recipe, given: Given, goal: Finish, base: Values, movers: Values, step: Fraction
) -> Searched | None:
    """The smallest even shift of the `movers`, from the values they have, that finishes no smaller than asked.

    `base` are lengths that are set beside them. Each mover is rounded up to the step. None where no shift does.
    """

    def shifted(shift: Fraction, rounding: Rounding | None) -> Values:
        moved = {place: value + shift for place, value in movers.items()}
        return {place: rounding(value) for place, value in moved.items()} if rounding else moved

    def works(shift: Fraction, rounding: Rounding | None) -> bool:
        found = tried(recipe, given, {**base, **shifted(shift, rounding)}).facts
        return found is not None and meets(goal, found, at_least=True)

    up = up_to(step)
    first = next(iter(movers.values()))
    start = up(first) - first
    steps = _least(lambda count: works(start + count * step, up))
    if steps is None:
        return None
    shift = start + steps * step
    values = shifted(shift, up)
    made = tried(recipe, given, {**base, **values})
    if not _reached(made, tried(recipe, given, {**base, **shifted(shift - step, up)}), goal):
        return None
    just = _halved(lambda shift: works(shift, None), shift - step, shift)
    return Searched(made, {**base, **values}, {place: float(value + just) for place, value in movers.items()})


def _reached(made: Tried, less: Tried, goal: Finish) -> bool:
    """Whether a making is as asked, or larger only because a step less would finish too small."""
    if made.facts is None:
        return False
    return meets(goal, made.facts) or (less.facts is not None and not meets(goal, less.facts, at_least=True))


def _least(works: Callable[[int], bool]) -> int | None:
    """The least whole number that works, if all above it do: sought in growing strides, then by halves."""
    stride = 1
    if works(0):
        low, high = -1, 0
        while works(low):
            stride *= 2
            low, high = low - stride, low
            if -low > _MOST_STEPS:
                return high
    else:
        low, high = 0, 1
        while not works(high):
            stride *= 2
            low, high = high, high + stride
            if high > _MOST_STEPS:
                return None
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if works(middle) else (middle, high)
    return high


def _halved(works: Callable[[Fraction], bool], low: Fraction, high: Fraction) -> Fraction:
    """The least shift that works between one that does not and one that does."""
    if not works(high):
        return high
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (low, middle) if works(middle) else (middle, high)
    return high


def pared(
    recipe: Recipe, given: Given, goal: Finish, found: Searched, traced: Trace, step: Fraction
) -> Searched:
    """The same with strips sewn to each other by their ends, then all widths, brought down as far as each goes."""
    for movers in _strip_sets(traced, found.just):
        others = {place: value for place, value in found.values.items() if place not in movers}
        less = searched(recipe, given, goal, others, {place: found.values[place] for place in movers}, step)
        if less is not None:
            found = Searched(less.made, less.values, {**found.just, **less.just})
    return found


def _strip_sets(traced: Trace, places: Iterable[Spot]) -> list[tuple[Spot, ...]]:
    moved = list(places)
    widths = _of_key(moved, "lay.width")
    return [*tied(traced, _of_key(moved, "lay.length")), *([widths] if widths else [])]


def movers_of(traced: Trace, changed: Iterable[Spot], *, marked: bool) -> Iterator[tuple[Spot, ...]]:
    """The sets of lengths to shift that the finished size does not hang on exactly, the likeliest first.

    Lengths the user `marked` free all move together; else strips that are sewn to each other, by length, then by width,
    and then all of them.
    """
    taken = {
        *changed,
        *(traced.spots[index] for row in (traced.width, traced.height) for index in row.slopes),
    }
    idle = [place for place in traced.spots if place not in taken]
    if marked:
        if idle:
            yield tuple(idle)
        return
    lengths, widths = _of_key(idle, "lay.length"), _of_key(idle, "lay.width")
    named = tuple(place for place in idle if isinstance(place, Named) and place.table == "let")
    every = [*_strip_sets(traced, idle), lengths, named, lengths + widths + named]
    yield from (found for found in dict.fromkeys(every) if found)


def _of_key(places: Iterable[Spot], key: str) -> tuple[Spot, ...]:
    return tuple(place for place in places if isinstance(place, Place) and place.key == key)


def tied(traced: Trace, places: tuple[Spot, ...]) -> list[tuple[Spot, ...]]:
    """The places in groups whose edges are sewn to each other and hang on no other place."""
    groups: list[set[Spot]] = [{place} for place in places]
    for tie in traced.ties:
        together = {traced.spots[index] for index in tie.slopes}
        if not together.issubset(places):
            continue
        joined = [group for group in groups if group & together]
        groups = [group for group in groups if not group & together]
        if joined:
            groups.append(set().union(*joined))
    return [tuple(place for place in places if place in group) for group in groups]

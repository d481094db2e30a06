"""Random but sewable: names that vary are drawn within limits, and every draw is made before it is offered."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from math import prod
from random import Random
from types import MappingProxyType

from piecewright.errors import PiecewrightError
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Rect
from piecewright.geometry.tolerance import TOUCH, passes
from piecewright.making.events import Severed
from piecewright.making.facts import Facts
from piecewright.making.faults import refuse, shown
from piecewright.making.given import Given
from piecewright.making.kinds import off_thread
from piecewright.making.limits import MOST_WORK
from piecewright.making.names import Names, VaryRange, resolve_names, vary_range
from piecewright.making.nudging import lengths_of_step
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, attempt, facts_of
from piecewright.making.table import Outcome
from piecewright.units.rounding import whole_down, whole_up
from piecewright.words.message import Message, message

_MOST_TRIES = 40
"""So many draws are tried for each one wanted, before it is given up."""
_MOST_WORK = 4 * MOST_WORK
"""The work of all that is tried together, so that drawing ends in time whatever the recipe asks."""
_ALL_LISTED = 4096
"""Where there are no more ways than this, all of them are dealt like cards; else they are drawn one by one."""

Values = tuple[tuple[str, Fraction], ...]


@dataclass(frozen=True, slots=True)
class Limits:
    """What draws must keep to.

    `between` narrows the range of a name, inches; `from_edge` is how far every cut that varies stays from the edges it
    runs along, and `least_degrees` to `most_degrees` how much a slice that varies may lean from square to its sides.
    """

    between: Mapping[str, tuple[Fraction, Fraction]] = field(default_factory=dict)
    from_edge: Fraction = Fraction(0)
    least_degrees: float = 0.0
    most_degrees: float = 90.0


@dataclass(frozen=True, slots=True)
class Draw:
    """Values drawn for the names that vary, which are what is stored, and what the making gives with them."""

    values: Mapping[str, Fraction]
    facts: Facts


@dataclass(frozen=True, slots=True)
class Drawn:
    """Draws, each unlike the others; where they are fewer than wanted, `messages` say why."""

    draws: tuple[Draw, ...]
    messages: tuple[Message, ...]


_NO_LIMITS = Limits()


def draw(
    recipe: Recipe,
    given: Given,
    seed: int,
    count: int = 1,
    limits: Limits = _NO_LIMITS,
    besides: Collection[Mapping[str, Fraction]] = (),
) -> Drawn:
    """So many different blocks of a recipe that varies, each made and found whole; none of those in `besides`.

    The same seed gives the same draws. Raises RecipeError where the recipe does not vary, or limits leave nothing.
    """
    names = resolve_names(recipe, given)
    ranges = _ranges(recipe, names, limits)
    dealt = _dealt(ranges, Random(seed))  # noqa: S311 - a pattern, not a secret
    seen = {_values(values) for values in besides}
    draws: list[Draw] = []
    failed = 0
    work = 0
    for values in dealt:
        if len(draws) == count or failed >= _MOST_TRIES * count or work > _MOST_WORK:
            break
        if values in seen:
            failed += 1
            continue
        seen.add(values)
        found, done = _made(recipe, given, dict(values), limits)
        work += done
        if found is None:
            failed += 1
        else:
            draws.append(Draw(MappingProxyType(dict(values)), found))
    said = [] if len(draws) == count else [message("solve.fewer-draws", count=len(draws), wanted=count)]
    return Drawn(tuple(draws), tuple(said))


def _values(values: Mapping[str, Fraction]) -> Values:
    return tuple(sorted(values.items()))


def _ranges(recipe: Recipe, names: Names, limits: Limits) -> dict[str, VaryRange]:
    """The values each name may take, between the limits."""
    if not recipe.vary:
        refuse("solve.nothing-varies", message("solve.write-vary"), "vary")
    for name in limits.between:
        if name not in recipe.vary:
            refuse("recipe.unknown-draw", None, "vary", name=shown(name))
    found = {}
    for name, varied in recipe.vary.items():
        choices = vary_range(varied, names, f"vary.{name}")
        low, high = limits.between.get(name, (choices.start, choices.end))
        first = max(0, whole_up((low - choices.start) / choices.step))
        last = min(choices.count - 1, whole_down((high - choices.start) / choices.step))
        if first > last:
            hint = message("solve.vary-runs", start=choices.start, end=choices.end, step=choices.step)
            refuse("solve.nothing-between", hint, f"vary.{name}", name=name, low=low, high=high)
        found[name] = VaryRange(choices.value(first), choices.value(last), choices.step)
    return found


def _dealt(ranges: Mapping[str, VaryRange], random: Random) -> Iterator[Values]:
    """Values for all names, never twice the same where all ways can be listed."""
    ways = prod(choices.count for choices in ranges.values())
    if ways <= _ALL_LISTED:
        for way in random.sample(range(ways), ways):
            yield _way(ranges, way)
        return
    while True:
        yield _way(ranges, random.randrange(ways))


def _way(ranges: Mapping[str, VaryRange], way: int) -> Values:
    """The values of one of all ways, by its number."""
    values = {}
    for name, choices in ranges.items():
        way, index = divmod(way, choices.count)
        values[name] = choices.value(index)
    return _values(values)


def _made(
    recipe: Recipe, given: Given, values: Mapping[str, Fraction], limits: Limits
) -> tuple[Facts | None, int]:
    """What comes of the values, None where they can not be sewn or pass the limits; and the work it took."""
    work = 0
    try:
        making = attempt(recipe, replace(given, draws=values))
        work = making.table.work
        if making.fault is not None or not _keeps(making, limits):
            return None, work
        return facts_of(making), work
    except PiecewrightError:
        return None, work


def _keeps(making: Making, limits: Limits) -> bool:
    varying = varying_steps(making.recipe)
    return all(
        _cut_keeps(event, outcome, limits)
        for outcome in making.outcomes
        if outcome.step_index in varying
        for event in outcome.events
        if isinstance(event, Severed)
    )


def varying_steps(recipe: Recipe) -> frozenset[int]:
    """The steps (from 0) with a length that hangs on a name that varies."""
    told = set(recipe.vary)
    for name, written in recipe.let.items():
        if written.names & told:
            told.add(name)
    return frozenset(
        index
        for index, step in enumerate(recipe.steps)
        if any(written.names & told for _, written in lengths_of_step(step, index))
    )


def _cut_keeps(event: Severed, outcome: Outcome, limits: Limits) -> bool:
    box = outcome.taken[event.piece][0].box
    if event.axis is not None:
        return not any(passes(limits.from_edge, width) for width in event.widths)
    line = event.lines[0]
    leans = off_thread(line.start, line.end, 0.0)
    ends = all(_from_corners(end, box) >= float(limits.from_edge) - TOUCH for end in (line.start, line.end))
    return ends and limits.least_degrees - TOUCH <= leans <= limits.most_degrees + TOUCH


def _from_corners(end: tuple[Number, Number], box: Rect) -> float:
    """How far the end of a slice is from the nearer corner of the side it lies on."""
    x, y = float(end[0]), float(end[1])
    left, right, top, bottom = float(box.left), float(box.right), float(box.top), float(box.bottom)
    on_level_side = min(abs(y - top), abs(y - bottom)) <= min(abs(x - left), abs(x - right))
    return min(x - left, right - x) if on_level_side else min(y - top, bottom - y)

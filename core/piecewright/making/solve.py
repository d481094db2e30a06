"""Both ways: ask for a finished size, or for strips used up, and get the lengths that give it.

While a making is square its results are sums of its lengths, so that one traced run, one set of exact equations and one
verifying run find them. Past a slant they are searched for, and rounded up to the step one cuts by.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from piecewright.errors import PiecewrightError
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.goals import (
    Changes,
    Fill,
    Finish,
    Goal,
    StripWidth,
    UseUp,
    changes_to,
    equation_to,
    meets,
)
from piecewright.making.no_answer import NoAnswerError, Question, why_not
from piecewright.making.nudging import Length, Spot, is_size, places
from piecewright.making.recipe import Recipe
from piecewright.making.ruler_marks import off_the_ruler, sizes_on_the_ruler
from piecewright.making.slants import Searched, movers_of, pared, searched
from piecewright.making.tracing import Trace, trace
from piecewright.making.trying import Tried, changed_values, exact_values, tried
from piecewright.units.rounding import down_to
from piecewright.units.sizes import Finished
from piecewright.words.message import Message, message

__all__ = ["Change", "Fill", "Finish", "Goal", "NoAnswerError", "Solution", "StripWidth", "UseUp", "solve"]

EIGHTH = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class Change:
    """A length that another value was found for; `just` is what would do past a slant, before it was rounded up."""

    length: Length
    after: Fraction
    just: float | None = None

    @property
    def place(self) -> Spot:
        """Where it stands."""
        return self.length.place

    @property
    def sentence(self) -> Message:
        """What it was and what it is now."""
        what, before = self.length.what, self.length.value
        if self.just is None:
            return message("solve.changed", what=what, before=before, after=self.after)
        return message("solve.changed-up", what=what, before=before, after=self.after, just=self.just)


@dataclass(frozen=True, slots=True)
class Solution:
    """Lengths that give what was asked: the recipe and the given (with the sizes) that the making was verified with.

    `messages` say what changed, what comes out, and what to know: lengths that no ruler has a mark for, with sizes near
    that have marks for all.
    """

    recipe: Recipe
    given: Given
    changes: tuple[Change, ...]
    facts: Facts
    messages: tuple[Message, ...]

    @property
    def finished(self) -> Finished:
        """The size of the finished block."""
        return self.facts.finished


def solve(
    recipe: Recipe, given: Given, goal: Goal, free: Sequence[Spot] = (), step: Fraction = EIGHTH
) -> Solution:
    """The lengths that give what is asked.

    Only the lengths at `free` move, by as little as can be and evenly where several count alike; where none are marked,
    the sizes of the recipe do, and without sizes, or if these can not, every length written as a number. `step` is
    what one cuts by: what lies past a slant is rounded up to it, what fills a strip down. Sewn to the nominal seam.

    Raises NoAnswerError where no lengths give it, and RecipeError or MakingError where the making fails as it is.
    """
    given = replace(given, lost=Fraction(0))
    if isinstance(goal, Fill) and goal.length is None:
        goal = Fill(given.usable, goal.width)
    asked: list[Question] = []
    for spots in _free_sets(recipe, given, free):
        traced = trace(recipe, given, spots)
        found, fault = _answer(recipe, given, goal, traced, step, marked=bool(free))
        if found is not None:
            return _told(recipe, given, goal, found, traced, step)
        asked.append(Question(recipe, given, goal, traced, fault, step))
    raise why_not(asked[0])


def _free_sets(recipe: Recipe, given: Given, free: Sequence[Spot]) -> Iterator[tuple[Spot, ...]]:
    if free:
        yield tuple(dict.fromkeys(free))
        return
    lengths = places(recipe, given)
    sizes = tuple(length.place for length in lengths if is_size(length.place))
    written = tuple(length.place for length in lengths if length.literal)
    if sizes:
        yield sizes
    if written != sizes:
        yield written


def _answer(
    recipe: Recipe, given: Given, goal: Goal, traced: Trace, step: Fraction, *, marked: bool
) -> tuple[Searched | None, PiecewrightError | None]:
    """What meets the goal, or the first fault of what was tried."""
    if isinstance(goal, Fill):
        return _filled(recipe, given, goal, traced, step)
    fault = None
    for values in exact_values(goal, traced, given.usable):
        made = tried(recipe, given, values)
        if made.facts is None:
            fault = fault or made.fault
        elif meets(goal, made.facts):
            return Searched(made, values, {}), None
    if isinstance(goal, Finish):
        found = _past_slants(recipe, given, goal, traced, step, marked=marked)
        if found is not None:
            return found, None
    return None, fault


def _filled(
    recipe: Recipe, given: Given, goal: Fill, traced: Trace, step: Fraction
) -> tuple[Searched | None, PiecewrightError | None]:
    """The largest block of those that fill the strip one way or the other, its lengths rounded down where they can."""
    found: list[Searched] = []
    fault = None
    down = down_to(step)
    for exact in exact_values(goal, traced, given.usable):
        rounded = {place: down(value) for place, value in exact.items()}
        for values in (rounded, exact):
            made = tried(recipe, given, values)
            fault = fault or made.fault
            if made.facts is not None and meets(goal, made.facts):
                found.append(Searched(made, values, {}))
                break
    best = max(found, key=lambda each: _area(each.made), default=None)
    return best, fault


def _area(made: Tried) -> float:
    return 0.0 if made.facts is None else float(made.facts.finished.width * made.facts.finished.height)


def _past_slants(
    recipe: Recipe, given: Given, goal: Finish, traced: Trace, step: Fraction, *, marked: bool
) -> Searched | None:
    """Exact lengths for the sides that hang on some, and a search for those that have to follow."""
    sides = ((traced.width, goal.width), (traced.height, goal.height))
    equations = [equation_to(row, size) for row, size in sides if size is not None and row.slopes]
    nothing: Changes = (Fraction(0),) * len(traced.spots)
    changes = changes_to(equations, traced) if equations else nothing
    if changes is None:
        return None
    base = changed_values(traced, changes)
    values = dict(zip(traced.spots, traced.values, strict=True))
    for movers in movers_of(traced, base, marked=marked):
        found = searched(recipe, given, goal, base, {place: values[place] for place in movers}, step)
        if found is not None:
            return found if marked else pared(recipe, given, goal, found, traced, step)
    return None


def _told(
    recipe: Recipe, given: Given, goal: Goal, found: Searched, traced: Trace, step: Fraction
) -> Solution:
    made = found.made
    if made.facts is None:
        raise AssertionError("an answer is a making that was done")
    lengths = {length.place: length for length in places(recipe, given)}
    changes = tuple(
        Change(lengths[place], value, found.just.get(place))
        for place, value in found.values.items()
        if value != lengths[place].value
    )
    said = [change.sentence for change in changes] or [message("solve.as-it-is")]
    said.append(message("solve.gives", finished=made.facts.finished))
    if found.just:
        said.append(message("solve.rounded-up", step=step))
    off = off_the_ruler(made.recipe, made.given, step)
    if off:
        said.append(
            message(
                "solve.between-marks", step=step, lengths=tuple(dict.fromkeys(each.value for each in off))
            )
        )
        near = sizes_on_the_ruler(recipe, given, goal, traced, step) if isinstance(goal, Finish) else ()
        said += [message("solve.near-on-marks", sizes=near)] if near else []
    return Solution(made.recipe, made.given, changes, made.facts, tuple(said))

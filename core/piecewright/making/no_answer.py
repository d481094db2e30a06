"""Why a making can not be as asked: which step fixes its size, and what sizes are near."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice, product

from piecewright.errors import MakingError, PiecewrightError
from piecewright.making.given import Given
from piecewright.making.goals import Finish, Goal, StripWidth, blocking, meets, ways_to
from piecewright.making.nudging import Length, places, spot_text
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.making.tracing import Row, Trace, trace
from piecewright.making.trying import exact_values, tried
from piecewright.making.verbs.verb import Place
from piecewright.units.rounding import down_to, up_to
from piecewright.units.sizes import Finished
from piecewright.words.message import Message, message

_MOST_LISTED = 64
_MOST_NEAR = 3
_PARTS = 64
"""Into how many parts the way from the present size to the one asked is cut to find how far one can go."""


class NoAnswerError(MakingError):
    """No lengths give what is asked; `near` are finished sizes that some do give, the nearest first."""

    def __init__(self, message: Message, hint: Message | None, where: str, near: Sequence[Finished]) -> None:
        super().__init__(message, hint, where)
        self.near = tuple(near)


@dataclass(frozen=True, slots=True)
class Question:
    """What was asked of a recipe, with what was traced of the free lengths, and the first fault of those tried."""

    recipe: Recipe
    given: Given
    goal: Goal
    traced: Trace
    fault: PiecewrightError | None
    step: Fraction


def why_not(asked: Question) -> NoAnswerError:
    """The error that says why there is no answer."""
    said, where = _reason(asked)
    near = _nearest(asked)
    hint = message("solve.near", sizes=tuple(near)) if near else None
    return NoAnswerError(said, hint, where, near)


def _reason(asked: Question) -> tuple[Message, str]:
    fixed = _fixed_side(asked)
    if fixed is not None:
        return _fixed_by(asked, *fixed)
    if asked.fault is not None:
        return message("solve.breaks", said=asked.fault.message), asked.fault.where
    for equations in ways_to(asked.goal, asked.traced, asked.given.usable):
        held = blocking(equations, asked.traced)
        if held is not None and held[0] >= 0:
            return message(f"solve.held-{held[1]}", number=held[0] + 1), f"steps[{held[0]}]"
    if isinstance(asked.goal, Finish):
        return message("solve.together"), ""
    return message("solve.strips-hold"), ""


def _fixed_side(asked: Question) -> tuple[str, Row] | None:
    """The side of the block, or the strips, that nothing free moves; None where all that was asked can move."""
    traced, goal = asked.traced, asked.goal
    if isinstance(goal, Finish):
        sides = (("width", traced.width, goal.width), ("height", traced.height, goal.height))
        found = [(side, row) for side, row, size in sides if size is not None and _stays(row, size)]
        return found[0] if found else None
    side = "strip-width" if isinstance(goal, StripWidth) else "strip-length"
    rows = [strip.width if isinstance(goal, StripWidth) else strip.length for strip in traced.laid]
    most = max(rows, key=lambda row: row.value)
    return None if any(row.slopes for row in rows) else (side, most)


def _stays(row: Row, size: Fraction) -> bool:
    return not row.slopes and not isinstance(row.value, float) and row.value != size


def _fixed_by(asked: Question, side: str, row: Row) -> tuple[Message, str]:
    """The last length of a step that the side hangs on, or else that it is worked out from no length."""
    said = message(f"solve.side-{side}")
    lengths = [length for length in places(asked.recipe, asked.given) if isinstance(length.place, Place)]
    moved = trace(asked.recipe, asked.given, [length.place for length in lengths])
    if side in ("width", "height"):
        slopes = (moved.width if side == "width" else moved.height).slopes
    else:
        laid = max(
            moved.laid, key=lambda strip: (strip.width if side == "strip-width" else strip.length).value
        )
        slopes = (laid.width if side == "strip-width" else laid.length).slopes
    if not slopes:
        return message("solve.fixed", side=said, now=row.value), ""
    length: Length = lengths[max(slopes)]
    what = message("solve.fixed-by", side=said, now=row.value, what=length.what, value=length.value)
    return what, spot_text(length.place)


def _nearest(asked: Question) -> list[Finished]:
    goal = asked.goal
    if not isinstance(goal, Finish):
        return []
    found = dict.fromkeys((*_listed(asked), *_one_side(asked, goal), *_on_the_way(asked, goal)))
    return sorted(found, key=lambda size: _distance(size, goal))[:_MOST_NEAR]


def _distance(size: Finished, goal: Finish) -> float:
    pairs = ((size.width, goal.width), (size.height, goal.height))
    return sum(abs(float(there) - float(wanted)) for there, wanted in pairs if wanted is not None)


def _listed(asked: Question) -> Iterator[Finished]:
    """What the choices that the recipe lists finish at."""
    names = tuple(asked.recipe.sizes)
    for choice in islice(product(*asked.recipe.sizes.values()), _MOST_LISTED):
        sizes = {**asked.given.sizes, **dict(zip(names, choice, strict=True))}
        try:
            yield facts(asked.recipe, replace(asked.given, sizes=sizes)).finished
        except PiecewrightError:
            continue


def _one_side(asked: Question, goal: Finish) -> Iterator[Finished]:
    """What comes of asking for the width or the height alone."""
    if goal.width is not None and goal.height is not None:
        yield from _given_for(asked, Finish(width=goal.width))
        yield from _given_for(asked, Finish(height=goal.height))


def _on_the_way(asked: Question, goal: Finish) -> Iterator[Finished]:
    """How far one can go from the present size toward the one asked, in equal parts of the way."""
    width, height = asked.traced.width.value, asked.traced.height.value
    if isinstance(width, float) or isinstance(height, float):
        return

    def part(count: int) -> list[Finished]:
        sides = ((width, goal.width), (height, goal.height))
        return list(
            _given_for(asked, Finish(*(_part_of_way(now, size, count, asked) for now, size in sides)))
        )

    low, high = 0, _PARTS
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if part(middle) else (low, middle)
    if low:
        yield from part(low)


def _part_of_way(now: Fraction, size: Fraction | None, count: int, asked: Question) -> Fraction | None:
    """So many parts of the way from one size to another, back to the last multiple of the step."""
    if size is None:
        return None
    back = up_to(asked.step) if size < now else down_to(asked.step)
    return back(now + (size - now) * Fraction(count, _PARTS))


def _given_for(asked: Question, goal: Finish) -> Iterator[Finished]:
    """The finished size for another goal, where lengths can be found that give it exactly."""
    for values in exact_values(goal, asked.traced, asked.given.usable):
        found = tried(asked.recipe, asked.given, values).facts
        if found is not None and meets(goal, found):
            yield found.finished
            return

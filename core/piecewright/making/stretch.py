"""Where cloth can stretch in the making: edges off the thread, and how many steps each lies open before it is sewn."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from math import cos, hypot, radians, sin
from typing import Literal, NamedTuple

from piecewright.geometry.motion import Point
from piecewright.geometry.shapes import Rect
from piecewright.geometry.tolerance import ALIKE, LEAST_BIAS, TOUCH
from piecewright.making.cloth import Patch, Pile, spread
from piecewright.making.events import Pressed
from piecewright.making.facts import SeenPatch
from piecewright.making.finishing import finish
from piecewright.making.kinds import off_thread
from piecewright.making.run import Making
from piecewright.making.table import Outcome
from piecewright.sewing.soonest import Order, Wait, soonest
from piecewright.words.message import Message, message

_SAME = 1e-4
"""Edges of one strip whose lines differ by less, inches or parts of a unit vector, are one edge."""
_PER_INCH = 1000
"""Waits are weighed by thousandths of an inch."""
Ended = Literal["sewn", "cut off", "outer"]


@dataclass(frozen=True, slots=True)
class Exposure:
    """Edges of one fabric letter that run alike off the thread and lie open between the same steps.

    `length` is that of all of them, in all layers, inches as cut; `degrees` off the nearest thread; made by the step
    with index `since`. `until` is the step that sews them or cuts them off; None of the outer edges of blocks.
    """

    letter: str
    length: float
    degrees: float
    since: int
    until: int | None
    ended: Ended
    waits: int


@dataclass(frozen=True, slots=True)
class Stretch:
    """The open bias edges of a making, and the order of its steps in which they lie open least."""

    exposures: tuple[Exposure, ...]
    order: Order
    given_cost: int

    @property
    def is_soonest(self) -> bool:
        """Whether the order of the recipe is as good as any."""
        return self.order.proven and self.order.cost == self.given_cost


class OpenEdge(NamedTuple):
    """An open bias edge in the frame of its strip as laid: the line by its outer normal, from `low` to `high` along."""

    strip: int
    layer: int
    letter: str
    normal: tuple[float, float]
    offset: float
    low: float
    high: float
    degrees: float
    since: int


class Ending(NamedTuple):
    """A stretch of an edge that no longer lies open: from the step `until` on, None of the outer edges of blocks."""

    edge: OpenEdge
    until: int | None
    ended: Ended
    waits: int


def endings(making: Making) -> tuple[Ending, ...]:
    """Every bias edge that lay open in a making done to the end. Raises MakingError as `finish` does."""
    follower = _Follower(making)
    tuple(follower.exposures())
    return tuple(follower.endings)


def stretch_of(making: Making) -> Stretch:
    """Follow every bias edge through a making that was done to the end. Raises MakingError as `finish` does."""
    follower = _Follower(making)
    exposures = tuple(follower.exposures())
    steps = len(making.recipe.steps)
    waits = [
        Wait(each.since, steps if each.until is None else each.until, round(each.length * _PER_INCH))
        for each in exposures
    ]
    before = [*_needed(making.outcomes), frozenset(range(steps))]
    order = soonest(before, waits)
    given = sum(wait.weight * (wait.end - wait.start - 1) for wait in waits)
    return Stretch(exposures, replace(order, steps=order.steps[:-1]), given)


def _needed(outcomes: Sequence[Outcome]) -> Iterator[frozenset[int]]:
    """For each step the earlier ones that it needs: those that made what it takes, or sewed what it presses.

    What the steps of a recipe used make and take among themselves is theirs alone.
    """
    makers: dict[str, int] = {}
    for number, outcome in enumerate(outcomes):
        pressed = {event.seam for event in outcome.events if isinstance(event, Pressed)}
        yield frozenset(makers[name] for name in (*outcome.taken, *pressed) if name in makers)
        makers |= dict.fromkeys((*outcome.made, *outcome.sewn), number)


class _Follower:
    """The open bias edges of every piece on the table."""

    def __init__(self, making: Making) -> None:
        self._making = making
        self._stack = making.recipe.stack
        self._open: dict[str, list[OpenEdge]] = {}
        self._found: dict[tuple[str, float, int, int | None, Ended], float] = {}
        self.endings: list[Ending] = []

    def exposures(self) -> Iterator[Exposure]:
        """All of them, by the step that makes them."""
        for number, outcome in enumerate(self._making.outcomes):
            self._follow(number, outcome)
        making = self._making
        for name in finish(making.recipe, making.table, making.names, claimed=False).names:
            for edge in self._open.get(name, ()):
                self._note(edge, None, "outer")
        for (letter, degrees, since, until, ended), length in sorted(self._found.items(), key=_by_step):
            yield Exposure(letter, length, degrees, since, until, ended, self._waits(since, until))

    def _follow(self, number: int, outcome: Outcome) -> None:
        old = [edge for name in outcome.taken for edge in self._open.pop(name, ())]
        new: list[OpenEdge] = []
        for name, pile in outcome.made.items():
            edges = [each for edge in self._edges(pile, number) for each in _inherited(edge, old)]
            self._open[name] = edges
            new += edges
        ended: Ended = "sewn" if outcome.sewn else "cut off"
        for edge in old:
            for rest in _left(edge, new):
                self._note(rest, number, ended)

    def _note(self, edge: OpenEdge, until: int | None, ended: Ended) -> None:
        key = (edge.letter, round(edge.degrees, 4), edge.since, until, ended)
        self._found[key] = self._found.get(key, 0.0) + edge.high - edge.low
        self.endings.append(Ending(edge, until, ended, self._waits(edge.since, until)))

    def _waits(self, since: int, until: int | None) -> int:
        """The steps between two, or to the end."""
        return (len(self._making.recipe.steps) if until is None else until) - since - 1

    def _edges(self, pile: Pile, number: int) -> Iterator[OpenEdge]:
        for layer, cloth in enumerate(spread(pile, self._stack)):
            for patch in cloth.all_patches:
                if not isinstance(patch.raw, Rect) or (patch.thread + patch.came.turn_degrees) % 90:
                    yield from _open_edges(patch, (layer + patch.layer) % self._stack, number)


def _by_step(item: tuple[tuple[str, float, int, int | None, Ended], float]) -> tuple[int, str, float, int]:
    letter, degrees, since, until, _ = item[0]
    return since, letter, degrees, -1 if until is None else until


def _open_edges(patch: Patch, layer: int, number: int) -> Iterator[OpenEdge]:
    """The edges of a patch off the thread that no seam hides: where what is seen of it ends with its cloth."""
    raw = [as_laid(point, patch) for point in patch.raw.points]
    seen = raw if patch.seen is patch.raw else [as_laid(point, patch) for point in patch.seen.points]
    if patch.came.faced:
        raw, seen = raw[::-1], seen[::-1]
    for start, end in _sides(seen):
        degrees = off_thread(start, end, patch.thread)
        length = hypot(end[0] - start[0], end[1] - start[1])
        if degrees < LEAST_BIAS - TOUCH or length <= ALIKE:
            continue
        normal = ((end[1] - start[1]) / length, (start[0] - end[0]) / length)
        offset = normal[0] * start[0] + normal[1] * start[1]
        if any(_on_line(side, normal, offset) for side in _sides(raw)):
            low, high = sorted(along(normal, point) for point in (start, end))
            yield OpenEdge(patch.strip, layer, patch.letter, normal, offset, low, high, degrees, number)


def _sides(
    points: Sequence[tuple[float, float]],
) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    yield from zip(points, (*points[1:], points[0]), strict=True)


def as_laid(point: Point, patch: Patch | SeenPatch) -> tuple[float, float]:
    """A point of a patch in the frame of its strip as laid: the motion that brought it undone."""
    came = patch.came
    angle = radians(came.turn_degrees)
    x, y = float(point[0]) - float(came.dx), float(point[1]) - float(came.dy)
    across, down = cos(angle) * x + sin(angle) * y, cos(angle) * y - sin(angle) * x
    return (-across if came.faced else across), down


def along(normal: tuple[float, float], point: tuple[float, float]) -> float:
    """How far along a line a point lies, the line told by its outer normal."""
    return normal[0] * point[1] - normal[1] * point[0]


def _on_line(
    side: tuple[tuple[float, float], tuple[float, float]], normal: tuple[float, float], offset: float
) -> bool:
    return all(abs(normal[0] * x + normal[1] * y - offset) <= ALIKE for x, y in side)


def _is_same(one: OpenEdge, other: OpenEdge) -> bool:
    return (
        (one.strip, one.layer) == (other.strip, other.layer)
        and abs(one.normal[0] - other.normal[0]) <= _SAME
        and abs(one.normal[1] - other.normal[1]) <= _SAME
        and abs(one.offset - other.offset) <= _SAME
    )


def _inherited(edge: OpenEdge, old: Iterable[OpenEdge]) -> Iterator[OpenEdge]:
    """An edge in the parts that were open before, each as old as it is, and what is new of it."""
    ancestors = [other for other in old if _is_same(edge, other)]
    for other in ancestors:
        low, high = max(edge.low, other.low), min(edge.high, other.high)
        if high - low > ALIKE:
            yield edge._replace(low=low, high=high, since=other.since)
    yield from _left(edge, ancestors)


def _left(edge: OpenEdge, others: Iterable[OpenEdge]) -> list[OpenEdge]:
    """What of an edge no other covers."""
    left = [edge]
    for other in others:
        if _is_same(edge, other):
            left = [
                part._replace(low=low, high=high)
                for part in left
                for low, high in (
                    (part.low, min(part.high, other.low)),
                    (max(part.low, other.high), part.high),
                )
                if high - low > ALIKE
            ]
    return left


def stretch_sentences(stretch: Stretch) -> tuple[Message, ...]:
    """Each open edge with how long it waits, and a better order where there is one. Steps count from 1."""
    if not stretch.exposures:
        return (message("sewing.nothing-waits"),)
    said = [_say(each) for each in stretch.exposures]
    if stretch.order.cost < stretch.given_cost:
        steps = tuple(number + 1 for number in stretch.order.steps)
        said.append(message("sewing.bias-sooner", steps=steps))
    elif stretch.is_soonest:
        said.append(message("sewing.already-soonest"))
    return tuple(said)


def _say(each: Exposure) -> Message:
    facts: Mapping[str, str | float | int] = {
        "fabric": each.letter,
        "length": each.length,
        "degrees": each.degrees,
        "since": each.since + 1,
        "waits": each.waits,
    }
    if each.until is None:
        return message("sewing.bias-outer", **facts)
    code = "sewing.bias-sewn" if each.ended == "sewn" else "sewing.bias-cut-off"
    return message(code, until=each.until + 1, **facts)

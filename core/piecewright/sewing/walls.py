"""The seams of a knot in an order in which they can be sewn, as few of them as can be in two goes.

A seam that ends on another must be sewn before the other passes its end. Where that goes round in a circle, a seam of
the circle is begun, sewn only as far as nothing is missing, and finished once the seams that end on it are sewn.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations
from typing import Literal

from piecewright.sewing.lists import Bounds

Doing = Literal["sew", "begin", "finish"]
_MOST_TRIED = 14
"""Among so many seams the fewest to begin are found for certain; among more, one after the other."""


@dataclass(frozen=True, slots=True)
class KnotSeam:
    """A seam of a knot and what is done to it: all of it sewn, or begun, or finished; the parts on its two sides.

    It lies at an x, when `upright`, or at a y, and goes from `start` to `end`: finished inches.
    """

    doing: Doing
    upright: bool
    at: Fraction
    start: Fraction
    end: Fraction
    before: tuple[int, ...]
    after: tuple[int, ...]

    @property
    def length(self) -> Fraction:
        """How long the whole seam is."""
        return self.end - self.start


@dataclass(frozen=True, slots=True)
class Wall:
    """A straight line between parts, as long as it goes: x of an upright one or y of a level one, from start to end."""

    upright: bool
    at: int
    start: int
    end: int
    before: tuple[int, ...]
    after: tuple[int, ...]


def knot_seams(boxes: Sequence[Bounds], steps: int) -> tuple[KnotSeam, ...]:
    """The seams that join parts which tile a rectangle, in an order of sewing; `steps` are those of an inch.

    Empty where the parts leave gaps.
    """
    if _has_gaps(boxes):
        return ()
    turned = [(top, left, bottom, right) for left, top, right, bottom in boxes]
    ways = (_walls(boxes), [_turned(wall) for wall in _walls(turned)])
    plans = [(walls, _endings(walls)) for walls in ways]
    walls, ending, begun = min(
        ((walls, ending, _fewest_begun(ending)) for walls, ending in plans), key=lambda plan: len(plan[2])
    )
    return tuple(_told(walls[number], doing, steps) for number, doing in _in_order(ending, begun))


def _has_gaps(boxes: Sequence[Bounds]) -> bool:
    left, top, right, bottom = zip(*boxes, strict=True)
    area = sum((box[2] - box[0]) * (box[3] - box[1]) for box in boxes)
    whole = (max(right) - min(left)) * (max(bottom) - min(top))
    return bool(area < whole)


def _told(wall: Wall, doing: Doing, steps: int) -> KnotSeam:
    at, start, end = (Fraction(edge, steps) for edge in (wall.at, wall.start, wall.end))
    return KnotSeam(doing, wall.upright, at, start, end, wall.before, wall.after)


def _turned(wall: Wall) -> Wall:
    return Wall(not wall.upright, wall.at, wall.start, wall.end, wall.before, wall.after)


def _walls(boxes: Sequence[Bounds]) -> list[Wall]:
    """The lines between parts that tile a rectangle; level ones run on where two cross."""
    level = list(_lines(boxes, upright=False, stops={}))
    stops: dict[int, set[int]] = {}
    for wall in level:
        for box in boxes:
            if box[3] == wall.at and wall.start < box[2] < wall.end:
                stops.setdefault(box[2], set()).add(wall.at)
    return [*level, *_lines(boxes, upright=True, stops=stops)]


def _lines(
    boxes: Sequence[Bounds], *, upright: bool, stops: Mapping[int, AbstractSet[int]]
) -> Iterator[Wall]:
    """The lines one way, each stretch of an edge joined to the next unless the line is stopped between them."""
    at, far, start, end = (0, 2, 1, 3) if upright else (1, 3, 0, 2)
    for place in sorted({box[at] for box in boxes})[1:]:
        after = sorted((box[start], box[end], number) for number, box in enumerate(boxes) if box[at] == place)
        before = sorted(
            (box[start], box[end], number) for number, box in enumerate(boxes) if box[far] == place
        )
        stopped = stops.get(place, frozenset())
        for low, high in _stretches(after, stopped):
            sides = (
                tuple(number for one, other, number in side if low <= one and other <= high)
                for side in (before, after)
            )
            yield Wall(upright, place, low, high, *sides)


def _stretches(edges: Iterable[tuple[int, int, int]], stopped: AbstractSet[int]) -> Iterator[tuple[int, int]]:
    low: int | None = None
    high = 0
    for start, end, _ in edges:
        if low is not None and (start > high or start in stopped):
            yield low, high
            low = None
        low, high = (start if low is None else low), end
    if low is not None:
        yield low, high


def _endings(walls: Sequence[Wall]) -> list[set[int]]:
    """For each line the lines that end on it."""
    ending: list[set[int]] = [set() for _ in walls]
    for number, wall in enumerate(walls):
        for other, across in enumerate(walls):
            on_it = across.upright != wall.upright and wall.start < across.at < wall.end
            if on_it and wall.at in (across.start, across.end):
                ending[number].add(other)
    return ending


def _fewest_begun(ending: Sequence[AbstractSet[int]]) -> frozenset[int]:
    """Lines to begin, so that no circle is left: as few as can be among _MOST_TRIED lines in circles."""
    circling = _circling(ending, frozenset())
    if len(circling) <= _MOST_TRIED:
        for count in range(len(circling) + 1):
            for begun in combinations(sorted(circling), count):
                if not _circling(ending, frozenset(begun)):
                    return frozenset(begun)
    found: set[int] = set()
    while circling:
        found.add(max(circling, key=lambda number: (len(ending[number] & circling), -number)))
        circling = _circling(ending, found)
    return frozenset(found)


def _circling(ending: Sequence[AbstractSet[int]], begun: AbstractSet[int]) -> set[int]:
    """The lines that wait for each other when those begun wait for none."""
    waiting = {number: set(before) for number, before in enumerate(ending) if number not in begun}
    while True:
        ready = [number for number, before in waiting.items() if not (before & waiting.keys())]
        if not ready:
            return set(waiting)
        for number in ready:
            del waiting[number]


def _in_order(ending: Sequence[AbstractSet[int]], begun: AbstractSet[int]) -> Iterator[tuple[int, Doing]]:
    """Every line once, those begun twice: finished as soon as what ends on them is sewn."""
    sewn = set(begun)
    unfinished = sorted(begun)
    yield from ((number, "begin") for number in unfinished)
    waiting = [number for number in range(len(ending)) if number not in begun]
    while waiting or unfinished:
        for number in [number for number in unfinished if ending[number] <= sewn]:
            unfinished.remove(number)
            yield number, "finish"
        ready = next((number for number in waiting if ending[number] <= sewn), None)
        if ready is not None:
            waiting.remove(ready)
            sewn.add(ready)
            yield ready, "sew"

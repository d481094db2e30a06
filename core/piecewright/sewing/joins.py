"""Crossings at the joins of an assembly: seams of its pieces, and seams sewn before, that meet on each seam sewn."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple

from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Rect
from piecewright.geometry.tolerance import ALIKE, SEAMS_MEET
from piecewright.sewing.assembly import Assembly, Knot, Piece, Section, parts_in_order
from piecewright.sewing.junctions import SeamLine, Spot

_MEET = float(SEAMS_MEET) + ALIKE
LEFT, TOP, RIGHT, BOTTOM = range(4)


class End(NamedTuple):
    """Where a seam runs to an edge: how far along it (x of a level edge, y of an upright one, inches).

    `sign` is the number of the sign that decides the seam's way; `lean` is 1 where with sign 1 it is pressed to the
    right or down along the edge, else -1.
    """

    along: float
    sign: int
    lean: int


Ends = tuple[Sequence[End], Sequence[End], Sequence[End], Sequence[End]]
"""The ends at the left, top, right and bottom edge."""
NO_ENDS: Ends = ((), (), (), ())


class Join(NamedTuple):
    """A seam of the assembly, its number the one of its sign (1: to the right, or down), and where it lies, inches."""

    sign: int
    part: int
    upright: bool
    at: float
    start: float
    end: float


class JoinCrossing(NamedTuple):
    """At a place along a join two seams meet; they nest if their signs are the same, or if they are not."""

    join: int
    along: float
    one: int
    other: int
    same: bool


class JoinBulk(NamedTuple):
    """A seam ends on a join with none to meet it: the join lies away from it with this sign."""

    join: int
    sign: int


@dataclass(slots=True)
class Joins:
    """All joins of an assembly in the order of sewing, and what meets on them."""

    joins: list[Join] = field(default_factory=list)
    crossings: list[JoinCrossing] = field(default_factory=list)
    bulks: list[JoinBulk] = field(default_factory=list)


def joins_of(assembly: Assembly, ends: Sequence[Ends], first: int) -> Joins:
    """The joins of an assembly, whose signs are numbered from `first`; `ends` are those of each piece where it lies.

    `Join.part` is the place of the part that it belongs to in `parts_in_order`.
    """
    work = _Joining(ends, first)
    for number, part in enumerate(parts_in_order(assembly)):
        work.take(part, number)
    return work.found


def ends_of(
    lines: Iterable[SeamLine],
    signs: Mapping[int, tuple[int, int]],
    width: float,
    height: float,
    quarters: int,
    at: Spot,
) -> Ends:
    """The ends of a block's seams at its edges once it is turned, clockwise, and lies with its top left corner `at`.

    `width` and `height` are those before it is turned. `signs` give for each seam the number of the sign that decides
    it and the way it is pressed when that is 1; seams without are left out.
    """
    found: tuple[list[End], list[End], list[End], list[End]] = ([], [], [], [])
    size = (width, height) if quarters % 2 == 0 else (height, width)
    for line in lines:
        if line.seam not in signs:
            continue
        number, way = signs[line.seam]
        toward = _turned((way * line.toward[0], way * line.toward[1]), quarters)
        for end in (line.start, line.end):
            x, y = _laid(end, width, height, quarters)
            for side, near in enumerate((x, y, size[0] - x, size[1] - y)):
                upright = side % 2 == 0
                lean = toward[1] if upright else toward[0]
                if near <= ALIKE and abs(lean) > ALIKE:
                    along = y + at[1] if upright else x + at[0]
                    found[side].append(End(along, number, 1 if lean > 0 else -1))
    return found


def _turned(way: Spot, quarters: int) -> Spot:
    x, y = way
    return ((x, y), (-y, x), (-x, -y), (y, -x))[quarters % 4]


def _laid(point: Spot, width: float, height: float, quarters: int) -> Spot:
    x, y = point
    return ((x, y), (height - y, x), (width - x, height - y), (y, width - x))[quarters % 4]


class _Joining:
    """The ends at the edges of every part so far, by the part itself."""

    def __init__(self, ends: Sequence[Ends], first: int) -> None:
        self._pieces = ends
        self._first = first
        self._ends: dict[int, Ends] = {}
        self.found = Joins()

    def take(self, part: Assembly, number: int) -> None:
        """Sew a part whose own parts are sewn."""
        if isinstance(part, Piece):
            self._ends[id(part)] = self._pieces[part.index]
        elif isinstance(part, Section):
            self._section(part, number)
        else:
            self._knot(part, number)

    def _section(self, part: Section, number: int) -> None:
        upright = part.axis == "across"
        start, end = (part.box.top, part.box.bottom) if upright else (part.box.left, part.box.right)
        joins = []
        for one, other in pairwise(part.parts):
            at = one.box.right if upright else one.box.bottom
            join = self._join(number, upright, float(at), float(start), float(end))
            joins.append(join)
            self._meet(
                join, self._at(one, RIGHT if upright else BOTTOM), self._at(other, LEFT if upright else TOP)
            )
        self._close(part, joins)

    def _knot(self, part: Knot, number: int) -> None:
        joins = []
        for seam in part.seams:
            if seam.doing == "finish":
                continue
            join = self._join(number, seam.upright, float(seam.at), float(seam.start), float(seam.end))
            joins.append(join)
        for join, seam in zip(joins, (seam for seam in part.seams if seam.doing != "finish"), strict=True):
            sides = (RIGHT, LEFT) if seam.upright else (BOTTOM, TOP)
            before, after = (
                [
                    *(end for place in places for end in self._at(part.parts[place], side)),
                    *_ending_on(join, joins, from_before=from_before),
                ]
                for places, side, from_before in (
                    (seam.before, sides[0], True),
                    (seam.after, sides[1], False),
                )
            )
            self._meet(join, before, after)
        self._close(part, joins)

    def _join(self, part: int, upright: bool, at: float, start: float, end: float) -> Join:
        join = Join(self._first + len(self.found.joins), part, upright, at, start, end)
        self.found.joins.append(join)
        return join

    def _at(self, part: Assembly, side: int) -> Sequence[End]:
        return self._ends[id(part)][side]

    def _close(self, part: Section | Knot, joins: Sequence[Join]) -> None:
        """Gather the ends at the edges of a part: those of its own parts that reach so far, and those of its joins."""
        sides = []
        for side, edge in enumerate(_edges(part.box)):
            ends = [
                end
                for inner in part.parts
                if _edges(inner.box)[side] == edge
                for end in self._at(inner, side)
            ]
            upright, reach = side % 2 == 0, float(edge)
            ends += [
                End(join.at, join.sign, 1)
                for join in joins
                if join.upright != upright and abs((join.start, join.end)[side >= RIGHT] - reach) <= ALIKE
            ]
            sides.append(ends)
        self._ends[id(part)] = (sides[0], sides[1], sides[2], sides[3])

    def _meet(self, join: Join, before: Sequence[End], after: Sequence[End]) -> None:
        pairs, alone, alone_after = _paired(before, after)
        self.found.crossings += [
            JoinCrossing(join.sign, one.along, one.sign, other.sign, one.lean != other.lean)
            for one, other in pairs
        ]
        # sign 1 lays the join to the right or down: away from seams that come from before it
        self.found.bulks += [JoinBulk(join.sign, 1) for _ in alone]
        self.found.bulks += [JoinBulk(join.sign, -1) for _ in alone_after]


def _edges(box: Rect) -> tuple[Number, Number, Number, Number]:
    return box.left, box.top, box.right, box.bottom


def _ending_on(join: Join, joins: Iterable[Join], *, from_before: bool) -> Iterator[End]:
    """The ends of other joins of a knot on one of them, from before it or after it."""
    for other in joins:
        reach = other.end if from_before else other.start
        if (
            other.upright != join.upright
            and abs(reach - join.at) <= ALIKE
            and join.start < other.at < join.end
        ):
            yield End(other.at, other.sign, 1)


def _paired(
    before: Sequence[End], after: Sequence[End]
) -> tuple[list[tuple[End, End]], list[End], list[End]]:
    """Ends that meet, each in one pair at most, and those on either side that meet none."""
    pairs: list[tuple[End, End]] = []
    alone: list[End] = []
    waiting = sorted(after, reverse=True)
    skipped: list[End] = []
    for one in sorted(before):
        while waiting and waiting[-1].along < one.along - _MEET:
            skipped.append(waiting.pop())
        if waiting and waiting[-1].along <= one.along + _MEET:
            pairs.append((one, waiting.pop()))
        else:
            alone.append(one)
    return pairs, alone, [*skipped, *reversed(waiting)]

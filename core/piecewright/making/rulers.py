"""How a ruler lies for straight cuts one beside the other: square to an axis, or leaning from it by some degrees."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, radians, sin
from typing import Protocol

import msgspec

from piecewright.geometry.half import Half, up_to
from piecewright.geometry.motion import Number, Point
from piecewright.geometry.shapes import Rect, Segment
from piecewright.geometry.tolerance import ALIKE, apart, passes
from piecewright.making.cloth import Cloth, box_of, fills, seen_area
from piecewright.making.drawn_lines import chords
from piecewright.making.edges import box_edge
from piecewright.making.steps import Axis


class Ruler(Protocol):
    """A ruler moved on, square to itself, from `start`, its first place on a piece, by `extent` to its last."""

    @property
    def start(self) -> Number:
        """The first place from which on all is cloth."""

    @property
    def extent(self) -> Number:
        """Inches from the first place to the last."""

    def before(self, place: Number) -> Half:
        """What lies before the ruler at a place."""

    def part(self, cut: Cloth, start: Number, end: Number) -> Cloth | None:
        """What was cut between two places, in its own box; None where it is not wholly cloth there."""

    def line(self, cloth: Cloth, place: Number) -> Segment | None:
        """Where the ruler crosses a piece; None where it would run along its edge or beside it."""


@dataclass(frozen=True, slots=True)
class SquareRuler:
    """Square to an axis, over a piece's box."""

    box: Rect
    axis: Axis

    @property
    def _along(self) -> int:
        return 0 if self.axis == "across" else 1

    @property
    def start(self) -> Number:
        """The left or the top of the box."""
        return self.box.top if self._along else self.box.left

    @property
    def extent(self) -> Number:
        """The box along the axis."""
        return self.box.height if self._along else self.box.width

    def before(self, place: Number) -> Half:
        """What lies left of a place, or above it."""
        return up_to(self._along, place)

    def part(self, cut: Cloth, start: Number, end: Number) -> Cloth | None:
        """A rectangle as wide or high as the box."""
        rect = self._slab(start, end)
        return msgspec.structs.replace(cut, box=rect, whole=True) if cut.whole or fills(cut, rect) else None

    def line(self, _cloth: Cloth, place: Number) -> Segment | None:
        """From side to side of the box."""
        if not passes(self.start + self.extent, place):
            return None
        return box_edge(self._slab(place, place), "top" if self._along else "left")

    def _slab(self, start: Number, end: Number) -> Rect:
        """The part of the box between two places."""
        box = self.box
        return Rect(box.left, start, box.right, end) if self._along else Rect(start, box.top, end, box.bottom)


@dataclass(frozen=True, slots=True)
class LeaningRuler:
    """Turned clockwise from square to an axis; places are inches along its normal, `beside` is the piece across."""

    normal: tuple[float, float]
    along: int
    start: float
    extent: float
    beside: Number

    def before(self, place: Number) -> Half:
        """What lies before the ruler at a place."""
        return Half(*self.normal, float(place))

    def part(self, cut: Cloth, start: Number, end: Number) -> Cloth | None:
        """A parallelogram between the level (or upright) sides of the piece."""
        wanted = float(self.beside) * float(end - start) / self.normal[self.along]
        if apart(float(seen_area(cut)), wanted) > ALIKE * (1 + float(self.beside) + float(end - start)):
            return None
        near, far = self.line(cut, start), self.line(cut, end)
        edges = (*((Segment(near.end, near.start),) if near else ()), *((far,) if far else ()))
        return msgspec.structs.replace(cut, box=box_of(cut.patches), whole=False, cut_edges=edges)

    def line(self, cloth: Cloth, place: Number) -> Segment | None:
        """From edge to edge of the piece."""
        x, y = self.normal[0] * float(place), self.normal[1] * float(place)
        found = chords(cloth, Segment((x, y), (x - self.normal[1], y + self.normal[0])))
        return found[0] if found else None


def leaning_ruler(cloth: Cloth, axis: Axis, angle: float) -> LeaningRuler:
    """The ruler turned `angle` degrees clockwise from the axis's square cut.

    It begins where its line first leaves no part of the piece's ragged or square end, and ends likewise.
    """
    along = 0 if axis == "across" else 1
    normal = normal_of(axis, angle)
    near, far = _ends(cloth, along)
    first, last = (_places(points, normal) for points in (near, far))
    start = max(first)
    beside = cloth.box.width if along else cloth.box.height
    return LeaningRuler(normal, along, start, min(last) - start, beside)


def normal_of(axis: Axis, angle: float) -> tuple[float, float]:
    """The direction square to a leaning ruler, toward the end of the axis, of length 1."""
    cosine, sine = cos(radians(angle)), sin(radians(angle))
    return (cosine, sine) if axis == "across" else (-sine, cosine)


def _places(points: Sequence[Point], normal: tuple[float, float]) -> list[float]:
    return [float(x) * normal[0] + float(y) * normal[1] for x, y in points]


def _ends(cloth: Cloth, along: int) -> tuple[list[Point], list[Point]]:
    """The corners of a piece's near and far end along an axis."""
    if cloth.whole:
        top_left, top_right, bottom_right, bottom_left = cloth.box.points
        if along:
            return [top_left, top_right], [bottom_left, bottom_right]
        return [top_left, bottom_left], [top_right, bottom_right]
    near: list[Point] = []
    far: list[Point] = []
    for low, high in _bands(cloth, 1 - along):
        spans = [_reach(cloth, low + (high - low) * share, along) for share in (0.25, 0.75)]
        for ends, index in ((near, 0), (far, 1)):
            slope = (spans[1][index] - spans[0][index]) / 2
            ends += [
                _point(spans[0][index] - slope, low, along),
                _point(spans[1][index] + slope, high, along),
            ]
    return near, far


def _bands(cloth: Cloth, beside: int) -> Iterator[tuple[float, float]]:
    """The stretches beside the axis within which no patch has a corner, so that each end of the piece is straight."""
    corners = sorted({float(point[beside]) for patch in cloth.patches for point in patch.seen.points})
    return ((low, high) for low, high in pairwise(corners) if high - low > ALIKE)


def _reach(cloth: Cloth, place: float, along: int) -> tuple[float, float]:
    """From where to where a piece reaches along the axis, at a place beside it."""
    start, end = _point(0.0, place, along), _point(1.0, place, along)
    found = chords(cloth, Segment(start, end))
    return float(found[0].start[along]), float(found[-1].end[along])


def _point(ahead: float, beside: float, along: int) -> Point:
    return (ahead, beside) if along == 0 else (beside, ahead)

"""Shapes of cloth: exact rectangles until a slant, convex float polygons after it, with one interface."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise
from math import hypot

import msgspec

from piecewright.geometry.half import Half
from piecewright.geometry.motion import QUARTER_TURNS, Motion, Number, Point
from piecewright.geometry.tolerance import TOUCH, apart, passes


class Placing:
    """Quarter turns clockwise on screen about 0, 0 and then a plain move, of many shapes at once.

    Patches that lie in a row share their coordinates, often as one object; each object is added to once only, which
    matters because exact addition is most of the work of a making. Short-lived: it knows what it has met by identity.
    """

    __slots__ = ("_down_met", "_met", "dx", "dy", "quarters")

    def __init__(self, quarters: int, dx: Number, dy: Number) -> None:
        self.quarters = quarters % 4
        self.dx = dx
        self.dy = dy
        self._met: dict[int, tuple[Number, Number]] = {}
        self._down_met: dict[int, tuple[Number, Number]] = {}

    def of_across(self, x: Number) -> Number:
        """Where a value of x comes to lie: as x after an even number of quarters, as y after an odd one."""
        found = self._met.get(id(x))
        if found is None:
            by = self.dy if self.quarters % 2 else self.dx
            found = self._met[id(x)] = (x, _placed(x, by, backward=self.quarters in (2, 3)))
        return found[1]

    def of_down(self, y: Number) -> Number:
        """Where a value of y comes to lie: as y after an even number of quarters, as x after an odd one."""
        found = self._down_met.get(id(y))
        if found is None:
            by = self.dx if self.quarters % 2 else self.dy
            found = self._down_met[id(y)] = (y, _placed(y, by, backward=self.quarters in (1, 2)))
        return found[1]

    def point(self, point: Point) -> Point:
        """A point where it comes to lie."""
        along, beside = self.of_across(point[0]), self.of_down(point[1])
        return (beside, along) if self.quarters % 2 else (along, beside)

    def motion(self, came: Motion) -> Motion:
        """An earlier motion followed by this one."""
        dx, dy = self.point((came.dx, came.dy))
        return Motion((came.quarters + self.quarters) % 4, came.degrees, came.faced, dx, dy)


def _placed(value: Number, by: Number, *, backward: bool) -> Number:
    if backward:
        return by - value
    return value + by if shifts(by) else value


def shifts(by: Number) -> bool:
    """Whether a move changes anything; one by nothing does where it is a number that stands for more than its value."""
    return bool(by) or type(by) not in _PLAIN


_PLAIN = (Fraction, int, float)


class Rect(msgspec.Struct, frozen=True):
    """A rectangle square to the frame, inches, y down."""

    left: Number
    top: Number
    right: Number
    bottom: Number

    @property
    def width(self) -> Number:
        """From left to right, inches."""
        return self.right - self.left

    @property
    def height(self) -> Number:
        """From top to bottom, inches."""
        return self.bottom - self.top

    @property
    def area(self) -> Number:
        """Square inches."""
        return (self.right - self.left) * (self.bottom - self.top)

    @property
    def points(self) -> tuple[Point, ...]:
        """The four corners, clockwise from the top left."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )

    @property
    def box(self) -> "Rect":
        """The rectangle itself."""
        return self

    def placed(self, placing: Placing) -> "Rect":
        """The rectangle where it comes to lie."""
        left, right = placing.of_across(self.left), placing.of_across(self.right)
        top, bottom = placing.of_down(self.top), placing.of_down(self.bottom)
        match placing.quarters:
            case 1:
                return Rect(bottom, left, top, right)
            case 2:
                return Rect(right, bottom, left, top)
            case 3:
                return Rect(top, right, bottom, left)
        return Rect(left, top, right, bottom)

    def clipped(self, half: Half) -> "Shape | None":
        """What of it lies in a half plane: itself when all of it does, None when nothing does."""
        if not half.y_part:
            return self._clipped_across(half)
        if not half.x_part:
            return self._clipped_down(half)
        inside = _clip(self.points, half)
        if inside is None:
            return None
        return Ring(inside) if inside else self

    def _clipped_across(self, half: Half) -> "Rect | None":
        place = half.place
        if half.x_part > 0:
            if not passes(self.right, place):
                return self
            return Rect(self.left, self.top, place, self.bottom) if passes(place, self.left) else None
        if not passes(place, self.left):
            return self
        return Rect(place, self.top, self.right, self.bottom) if passes(self.right, place) else None

    def _clipped_down(self, half: Half) -> "Rect | None":
        place = half.place
        if half.y_part > 0:
            if not passes(self.bottom, place):
                return self
            return Rect(self.left, self.top, self.right, place) if passes(place, self.top) else None
        if not passes(place, self.top):
            return self
        return Rect(self.left, place, self.right, self.bottom) if passes(self.bottom, place) else None


class Ring(msgspec.Struct, frozen=True):
    """A convex polygon in float inches, its corners clockwise on screen."""

    points: tuple[tuple[float, float], ...]

    @property
    def area(self) -> float:
        """Square inches (the shoelace formula)."""
        return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in self._sides()) / 2

    @property
    def centroid(self) -> tuple[float, float]:
        """The middle of its cloth."""
        crosses = [(x1 * y2 - x2 * y1, x1 + x2, y1 + y2) for (x1, y1), (x2, y2) in self._sides()]
        whole = 3 * sum(cross for cross, _, _ in crosses)
        return sum(c * x for c, x, _ in crosses) / whole, sum(c * y for c, _, y in crosses) / whole

    @property
    def box(self) -> Rect:
        """The rectangle around it."""
        across, down = zip(*self.points, strict=True)
        return Rect(min(across), min(down), max(across), max(down))

    def _sides(self) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
        return pairwise((*self.points, self.points[0]))

    def placed(self, placing: Placing) -> "Ring":
        """The polygon where it comes to lie."""
        a, b, c, d = QUARTER_TURNS[placing.quarters]
        dx, dy = float(placing.dx), float(placing.dy)
        return Ring(tuple((a * x + b * y + dx, c * x + d * y + dy) for x, y in self.points))

    def clipped(self, half: Half) -> "Ring | None":
        """What of it lies in a half plane: itself when all of it does, None when nothing does."""
        inside = _clip(self.points, half)
        if inside is None:
            return None
        return Ring(inside) if inside else self


Shape = Rect | Ring


def _line(half: Half) -> tuple[float, float, float]:
    """A half plane as floats (a, b, c): all points with a * x + b * y <= c."""
    across, down, place = float(half.x_part), float(half.y_part), float(half.place)
    return across, down, place * (across + down) if half.is_square else place


def _clip(points: tuple[Point, ...], half: Half) -> tuple[tuple[float, float], ...] | None:
    """The corners left of a convex polygon in a half plane; () when all of it is, None when none is.

    One pass of the Sutherland-Hodgman clip; a corner within TOUCH of the line counts as on it.
    """
    across, down, reach = _line(half)
    corners = [(float(x), float(y)) for x, y in points]
    outside = [across * x + down * y - reach for x, y in corners]
    if max(outside) <= TOUCH:
        return ()
    if min(outside) >= -TOUCH:
        return None
    kept: list[tuple[float, float]] = []
    for index, (x, y) in enumerate(corners):
        before_x, before_y = corners[index - 1]
        before, here = outside[index - 1], outside[index]
        if (before > TOUCH and here < -TOUCH) or (before < -TOUCH and here > TOUCH):
            share = before / (before - here)
            kept.append((before_x + (x - before_x) * share, before_y + (y - before_y) * share))
        if here <= TOUCH:
            kept.append((x, y))
    return tuple(kept)


class Segment(msgspec.Struct, frozen=True):
    """A straight line from one point to another."""

    start: Point
    end: Point

    @property
    def length(self) -> Number:
        """Inches; exact where the line is square to the frame."""
        run, rise = self.end[0] - self.start[0], self.end[1] - self.start[1]
        if not rise:
            return apart(run, 0)
        return apart(rise, 0) if not run else hypot(run, rise)

    def moved(self, dx: Number, dy: Number) -> "Segment":
        """The line after a plain move."""
        return self.placed(Placing(0, dx, dy))

    def placed(self, placing: Placing) -> "Segment":
        """The line where it comes to lie."""
        return Segment(placing.point(self.start), placing.point(self.end))

    def clipped(self, half: Half) -> "Segment | None":
        """What of the line lies inside a half plane; None when nothing does, or when it only runs along its edge."""
        first_out, last_out = half.excludes(self.start), half.excludes(self.end)
        if not (first_out or last_out):
            return self if half.holds(self.start) or half.holds(self.end) else None
        if not (half.holds(self.start) or half.holds(self.end)):
            return None
        crossing = self._crossing(half)
        return Segment(crossing, self.end) if first_out else Segment(self.start, crossing)

    def _crossing(self, half: Half) -> Point:
        """Where the line crosses the edge of a half plane; exact where both are square to the frame."""
        (x1, y1), (x2, y2) = self.start, self.end
        if not half.y_part and y1 == y2:
            return (half.place, y1)
        if not half.x_part and x1 == x2:
            return (x1, half.place)
        first, last = half.distance(self.start), half.distance(self.end)
        share = first / (first - last)
        return (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share)

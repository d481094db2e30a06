"""Shapes of cloth: exact rectangles until a slant, convex float polygons after it, with one interface."""

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

import msgspec

from piecewright.geometry.half import Half
from piecewright.geometry.motion import Motion, Number, Point
from piecewright.geometry.tolerance import TOUCH, apart, passes


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

    def moved(self, dx: Number, dy: Number) -> "Rect":
        """The rectangle after a plain move."""
        if not dy:
            return Rect(self.left + dx, self.top, self.right + dx, self.bottom) if dx else self
        if not dx:
            return Rect(self.left, self.top + dy, self.right, self.bottom + dy)
        return Rect(self.left + dx, self.top + dy, self.right + dx, self.bottom + dy)

    def turned(self, quarters: int) -> "Rect":
        """The rectangle after quarter turns, clockwise on screen, about the origin."""
        match quarters % 4:
            case 1:
                return Rect(-self.bottom, self.left, -self.top, self.right)
            case 2:
                return Rect(-self.right, -self.bottom, -self.left, -self.top)
            case 3:
                return Rect(self.top, -self.right, self.bottom, -self.left)
        return self

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
        if half.x_part > 0:
            if not passes(self.right, half.reach):
                return self
            return (
                Rect(self.left, self.top, half.reach, self.bottom) if passes(half.reach, self.left) else None
            )
        edge = -half.reach
        if not passes(edge, self.left):
            return self
        return Rect(edge, self.top, self.right, self.bottom) if passes(self.right, edge) else None

    def _clipped_down(self, half: Half) -> "Rect | None":
        if half.y_part > 0:
            if not passes(self.bottom, half.reach):
                return self
            return Rect(self.left, self.top, self.right, half.reach) if passes(half.reach, self.top) else None
        edge = -half.reach
        if not passes(edge, self.top):
            return self
        return Rect(self.left, edge, self.right, self.bottom) if passes(self.bottom, edge) else None


class Ring(msgspec.Struct, frozen=True):
    """A convex polygon in float inches, its corners clockwise on screen."""

    points: tuple[tuple[float, float], ...]

    @property
    def area(self) -> float:
        """Square inches (the shoelace formula)."""
        return sum(x1 * y2 - x2 * y1 for (x1, y1), (x2, y2) in self._sides()) / 2

    @property
    def box(self) -> Rect:
        """The rectangle around it."""
        across, down = zip(*self.points, strict=True)
        return Rect(min(across), min(down), max(across), max(down))

    def _sides(self) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
        return pairwise((*self.points, self.points[0]))

    def moved(self, dx: Number, dy: Number) -> "Ring":
        """The polygon after a plain move."""
        right, down = float(dx), float(dy)
        return Ring(tuple((x + right, y + down) for x, y in self.points))

    def turned(self, quarters: int) -> "Ring":
        """The polygon after quarter turns, clockwise on screen, about the origin."""
        turn = Motion(quarters=quarters)
        return Ring(tuple((float(x), float(y)) for x, y in map(turn.direction, self.points)))

    def clipped(self, half: Half) -> "Ring | None":
        """What of it lies in a half plane: itself when all of it does, None when nothing does."""
        inside = _clip(self.points, half)
        if inside is None:
            return None
        return Ring(inside) if inside else self


Shape = Rect | Ring


def _clip(points: tuple[Point, ...], half: Half) -> tuple[tuple[float, float], ...] | None:
    """The corners left of a convex polygon in a half plane; () when all of it is, None when none is.

    One pass of the Sutherland-Hodgman clip; a corner within TOUCH of the line counts as on it.
    """
    across, down, reach = float(half.x_part), float(half.y_part), float(half.reach)
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
        (x1, y1), (x2, y2) = self.start, self.end
        return Segment((x1 + dx, y1 + dy), (x2 + dx, y2 + dy))

    def turned(self, quarters: int) -> "Segment":
        """The line after quarter turns, clockwise on screen, about the origin."""
        turn = Motion(quarters=quarters)
        return Segment(turn.direction(self.start), turn.direction(self.end))

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
            return (half.reach if half.x_part > 0 else -half.reach, y1)
        if not half.x_part and x1 == x2:
            return (x1, half.reach if half.y_part > 0 else -half.reach)
        first, last = half.distance(self.start), half.distance(self.end)
        share = first / (first - last)
        return (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share)

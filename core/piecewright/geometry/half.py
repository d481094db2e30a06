"""Half planes: what lies on one side of a straight cut or a seam line."""

from math import hypot

import msgspec

from piecewright.geometry.motion import Number, Point
from piecewright.geometry.tolerance import TOUCH, passes


class Half(msgspec.Struct, frozen=True):
    """What lies on one side of a line; (x_part, y_part) has length 1 and points out of the half, across the line.

    `place` is the line's own coordinate where it is square to the frame (x = place or y = place), so that it stays
    exact; on a slant it is the line's distance from 0, 0 in the direction of the parts, in float inches.
    """

    x_part: Number
    y_part: Number
    place: Number

    @property
    def is_square(self) -> bool:
        """Whether the line is square to the frame."""
        return not (self.x_part and self.y_part)

    @property
    def opposite(self) -> "Half":
        """The other side of the same line."""
        return Half(-self.x_part, -self.y_part, self.place if self.is_square else -self.place)

    def distance(self, point: Point) -> Number:
        """How far a point lies outside (negative: inside), inches."""
        if not self.y_part:
            return point[0] - self.place if self.x_part > 0 else self.place - point[0]
        if not self.x_part:
            return point[1] - self.place if self.y_part > 0 else self.place - point[1]
        return self.x_part * point[0] + self.y_part * point[1] - self.place

    def excludes(self, point: Point) -> bool:
        """Whether a point lies truly outside."""
        if self.x_part and self.y_part:
            return self.distance(point) > TOUCH
        value = point[1] if self.y_part else point[0]
        return passes(value, self.place) if self.x_part + self.y_part > 0 else passes(self.place, value)

    def holds(self, point: Point) -> bool:
        """Whether a point lies truly inside, not on the line."""
        if self.x_part and self.y_part:
            return self.distance(point) < -TOUCH
        value = point[1] if self.y_part else point[0]
        return passes(self.place, value) if self.x_part + self.y_part > 0 else passes(value, self.place)

    def shrunk(self, by: Number) -> "Half":
        """The half plane whose line lies `by` inches further in."""
        inward = -by if not self.is_square or self.x_part + self.y_part > 0 else by
        return Half(self.x_part, self.y_part, self.place + inward)


def up_to(axis: int, value: Number) -> Half:
    """What lies left of x = `value` (axis 0) or above y = `value` (axis 1)."""
    return Half(0, 1, value) if axis else Half(1, 0, value)


def beyond(axis: int, value: Number) -> Half:
    """What lies right of x = `value` (axis 0) or below y = `value` (axis 1)."""
    return Half(0, -1, value) if axis else Half(-1, 0, value)


def right_hand(start: Point, end: Point) -> Half:
    """What lies on the right hand of someone who walks from `start` to `end` (on screen, y down).

    Exact where the line is square to the frame; float on a slant.
    """
    run, rise = end[0] - start[0], end[1] - start[1]
    if run == 0:
        return up_to(0, start[0]) if rise > 0 else beyond(0, start[0])
    if rise == 0:
        return beyond(1, start[1]) if run > 0 else up_to(1, start[1])
    length = hypot(run, rise)
    x_part, y_part = float(rise) / length, -float(run) / length
    return Half(x_part, y_part, x_part * float(start[0]) + y_part * float(start[1]))

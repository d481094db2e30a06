"""Half planes: what lies on one side of a straight cut or a seam line."""

from math import hypot

import msgspec

from piecewright.geometry.motion import Number, Point
from piecewright.geometry.tolerance import TOUCH, passes

ACROSS, DOWN = 0, 1
"""The two directions of the frame, as indexes into a point: x and y."""


class Half(msgspec.Struct, frozen=True):
    """All points with `x_part * x + y_part * y <= reach`; (x_part, y_part) has length 1 and points out of the half."""

    x_part: Number
    y_part: Number
    reach: Number

    @property
    def opposite(self) -> "Half":
        """The other side of the same line."""
        return Half(-self.x_part, -self.y_part, -self.reach)

    def distance(self, point: Point) -> Number:
        """How far a point lies outside (negative: inside), inches."""
        if not self.y_part:
            return (point[0] if self.x_part > 0 else -point[0]) - self.reach
        if not self.x_part:
            return (point[1] if self.y_part > 0 else -point[1]) - self.reach
        return self.x_part * point[0] + self.y_part * point[1] - self.reach

    def excludes(self, point: Point) -> bool:
        """Whether a point lies truly outside."""
        if not self.y_part:
            return passes(point[0], self.reach) if self.x_part > 0 else passes(-self.reach, point[0])
        if not self.x_part:
            return passes(point[1], self.reach) if self.y_part > 0 else passes(-self.reach, point[1])
        return self.distance(point) > TOUCH

    def holds(self, point: Point) -> bool:
        """Whether a point lies truly inside, not on the edge."""
        if not self.y_part:
            return passes(self.reach, point[0]) if self.x_part > 0 else passes(point[0], -self.reach)
        if not self.x_part:
            return passes(self.reach, point[1]) if self.y_part > 0 else passes(point[1], -self.reach)
        return self.distance(point) < -TOUCH

    def shrunk(self, by: Number) -> "Half":
        """The half plane whose line lies `by` inches further in."""
        return Half(self.x_part, self.y_part, self.reach - by)


def up_to(axis: int, value: Number) -> Half:
    """What lies left of x = `value` (axis 0) or above y = `value` (axis 1)."""
    return Half(0, 1, value) if axis else Half(1, 0, value)


def beyond(axis: int, value: Number) -> Half:
    """What lies right of x = `value` (axis 0) or below y = `value` (axis 1)."""
    return Half(0, -1, -value) if axis else Half(-1, 0, -value)


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

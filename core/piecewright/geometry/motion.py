"""Rigid motions of cloth: exact while they are quarter turns, float past a slant."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import cos, radians, sin

Number = Fraction | float
Point = tuple[Number, Number]

QUARTER_TURNS: tuple[tuple[int, int, int, int], ...] = (
    (1, 0, 0, 1),
    (0, -1, 1, 0),
    (-1, 0, 0, -1),
    (0, 1, -1, 0),
)


@dataclass(frozen=True, slots=True)
class Motion:
    """First face (mirror x) if `faced`, then turn clockwise on screen, then move by (dx, dy) inches.

    The turn is `quarters` x 90 plus `degrees`; x runs right, y runs down.
    """

    quarters: int = 0
    degrees: float = 0.0
    faced: bool = False
    dx: Number = Fraction(0)
    dy: Number = Fraction(0)

    @property
    def turn_degrees(self) -> float:
        """The whole clockwise turn, 0 <= d < 360."""
        return (self.quarters * 90 + self.degrees) % 360

    def _matrix(self) -> tuple[Number, Number, Number, Number]:
        a, b, c, d = QUARTER_TURNS[self.quarters % 4]
        if not self.degrees:
            return (a, b, c, d)
        cosine, sine = cos(radians(self.degrees)), sin(radians(self.degrees))
        return (a * cosine + b * sine, b * cosine - a * sine, c * cosine + d * sine, d * cosine - c * sine)

    def direction(self, point: Point) -> Point:
        """The turned (and faced) vector, without the move."""
        a, b, c, d = self._matrix()
        x, y = (-point[0] if self.faced else point[0]), point[1]
        return (a * x + b * y, c * x + d * y)

    def apply(self, point: Point) -> Point:
        """Where a point of the cloth comes to lie."""
        x, y = self.direction(point)
        return (x + self.dx, y + self.dy)

    def back(self, point: Point) -> Point:
        """Where a point lay before the motion."""
        x, y = Motion(-self.quarters % 4, -self.degrees).direction((point[0] - self.dx, point[1] - self.dy))
        return (-x if self.faced else x, y)

    def then(self, later: Motion) -> Motion:
        """The motion followed by a later one, as one motion."""
        dx, dy = later.apply((self.dx, self.dy))
        sign = -1 if later.faced else 1
        quarters, rest = split_turn(later.degrees + sign * self.degrees)
        return Motion(
            quarters=(later.quarters + sign * self.quarters + quarters) % 4,
            degrees=rest,
            faced=self.faced != later.faced,
            dx=dx,
            dy=dy,
        )

    def moved(self, dx: Number, dy: Number) -> Motion:
        """The motion followed by a plain move."""
        return Motion(self.quarters, self.degrees, self.faced, self.dx + dx, self.dy + dy)


def split_turn(degrees: float) -> tuple[int, float]:
    """A turn as quarter turns, which are exact, and the degrees beyond them: 0 <= rest < 90.

    What rounding leaves of a quarter turn counts as one.
    """
    nearest = round(degrees / 90)
    if abs(degrees - 90 * nearest) <= _SAME_DEGREES:
        return nearest % 4, 0.0
    quarters, rest = divmod(degrees, 90)
    return int(quarters) % 4, rest


_SAME_DEGREES = 1e-9
"""What rounding may leave of a quarter turn: at a hundred yards less than any ruler shows."""

STILL = Motion()

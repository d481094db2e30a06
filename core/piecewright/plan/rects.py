"""A rectangle of the quilt by its corner and its sides."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.geometry.motion import Point


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle in finished inches from the quilt's finished top left."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction


def corners(rect: Rect) -> tuple[Point, Point, Point, Point]:
    """The four corners, clockwise from the top left."""
    right, bottom = rect.x + rect.width, rect.y + rect.height
    return ((rect.x, rect.y), (right, rect.y), (right, bottom), (rect.x, bottom))

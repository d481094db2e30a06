"""Shapes and lines where any motion brings them: turned by any angle, or turned over along a line."""

from math import atan2, degrees, hypot

from piecewright.geometry.motion import Motion, split_turn
from piecewright.geometry.shapes import Rect, Ring, Segment, Shape
from piecewright.geometry.tolerance import TOUCH


def carried(shape: Shape, motion: Motion) -> Shape:
    """A shape where a motion brings it; a rectangle stays one, exactly, after quarter turns."""
    if isinstance(shape, Rect) and not motion.degrees:
        return carried_rect(shape, motion)
    moved = [motion.apply(point) for point in shape.points]
    points = tuple((float(x), float(y)) for x, y in moved)
    return Ring(points[::-1] if motion.faced else points)


def carried_rect(rect: Rect, motion: Motion) -> Rect:
    """A rectangle where quarter turns, faced or not, bring it."""
    (x1, y1), (x2, y2) = (motion.apply(point) for point in (rect.points[0], rect.points[2]))
    return Rect(min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2))


def carried_line(line: Segment, motion: Motion) -> Segment:
    """A line where a motion brings it."""
    return Segment(motion.apply(line.start), motion.apply(line.end))


def turned_over(line: Segment) -> Motion:
    """What folds cloth over along a line: every point of the line stays, the cloth comes to lie on its other face.

    A reflection in a line at angle a is a mirroring of x followed by a turn of 2a + 180 degrees; it is exact for
    lines level, upright and at 45 degrees.
    """
    run, rise = line.end[0] - line.start[0], line.end[1] - line.start[1]
    diagonal = abs(abs(float(run)) - abs(float(rise))) <= TOUCH * hypot(run, rise)
    angle = _diagonal(float(run), float(rise)) if diagonal else degrees(atan2(rise, run))
    quarters, rest = split_turn(2 * angle + 180)
    turn = Motion(quarters, rest, faced=True)
    x, y = turn.direction(line.start)
    return turn.moved(line.start[0] - x, line.start[1] - y)


def _diagonal(run: float, rise: float) -> int:
    """The angle of a line at 45 degrees, exactly: 45 falling to the right, 135 rising."""
    return 45 if (run > 0) == (rise > 0) else 135

"""Where the lines of a hatched polygon run."""

from collections.abc import Sequence
from math import ceil, cos, floor, radians, sin

from piecewright.geometry.motion import Point

Segment = tuple[Point, Point]


def hatch_segments(points: Sequence[Point], spacing: float, degrees: float) -> list[Segment]:
    """Lines `spacing` inches apart inside a simple polygon, `degrees` clockwise from x.

    The lines of one spacing and direction lie on one lattice through 0, 0, so neighbors continue each other.
    """
    c, s = cos(radians(degrees)), sin(radians(degrees))
    turned = [(float(x) * c + float(y) * s, float(y) * c - float(x) * s) for x, y in points]
    heights = [y for _, y in turned]
    segments: list[Segment] = []
    for row in range(ceil(min(heights) / spacing), floor(max(heights) / spacing) + 1):
        level = row * spacing
        crossings = _crossings(turned, level)
        for left, right in zip(crossings[::2], crossings[1::2], strict=False):
            segments.append(
                ((left * c - level * s, left * s + level * c), (right * c - level * s, right * s + level * c))
            )
    return segments


def _crossings(points: Sequence[tuple[float, float]], level: float) -> list[float]:
    """Where a polygon's edges cross a level, from left to right; an edge owns its upper end only."""
    found: list[float] = []
    for (x0, y0), (x1, y1) in zip(points, (*points[1:], points[0]), strict=True):
        if (y0 <= level) != (y1 <= level):
            found.append(x0 + (level - y0) / (y1 - y0) * (x1 - x0))
    return sorted(found)

"""Paths as data: the moves, lines and curves that a pen follows, and the few shapes that pictures need."""

from collections.abc import Callable, Iterable, Sequence
from math import cos, radians, sin, tan
from typing import Literal

from piecewright.geometry.motion import Point

Spot = tuple[float, float]
Step = tuple[Literal["M", "L", "C", "Z"], tuple[Spot, ...]]
Path = tuple[Step, ...]

_CIRCLE = 4 / 3 * (2**0.5 - 1)  # handle length of a cubic quarter circle of radius 1


def spot(point: Point) -> Spot:
    """A point as floats."""
    return (float(point[0]), float(point[1]))


def ring(points: Sequence[Point]) -> Path:
    """A closed polygon."""
    first, *others = points
    return (("M", (spot(first),)), *(("L", (spot(point),)) for point in others), ("Z", ()))


def strokes(lines: Iterable[Sequence[Point]]) -> Path:
    """Open lines, each through its own points."""
    steps: list[Step] = []
    for first, *others in lines:
        steps.append(("M", (spot(first),)))
        steps.extend(("L", (spot(point),)) for point in others)
    return tuple(steps)


def circle(x: float, y: float, radius: float, down: float | None = None) -> Path:
    """A circle, or with `down` an ellipse of that half height."""
    r, s = radius, radius if down is None else down
    k, m = r * _CIRCLE, s * _CIRCLE
    return (
        ("M", ((x + r, y),)),
        ("C", ((x + r, y + m), (x + k, y + s), (x, y + s))),
        ("C", ((x - k, y + s), (x - r, y + m), (x - r, y))),
        ("C", ((x - r, y - m), (x - k, y - s), (x, y - s))),
        ("C", ((x + k, y - s), (x + r, y - m), (x + r, y))),
        ("Z", ()),
    )


def arc(x: float, y: float, radius: float, start: float, sweep: float) -> Path:
    """An open arc from `start` through `sweep` degrees, clockwise from x as seen on screen."""
    pieces = max(1, -(-int(abs(sweep)) // 60))
    part = radians(sweep) / pieces
    handle = 4 / 3 * tan(part / 4) * radius
    angle = radians(start)
    steps: list[Step] = [("M", ((x + radius * cos(angle), y + radius * sin(angle)),))]
    for _ in range(pieces):
        last = angle + part
        steps.append(
            (
                "C",
                (
                    (
                        x + radius * cos(angle) - handle * sin(angle),
                        y + radius * sin(angle) + handle * cos(angle),
                    ),
                    (
                        x + radius * cos(last) + handle * sin(last),
                        y + radius * sin(last) - handle * cos(last),
                    ),
                    (x + radius * cos(last), y + radius * sin(last)),
                ),
            )
        )
        angle = last
    return tuple(steps)


def mapped(path: Path, change: Callable[[Spot], Spot]) -> Path:
    """The path with every point changed; lines stay lines and curves curves under any affine change."""
    return tuple((verb, tuple(change(point) for point in points)) for verb, points in path)


def placed(path: Path, x: float, y: float, degrees: float = 0.0, size: float = 1.0) -> Path:
    """The path enlarged, turned clockwise and moved."""
    c, s = size * cos(radians(degrees)), size * sin(radians(degrees))
    return mapped(path, lambda p: (c * p[0] - s * p[1] + x, s * p[0] + c * p[1] + y))


def spots_of(path: Path) -> Iterable[Spot]:
    """Every point of a path, handles of curves too: their box holds the path."""
    return (point for _, points in path for point in points)

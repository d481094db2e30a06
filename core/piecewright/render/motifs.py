"""The small shapes that prints are built from, each about 1 high, its foot at 0, 0 and its tip up."""

from math import cos, radians, sin

from piecewright.render.path import Path, circle, placed, ring

PETAL: Path = (
    ("M", ((0.0, 0.0),)),
    ("C", ((-0.42, -0.22), (-0.56, -0.86), (-0.17, -0.98))),
    ("C", ((-0.08, -1.0), (-0.04, -0.93), (0.0, -0.9))),
    ("C", ((0.04, -0.93), (0.08, -1.0), (0.17, -0.98))),
    ("C", ((0.56, -0.86), (0.42, -0.22), (0.0, 0.0))),
    ("Z", ()),
)
LEAF: Path = (
    ("M", ((0.0, 0.0),)),
    ("C", ((0.30, -0.18), (0.33, -0.62), (0.02, -1.0))),
    ("C", ((-0.27, -0.66), (-0.30, -0.2), (0.0, 0.0))),
    ("Z", ()),
)
RIB: Path = (("M", ((0.0, -0.04),)), ("C", ((0.02, -0.3), (0.03, -0.6), (0.02, -0.84))))
BUD: Path = (
    ("M", ((0.0, 0.0),)),
    ("C", ((0.38, -0.12), (0.36, -0.7), (0.0, -1.0))),
    ("C", ((-0.36, -0.7), (-0.38, -0.12), (0.0, 0.0))),
    ("Z", ()),
)
STEM: Path = (("M", ((0.0, 0.0),)), ("C", ((0.10, -0.3), (0.06, -0.62), (-0.03, -0.94))))


def flower(petals: int, radius: float) -> Path:
    """Petals round 0, 0, as one path."""
    return tuple(step for n in range(petals) for step in placed(PETAL, 0, 0, 360 / petals * n, radius))


def star(points: int, inner: float) -> Path:
    """A star round 0, 0 with one tip up at radius 1 and its notches at radius `inner`."""
    turns = [(radians(180 / points * n - 90), 1.0 if n % 2 == 0 else inner) for n in range(2 * points)]
    return ring([(r * cos(a), r * sin(a)) for a, r in turns])


def stamens(count: int, radius: float, size: float) -> Path:
    """Little dots on a circle round 0, 0."""
    turns = [radians(360 / count * n) for n in range(count)]
    return tuple(step for a in turns for step in circle(radius * cos(a), radius * sin(a), size))

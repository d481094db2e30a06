"""The frame a pen draws in, as the six numbers of an affine map."""

from dataclasses import dataclass
from math import sqrt

from piecewright.geometry.motion import Motion, Point
from piecewright.render.path import Spot


@dataclass(frozen=True, slots=True)
class Affine:
    """x' = a x + c y + e and y' = b x + d y + f: named in the order of SVG's matrix() and Qt's QTransform."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    @classmethod
    def of(cls, change: Motion | float) -> "Affine":
        """The map of a motion, or of an enlargement about the origin."""
        if not isinstance(change, Motion):
            return cls(a=change, d=change)
        (a, b), (c, d) = change.direction((1, 0)), change.direction((0, 1))
        return cls(float(a), float(b), float(c), float(d), float(change.dx), float(change.dy))

    def after(self, inner: "Affine") -> "Affine":
        """The map that does `inner` first and then this one: a frame inside a frame."""
        return Affine(
            self.a * inner.a + self.c * inner.b,
            self.b * inner.a + self.d * inner.b,
            self.a * inner.c + self.c * inner.d,
            self.b * inner.c + self.d * inner.d,
            self.a * inner.e + self.c * inner.f + self.e,
            self.b * inner.e + self.d * inner.f + self.f,
        )

    def apply(self, point: Point) -> Spot:
        """Where a point comes to lie."""
        x, y = float(point[0]), float(point[1])
        return (self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f)

    @property
    def size(self) -> float:
        """How many times longer a length comes out (the frames of a pen never distort)."""
        return sqrt(abs(self.a * self.d - self.b * self.c))


UNMOVED = Affine()

"""A pen that only finds how much room a picture takes."""

from collections.abc import Callable, Hashable, Sequence
from dataclasses import dataclass

from piecewright.geometry.motion import Motion, Point
from piecewright.render.affine import UNMOVED, Affine
from piecewright.render.path import Path, Spot, spots_of
from piecewright.render.pen import Fill, Pen, Stroke, TextStyle
from piecewright.render.typeface import text_width

_ABOVE, _BELOW = (
    0.97,
    0.25,
)  # of the em: what letters reach over and under the baseline (the font's own ascent and descent)
_ANCHORS = {"start": 0.0, "middle": 0.5, "end": 1.0}


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, inches."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Right less left."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Bottom less top."""
        return self.bottom - self.top

    def grown(self, margin: float) -> "Box":
        """The box with a margin on every side."""
        return Box(self.left - margin, self.top - margin, self.right + margin, self.bottom + margin)

    def joined(self, other: "Box | None") -> "Box":
        """The box of both."""
        return self if other is None else _both(self, other)

    @property
    def corners(self) -> tuple[Spot, ...]:
        """Clockwise from the top left."""
        return (
            (self.left, self.top),
            (self.right, self.top),
            (self.right, self.bottom),
            (self.left, self.bottom),
        )


class BoundsPen(Pen):
    """`box` holds all that was drawn: strokes by their width, curves by their handles, text by its font."""

    def __init__(self) -> None:
        self._frame = UNMOVED
        self._room: Box | None = None
        self._kept: list[tuple[Affine, Box | None]] = []
        self._box: Box | None = None
        self._stamps: dict[Hashable, Box | None] = {}

    @property
    def box(self) -> Box | None:
        """None while nothing has been drawn."""
        return self._box

    def save(self) -> None:
        """Remember frame and room."""
        self._kept.append((self._frame, self._room))

    def restore(self) -> None:
        """Return to the frame and room last saved."""
        self._frame, self._room = self._kept.pop()

    def transform(self, by: Motion | float) -> None:
        """Change the frame."""
        self._frame = self._frame.after(Affine.of(by))

    def clip(self, points: Sequence[Point]) -> None:
        """Leave out what lies outside the box of a polygon."""
        room = _box_of([self._frame.apply(point) for point in points])
        self._room = room if self._room is None else _common(self._room, room)

    def path(
        self,
        path: Path,
        fill: Fill | None = None,
        stroke: Stroke | None = None,
        crisp: bool = False,  # noqa: ARG002 (the pen's signature)
    ) -> None:
        """Count a path in, with half the width of its stroke."""
        spots = [self._frame.apply(point) for point in spots_of(path)]
        if spots and (fill or stroke):
            self._add(_box_of(spots).grown(stroke.width / 2 * self._frame.size if stroke else 0.0))

    def text(self, at: Point, words: str, style: TextStyle) -> None:
        """Count a line of text in."""
        width = text_width(words, style)
        left, y = float(at[0]) - width * _ANCHORS[style.anchor], float(at[1])
        line = Box(left, y - _ABOVE * style.size, left + width, y + _BELOW * style.size)
        self._add(_box_of([self._frame.apply(corner) for corner in line.corners]))

    def stamp(self, key: Hashable, motion: Motion, draw: Callable[[Pen], None]) -> None:
        """Count a picture in, measured once for all places it is drawn at."""
        if key not in self._stamps:
            self._stamps[key] = bounds(draw)
        inside = self._stamps[key]
        if inside is not None:
            frame = self._frame.after(Affine.of(motion))
            self._add(_box_of([frame.apply(corner) for corner in inside.corners]))

    def enclose(self, box: Box) -> bool:
        """Count in a drawing whose box is known; False in a frame that is turned, where its corners are not enough."""
        if self._frame.b or self._frame.c:
            return False
        self._add(_box_of([self._frame.apply(corner) for corner in box.corners]))
        return True

    def _add(self, box: Box) -> None:
        seen = box if self._room is None else _common(self._room, box)
        if seen is not None and (seen.width >= 0 and seen.height >= 0):
            self._box = seen if self._box is None else _both(self._box, seen)


def bounds(draw: Callable[[Pen], None]) -> Box | None:
    """The box that a drawing lies in."""
    pen = BoundsPen()
    draw(pen)
    return pen.box


def _box_of(spots: Sequence[Spot]) -> Box:
    across, down = [x for x, _ in spots], [y for _, y in spots]
    return Box(min(across), min(down), max(across), max(down))


def _both(a: Box, b: Box) -> Box:
    return Box(min(a.left, b.left), min(a.top, b.top), max(a.right, b.right), max(a.bottom, b.bottom))


def _common(a: Box, b: Box) -> Box:
    return Box(max(a.left, b.left), max(a.top, b.top), min(a.right, b.right), min(a.bottom, b.bottom))

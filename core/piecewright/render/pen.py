"""The pen that every picture is drawn with, in inches; screen, SVG, PDF, bounds and recordings are pens."""

from abc import ABC, abstractmethod
from collections.abc import Callable, Hashable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Literal

from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.model.fabric import Fabric
from piecewright.render.hatching import hatch_segments
from piecewright.render.path import Path, ring, strokes


@dataclass(frozen=True, slots=True)
class Flat:
    """One color, #rrggbb, all over."""

    color: str
    opacity: float = 1.0


@dataclass(frozen=True, slots=True)
class ClothFill:
    """Cloth: `came` carries upright cloth, its lengthwise thread running down from 0, 0, to where it lies.

    Two patches with the same `came` show one unbroken piece of cloth.
    """

    fabric: Fabric
    came: Motion = STILL


Fill = Flat | ClothFill


@dataclass(frozen=True, slots=True)
class Stroke:
    """A line: `width` and `dash` (on, off, ...) in inches; ends and corners are round unless `square`."""

    color: str
    width: float
    dash: tuple[float, ...] = ()
    opacity: float = 1.0
    square: bool = False


@dataclass(frozen=True, slots=True)
class TextStyle:
    """Type: `size` of the em in inches, and which point of the baseline the text is placed by."""

    size: float
    color: str
    weight: Literal[400, 500, 600] = 400
    anchor: Literal["start", "middle", "end"] = "start"


class Pen(ABC):
    """Draws in inches, x right and y down, in a frame that `transform` changes until `restore`."""

    @abstractmethod
    def save(self) -> None:
        """Remember frame and clip."""

    @abstractmethod
    def restore(self) -> None:
        """Return to the frame and clip last saved."""

    @abstractmethod
    def transform(self, by: Motion | float) -> None:
        """From now on draw in a frame moved by a motion, or enlarged by a factor about its origin."""

    @abstractmethod
    def clip(self, points: Sequence[Point]) -> None:
        """From now on draw only inside this polygon."""

    @abstractmethod
    def path(
        self, path: Path, fill: Fill | None = None, stroke: Stroke | None = None, crisp: bool = False
    ) -> None:
        """Fill and stroke a path. `crisp`: without softened edges, so that neighbors leave no gap."""

    @abstractmethod
    def text(self, at: Point, words: str, style: TextStyle) -> None:
        """Write one line of text, its baseline at a point."""

    @abstractmethod
    def stamp(self, key: Hashable, motion: Motion, draw: "Callable[[Pen], None]") -> None:
        """Draw, moved by a motion, a picture that is the same wherever its key is the same."""

    @contextmanager
    def framed(self, *changes: Motion | float) -> Iterator[None]:
        """Draw within a frame changed in turn by each of the changes, then return."""
        self.save()
        for change in changes:
            self.transform(change)
        try:
            yield
        finally:
            self.restore()

    def polygon(
        self,
        points: Sequence[Point],
        fill: Fill | None = None,
        stroke: Stroke | None = None,
        crisp: bool = False,
    ) -> None:
        """Fill and stroke a closed polygon."""
        self.path(ring(points), fill, stroke, crisp)

    def polyline(self, points: Sequence[Point], stroke: Stroke) -> None:
        """Stroke an open line through points."""
        self.path(strokes([points]), None, stroke)

    def line(self, start: Point, end: Point, stroke: Stroke) -> None:
        """Stroke one straight line."""
        self.path(strokes([(start, end)]), None, stroke)

    def lines(self, segments: Sequence[tuple[Point, Point]], stroke: Stroke) -> None:
        """Stroke many straight lines at once."""
        if segments:
            self.path(strokes(segments), None, stroke)

    def hatch(self, points: Sequence[Point], stroke: Stroke, spacing: float, degrees: float = 45.0) -> None:
        """Hatch a polygon with lines `spacing` apart, running `degrees` clockwise from x."""
        self.lines(hatch_segments(points, spacing, degrees), stroke)

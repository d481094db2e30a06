"""A pen that keeps what is drawn as data: for tests, tiles of prints, and to draw again on another pen."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass

from piecewright.geometry.motion import Motion, Point
from piecewright.render.affine import UNMOVED, Affine
from piecewright.render.path import Path, mapped, spot
from piecewright.render.pen import Fill, Pen, Stroke, TextStyle


@dataclass(frozen=True, slots=True)
class Saved:
    """`save` was called."""


@dataclass(frozen=True, slots=True)
class Restored:
    """`restore` was called."""


@dataclass(frozen=True, slots=True)
class Transformed:
    """The frame was changed."""

    by: Motion | float


@dataclass(frozen=True, slots=True)
class Clipped:
    """The drawing was confined to a polygon."""

    points: tuple[Point, ...]


@dataclass(frozen=True, slots=True)
class Drawn:
    """A path was filled and stroked."""

    path: Path
    fill: Fill | None = None
    stroke: Stroke | None = None
    crisp: bool = False


@dataclass(frozen=True, slots=True)
class Written:
    """A line of text."""

    at: Point
    words: str
    style: TextStyle


@dataclass(frozen=True, slots=True)
class Stamped:
    """A picture drawn by its key."""

    key: Hashable
    motion: Motion
    steps: tuple["DrawingStep", ...]


DrawingStep = Saved | Restored | Transformed | Clipped | Drawn | Written | Stamped


class RecordingPen(Pen):
    """`steps` holds what was drawn, in order."""

    def __init__(self) -> None:
        self._steps: list[DrawingStep] = []
        self._stamps: dict[Hashable, tuple[DrawingStep, ...]] = {}

    @property
    def steps(self) -> tuple[DrawingStep, ...]:
        """Everything drawn so far."""
        return tuple(self._steps)

    def save(self) -> None:
        """Note a save."""
        self._steps.append(Saved())

    def restore(self) -> None:
        """Note a restore."""
        self._steps.append(Restored())

    def transform(self, by: Motion | float) -> None:
        """Note a change of frame."""
        self._steps.append(Transformed(by))

    def clip(self, points: Sequence[Point]) -> None:
        """Note a clip."""
        self._steps.append(Clipped(tuple(points)))

    def path(
        self, path: Path, fill: Fill | None = None, stroke: Stroke | None = None, crisp: bool = False
    ) -> None:
        """Note a path."""
        self._steps.append(Drawn(path, fill, stroke, crisp))

    def text(self, at: Point, words: str, style: TextStyle) -> None:
        """Note a line of text."""
        self._steps.append(Written(spot(at), words, style))

    def stamp(self, key: Hashable, motion: Motion, draw: Callable[[Pen], None]) -> None:
        """Note a picture, recorded once for all places it is drawn at."""
        if key not in self._stamps:
            self._stamps[key] = record(draw)
        self._steps.append(Stamped(key, motion, self._stamps[key]))


def record(draw: Callable[[Pen], None]) -> tuple[DrawingStep, ...]:
    """What a drawing does, as data."""
    pen = RecordingPen()
    draw(pen)
    return pen.steps


def replay(steps: Iterable[DrawingStep], pen: Pen) -> None:
    """Draw recorded steps again on another pen."""
    for step in steps:
        match step:
            case Saved():
                pen.save()
            case Restored():
                pen.restore()
            case Transformed(by):
                pen.transform(by)
            case Clipped(points):
                pen.clip(points)
            case Drawn(path, fill, stroke, crisp):
                pen.path(path, fill, stroke, crisp)
            case Written(at, words, style):
                pen.text(at, words, style)
            case Stamped(key, motion, steps_inside):
                pen.stamp(key, motion, _replayed(steps_inside))


def _replayed(steps: tuple[DrawingStep, ...]) -> Callable[[Pen], None]:
    return lambda pen: replay(steps, pen)


def flattened(steps: Iterable[DrawingStep], frame: Affine = UNMOVED) -> list[Drawn | Written]:
    """Paths and texts alone, in the outermost frame (fills and sizes of strokes and type stay as said)."""
    found: list[Drawn | Written] = []
    kept: list[Affine] = []
    for step in steps:
        match step:
            case Saved():
                kept.append(frame)
            case Restored():
                frame = kept.pop()
            case Transformed(by):
                frame = frame.after(Affine.of(by))
            case Drawn(path, fill, stroke, crisp):
                found.append(Drawn(mapped(path, frame.apply), fill, stroke, crisp))
            case Written(at, words, style):
                found.append(Written(frame.apply(at), words, style))
            case Stamped(_, motion, inside):
                found.extend(flattened(inside, frame.after(Affine.of(motion))))
            case Clipped():
                pass
    return found

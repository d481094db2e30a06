"""What happens to cloth in a step: a closed set, which pictures, sentences, beds and the ledger read.

Pieces are named as in the recipe; lengths are inches; lines lie in the frame of the piece they mark. Where a pile's
layers are unlike, `scraps` has an entry for each of them, else one.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import TypeVar

from piecewright.geometry.motion import Motion, Number
from piecewright.geometry.shapes import Rect, Segment
from piecewright.making.cloth import Scrap
from piecewright.making.steps import Axis
from piecewright.units.sizes import Unfinished

Scraps = tuple[tuple[Scrap, ...], ...]


@dataclass(frozen=True, slots=True)
class Laid:
    """One strip for each of `layers` layers, the `strip`-th (from 0) of the recipe.

    `whole`: it takes the full usable width, to be joined to others.
    """

    piece: str
    strip: int
    fabric: str
    width: Fraction
    length: Fraction
    grain: str
    least: bool
    layers: int
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Joined:
    """Pieces sewn: how each moved from its frame to the result's, where the seams lie in the result.

    `eased` is the most by which two edges differed; `stand_out` how far raw ends stand apart along the seam where
    points are matched; `plain` that edges were even and nothing was cut off or moved along the seam; `left_open` is
    the stretch of a partial seam that is not sewn, from its open end on.
    """

    piece: str
    pieces: tuple[str, ...]
    axis: Axis
    moves: tuple[Motion, ...]
    lines: tuple[Segment, ...]
    size: Rect
    eased: Number
    stand_out: Number
    plain: bool
    scraps: Scraps
    left_open: Segment | None = None

    @property
    def turned(self) -> bool:
        """Whether some piece was turned to be sewn."""
        return any(move.quarters or move.degrees for move in self.moves)

    @property
    def stitched(self) -> tuple[Segment, ...]:
        """What of the seams is sewn: of a partial one the rest."""
        if self.left_open is None:
            return self.lines
        (line,), stop = self.lines, self.left_open.end
        return (Segment(stop, line.end if self.left_open.start == line.start else line.start),)


@dataclass(frozen=True, slots=True)
class Severed:
    """A piece cut in parts: the lines; for cuts along an axis that axis, the parts' widths and the trim before.

    `angle` is how far the cuts lean, in degrees clockwise from square to the axis; widths and trim are then measured
    square to the cut.
    """

    piece: str
    made: str
    parts: tuple[str, ...]
    lines: tuple[Segment, ...]
    axis: Axis | None
    widths: tuple[Number, ...]
    trim: Fraction
    scraps: Scraps
    angle: float = 0.0


@dataclass(frozen=True, slots=True)
class Moved:
    """A piece turned; `layers` where only some layers of the stack were."""

    piece: str
    made: str
    motion: Motion
    layers: tuple[int, ...] | None


@dataclass(frozen=True, slots=True)
class Passed:
    """A part that a step passes on unchanged under a new name."""

    piece: str
    made: str


@dataclass(frozen=True, slots=True)
class Restacked:
    """The top `by` layers of a pile moved to its bottom."""

    piece: str
    made: str
    by: int


@dataclass(frozen=True, slots=True)
class Trimmed:
    """A piece squared up to a rectangle, given in its own frame, and the exact size that is left."""

    piece: str
    made: str
    rect: Rect
    size: Unfinished
    scraps: Scraps


@dataclass(frozen=True, slots=True)
class Faced:
    """The second of two pieces laid face down on the first and sewn to it.

    `came` brings the second from its frame (its box at 0, 0) to where it lies; `drawn` are the lines drawn, `stitches`
    the lines sewn, from edge to edge, in the frame of what is made.
    """

    pieces: tuple[str, str]
    made: str
    came: Motion
    drawn: tuple[Segment, ...]
    stitches: tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class Opened:
    """Two pieces sewn right sides together unfolded along the seam `line`; seams over tips are `picked` out first.

    Lines lie in the frame before.
    """

    piece: str
    made: str
    line: Segment
    picked: tuple[Segment, ...]
    scraps: Scraps


@dataclass(frozen=True, slots=True)
class Cornered:
    """A square laid face down on a corner of a piece, sewn from corner to corner, trimmed and folded open.

    `came` brings the square from its own frame to where it lies face down on the piece; in the frame of the piece
    `line` is the seam and `cut` runs beside it, where both are trimmed; `pair` is the seam of the pair cut off, where
    it is kept.
    """

    piece: str
    square: str
    made: str
    corner: str
    came: Motion
    line: Segment
    cut: Segment
    pair: Segment | None
    scraps: Scraps


@dataclass(frozen=True, slots=True)
class Looped:
    """A piece sewn into a tube along an axis; `line` is the seam, in the frame of the tube."""

    piece: str
    made: str
    axis: Axis
    line: Segment


@dataclass(frozen=True, slots=True)
class Unpicked:
    """The `seam`-th seam across a tube unpicked: `line`, in the frame of the tube."""

    piece: str
    made: str
    seam: int
    line: Segment


@dataclass(frozen=True, slots=True)
class Closed:
    """A partial seam finished along `line`, from where its stitches stopped to its open end, in the frame before."""

    piece: str
    made: str
    line: Segment
    scraps: Scraps


@dataclass(frozen=True, slots=True)
class Used:
    """A whole recipe made as the pieces `made`; what happened in it follows, its pieces named below the step's name.

    `scraps` are the pieces that it makes and does not use.
    """

    made: tuple[str, ...]
    recipe: str
    scraps: Scraps


@dataclass(frozen=True, slots=True)
class Pressed:
    """Seams of a step (`join` from 1; None: all) pressed one way, in some layers or all (None)."""

    seam: str
    join: int | None
    toward: str
    layers: tuple[int, ...] | None


Event = (
    Laid
    | Joined
    | Severed
    | Moved
    | Passed
    | Restacked
    | Trimmed
    | Pressed
    | Cornered
    | Faced
    | Opened
    | Looped
    | Unpicked
    | Closed
    | Used
)

Cutting = Joined | Severed | Trimmed | Cornered | Opened | Closed | Used
"""The events with scraps: cloth that falls off."""

E = TypeVar("E", bound=Event)


def first(events: Iterable[Event], kind: type[E]) -> E:
    """The first event of a kind; StopIteration where there is none, a fault of the program."""
    return next(event for event in events if isinstance(event, kind))

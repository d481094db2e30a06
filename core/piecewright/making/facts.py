"""What comes out of a making: the facts every other part of the program reads.

Lengths are inches, x right and y down; `Fraction` wherever a ruler is laid, `float` only past a slant.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from piecewright.geometry.motion import Motion, Number, Point
from piecewright.units.sizes import Finished, Unfinished
from piecewright.words.message import Message


@dataclass(frozen=True, slots=True)
class LaidStrip:
    """Strips to lay before sewing, per layer: `count` alike of one cut width and length."""

    fabric: str
    width: Fraction
    length: Fraction
    count: int
    grain: str
    least: bool


@dataclass(frozen=True, slots=True)
class SeenPatch:
    """One patch as seen in a finished block, origin at the finished top left, clockwise points.

    In block `j` of the stack a patch of layer `l` shows the letter's fabric `(j + l) mod stack`.
    `came` carries the strip as laid (its top left at 0, 0, length along x) to its place in the block,
    so that a print can run unbroken over what was one piece; `strip` numbers the laid strip it was cut from.
    """

    fabric: str
    layer: int
    points: tuple[Point, ...]
    grain_deg: float
    came: Motion
    strip: int


@dataclass(frozen=True, slots=True)
class BiasEdge:
    """A finished patch edge between 2 and 45 degrees off its nearest thread."""

    fabric: str
    length: Number
    degrees: float
    outer: bool
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class SeenSeam:
    """One segment of a seam as seen in a finished block, from its left (then upper) end to the other.

    `pressed` is the way it is pressed, in the block's frame; None where nothing was said.
    """

    step: str
    length: Number
    pressed: str | None
    start: Point
    end: Point


@dataclass(frozen=True, slots=True)
class Kind:
    """Blocks that come out alike."""

    blocks: tuple[str, ...]
    layers: tuple[int, ...]
    patches: tuple[SeenPatch, ...]
    area_by_fabric: Mapping[str, Number]
    bias_edges: tuple[BiasEdge, ...]
    seams: tuple[SeenSeam, ...]


@dataclass(frozen=True, slots=True)
class Ledger:
    """Where the cloth goes, square inches per layer and batch: laid = seen + allowance + waste."""

    laid: Number
    seen: Number
    allowance: Number
    waste: Number


@dataclass(frozen=True, slots=True)
class Lane:
    """One strip of a bed: its fabric letter, cut width and grain."""

    fabric: str
    width: Fraction
    grain: str


@dataclass(frozen=True, slots=True)
class Bed:
    """Strips sewn side by side along their length before anything is cut: what a strip set is made of.

    `length` is the run of cloth one batch takes, per layer; `cuts` are the lengths cut off along it, in order
    (empty where the whole bed is used uncut). A strip that is never sewn lengthwise is a bed of one lane.
    `whole` says that the recipe asked for the full usable width, so that beds can not share one set.
    `trims` says that the recipe itself trues the end; `trim` is what a square cut takes off it.
    """

    step: str
    lanes: tuple[Lane, ...]
    length: Fraction
    cuts: tuple[Fraction, ...]
    count: int
    whole: bool
    trims: bool
    trim: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class StepWarning:
    """Something to know about a step that still works."""

    code: str
    step: str
    message: Message


@dataclass(frozen=True, slots=True)
class Facts:
    """All that is known of a block once its making has been run; computed once per (recipe, given)."""

    name: str
    sizes: Mapping[str, Fraction]
    seam: Fraction
    stack: int
    unfinished: Unfinished
    finished: Finished
    blocks: int
    strips: tuple[LaidStrip, ...]
    beds: tuple[Bed, ...]
    kinds: tuple[Kind, ...]
    ledger: Ledger
    warnings: tuple[StepWarning, ...]

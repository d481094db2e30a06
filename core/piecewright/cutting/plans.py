"""A cutting plan in exact inches: strips, their sub-cuts, and which piece each gives."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.sheets import Direction, Sheet

NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class SubCut:
    """Equal columns side by side in a strip: each `width` along it, parted into `stack` pieces of `height`.

    `pieces` has keys and counts as they are dealt out, column by column; the last column may hold fewer.
    """

    width: Fraction
    height: Fraction
    stack: int
    pieces: tuple[tuple[str, int], ...]

    @property
    def count(self) -> int:
        """Pieces in all."""
        return sum(count for _, count in self.pieces)

    @property
    def columns(self) -> int:
        """Cuts across the strip."""
        return -(-self.count // self.stack)

    def keys(self) -> Iterator[str]:
        """The key of each piece in turn."""
        for key, count in self.pieces:
            yield from [key] * count


@dataclass(frozen=True, slots=True)
class Strip:
    """`count` strips of one height that are cut alike."""

    height: Fraction
    cuts: tuple[SubCut, ...]
    count: int = 1

    @property
    def used(self) -> Fraction:
        """Inches of its length that are cut up."""
        return sum((cut.width * cut.columns for cut in self.cuts), NOTHING)

    @property
    def columns(self) -> int:
        """Cuts across it."""
        return sum(cut.columns for cut in self.cuts)


@dataclass(frozen=True, slots=True)
class Laid:
    """`count` sheets cut alike, strip after strip.

    `direction` is how the strips run: "across" from selvage to selvage, "along" along the selvage.

    `source` is the place of the sheet in the job's cloth on hand; None: it is the cloth that costs. Off the
    bolt there is one, as long as its strips.
    """

    sheet: Sheet
    source: int | None
    direction: Direction
    strips: tuple[Strip, ...]
    count: int = 1

    @property
    def strip_length(self) -> Fraction:
        """How long each strip is, inches."""
        if self.direction == "across" or self.sheet.length is None:
            return self.sheet.width
        return self.sheet.length

    @property
    def room(self) -> Fraction | None:
        """How much all strips of one sheet may be high together; None off the bolt."""
        return self.sheet.length if self.direction == "across" else self.sheet.width

    @property
    def depth(self) -> Fraction:
        """How high all strips of one sheet are together."""
        return sum((strip.height * strip.count for strip in self.strips), NOTHING)


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """How a job is cut.

    `unplaced` are pieces larger than the cloth; `rounded` those cut larger than asked for, as they were and as
    they are cut. `bound` is the least amount that any plan of this kind can use, None where it is not known.
    `stopped`: the search was cancelled, a better plan may exist.
    """

    job: Job
    laid: tuple[Laid, ...]
    unplaced: tuple[Piece, ...] = ()
    rounded: tuple[tuple[Piece, Piece], ...] = ()
    bound: Fraction | None = None
    stopped: bool = False

    @property
    def amount(self) -> Fraction:
        """What it takes of the cloth that costs: inches off the bolt, or sheets."""
        bought = [laid for laid in self.laid if laid.source is None]
        if self.job.sheet.length is None:
            return sum((laid.depth for laid in bought), NOTHING)
        return Fraction(sum(laid.count for laid in bought))

    @property
    def proven(self) -> bool:
        """Whether no plan of this kind can use less."""
        return self.bound is not None and self.amount <= self.bound

    @property
    def pieces_cut(self) -> dict[str, Piece]:
        """Every piece that is placed, by its key, in the size it is cut."""
        cut = {piece.key: piece for piece in self.job.pieces if piece not in self.unplaced}
        return cut | {new.key: new for _, new in self.rounded}

    @property
    def heights(self) -> tuple[Fraction, ...]:
        """The different heights of strips, highest first."""
        return tuple(sorted({strip.height for laid in self.laid for strip in laid.strips}, reverse=True))

    def recount(self) -> Counter[str]:
        """How many of each piece the plan gives, counted from its sub-cuts."""
        counts: Counter[str] = Counter()
        for laid in self.laid:
            for strip in laid.strips:
                for cut in strip.cuts:
                    for key, count in cut.pieces:
                        counts[key] += count * strip.count * laid.count
        return counts

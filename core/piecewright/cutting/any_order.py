"""A second plan for few pieces: strips first, then straight cuts in any order, where that takes less cloth."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.placed import PlacedPiece, PlacedSheet, PlacedStrip, Rectangle
from piecewright.units.sizes import Cut
from piecewright.words.message import Message, message

MOST_PIECES = 60
"""With more pieces there is little to win: strips of equal columns leave next to nothing then."""
STARTS = 100
NOTHING = Fraction(0)


@dataclass(frozen=True, slots=True)
class StraightCut:
    """One cut right through a rectangle, `at` inches from its left edge, or `across` it from its upper edge."""

    of: Rectangle
    across: bool
    at: Fraction


@dataclass(frozen=True, slots=True)
class Section:
    """One strip from selvage to selvage and the cuts that part it, in their order, into pieces and rests."""

    place: Rectangle
    cuts: tuple[StraightCut, ...]
    pieces: tuple[PlacedPiece, ...]
    rests: tuple[Rectangle, ...]


@dataclass(frozen=True, slots=True)
class AnyOrderPlan:
    """A job off the bolt cut in any order of straight cuts; `amount` is in inches. No bound is known for it."""

    job: Job
    sections: tuple[Section, ...]

    @property
    def amount(self) -> Fraction:
        """Inches off the bolt."""
        return sum((section.place.height for section in self.sections), NOTHING)

    @property
    def sheet(self) -> PlacedSheet:
        """The cloth as drawn."""
        width = self.job.sheet.width
        return PlacedSheet(
            sheet=self.job.sheet,
            count=1,
            direction="across",
            outline=Rectangle(NOTHING, NOTHING, width, self.amount),
            fold=width / 2,
            strips=tuple(PlacedStrip(each.place, each.pieces, each.rests) for each in self.sections),
            left_over=(),
        )


def any_order_plan(job: Job, cancelled: Callable[[], bool] = lambda: False) -> AnyOrderPlan | None:
    """The best of a fixed number of seeded starts; None for many pieces, other cloth than the bolt, or on hand.

    For a thread of its own; once `cancelled`, the best so far.

    Every start takes the pieces in another order and lays each where it leaves least, in a rest or a new strip;
    what is kept for truing in a job is kept here of every strip.
    """
    pieces = [piece for piece in job.pieces for _ in range(min(piece.count, MOST_PIECES + 1))]
    fits = all(piece.lies[0][0] <= job.sheet.width for piece in pieces)
    if not pieces or len(pieces) >= MOST_PIECES or job.on_hand or job.sheet.length is not None or not fits:
        return None
    random = Random(len(pieces))  # noqa: S311 - a search, no secret
    best = _start(job, pieces, None)
    for _ in range(STARTS):
        if cancelled():
            break
        best = min(best, _start(job, pieces, random), key=lambda plan: plan.amount)
    return best


def cuts_said(plan: AnyOrderPlan) -> Iterator[Message]:
    """Every cut in its order, strip by strip, as it is said at the table."""
    for section in plan.sections:
        yield message("cutting.order-strip", height=section.place.height)
        for cut in section.cuts:
            size = Cut(cut.of.width, cut.of.height)
            code = "cutting.order-along" if cut.across else "cutting.order-across"
            yield message(code, size=size, at=cut.at)


class _Strip:
    """A strip while it is filled: rests that are still free, cuts so far, pieces."""

    def __init__(self, width: Fraction, y: Fraction, height: Fraction) -> None:
        self.place = Rectangle(NOTHING, y, width, height)
        self.free = [self.place]
        self.cuts: list[StraightCut] = []
        self.pieces: list[PlacedPiece] = []

    def lay(
        self, piece: Piece, size: tuple[Fraction, Fraction], rest: Rectangle, *, across_first: bool
    ) -> None:
        """Cut a piece from the upper left of a rest, by one cut or two, the longer one first."""
        width, height = size
        self.free.remove(rest)
        self.pieces.append(PlacedPiece(piece.key, piece.label, Rectangle(rest.x, rest.y, width, height)))
        order = (True, False) if across_first else (False, True)
        here = rest
        for across in order:
            whole = here.height if across else here.width
            at = height if across else width
            if at == whole:
                continue
            self.cuts.append(StraightCut(here, across, at))
            if across:
                self.free.append(Rectangle(here.x, here.y + at, here.width, here.height - at))
                here = Rectangle(here.x, here.y, here.width, at)
            else:
                self.free.append(Rectangle(here.x + at, here.y, here.width - at, here.height))
                here = Rectangle(here.x, here.y, at, here.height)


def _start(job: Job, pieces: list[Piece], random: Random | None) -> AnyOrderPlan:
    """One start: by falling height where there is no `random`, else in an order that is shaken a little."""

    def rank(piece: Piece) -> tuple[float, float]:
        width, height = piece.lies[0]
        shake = random.uniform(0.7, 1.3) if random else 1.0
        return -float(height) * shake, -float(width)

    strips: list[_Strip] = []
    depth = NOTHING
    room = job.sheet.width - job.reserve
    for piece in sorted(pieces, key=rank):
        found = min(_places(strips, piece), key=lambda each: each[0], default=None)
        if found is None:
            width, height = piece.lies[0]
            strip = _Strip(max(room, width), depth, height)
            strips.append(strip)
            depth += height
            found = (NOTHING, strip, strip.place, (width, height))
        _, strip, rest, size = found
        across_first = random.random() < 0.5 if random else rest.width - size[0] < rest.height - size[1]
        strip.lay(piece, size, rest, across_first=across_first)
    return AnyOrderPlan(job, tuple(_section(strip, job.sheet.width) for strip in strips))


def _places(
    strips: list[_Strip], piece: Piece
) -> Iterator[tuple[Fraction, _Strip, Rectangle, tuple[Fraction, Fraction]]]:
    """Every rest that holds a piece, with what is left of the rest's shorter side."""
    for strip in strips:
        for rest in strip.free:
            for size in piece.lies:
                beside, above = rest.width - size[0], rest.height - size[1]
                if beside >= 0 and above >= 0:
                    yield min(beside, above), strip, rest, size


def _section(strip: _Strip, width: Fraction) -> Section:
    """A strip as it is told; what was kept of it for truing is a rest at its end."""
    kept = width - strip.place.width
    place = Rectangle(NOTHING, strip.place.y, width, strip.place.height)
    end = [Rectangle(strip.place.width, place.y, kept, place.height)] if kept else []
    cuts = [StraightCut(place, across=False, at=strip.place.width)] if kept else []
    return Section(place, (*cuts, *strip.cuts), tuple(strip.pieces), (*strip.free, *end))

"""A plan as rectangles on the cloth, ready to be drawn: pieces, left-overs, strips and the fold."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.plans import NOTHING, CuttingPlan, Laid, Strip
from piecewright.cutting.sheets import Direction, Sheet
from piecewright.cutting.truing import is_trued, trim_before
from piecewright.words.message import Message


@dataclass(frozen=True, slots=True)
class Rectangle:
    """Inches on the cloth: `x` from selvage to selvage, `y` along the selvage."""

    x: Fraction
    y: Fraction
    width: Fraction
    height: Fraction

    @property
    def turned(self) -> "Rectangle":
        """With both directions exchanged."""
        return Rectangle(self.y, self.x, self.height, self.width)


@dataclass(frozen=True, slots=True)
class PlacedPiece:
    """One piece on the cloth, with the words that stand on it."""

    key: str
    label: str | Message
    place: Rectangle


@dataclass(frozen=True, slots=True)
class PlacedStrip:
    """One strip on the cloth: its pieces, what is left over of it as whole rectangles, and what truing takes."""

    place: Rectangle
    pieces: tuple[PlacedPiece, ...]
    left_over: tuple[Rectangle, ...]
    trims: tuple[Rectangle, ...] = ()


@dataclass(frozen=True, slots=True)
class PlacedSheet:
    """`count` sheets that look alike: outline, strips, what is left below them, and where cloth is folded.

    `fold` is the `x` of the fold of cloth that lies selvage on selvage; None for cloth that is cut flat.
    """

    sheet: Sheet
    count: int
    direction: Direction
    outline: Rectangle
    fold: Fraction | None
    strips: tuple[PlacedStrip, ...]
    left_over: tuple[Rectangle, ...]


def placed_sheets(plan: CuttingPlan) -> tuple[PlacedSheet, ...]:
    """Every sheet of a plan, as drawn."""
    pieces = plan.pieces_cut
    return tuple(_sheet(laid, pieces, plan.job) for laid in plan.laid)


def _sheet(laid: Laid, pieces: dict[str, Piece], job: Job) -> PlacedSheet:
    strips: list[PlacedStrip] = []
    at = NOTHING
    for strip in laid.strips:
        for _ in range(strip.count):
            strips.append(_strip(strip, at, laid, pieces, job))
            at += strip.height
    room = at if laid.room is None else laid.room
    rest = [Rectangle(NOTHING, at, laid.strip_length, room - at)] if room > at else []
    return PlacedSheet(
        sheet=laid.sheet,
        count=laid.count,
        direction=laid.direction,
        outline=_seen(Rectangle(NOTHING, NOTHING, laid.strip_length, room), laid),
        fold=laid.sheet.width / 2 if laid.sheet.kind == "bolt" else None,
        strips=tuple(strips),
        left_over=tuple(_seen(each, laid) for each in rest),
    )


def _strip(strip: Strip, y: Fraction, laid: Laid, pieces: dict[str, Piece], job: Job) -> PlacedStrip:
    placed: list[PlacedPiece] = []
    left_over: list[Rectangle] = []
    trims: list[Rectangle] = []
    x, columns = NOTHING, 0
    truing = job.truing if is_trued(job, laid, strip) else None
    for cut in strip.cuts:
        keys = tuple(cut.keys())
        for first in range(0, len(keys), cut.stack):
            off = trim_before(truing, columns) if truing else NOTHING
            if off:
                trims.append(Rectangle(x, y, off, strip.height))
            x, columns = x + off, columns + 1
            stacked = keys[first : first + cut.stack]
            for up, key in enumerate(stacked):
                place = Rectangle(x, y + up * cut.height, cut.width, cut.height)
                placed.append(PlacedPiece(key, pieces[key].label, _seen(place, laid)))
            top = len(stacked) * cut.height
            _add_beside(left_over, Rectangle(x, y + top, cut.width, strip.height - top))
            x += cut.width
    left_over.append(Rectangle(x, y, laid.strip_length - x, strip.height))
    return PlacedStrip(
        place=_seen(Rectangle(NOTHING, y, laid.strip_length, strip.height), laid),
        pieces=tuple(placed),
        left_over=tuple(_seen(each, laid) for each in left_over if each.width and each.height),
        trims=tuple(_seen(each, laid) for each in trims),
    )


def _add_beside(rests: list[Rectangle], rest: Rectangle) -> None:
    """What a column leaves of its strip; beside an equal one it is one trim."""
    if rests:
        last = rests[-1]
        if (last.y, last.height, last.x + last.width) == (rest.y, rest.height, rest.x):
            rests[-1] = Rectangle(last.x, last.y, last.width + rest.width, last.height)
            return
    rests.append(rest)


def _seen(place: Rectangle, laid: Laid) -> Rectangle:
    """A place from the strips' view as it lies on the cloth."""
    return place if laid.direction == "across" else place.turned

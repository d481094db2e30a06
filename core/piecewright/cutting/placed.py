"""A plan as rectangles on the cloth, ready to be drawn: pieces, left-overs, strips and the fold."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.cutting.pieces import Piece
from piecewright.cutting.plans import NOTHING, CuttingPlan, Laid, Strip, SubCut
from piecewright.cutting.sheets import Direction, Sheet
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
    """One strip on the cloth: its pieces, and what is left over of it as whole rectangles."""

    place: Rectangle
    pieces: tuple[PlacedPiece, ...]
    left_over: tuple[Rectangle, ...]


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
    return tuple(_sheet(laid, pieces) for laid in plan.laid)


def _sheet(laid: Laid, pieces: dict[str, Piece]) -> PlacedSheet:
    strips: list[PlacedStrip] = []
    at = NOTHING
    for strip in laid.strips:
        for _ in range(strip.count):
            strips.append(_strip(strip, at, laid, pieces))
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


def _strip(strip: Strip, y: Fraction, laid: Laid, pieces: dict[str, Piece]) -> PlacedStrip:
    placed: list[PlacedPiece] = []
    left_over: list[Rectangle] = []
    x = NOTHING
    for cut in strip.cuts:
        for key, place in _places(cut, x, y):
            placed.append(PlacedPiece(key, pieces[key].label, _seen(place, laid)))
        left_over += _beside(cut, x, y, strip.height)
        x += cut.columns * cut.width
    left_over.append(Rectangle(x, y, laid.strip_length - x, strip.height))
    return PlacedStrip(
        place=_seen(Rectangle(NOTHING, y, laid.strip_length, strip.height), laid),
        pieces=tuple(placed),
        left_over=tuple(_seen(each, laid) for each in left_over if each.width and each.height),
    )


def _places(cut: SubCut, x: Fraction, y: Fraction) -> Iterator[tuple[str, Rectangle]]:
    """Where the pieces of a sub-cut lie, column by column, each column from its strip's first edge on."""
    for place, key in enumerate(cut.keys()):
        column, up = divmod(place, cut.stack)
        yield key, Rectangle(x + column * cut.width, y + up * cut.height, cut.width, cut.height)


def _beside(cut: SubCut, x: Fraction, y: Fraction, height: Fraction) -> Iterator[Rectangle]:
    """What columns leave of their strip: one trim of all full columns, and the rest of one that is not full."""
    full, more = divmod(cut.count, cut.stack)
    for columns, stacked, at in ((full, cut.stack, x), (1, more, x + full * cut.width)):
        if columns and stacked:
            top = stacked * cut.height
            yield Rectangle(at, y + top, columns * cut.width, height - top)


def _seen(place: Rectangle, laid: Laid) -> Rectangle:
    """A place from the strips' view as it lies on the cloth."""
    return place if laid.direction == "across" else place.turned

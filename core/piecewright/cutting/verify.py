"""Counts a plan again from its rectangles: an independent check that shares nothing with the solvers."""

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from fractions import Fraction

from piecewright.cutting.placed import PlacedPiece, PlacedSheet, Rectangle, placed_sheets
from piecewright.cutting.plans import CuttingPlan
from piecewright.words.message import Message, message

Axis = Callable[[Rectangle], tuple[Fraction, Fraction]]


def verify(plan: CuttingPlan) -> tuple[Message, ...]:
    """Every fault of a plan; none for a sound one.

    Each piece is there as often as it is asked for, in its size and an allowed turn; none leaves the cloth or
    lies on another; straight cuts right through part them: strips, then sub-cuts, then stacks of allowed
    height; no more sheets are used than there are.
    """
    return tuple(_faults(plan))


def _faults(plan: CuttingPlan) -> Iterator[Message]:
    yield from _miscounted(plan)
    used: Counter[int] = Counter()
    for laid in plan.laid:
        if laid.source is not None:
            used[laid.source] += laid.count
    for source, count in used.items():
        if count > plan.job.on_hand[source].count:
            yield message("cutting.fault-stock", used=count, there=plan.job.on_hand[source].count)
    for sheet in placed_sheets(plan):
        yield from _on_sheet(plan, sheet)


def _miscounted(plan: CuttingPlan) -> Iterator[Message]:
    counts: Counter[str] = Counter()
    for sheet in placed_sheets(plan):
        for strip in sheet.strips:
            for piece in strip.pieces:
                counts[piece.key] += sheet.count
    wanted = plan.job.demand
    for left_out in plan.unplaced:
        del wanted[left_out.key]
    for key in sorted({*counts, *wanted}):
        if counts[key] != wanted[key]:
            yield message("cutting.fault-count", piece=key, cut=counts[key], wanted=wanted[key])


def _on_sheet(plan: CuttingPlan, sheet: PlacedSheet) -> Iterator[Message]:
    pieces = [piece for strip in sheet.strips for piece in strip.pieces]
    cut = plan.pieces_cut
    for piece in pieces:
        if piece.key not in cut or (piece.place.width, piece.place.height) not in cut[piece.key].lies:
            yield message("cutting.fault-size", piece=piece.key)
        if not _inside(piece.place, sheet):
            yield message("cutting.fault-outside", piece=piece.key)
    along, across = (_up, _over) if sheet.direction == "across" else (_over, _up)
    for strip in parted(pieces, along):
        for column in parted(strip, across):
            yield from _in_column(plan, column, along)


def _inside(place: Rectangle, sheet: PlacedSheet) -> bool:
    length = sheet.outline.height if sheet.sheet.length is None else sheet.sheet.length
    over = place.x + place.width <= sheet.sheet.width and place.y + place.height <= length
    return over and place.x >= 0 and place.y >= 0


def _in_column(plan: CuttingPlan, column: Sequence[PlacedPiece], along: Axis) -> Iterator[Message]:
    """Pieces of one column must come apart by cuts across it, and be equal and no more than may be stacked."""
    parts = parted(column, along)
    for part in parts:
        if len(part) > 1:
            yield message("cutting.fault-overlap", pieces=tuple(piece.key for piece in part))
    sizes = {(piece.place.width, piece.place.height) for piece in column}
    if len(column) > plan.job.stack or len(sizes) > 1:
        yield message("cutting.fault-stack", pieces=tuple(piece.key for piece in column))


def _over(place: Rectangle) -> tuple[Fraction, Fraction]:
    return place.x, place.x + place.width


def _up(place: Rectangle) -> tuple[Fraction, Fraction]:
    return place.y, place.y + place.height


def parted(pieces: Sequence[PlacedPiece], axis: Axis) -> list[list[PlacedPiece]]:
    """The pieces in parts between which a straight cut can go right through, in the order of an axis."""
    parts: list[list[PlacedPiece]] = []
    end = Fraction(0)
    for piece in sorted(pieces, key=lambda piece: axis(piece.place)):
        low, high = axis(piece.place)
        if not parts or low >= end:
            parts.append([])
        parts[-1].append(piece)
        end = max(end, high)
    return parts

"""Lines drawn on a piece from one of its sides to another, to slice or to sew on."""

from fractions import Fraction
from math import hypot

from piecewright.geometry.half import right_hand
from piecewright.geometry.motion import Point
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE, TOUCH, passes
from piecewright.making.cloth import Cloth
from piecewright.making.edges import edge, line
from piecewright.making.expressions import Expression
from piecewright.making.steps import Side
from piecewright.making.table import Hand
from piecewright.words.message import message

End = tuple[Side, Expression]
"""A side, and the distance along it: from the left on top and bottom, from the top on left and right."""


def drawn_line(cloth: Cloth, ends: tuple[End, End], keys: tuple[str, str], hand: Hand) -> Segment:
    """The line between two ends on different sides, in the piece's kept frame. Raises MakingError where it is none.

    `keys` are the places of the ends in the step.
    """
    if ends[0][0] == ends[1][0]:
        raise hand.fault("same-side", keys[1], message("making.other-side"), side=ends[0][0])
    start, end = (_end(cloth, end, key, hand) for end, key in zip(ends, keys, strict=True))
    return Segment(start, end)


def _end(cloth: Cloth, end: End, key: str, hand: Hand) -> Point:
    """The point of a side at a distance along it, in the piece's kept frame."""
    side, distance = end[0], hand.value(end[1], f"{key}[1]")
    axis = 0 if side in ("top", "bottom") else 1
    sides = [found for found in (line(cloth, side), edge(cloth, side)) if found is not None]
    for found in sides:
        if not (passes(found.start[axis], distance) or passes(distance, found.end[axis])):
            return _at(found, distance, axis)
    if not sides:
        piece = next(iter(hand.taken))
        hint = message("making.square-it-first")
        raise hand.fault("side-not-straight", f"{key}[0]", hint, piece=piece, side=side)
    reach = (min(found.start[axis] for found in sides), max(found.end[axis] for found in sides))
    hint = message("making.side-runs", side=side, start=reach[0], end=reach[1])
    raise hand.fault("off-side", f"{key}[1]", hint, distance=distance, side=side)


def _at(side: Segment, value: Fraction, axis: int) -> Point:
    """The point of a line where one coordinate has a value."""
    (x1, y1), (x2, y2) = side.start, side.end
    if axis == 0:
        return (value, y1 if y1 == y2 else y1 + (y2 - y1) * (value - x1) / (x2 - x1))
    return (x1 if x1 == x2 else x1 + (x2 - x1) * (value - y1) / (y2 - y1), value)


def chords(cloth: Cloth, drawn: Segment) -> list[Segment]:
    """Where the endless line through two points runs over what is seen of a cloth: exact where all is square to x, y.

    A line that only touches the cloth's outline from outside, or runs along it, has no chord.
    """
    if cloth.whole and not (run_of(drawn) and rise_of(drawn)):
        return _square_chord(cloth, drawn)
    length = hypot(run_of(drawn), rise_of(drawn))
    ux, uy = run_of(drawn) / length, rise_of(drawn) / length
    spans: list[tuple[float, float]] = []
    for patch in cloth.patches:
        span = _span(patch.seen.points, drawn, (ux, uy))
        if span is not None:
            spans.append(span)
    x, y = float(drawn.start[0]), float(drawn.start[1])
    return [
        Segment((x + ux * low, y + uy * low), (x + ux * high, y + uy * high)) for low, high in _merged(spans)
    ]


def run_of(drawn: Segment) -> float:
    """How far a line runs to the right."""
    return float(drawn.end[0] - drawn.start[0])


def rise_of(drawn: Segment) -> float:
    """How far a line runs down."""
    return float(drawn.end[1] - drawn.start[1])


def _square_chord(cloth: Cloth, drawn: Segment) -> list[Segment]:
    """The chord of a level or upright line over a whole rectangle."""
    box, (x, y) = cloth.box, drawn.start
    if run_of(drawn):
        inside = passes(y, box.top) and passes(box.bottom, y)
        return [Segment((box.left, y), (box.right, y))] if inside else []
    inside = passes(x, box.left) and passes(box.right, x)
    return [Segment((x, box.top), (x, box.bottom))] if inside else []


def _span(
    points: tuple[Point, ...], drawn: Segment, along: tuple[float, float]
) -> tuple[float, float] | None:
    """From where to where a line lies in a convex patch, inches from its start (the Cyrus-Beck clip)."""
    low, high = float("-inf"), float("inf")
    for start, end in zip(points, (*points[1:], points[0]), strict=True):
        if hypot(float(end[0] - start[0]), float(end[1] - start[1])) <= TOUCH:
            continue
        half = right_hand(start, end)
        outside = float(half.distance(drawn.start))
        slope = float(half.x_part) * along[0] + float(half.y_part) * along[1]
        if abs(slope) <= TOUCH:
            if outside > TOUCH:
                return None
        elif slope > 0:
            high = min(high, -outside / slope)
        else:
            low = max(low, -outside / slope)
    return (low, high) if high - low > ALIKE else None


def _merged(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """Spans that touch or overlap, as one each, in order."""
    found: list[tuple[float, float]] = []
    for low, high in sorted(spans):
        if found and low <= found[-1][1] + ALIKE:
            found[-1] = (found[-1][0], max(found[-1][1], high))
        else:
            found.append((low, high))
    return found

"""The four edges of a piece, as a seam or a slice meets them."""

from math import atan2, degrees, hypot

from piecewright.geometry.half import right_hand
from piecewright.geometry.motion import Number, Point
from piecewright.geometry.shapes import Rect, Segment
from piecewright.geometry.tolerance import ALIKE, alike, same
from piecewright.making.cloth import Cloth
from piecewright.making.steps import Side

_ENDS: dict[Side, tuple[int, bool]] = {
    "right": (1, True),
    "left": (1, False),
    "bottom": (0, True),
    "top": (0, False),
}
"""For each side: the axis between whose outermost lines it runs, and whether it takes the far end of those lines."""


def edge(cloth: Cloth, side: Side) -> Segment | None:
    """A side as one straight segment, from the top down or from left to right; None where it is not one.

    The right side runs from the right end of the topmost line to the right end of the lowest, and likewise the others.
    """
    if cloth.whole:
        return box_edge(cloth.box, side)
    axis, far = _ENDS[side]
    points = _corners(cloth)
    start = _end_of_line(points, axis, far, last=False)
    end = _end_of_line(points, axis, far, last=True)
    segment = Segment(start, end)
    return segment if is_outline(cloth, segment, far == bool(axis)) else None


def line(cloth: Cloth, side: Side) -> Segment | None:
    """The outermost line on a side, square to the frame; None where the piece comes to a point or is broken there."""
    if cloth.whole:
        return box_edge(cloth.box, side)
    axis, far = _ENDS[side]
    across = 1 - axis
    points = _corners(cloth)
    outermost = (max if far else min)(point[across] for point in points)
    on_line = [point for point in points if same(point[across], outermost)]
    start, end = min(on_line, key=lambda point: point[axis]), max(on_line, key=lambda point: point[axis])
    if end[axis] - start[axis] <= ALIKE:
        return None
    segment = Segment(start, end)
    return segment if is_outline(cloth, segment, far == bool(axis)) else None


OUTWARD: dict[Side, tuple[int, int]] = {"left": (-1, 0), "right": (1, 0), "top": (0, -1), "bottom": (0, 1)}
"""The way in which each side looks."""


def facing(cloth: Cloth, side: Side) -> Segment | None:
    """The edge of a piece that looks most to a side, clockwise round it: of those cut last, else the side itself.

    None where none of those cut looks there and the side is not one straight segment.
    """
    across, down = OUTWARD[side]

    def looks(cut: Segment) -> float:
        half = right_hand(cut.start, cut.end)
        return float(half.x_part * across + half.y_part * down)

    best = max(cloth.cut_edges, key=looks, default=None)
    if best is not None and looks(best) > ALIKE:
        return best
    return clockwise_edge(cloth, side)


def clockwise_edge(cloth: Cloth, side: Side) -> Segment | None:
    """A side as one straight segment, clockwise round the piece; None where it is not one."""
    found = edge(cloth, side)
    return found and _clockwise(found, side)


def clockwise_line(cloth: Cloth, side: Side) -> Segment | None:
    """The outermost line on a side, clockwise round the piece; None where the piece is broken there."""
    found = line(cloth, side)
    return found and _clockwise(found, side)


def _clockwise(found: Segment, side: Side) -> Segment:
    return found if side in ("top", "right") else Segment(found.end, found.start)


def outward_degrees(clockwise: Segment) -> float:
    """The direction in which an edge looks, clockwise degrees from x."""
    half = right_hand(clockwise.start, clockwise.end)
    return degrees(atan2(half.y_part, half.x_part))


SIDE_DEGREES: dict[Side, int] = {"right": 0, "bottom": 90, "left": 180, "top": 270}
"""The direction in which a side of a rectangle looks, clockwise degrees from x."""


def box_edge(box: Rect, side: Side) -> Segment:
    """A side of a rectangle, from the top down or from left to right."""
    top_left, top_right, bottom_right, bottom_left = box.points
    match side:
        case "top":
            return Segment(top_left, top_right)
        case "bottom":
            return Segment(bottom_left, bottom_right)
        case "left":
            return Segment(top_left, bottom_left)
    return Segment(top_right, bottom_right)


def _corners(cloth: Cloth) -> list[Point]:
    return [point for patch in cloth.patches for point in patch.seen.points]


def _end_of_line(points: list[Point], axis: int, far: bool, *, last: bool) -> Point:
    """The end of the first (or last) line along an axis: its far or near end in the other direction."""
    outermost = (max if last else min)(point[axis] for point in points)
    on_line = [point for point in points if same(point[axis], outermost)]
    return (max if far else min)(on_line, key=lambda point: point[1 - axis])


def is_outline(cloth: Cloth, segment: Segment, cloth_on_right: bool) -> bool:
    """Whether no cloth lies beyond a line and patches border on all of it."""
    start, end = (segment.start, segment.end) if cloth_on_right else (segment.end, segment.start)
    if start == end:
        return False
    half = right_hand(start, end)
    bordered: Number = 0
    for patch in cloth.patches:
        corners = patch.seen.points
        distances = [half.distance(corner) for corner in corners]
        if max(distances) > ALIKE:
            return False
        for index, corner in enumerate(corners):
            if alike(distances[index], 0.0) and alike(distances[index - 1], 0.0):
                before = corners[index - 1]
                bordered += hypot(corner[0] - before[0], corner[1] - before[1])
    return alike(bordered, segment.length)

"""What lies between the blocks and at the edge of a setting: sashes, cornerstones, setting triangles."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import product
from math import sqrt
from typing import Literal, NamedTuple

import numpy as np
from numpy.typing import NDArray

from piecewright.geometry.half import Half
from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.geometry.shapes import Ring
from piecewright.model.frame import Frame
from piecewright.model.setting import Sashing, Triangles
from piecewright.plan.keys import UNCHOSEN
from piecewright.plan.parts import Part, PartPlan, merged
from piecewright.plan.rects import Rect, corners
from piecewright.plan.stage import stage
from piecewright.units.rounding import up_to
from piecewright.units.sizes import Cut, Finished
from piecewright.words.message import message

_ROOT = sqrt(2)
_EIGHTH = up_to(Fraction(1, 8))
UPRIGHT = 1
"""Quarter turns of a strip that lies upright."""


@dataclass(frozen=True, slots=True)
class LaidPart:
    """A part where it lies.

    `rect` is in the frame of the blocks (of a part cut by the edge of the quilt the square it begins in), `points` its
    outline in finished inches from the quilt's top left, `came` how its cloth came there from the ruler.
    `row` is the slanted row it is sewn into, and on point a sash between rows has the half number between them; None
    in a straight setting, and for the corners at both ends of the rows.
    """

    part: Part
    fabric: str
    rect: Rect
    points: tuple[Point, ...]
    came: Motion
    row: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Between:
    """All such parts of a quilt where they lie, and what they are cut as."""

    laid: tuple[LaidPart, ...]
    plans: tuple[PartPlan, ...]


@stage(keep=64)
def between(frame: Frame, triangles: Triangles, seam: Fraction, left: Fraction, top: Fraction) -> Between:
    """The parts of a setting whose center begins at `left`, `top` of the quilt."""
    if frame.on_point:
        return _OnPoint(frame, triangles, seam, frame.motion.moved(left, top)).between()
    if frame.sashing is None:
        return Between((), ())
    laid = tuple(_straight(frame, frame.sashing, left, top))
    return Between(laid, tuple(merged(_rect_plan(part, seam) for part in laid)))


def rect_part(
    part: Part, fabric: str, rect: Rect, motion: Motion = STILL, row: Fraction | None = None
) -> LaidPart:
    """A part that is a rectangle of the blocks' frame, its cloth's width along its longer side.

    `motion` is that of the layout: none, or the turn of a setting on point.
    """
    upright = rect.height > rect.width
    quarters = UPRIGHT if upright else 0
    start = (rect.x + rect.width, rect.y) if upright else (rect.x, rect.y)
    if motion is STILL:
        came = Motion(quarters=quarters, dx=start[0], dy=start[1])
        return LaidPart(part, fabric, rect, corners(rect), came, row)
    points = tuple(_slanted(motion, point) for point in corners(rect))
    x, y = _slanted(motion, start)
    return LaidPart(part, fabric, rect, points, Motion(quarters, motion.degrees, dx=x, dy=y), row)


def _slanted(motion: Motion, point: Point) -> tuple[float, float]:
    """Where a turn by 45 degrees and a move carry a point: `Motion.apply`, for thousands of them."""
    x, y = float(point[0]), float(point[1])
    return ((x - y) / _ROOT + float(motion.dx), (x + y) / _ROOT + float(motion.dy))


@stage(keep=1024)
def rect_plan(part: Part, fabric: str, width: Fraction, height: Fraction, seam: Fraction) -> PartPlan:
    """A rectangle cut with its seam allowance, its longer side first."""
    short, long = sorted((width, height))
    size = Finished(long, short)
    why = message("plan.part-why", size=size, cut=size.cut(seam))
    return PartPlan(part, fabric, 1, size, size.cut(seam), 1, why)


def _rect_plan(laid: LaidPart, seam: Fraction) -> PartPlan:
    return rect_plan(laid.part, laid.fabric, laid.rect.width, laid.rect.height, seam)


class _Boxes:
    """The boxes of tuples of parts, kept for the few in use; found by identity."""

    def __init__(self) -> None:
        self._kept: dict[int, tuple[tuple[LaidPart, ...], NDArray[np.float64]]] = {}

    def of(self, parts: tuple[LaidPart, ...]) -> NDArray[np.float64]:
        known = self._kept.get(id(parts))
        if known is not None and known[0] is parts:
            return known[1]
        boxes = np.zeros((len(parts), 4))
        for index, part in enumerate(parts):
            across, down = zip(*part.points, strict=True)
            boxes[index] = (float(min(across)), float(min(down)), float(max(across)), float(max(down)))
        while len(self._kept) >= _MOST_BOXES:
            del self._kept[next(iter(self._kept))]
        self._kept[id(parts)] = (parts, boxes)
        return boxes


_MOST_BOXES = 8
_BOXES = _Boxes()


def boxes_of(parts: tuple[LaidPart, ...]) -> NDArray[np.float64]:
    """Left, top, right and bottom of every part in float inches of the quilt (n x 4); kept once asked for."""
    return _BOXES.of(parts)


class _Band(NamedTuple):
    """A strip of the center across or down: sashing or spaces, where it begins and how long it is."""

    start: Fraction
    length: Fraction
    sash: bool = False


def _bands(length: Fraction, space: Fraction, sash: Fraction, *, outside: bool) -> list[_Band]:
    """Sashing and spaces by turns; without sashing one space. The last space may be cut short."""
    if not sash:
        return [_Band(Fraction(0), length)]
    at = Fraction(0)
    end = length - sash if outside else length
    bands: list[_Band] = []
    if outside:
        bands.append(_Band(at, sash, sash=True))
        at = sash
    while at < end:
        wide = min(space, end - at)
        bands.append(_Band(at, wide))
        at += wide
        if at < end or outside:
            bands.append(_Band(at, sash, sash=True))
            at += sash
    return bands


def _straight(frame: Frame, sashing: Sashing, left: Fraction, top: Fraction) -> Iterator[LaidPart]:
    size = frame.size
    out = sashing.outside
    across = _bands(Fraction(size.width), frame.space_width, sashing.columns, outside=out)
    down = _bands(Fraction(size.height), frame.space_height, sashing.rows, outside=out)
    for part, x, y in _pieces(sashing, across, down, Fraction(size.width), Fraction(size.height)):
        fabric = sashing.cornerstones if part == "cornerstone" else sashing.fabric
        rect = Rect(left + x.start, top + y.start, x.length, y.length)
        yield rect_part(part, fabric or sashing.fabric, rect)


def _pieces(
    sashing: Sashing, across: list[_Band], down: list[_Band], width: Fraction, height: Fraction
) -> Iterator[tuple[Part, _Band, _Band]]:
    """Every sash and cornerstone by its bands; without cornerstones the long ones run from edge to edge."""
    if sashing.cornerstones is not None:
        for y, x in product(down, across):
            if x.sash or y.sash:
                yield ("cornerstone" if x.sash and y.sash else "sash"), x, y
        return
    rows_long = sashing.long == "rows"
    between_rows = [_Band(Fraction(0), width)] if rows_long else [x for x in across if not x.sash]
    between_columns = [y for y in down if not y.sash] if rows_long else [_Band(Fraction(0), height)]
    for y in down:
        if y.sash:
            yield from (("sash", x, y) for x in between_rows)
    for x in across:
        if x.sash:
            yield from (("sash", x, y) for y in between_columns)


Edge = Literal["side-triangle", "corner-triangle", "edge-cornerstone", "sash"]


class _OnPoint:
    """The parts of a setting on point: the slanted rows one after the other, sashing between them, then the corners.

    What lies in a row beyond its blocks, up to the edge of the quilt, is one piece.
    """

    def __init__(self, frame: Frame, triangles: Triangles, seam: Fraction, motion: Motion) -> None:
        self.frame, self.triangles, self.seam, self.motion = frame, triangles, seam, motion
        self.fabric = triangles.fabric or f"{UNCHOSEN}triangles"
        self.side, self.sash, self.step = frame.space_width, frame.sash_columns, frame.step
        size = frame.size
        left, top = _start(frame, motion)
        right, bottom = left + float(size.width), top + float(size.height)
        edge = ((left, top), (right, top), (right, bottom), (left, bottom))
        self.outline = Ring(tuple(_float(motion.back(point)) for point in edge))
        self.laid: list[LaidPart] = []
        self.plans: list[PartPlan] = []

    def between(self) -> Between:
        lattice = self.frame.lattice
        last = lattice.columns + lattice.rows - 2
        spans = [self._span(row) for row in range(last + 1)]
        for row, (first, end) in enumerate(spans):
            self._sash_row(row, spans)
            self._row(row, first, end)
        if self.sash:
            self._sash_row(last + 1, spans)
        top, bottom = -self.sash, last * self.step + self.side + self.sash
        self._edge("corner-triangle", None, (_below(top),), (last, -1))
        self._edge("corner-triangle", None, (_above(bottom),), (0, last + 1))
        return Between(tuple(self.laid), tuple(merged(self.plans)))

    def _span(self, row: int) -> tuple[int, int]:
        """The first and the last space of a slanted row."""
        lattice, k = self.frame.lattice, self.frame.lattice.space_columns
        inside = [at for at in range(lattice.columns + lattice.rows - 1) if lattice.holds(at * k, row * k)]
        return inside[0], inside[-1]

    def _row(self, row: int, first: int, last: int) -> None:
        """Setting triangle, blocks with sashes between and at both ends, setting triangle."""
        lattice = self.frame.lattice
        y, start, end = (
            row * self.step,
            first * self.step - self.sash,
            last * self.step + self.side + self.sash,
        )
        strip = (_above(y), _below(y + self.side))
        number = Fraction(row)
        begins = row == lattice.columns - 1
        ends = row == lattice.rows - 1
        self._edge(
            "corner-triangle" if begins else "side-triangle",
            number,
            (*strip, _left_of(start)),
            (first - 1, row),
        )
        if self.sash:
            for at in range(first, last + 2):
                self._rect("sash", Rect(at * self.step - self.sash, y, self.sash, self.side), number)
        self._edge(
            "corner-triangle" if ends else "side-triangle", number, (*strip, _right_of(end)), (last + 1, row)
        )

    def _sash_row(self, row: int, spans: list[tuple[int, int]]) -> None:
        """The sashing above a slanted row (or below the last): as long as the longer of its neighbors."""
        sashing = self.frame.sashing
        if sashing is None or not self.sash:
            return
        near = spans[max(row - 1, 0) : row + 1]
        first, last = min(span[0] for span in near), max(span[1] for span in near)
        y, number = row * self.step - self.sash, Fraction(2 * row - 1, 2)
        strip = (_above(y), _below(y + self.sash))
        if sashing.cornerstones is None:
            self._edge("sash", number, strip, (first, row))
            return
        self._edge("edge-cornerstone", number, (*strip, _left_of(first * self.step)), (first, row))
        for at in range(first, last + 1):
            self._rect("sash", Rect(at * self.step, y, self.side, self.sash), number)
            if at < last:
                stone = Rect((at + 1) * self.step - self.sash, y, self.sash, self.sash)
                self._rect("cornerstone", stone, number)
        end = last * self.step + self.side
        self._edge("edge-cornerstone", number, (*strip, _right_of(end)), (last + 1, row))

    def _rect(self, part: Part, rect: Rect, row: Fraction) -> None:
        fabric = self._fabric(part)
        self.laid.append(rect_part(part, fabric, rect, self.motion, row))
        self.plans.append(rect_plan(part, fabric, rect.width, rect.height, self.seam))

    def _fabric(self, part: Part) -> str:
        sashing = self.frame.sashing
        if sashing is None or part.endswith("triangle"):
            return self.fabric
        return sashing.cornerstones or sashing.fabric if part.endswith("cornerstone") else sashing.fabric

    def _edge(
        self, part: Edge, row: Fraction | None, halves: tuple[Half, ...], space: tuple[int, int]
    ) -> None:
        """The piece that fills what these half planes and the quilt's outline leave."""
        shape: Ring | None = self.outline
        for half in halves:
            shape = shape.clipped(half) if shape is not None else None
        if shape is None:
            return
        points = tuple(self.motion.apply(point) for point in shape.points)
        box = shape.box
        long = part == "sash"
        own = self.side if part.endswith("triangle") else self.sash
        before = Fraction(0) if part.endswith("triangle") else self.sash
        rect = Rect(space[0] * self.step - before, space[1] * self.step - before, own, own)
        came = Motion(dx=float(box.left), dy=float(box.top)).then(self.motion) if long else STILL
        self.laid.append(LaidPart(part, self._fabric(part), rect, points, came, row))
        self.plans.append(self._slanted_sash(float(box.width)) if long else self._edge_plan(part))

    def _slanted_sash(self, length: float) -> PartPlan:
        """A long sash, cut square at the ends to be trimmed with the edge of the quilt."""
        finished = Finished(_EIGHTH(length), self.sash)
        cut = Cut(_EIGHTH(length + _pointed(self.seam)), self.sash + 2 * self.seam)
        why = message("plan.part-why-trimmed", size=finished, cut=cut)
        return PartPlan("sash", self._fabric("sash"), 1, finished, cut, 1, why)

    def _edge_plan(self, part: Edge) -> PartPlan:
        aside, down = self.frame.floats
        wanted = float(self.triangles.float)
        if part == "corner-triangle":
            side = float(self.side) / _ROOT
            whole = side + aside + down
            return triangle_plan(part, self.fabric, side + 2 * wanted, self.triangles, self.seam, whole)
        long = float(self.side if part == "side-triangle" else self.sash) * _ROOT
        whole = long + 2 * max(aside, down)
        return triangle_plan(part, self._fabric(part), long + 2 * wanted, self.triangles, self.seam, whole)


@stage(keep=256)
def triangle_plan(
    part: Part,
    fabric: str,
    seen: float,
    triangles: Triangles,
    seam: Fraction,
    whole: float | None = None,
) -> PartPlan:
    """Triangles cut from squares so that the edge of the quilt lies on straight grain.

    Corner triangles are halves of a square: `seen` is the finished short side, and the square (2 + sqrt 2) seams more,
    or as charts have it 3 1/2 seams. Others are quarters: `seen` is the finished long side, and the square
    2 (1 + sqrt 2) seams more, or 5 seams (7/8 in and 1 1/4 in at a seam of 1/4 in: chart page 'on-point layout, side
    and corner triangles'). `whole` is that side once the outline of the quilt is one that a ruler has: squares are
    never too small for it, and charts have as much to spare.
    """
    half = part == "corner-triangle"
    whole = seen if whole is None else whole
    least = whole + float(seam) * ((2 + _ROOT) if half else 2 * (1 + _ROOT))
    chart = seen + float(seam) * (3.5 if half else 5.0)
    wanted = least if triangles.allowance == "exact" else max(chart, least)
    square = up_to(triangles.step)(wanted + float(triangles.spare))
    finished = Finished(whole, whole) if half else Finished(whole, whole / 2)
    code = "plan.part-why-half" if half else "plan.part-why-quarter"
    why = message(code, size=whole, least=least, cut=Cut(square, square))
    return PartPlan(part, fabric, 1, finished, Cut(square, square), 2 if half else 4, why, trim=least)


def _pointed(seam: Fraction) -> float:
    """What the allowances at two ends slanted by 45 degrees add to a strip."""
    return 2 * (1 + _ROOT) * float(seam)


def _start(frame: Frame, motion: Motion) -> tuple[float, float]:
    """The center's top left in the quilt."""
    own = frame.motion
    return float(motion.dx - own.dx), float(motion.dy - own.dy)


def _float(point: Point) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _left_of(x: Fraction) -> Half:
    return Half(1, 0, x)


def _right_of(x: Fraction) -> Half:
    return Half(-1, 0, x)


def _below(y: Fraction) -> Half:
    """All that lies above a level line: up to it."""
    return Half(0, 1, y)


def _above(y: Fraction) -> Half:
    """All that lies below a level line: from it on."""
    return Half(0, -1, y)

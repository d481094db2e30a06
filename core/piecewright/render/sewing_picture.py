"""A top sewn together step by step: the parts of each step a little apart, their seams dashed, the way to press."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise

from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.geometry.tolerance import ALIKE
from piecewright.model.design import Design
from piecewright.plan.between import LaidPart
from piecewright.plan.border_layout import BorderBlock, BorderPiece, LaidBorder
from piecewright.plan.layout import Layout, PlacedBlock, layout
from piecewright.plan.pressing import QuiltPressing, quilt_pressing
from piecewright.plan.rects import Rect, corners
from piecewright.plan.sewing_order import SewingOrder, SewingStep, Sewn, is_slanted
from piecewright.render.cloth import draw_cloth
from piecewright.render.layout import Draw
from piecewright.render.marks import arrow, number
from piecewright.render.path import Spot
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke
from piecewright.render.style import ACCENT, INK, SEW, SOFT, haloed
from piecewright.render.wall_picture import draw_parts, draw_placed
from piecewright.sewing.assembly import Assembly, Knot, Piece, Section, parts_in_order

_APART = 0.22  # inches of paper between parts that are not sewn yet
_ALL_APART = 2.0  # at most so much together
_SHARE = 0.5  # and so much of the parts' own length
_LEAST_ARROW = 0.07  # a smaller gap has no arrow
_SIDE_SHARE = 0.08  # of a border's shorter side, between it and what is sewn
_SPREAD = 0.12  # a knot's parts move away from its middle by this share
_EDGE = 0.005
_PARTED: dict[Sewn, tuple[int, ...]] = {"sides": (0, 1), "ends": (2, 3), "miters": (0, 1, 2, 3)}
_OUTWARD = ((-1, 0), (1, 0), (0, -1), (0, 1))  # left, right, top, bottom


@dataclass(frozen=True)
class SewingPicture:
    """The pictures of how a design's arrangement in view is sewn."""

    design: Design

    @cached_property
    def pressing(self) -> QuiltPressing:
        """The order with its pressing."""
        return quilt_pressing(self.design)

    @cached_property
    def order(self) -> SewingOrder:
        """The steps."""
        return self.pressing.order

    @cached_property
    def laid(self) -> Layout:
        """Where everything lies."""
        return layout(self.design)

    def step(self, index: int, scale: float) -> Draw:
        """A step, `scale` inches of paper to an inch of the top; slanted rows lie level until they are joined."""
        step = self.order.steps[index]
        if step.border is not None:
            return lambda pen: _Border(self, step, scale).draw(pen)
        return lambda pen: _Joined(self, step, scale).draw(pen)

    def draw_where(self, pen: Pen, index: int, scale: float) -> None:
        """The pieces of the center as fine outlines, those that a step sews together filled; inches of the top."""
        step, line = self.order.steps[index], Stroke(SOFT, _EDGE / scale)
        count = len(self.order.blocks) + len(self.order.fillings)
        sewn = set(range(count)) if step.part is None else set(pieces_of(self.order.parts[step.part]))
        for each in range(count):
            pen.polygon(self.points(each), Flat(ACCENT) if each in sewn else None, line)

    def points(self, number: int) -> tuple[Point, ...]:
        """The outline of a piece by its number."""
        piece = self.piece(number)
        if isinstance(piece, LaidPart):
            return piece.points
        return tuple(self.laid.motion.apply(point) for point in corners(piece.rect))

    def piece(self, number: int) -> PlacedBlock | LaidPart:
        """A block or filling by its number."""
        blocks = self.order.blocks
        return blocks[number] if number < len(blocks) else self.order.fillings[number - len(blocks)]

    def draw_pieces(self, pen: Pen, numbers: Sequence[int], scale: float) -> None:
        """Draw pieces where they lie, a fine line round each."""
        pieces = [self.piece(number) for number in numbers]
        draw_parts(self.design, [piece for piece in pieces if isinstance(piece, LaidPart)], pen)
        for piece in pieces:
            if isinstance(piece, PlacedBlock):
                draw_placed(self.design, piece, pen, self.laid.motion)
        line = Stroke(INK, _EDGE / scale)
        for each in numbers:
            pen.polygon(self.points(each), None, line)


def pieces_of(part: Assembly) -> list[int]:
    """The numbers of all pieces of a part."""
    return sorted(one.index for one in parts_in_order(part) if isinstance(one, Piece))


class _Joined:
    """A part whose own parts are sewn together.

    Parts lie in the frame of the blocks, inches of the top; `_seen` carries that to what is drawn.
    """

    def __init__(self, picture: SewingPicture, step: SewingStep, scale: float) -> None:
        self._picture, self._scale = picture, scale
        assert step.part is not None  # noqa: S101 - not a border
        self._number = step.part
        self._part = picture.order.parts[step.part]
        motion = picture.laid.motion
        slanted = isinstance(self._part, Section) and is_slanted(picture.order, self._part)
        self._seen = motion if slanted else STILL
        self._leveled = STILL if slanted else _inverse(motion)

    def draw(self, pen: Pen) -> None:
        """Draw the parts, then their seams."""
        if isinstance(self._part, Section):
            self._draw_section(pen, self._part)
        elif isinstance(self._part, Knot):
            self._draw_knot(pen, self._part)

    def _draw_section(self, pen: Pen, part: Section) -> None:
        across = part.axis == "across"
        box = part.box
        length = float(box.right - box.left if across else box.bottom - box.top)
        gap = min(_APART / self._scale, _ALL_APART / self._scale / part.seams, _SHARE * length / part.seams)
        for place, inner in enumerate(part.parts):
            self._draw_part(pen, inner, (place * gap, 0.0) if across else (0.0, place * gap))
        ways = [join.toward for join in self._picture.pressing.joins if join.part == self._number]
        for place, (one, other) in enumerate(pairwise(part.parts)):
            at = float(one.box.right if across else one.box.bottom)
            start, end = self._reach(one, other, at, across=across)
            middle = at + (place + 0.5) * gap
            line = ((middle, start), (middle, end)) if across else ((start, middle), (end, middle))
            seam = self._on_paper(line[0]), self._on_paper(line[1])
            haloed(pen, seam, SEW)
            if place < len(ways) and gap * self._scale >= _LEAST_ARROW:
                self._draw_way(pen, seam, gap * self._scale, backward=ways[place] in ("left", "up"))

    def _draw_way(self, pen: Pen, seam: tuple[Spot, Spot], gap: float, *, backward: bool) -> None:
        """An arrow across the middle of a seam, to where its allowance is pressed."""
        (x0, y0), (x1, y1) = seam
        x, y = (x0 + x1) / 2, (y0 + y1) / 2
        across = isinstance(self._part, Section) and self._part.axis == "across"
        dx, dy = (float(each) for each in self._seen.direction((1, 0) if across else (0, 1)))
        by = gap * 0.75 * (-1 if backward else 1)
        arrow(pen, (x - dx * by, y - dy * by), (x + dx * by, y + dy * by), min(1.0, gap / _APART))

    def _reach(self, one: Assembly, other: Assembly, at: float, *, across: bool) -> tuple[float, float]:
        """From where to where two parts touch along their seam: triangles end on it with a corner or a side."""
        spans = []
        for part in (one, other):
            along = [
                float(point[1] if across else point[0])
                for number in pieces_of(part)
                for point in map(self._picture.laid.motion.back, self._picture.points(number))
                if abs(float(point[0] if across else point[1]) - at) < ALIKE
            ]
            if along:
                spans.append((min(along), max(along)))
        if not spans:
            box = one.box
            return (float(box.top), float(box.bottom)) if across else (float(box.left), float(box.right))
        return max(start for start, _ in spans), min(end for _, end in spans)

    def _draw_knot(self, pen: Pen, part: Knot) -> None:
        middle = _middle(part)
        for inner in part.parts:
            x, y = _middle(inner)
            self._draw_part(pen, inner, ((x - middle[0]) * _SPREAD, (y - middle[1]) * _SPREAD))
        marks: list[Spot] = []
        for seam in part.seams:
            at, start, end = float(seam.at), float(seam.start), float(seam.end)
            ends = ((at, start), (at, end)) if seam.upright else ((start, at), (end, at))
            first, last = (
                self._on_paper([x + (x - middle[0]) * _SPREAD, y + (y - middle[1]) * _SPREAD])
                for x, y in ends
            )
            haloed(pen, (first, last), SEW)
            marks.append(_between(first, last, {"begin": 0.25, "sew": 0.5, "finish": 0.75}[seam.doing]))
        for count, spot in enumerate(marks, 1):
            number(pen, spot, str(count))

    def _draw_part(self, pen: Pen, part: Assembly, by: Spot) -> None:
        dx, dy = self._seen.direction(by)
        with pen.framed(self._scale, Motion(dx=dx, dy=dy), self._leveled):
            self._picture.draw_pieces(pen, pieces_of(part), self._scale)

    def _on_paper(self, spot: Sequence[float]) -> Spot:
        """A spot of the blocks' frame, apart as it is, on paper."""
        x, y = self._seen.apply((spot[0], spot[1]))
        return float(x) * self._scale, float(y) * self._scale


class _Border:
    """Sides of a border sewn to what is sewn already."""

    def __init__(self, picture: SewingPicture, step: SewingStep, scale: float) -> None:
        assert step.border is not None  # noqa: S101 - a border
        self._picture, self._scale = picture, scale
        self._index, sewn = step.border
        self._length = step.seam_length
        self._moving = _PARTED[sewn]
        ring = picture.laid.rounds[self._index].ring
        self._apart = min(_APART, _SIDE_SHARE * float(min(ring.width, ring.height)) * scale)
        self._first = step is next(
            one for one in picture.order.steps if one.border and one.border[0] == self._index
        )

    def draw(self, pen: Pen) -> None:
        """Draw what is sewn in its place and the sides away from it."""
        rounds = self._picture.laid.rounds
        still = () if self._first else tuple(side for side in range(4) if side not in self._moving)
        with pen.framed(self._scale):
            self._picture.draw_pieces(
                pen, range(len(self._picture.order.blocks) + len(self._picture.order.fillings)), self._scale
            )
            for border in rounds[: self._index]:
                self._draw_sides(pen, border, (0, 1, 2, 3))
            self._draw_sides(pen, rounds[self._index], still)
        for side in self._moving:
            dx, dy = (self._apart / self._scale * way for way in _OUTWARD[side])
            with pen.framed(self._scale, Motion(dx=dx, dy=dy)):
                self._draw_sides(pen, rounds[self._index], (side,))
            haloed(pen, self._seam(rounds[self._index], side), SEW)

    def _seam(self, border: LaidBorder, side: int) -> tuple[Spot, Spot]:
        """The dashed line between a side and what it is sewn to."""
        rect, ring, half = border.sides[side], border.ring, self._apart / 2
        if self._length and side in (0, 1):
            rect = Rect(rect.x, ring.y + (ring.height - self._length) / 2, rect.width, self._length)
        elif self._length:  # corner squares are sewn to the ends first
            rect = Rect(ring.x + (ring.width - self._length) / 2, rect.y, self._length, rect.height)
        left, top, right, bottom = (edge * self._scale for edge in _edges(rect))
        return (
            ((right - half, top), (right - half, bottom)),
            ((left + half, top), (left + half, bottom)),
            ((left, bottom - half), (right, bottom - half)),
            ((left, top + half), (right, top + half)),
        )[side]

    def _draw_sides(self, pen: Pen, border: LaidBorder, sides: Sequence[int]) -> None:
        known = self._picture.design.shelf.fabrics
        pieces = [piece for piece in border.pieces if _side_of(border, piece) in sides]
        draw_cloth(pen, [(piece.points, ClothFill(known[piece.fabric], piece.came)) for piece in pieces])
        line = Stroke(INK, _EDGE / self._scale)
        for block in border.blocks:
            if _side_of(border, block) in sides:
                draw_placed(self._picture.design, block, pen)
                pen.polygon(corners(block.rect), None, line)
        for piece in pieces:
            pen.polygon(piece.points, None, line)


def _side_of(border: LaidBorder, piece: BorderPiece | BorderBlock) -> int:
    """Left, right, top or bottom; a corner square belongs to the top or the bottom, which it is sewn to first."""
    points = corners(piece.rect) if isinstance(piece, BorderBlock) else piece.points
    x, y = (sum(float(point[axis]) for point in points) / len(points) for axis in (0, 1))
    for side in (0, 1, 2, 3):
        left, top, right, bottom = _edges(border.sides[side])
        if left <= x <= right and top <= y <= bottom:
            return side
    ring = border.ring
    return 2 if y < ring.y + ring.height / 2 else 3


def _edges(rect: Rect) -> tuple[float, float, float, float]:
    (left, top), _, (right, bottom), _ = corners(rect)
    return float(left), float(top), float(right), float(bottom)


def _inverse(motion: Motion) -> Motion:
    """The motion that takes back one which only turns and moves."""
    dx, dy = motion.back((0, 0))
    return Motion(-motion.quarters % 4, -motion.degrees % 360, dx=dx, dy=dy)


def _middle(part: Assembly) -> Spot:
    box = part.box
    return float(box.left + box.right) / 2, float(box.top + box.bottom) / 2


def _between(start: Spot, end: Spot, share: float) -> Spot:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share

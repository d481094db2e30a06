"""Where the strips, pieces, corner squares and blocks of borders lie."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.edit.footprint import Laid
from piecewright.geometry.motion import Motion, Point
from piecewright.model.quilt import Border
from piecewright.model.setting import Pieced
from piecewright.plan.borders import border_placements, run_of
from piecewright.plan.rects import Rect, corners
from piecewright.units.sizes import Finished

Sides = tuple[Rect, Rect, Rect, Rect]
"""Left, right, top, bottom."""


@dataclass(frozen=True, slots=True)
class BorderPiece:
    """A piece of a border's cloth: fabric id, outline in finished inches, and how it came there from the ruler."""

    fabric: str
    points: tuple[Point, ...]
    came: Motion


@dataclass(frozen=True, slots=True)
class BorderBlock:
    """A block of a border: its place in the side, turned as it lies, and its rectangle."""

    laid: Laid
    rect: Rect


@dataclass(frozen=True, slots=True)
class LaidBorder:
    """A border.

    `ring` is the rectangle that it and all inside it fill, `sides` its four sides as they are sewn on (mitered:
    butted all the same), then all its cloth and blocks piece by piece.
    """

    ring: Rect
    sides: Sides
    pieces: tuple[BorderPiece, ...]
    blocks: tuple[BorderBlock, ...]


def lay_borders(borders: tuple[Border, ...], center: Finished, at: Fraction) -> Iterator[LaidBorder]:
    """Each border from the inside out; the center begins `at` inches from the quilt's left and top."""
    wide, high = Fraction(center.width), Fraction(center.height)
    inner = Rect(at, at, wide, high)
    for border in borders:
        by = border.width
        ring = Rect(inner.x - by, inner.y - by, inner.width + 2 * by, inner.height + 2 * by)
        sides = _sides(border, inner, ring)
        yield LaidBorder(
            ring, sides, tuple(_pieces(border, inner, ring, sides)), tuple(_blocks(border, inner, sides))
        )
        inner = ring


def _sides(border: Border, inner: Rect, ring: Rect) -> Sides:
    """Left, right, top and bottom; what reaches into the corners is as long as `strip_lengths` says, but mitered."""
    by = border.width
    upright = border.corners != "squares" and border.first != "sides"
    level = border.corners != "squares" and not upright
    top, height = (ring.y, ring.height) if upright else (inner.y, inner.height)
    left, width = (ring.x, ring.width) if level else (inner.x, inner.width)
    return (
        Rect(ring.x, top, by, height),
        Rect(inner.x + inner.width, top, by, height),
        Rect(left, ring.y, width, by),
        Rect(left, inner.y + inner.height, width, by),
    )


def _pieces(border: Border, inner: Rect, ring: Rect, sides: Sides) -> Iterator[BorderPiece]:
    if border.corners == "mitered":
        yield from _mitered(border, inner, ring)
        return
    for side in sides:
        if border.pieced is None:
            yield (
                _along(border.fabric, side) if border.grain == "lengthwise" else strip(border.fabric, side)
            )
        else:
            yield from _pieced(border, border.pieced, side)
    if border.corners == "squares":
        by = border.width
        for x in (ring.x, inner.x + inner.width):
            for y in (ring.y, inner.y + inner.height):
                yield strip(border.corner or border.fabric, Rect(x, y, by, by))


def strip(fabric: str, rect: Rect) -> BorderPiece:
    """A strip cut from selvage to selvage: its lengthwise thread runs across it."""
    return _piece(fabric, rect, turned=rect.height > rect.width)


def _along(fabric: str, rect: Rect) -> BorderPiece:
    """A strip cut along the selvage: its lengthwise thread runs along it."""
    return _piece(fabric, rect, turned=rect.height <= rect.width)


def _piece(fabric: str, rect: Rect, *, turned: bool) -> BorderPiece:
    """A piece whose cloth lies as it came off the bolt, its lengthwise thread upright; or a quarter `turned`."""
    came = Motion(quarters=1, dx=rect.x + rect.width, dy=rect.y) if turned else Motion(dx=rect.x, dy=rect.y)
    return BorderPiece(fabric, corners(rect), came)


def _mitered(border: Border, inner: Rect, ring: Rect) -> Iterator[BorderPiece]:
    near, far = corners(inner), corners(ring)
    turned = 1 if border.grain == "lengthwise" else 0
    for side in range(4):
        after = (side + 1) % 4
        corner = far[side]
        yield BorderPiece(
            border.fabric,
            (far[side], far[after], near[after], near[side]),
            Motion(quarters=(side + turned) % 4, dx=corner[0], dy=corner[1]),
        )


def _pieced(border: Border, pieced: Pieced, side: Rect) -> Iterator[BorderPiece]:
    """Coping strip, pieces in turn, coping strip; along the pieces runs the lengthwise thread."""
    upright = side.height > side.width
    length = side.height if upright else side.width
    run = run_of(pieced, length)
    if run.coping:
        for start in (Fraction(0), length - run.coping):
            yield strip(border.fabric, _slice(side, upright, start, run.coping))
    for number in range(run.pieces if not pieced.block else 0):
        rect = _slice(side, upright, run.coping + number * pieced.length, pieced.length)
        yield _piece(pieced.fabrics[number % len(pieced.fabrics)], rect, turned=not upright)


def _slice(side: Rect, upright: bool, start: Fraction, length: Fraction) -> Rect:
    if upright:
        return Rect(side.x, side.y + start, side.width, length)
    return Rect(side.x + start, side.y, length, side.height)


def _blocks(border: Border, inner: Rect, sides: Sides) -> Iterator[BorderBlock]:
    pieced = border.pieced
    if pieced is None:
        return
    left, right, top, bottom = sides
    laid = border_placements(border, Finished(inner.width, inner.height))
    for side, placements in zip((top, right, bottom, left), laid, strict=False):
        upright = side in (left, right)
        run = run_of(pieced, side.height if upright else side.width)
        for placement in placements:
            number = placement.column
            if side in (bottom, left):
                number = run.pieces - 1 - number
            rect = _slice(side, upright, run.coping + number * pieced.length, pieced.length)
            yield BorderBlock(Laid(placement.column, 0, 1, 1, placement), rect)

"""A top on point as it is sewn: slanted rows with their triangles and sashes, joined one to the next, corners last."""

from collections.abc import Sequence
from fractions import Fraction

from piecewright.geometry.motion import Number, Point
from piecewright.geometry.shapes import Rect
from piecewright.plan.between import LaidPart
from piecewright.plan.layout import Layout, PlacedBlock
from piecewright.plan.rects import corners
from piecewright.sewing.assembly import Assembly, Knot, Piece, SeamCount, Section, assemble, seam_count
from piecewright.units.rounding import up_to

_EIGHTH = up_to(Fraction(1, 8))


def rect_of(piece: PlacedBlock | LaidPart) -> Rect:
    """A piece's rectangle by its edges, in the frame of the blocks."""
    rect = piece.rect
    return Rect(rect.x, rect.y, rect.x + rect.width, rect.y + rect.height)


def slanted_rows(laid: Layout, blocks: Sequence[PlacedBlock], fillings: Sequence[LaidPart]) -> Section | None:
    """The rows from the top right to the bottom left, a corner triangle before and after them.

    Pieces are numbered as in `blocks` and `fillings` one after the other. None where a block reaches over rows.
    """
    space = laid.lattice.space_rows
    rows: dict[Fraction, list[int]] = {}
    ends: list[int] = []
    for number, block in enumerate(blocks):
        row = block.laid.row // space
        if (block.laid.row + block.laid.rows - 1) // space != row:
            return None
        rows.setdefault(Fraction(row), []).append(number)
    for number, filling in enumerate(fillings, len(blocks)):
        if filling.row is None:
            ends.append(number)
        else:
            rows.setdefault(filling.row, []).append(number)
    pieces: list[PlacedBlock | LaidPart] = [*blocks, *fillings]
    first, last = (Piece(number, rect_of(pieces[number])) for number in ends)
    parts = (first, *(_row(pieces, rows[row]) for row in sorted(rows)), last)
    return Section("down", parts, _around(parts))


def _row(pieces: Sequence[PlacedBlock | LaidPart], numbers: list[int]) -> Assembly:
    """One row from left to right; where its spaces hold several blocks each, sewn as a part of its own."""
    boxes = {number: rect_of(pieces[number]) for number in numbers}
    if len({(box.top, box.bottom) for box in boxes.values()}) > 1:
        return _renumbered(assemble(list(boxes.values())), numbers)
    found = [
        Piece(number, boxes[number]) for number in sorted(numbers, key=lambda number: boxes[number].left)
    ]
    return found[0] if len(found) == 1 else Section("across", tuple(found), _around(found))


def _renumbered(part: Assembly, numbers: Sequence[int]) -> Assembly:
    if isinstance(part, Piece):
        return Piece(numbers[part.index], part.box)
    parts = tuple(_renumbered(inner, numbers) for inner in part.parts)
    return (
        Knot(parts, part.box, part.seams) if isinstance(part, Knot) else Section(part.axis, parts, part.box)
    )


def _around(parts: Sequence[Assembly]) -> Rect:
    boxes = [part.box for part in parts]
    return Rect(
        min(box.left for box in boxes),
        min(box.top for box in boxes),
        max(box.right for box in boxes),
        max(box.bottom for box in boxes),
    )


def slanted_count(laid: Layout, whole: Section) -> SeamCount:
    """The seams of such a top; those between rows are each as long as the quilt is there."""
    count = seam_count(whole)
    outline = [laid.motion.back(corner) for corner in corners(laid.center)]
    chords = [_chord(outline, part.box.bottom) for part in whole.parts[:-1]]
    length = count.length - whole.seams * whole.seam_length + sum(chords, Fraction(0))
    return SeamCount(count.seams, count.partial, length, max(chords))


def _chord(outline: Sequence[Point], level: Number) -> Fraction:
    """How long a level line across a convex outline is, to the next eighth of an inch."""
    met: list[float] = []
    for (x0, y0), (x1, y1) in zip(outline, (*outline[1:], outline[0]), strict=True):
        if y0 != y1 and min(y0, y1) <= level <= max(y0, y1):
            met.append(
                float(x0) + (float(level) - float(y0)) / (float(y1) - float(y0)) * (float(x1) - float(x0))
            )
    return _EIGHTH(max(met) - min(met)) if met else Fraction(0)

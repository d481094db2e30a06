"""The quilt as it hangs on the wall: blocks, borders, binding, and a quiet grid where nothing lies yet."""

from collections.abc import Iterable, Iterator
from fractions import Fraction
from itertools import chain

from piecewright.edit.facts_of import facts_of
from piecewright.errors import MakingError, RecipeError
from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.facts import Facts
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement
from piecewright.plan.between import LaidPart
from piecewright.plan.border_layout import BorderBlock, LaidBorder
from piecewright.plan.layout import Layout, PlacedBlock, layout
from piecewright.plan.rects import Rect, corners
from piecewright.render.block_picture import stamp_block
from piecewright.render.cloth import draw_cloth, draw_valleys, patch_fabrics
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke

FLANNEL = "#e4e0d8"
FLANNEL_LINE = "#d2ccc1"
_CANNOT = "#857e72"
_SHAPE_GROUND, _SHAPE_LINE = "#fffdf8", "#1f2a30"
_SHAPE_WIDTH = 0.36
_SHAPE_DASH = (0.9, 0.45)
_NEAR = 1e-3
"""Inches within which a side lies along the edge of the center."""

Line = tuple[Point, Point]


def draw_quilt(design: Design, pen: Pen) -> None:
    """Draw the arrangement in view, its finished top left at 0, 0; binding covers the allowance."""
    laid_out = layout(design)
    _draw_flannel(laid_out, pen)
    draw_parts(design, (*laid_out.between, *laid_out.gaps), pen)
    for block in laid_out.blocks:
        draw_placed(design, block, pen, laid_out.motion)
    draw_borders(design, laid_out, pen)
    draw_valleys(pen, [*block_seams(laid_out), *border_seams(laid_out)])
    draw_binding(design, laid_out, pen)
    draw_shape(laid_out, pen)


def draw_shape(laid_out: Layout, pen: Pen) -> None:
    """Draw the line that a shape is cut along, light on dark so that it shows on any cloth."""
    if laid_out.outline:
        pen.polygon(laid_out.outline, stroke=Stroke(_SHAPE_GROUND, _SHAPE_WIDTH))
        pen.polygon(laid_out.outline, stroke=Stroke(_SHAPE_LINE, _SHAPE_WIDTH / 2, _SHAPE_DASH))


def draw_parts(design: Design, parts: Iterable[LaidPart], pen: Pen, unchosen: str = FLANNEL) -> None:
    """Draw sashing, setting triangles and coping strips, without their seams; cloth not chosen yet in a color."""
    known = design.shelf.fabrics
    cloth = []
    for part in parts:
        fabric = known.get(part.fabric)
        if fabric is None:
            pen.polygon(part.points, Flat(unchosen))
        else:
            cloth.append((part.points, ClothFill(fabric, part.came)))
    draw_cloth(pen, cloth)


def part_seams(laid_out: Layout, parts: Iterable[LaidPart]) -> list[Line]:
    """The sides of some parts, each once, without those along the edge of the center."""
    return _sides_of(laid_out.center, [part.points for part in parts])


def draw_borders(design: Design, laid_out: Layout, pen: Pen) -> None:
    """Draw the strips, pieces and blocks of all borders, without the seams between them."""
    known = design.shelf.fabrics
    for border in laid_out.rounds:
        draw_cloth(
            pen, [(piece.points, ClothFill(known[piece.fabric], piece.came)) for piece in border.pieces]
        )
        for block in border.blocks:
            draw_placed(design, block, pen)


def draw_placed(design: Design, block: PlacedBlock | BorderBlock, pen: Pen, motion: Motion = STILL) -> None:
    """Draw one placed block where it lies; one that can not be made is a crossed-out cell.

    `motion` carries the frame of the blocks to the quilt.
    """
    placement = block.laid.placement
    try:
        facts = facts_of(design, placement.block)
    except (RecipeError, MakingError):
        _draw_cannot(block.rect, pen, motion)
        return
    kind = facts.kinds[placement.kind]
    own = block_motion(facts, placement.turn, block.rect).then(motion)
    stamp_block(kind, placed_fabrics(design, placement), pen, own)


def placed_fabrics(design: Design, placement: Placement) -> tuple[Fabric, ...]:
    """The fabric of each patch of a placed block."""
    facts = facts_of(design, placement.block)
    known = design.shelf.fabrics
    letters = {letter: [known[name] for name in ids] for letter, ids in design.letters(placement).items()}
    return patch_fabrics(facts.kinds[placement.kind], letters, facts.stack, placement.layer)


def block_motion(facts: Facts, turn: int, rect: Rect) -> Motion:
    """What turns a finished block clockwise and lays it in its rectangle, exactly."""
    width, height = facts.finished.width, facts.finished.height
    corner = {0: (0, 0), 90: (height, 0), 180: (width, height), 270: (0, width)}[turn]
    return Motion(quarters=turn // 90, dx=rect.x + corner[0], dy=rect.y + corner[1])


def block_seams(laid_out: Layout) -> list[Line]:
    """The seams between blocks and what lies between them, each once, without those round a straight center."""
    if laid_out.frame.sashing is not None:
        return _sides_of_all(laid_out)
    across: set[tuple[int, int]] = set()
    down: set[tuple[int, int]] = set()
    gaps = laid_out.gap_cells if laid_out.coping else ()
    for column, row, columns, rows in (*laid_out.cells.tolist(), *gaps):
        across.update((y, x) for y in (row, row + rows) for x in range(column, column + columns))
        down.update((x, y) for x in (column, column + columns) for y in range(row, row + rows))
    unit, (left, top) = laid_out.lattice.unit, laid_out.corner
    within = (0, laid_out.lattice.down), (0, laid_out.lattice.across)
    if laid_out.frame.on_point:
        within = (-1, laid_out.lattice.down + 1), (-1, laid_out.lattice.across + 1)
    lines: list[Line] = []
    for level, start, end in _runs(across, *within[0]):
        lines.append(((left + start * unit, top + level * unit), (left + end * unit, top + level * unit)))
    for level, start, end in _runs(down, *within[1]):
        lines.append(((left + level * unit, top + start * unit), (left + level * unit, top + end * unit)))
    if not laid_out.frame.on_point:
        return lines
    return [(laid_out.motion.apply(start), laid_out.motion.apply(end)) for start, end in lines]


def _sides_of_all(laid_out: Layout) -> list[Line]:
    """The sides of all blocks, sashes and what else there is, each once, without those along the edge."""
    outlines = [
        tuple(laid_out.motion.apply(point) for point in corners(block.rect)) for block in laid_out.blocks
    ]
    outlines += [part.points for part in (*laid_out.between, *laid_out.gaps)]
    return _sides_of(laid_out.center, outlines)


def _sides_of(center: Rect, outlines: Iterable[tuple[Point, ...]]) -> list[Line]:
    found: dict[tuple[tuple[float, float], ...], Line] = {}
    for outline in outlines:
        for start, end in zip(outline, (*outline[1:], outline[0]), strict=True):
            near = sorted((round(float(x), 4), round(float(y), 4)) for x, y in (start, end))
            if not _along_edge(center, near):
                found[tuple(near)] = (start, end)
    return list(found.values())


def _along_edge(center: Rect, ends: list[tuple[float, float]]) -> bool:
    (x0, y0), (x1, y1) = ends
    left, top = float(center.x), float(center.y)
    edges_x, edges_y = (left, left + float(center.width)), (top, top + float(center.height))
    level = abs(y0 - y1) < ALIKE and min(abs(y0 - edge) for edge in edges_y) < _NEAR
    return level or (abs(x0 - x1) < ALIKE and min(abs(x0 - edge) for edge in edges_x) < _NEAR)


def border_seams(laid_out: Layout) -> list[Line]:
    """The long inner edge of every border strip, where it is sewn on; and the seams between a border's pieces."""
    lines: list[Line] = []
    for border in laid_out.rounds:
        left, right, upper, lower = border.sides
        lines.append(((left.x + left.width, left.y), (left.x + left.width, left.y + left.height)))
        lines.append(((right.x, right.y), (right.x, right.y + right.height)))
        lines.append(((upper.x, upper.y + upper.height), (upper.x + upper.width, upper.y + upper.height)))
        lines.append(((lower.x, lower.y), (lower.x + lower.width, lower.y)))
        if len(border.pieces) > 4 or border.blocks:
            lines += [line for piece in border.pieces for line in _ends(border, piece.points)]
            lines += [line for block in border.blocks for line in _ends(border, corners(block.rect))]
        elif len(border.pieces[0].points) == 4 and _is_mitered(border):
            lines += [(piece.points[0], piece.points[3]) for piece in border.pieces]
    return lines


def _ends(border: LaidBorder, outline: tuple[Point, ...]) -> Iterator[Line]:
    """The side of a piece of a border where the one before it is sewn on."""
    ring = border.ring
    (left, top), _, (right, bottom), _ = outline
    if top == ring.y or bottom == ring.y + ring.height:
        if left != ring.x:
            yield (left, top), (left, bottom)
    elif top != ring.y:
        yield (left, top), (right, top)


def _is_mitered(border: LaidBorder) -> bool:
    return (
        border.pieces[0].points[0][0] != border.pieces[0].points[3][0]
        and border.pieces[0].points[0][1] != (border.pieces[0].points[3][1])
    )


def _runs(sides: set[tuple[int, int]], first: int, last: int) -> Iterator[tuple[int, int, int]]:
    """Sides of cells (level, place) strictly inside `first` and `last`, joined where they follow each other."""
    run: tuple[int, int, int] | None = None
    for level, place in sorted(side for side in sides if first < side[0] < last):
        if run and run[0] == level and run[2] == place:
            run = (level, run[1], place + 1)
        else:
            if run:
                yield run
            run = (level, place, place + 1)
    if run:
        yield run


def _draw_flannel(laid_out: Layout, pen: Pen) -> None:
    """Flannel where no block lies, with a line round every cell."""
    empty = laid_out.empty_cells()
    if not empty or laid_out.coping is not None:
        return
    pen.polygon(corners(laid_out.center), Flat(FLANNEL))
    pen.lines(flannel_lines(laid_out), Stroke(FLANNEL_LINE, 0.06, square=True))


def flannel_lines(laid_out: Layout) -> list[Line]:
    """The lines between the cells; what lies between spaces is drawn over them."""
    lines: dict[Line, None] = {}
    for row, (first, last) in enumerate(laid_out.spans(upright=False)):
        rect = laid_out.rect(first, row, last - first + 1)
        for y in (rect.y, rect.y + rect.height):
            lines[(rect.x, y), (rect.x + rect.width, y)] = None
    for column, (first, last) in enumerate(laid_out.spans(upright=True)):
        rect = laid_out.rect(column, first, 1, last - first + 1)
        for x in (rect.x, rect.x + rect.width):
            lines[(x, rect.y), (x, rect.y + rect.height)] = None
    return [(laid_out.motion.apply(start), laid_out.motion.apply(end)) for start, end in lines]


def _draw_cannot(rect: Rect, pen: Pen, motion: Motion) -> None:
    a, b, c, d = (motion.apply(point) for point in corners(rect))
    pen.polygon((a, b, c, d), Flat(FLANNEL), Stroke(_CANNOT, 0.12))
    pen.lines([(a, c), (b, d)], Stroke(_CANNOT, 0.12))


def draw_binding(design: Design, laid_out: Layout, pen: Pen) -> None:
    """Binding from the front: over the outer allowance, corners folded; without a fabric, an edge line."""
    width, height, depth = laid_out.size.finished.width, laid_out.size.finished.height, design.settings.seam
    inner = corners(Rect(Fraction(0), Fraction(0), Fraction(width), Fraction(height)))
    outer = corners(Rect(-depth, -depth, Fraction(width) + 2 * depth, Fraction(height) + 2 * depth))
    name = design.quilt.binding.fabric
    if name is None:
        pen.polygon(inner, None, Stroke(_CANNOT, 0.08, square=True))
        return
    fabric = design.shelf.fabrics[name]
    for side in range(4):
        a, b = inner[side], inner[(side + 1) % 4]
        c, d = outer[(side + 1) % 4], outer[side]
        came = Motion(quarters=side, dx=d[0], dy=d[1])
        draw_cloth(pen, [((a, b, c, d), ClothFill(fabric, came))])
    draw_valleys(
        pen, list(chain(zip(inner, (*inner[1:], inner[0]), strict=True), zip(inner, outer, strict=True)))
    )

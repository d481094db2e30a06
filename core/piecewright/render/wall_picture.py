"""The quilt as it hangs on the wall: blocks, borders, binding, and a quiet grid where nothing lies yet."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import chain

from piecewright.edit.facts_of import facts_of
from piecewright.errors import MakingError, RecipeError
from piecewright.geometry.motion import Motion, Point
from piecewright.making.facts import Facts
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement
from piecewright.plan.layout import Layout, PlacedBlock, Rect, layout
from piecewright.render.block_picture import stamp_block
from piecewright.render.cloth import draw_cloth, draw_valleys, patch_fabrics
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke

FLANNEL = "#e4e0d8"
FLANNEL_LINE = "#d2ccc1"
_CANNOT = "#857e72"

Line = tuple[Point, Point]


def draw_quilt(design: Design, pen: Pen) -> None:
    """Draw the arrangement in view, its finished top left at 0, 0; binding covers the allowance."""
    laid_out = layout(design)
    _draw_flannel(laid_out, pen)
    for block in laid_out.blocks:
        draw_placed(design, block, pen)
    draw_borders(design, laid_out, pen)
    draw_valleys(pen, [*block_seams(laid_out), *border_seams(laid_out)])
    draw_binding(design, laid_out, pen)


def draw_borders(design: Design, laid_out: Layout, pen: Pen) -> None:
    """Draw the strips of all borders, without the seams between them."""
    for border, rects in zip(design.quilt.borders, laid_out.borders, strict=True):
        for upright, rect in zip((True, True, False, False), rects, strict=True):
            _draw_strip(design.shelf.fabrics[border.fabric], rect, upright, pen)


def draw_placed(design: Design, block: PlacedBlock, pen: Pen) -> None:
    """Draw one placed block where it lies; one that can not be made is a crossed-out cell."""
    placement = block.laid.placement
    try:
        facts = facts_of(design, placement.block)
    except (RecipeError, MakingError):
        _draw_cannot(block.rect, pen)
        return
    kind = facts.kinds[placement.kind]
    stamp_block(kind, placed_fabrics(design, placement), pen, block_motion(facts, placement.turn, block.rect))


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
    """The seams between blocks, each once, joined to long lines, without those round the center."""
    across: set[tuple[int, int]] = set()
    down: set[tuple[int, int]] = set()
    for column, row, columns, rows in laid_out.cells.tolist():
        across.update((y, x) for y in (row, row + rows) for x in range(column, column + columns))
        down.update((x, y) for x in (column, column + columns) for y in range(row, row + rows))
    unit, left, top = laid_out.lattice.unit, laid_out.center.x, laid_out.center.y
    lines: list[Line] = []
    for level, start, end in _runs(across, laid_out.lattice.rows):
        lines.append(((left + start * unit, top + level * unit), (left + end * unit, top + level * unit)))
    for level, start, end in _runs(down, laid_out.lattice.columns):
        lines.append(((left + level * unit, top + start * unit), (left + level * unit, top + end * unit)))
    return lines


def border_seams(laid_out: Layout) -> list[Line]:
    """The long inner edge of every border strip: where it is sewn on."""
    lines: list[Line] = []
    for left, right, upper, lower in laid_out.borders:
        lines.append(((left.x + left.width, left.y), (left.x + left.width, left.y + left.height)))
        lines.append(((right.x, right.y), (right.x, right.y + right.height)))
        lines.append(((upper.x, upper.y + upper.height), (upper.x + upper.width, upper.y + upper.height)))
        lines.append(((lower.x, lower.y), (lower.x + lower.width, lower.y)))
    return lines


def _runs(sides: set[tuple[int, int]], last: int) -> Iterator[tuple[int, int, int]]:
    """Sides of cells (level, place) strictly inside 0 and `last`, joined where they follow each other."""
    run: tuple[int, int, int] | None = None
    for level, place in sorted(side for side in sides if 0 < side[0] < last):
        if run and run[0] == level and run[2] == place:
            run = (level, run[1], place + 1)
        else:
            if run:
                yield run
            run = (level, place, place + 1)
    if run:
        yield run


def _corners(rect: Rect) -> tuple[Point, Point, Point, Point]:
    right, bottom = rect.x + rect.width, rect.y + rect.height
    return ((rect.x, rect.y), (right, rect.y), (right, bottom), (rect.x, bottom))


def _draw_flannel(laid_out: Layout, pen: Pen) -> None:
    center, unit = laid_out.center, laid_out.lattice.unit
    if not laid_out.empty_cells():
        return
    pen.polygon(_corners(center), Flat(FLANNEL))
    right, bottom = center.x + center.width, center.y + center.height
    columns = [center.x + unit * n for n in range(laid_out.lattice.columns + 1)]
    rows = [center.y + unit * n for n in range(laid_out.lattice.rows + 1)]
    upright: list[Line] = [((x, center.y), (x, bottom)) for x in columns]
    level: list[Line] = [((center.x, y), (right, y)) for y in rows]
    pen.lines([*upright, *level], Stroke(FLANNEL_LINE, 0.06, square=True))


def _draw_strip(fabric: Fabric, rect: Rect, upright: bool, pen: Pen) -> None:
    """A border strip, cut from selvage to selvage: its lengthwise thread runs across it."""
    turned = Motion(quarters=1, dx=rect.x + rect.width, dy=rect.y)
    came = turned if upright else Motion(dx=rect.x, dy=rect.y)
    draw_cloth(pen, [(_corners(rect), ClothFill(fabric, came))])


def _draw_cannot(rect: Rect, pen: Pen) -> None:
    a, b, c, d = _corners(rect)
    pen.polygon((a, b, c, d), Flat(FLANNEL), Stroke(_CANNOT, 0.12))
    pen.lines([(a, c), (b, d)], Stroke(_CANNOT, 0.12))


def draw_binding(design: Design, laid_out: Layout, pen: Pen) -> None:
    """Binding from the front: over the outer allowance, corners folded; without a fabric, an edge line."""
    width, height, depth = laid_out.size.finished.width, laid_out.size.finished.height, design.settings.seam
    inner = _corners(Rect(Fraction(0), Fraction(0), Fraction(width), Fraction(height)))
    outer = _corners(Rect(-depth, -depth, Fraction(width) + 2 * depth, Fraction(height) + 2 * depth))
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

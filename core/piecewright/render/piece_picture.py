"""A piece, or a pile, as it lies on the sewing table: in inches of paper, its box's top left at 0, 0."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, dist, radians, sin

from piecewright.geometry.motion import Motion, Point
from piecewright.geometry.shapes import Ring
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Cloth, Over, Patch, Pile
from piecewright.render.bounds_pen import BoundsPen, Box
from piecewright.render.cloth import Letters, draw_cloth, draw_valleys, fabric_of, laid_fill
from piecewright.render.marks import bias_label, bias_wave, grain_arrow
from piecewright.render.path import Spot, ring, spot
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke
from piecewright.render.piece_lines import Ends, PieceLines, box_of_lines, lines_of
from piecewright.render.style import ACCENT, INK, PAPER, RAW_EDGE, SEW

FAN = 0.05  # inches of paper from one layer of a pile to the next
MOST_LAYERS = 8
_STITCH = Stroke(INK, 0.006, (0.03, 0.025), 0.75)
_LEFT_OPEN = Stroke(ACCENT, 0.02, (0.02, 0.045))
_LEAST_FOR_GRAIN = 0.15
_SEW_RIM = Stroke(PAPER, SEW.width + 0.008, (), 0.75)
_WRONG_SIDE = 0.6  # of white over the right side's color


@dataclass(frozen=True, slots=True)
class Look:
    """How pieces are drawn: `scale` is inches of paper per inch of cloth, `depth` the allowance on cloth."""

    fabrics: Letters
    stack: int
    depth: float
    scale: float

    @property
    def fanned(self) -> float:
        """How far the lowest layer of a pile peeps out, inches of paper."""
        return FAN * (min(self.stack, MOST_LAYERS) - 1)

    def on_paper(self, cloth: Cloth, point: Point) -> Spot:
        """Where a point in a piece's own frame lies on paper."""
        left, top = lines_of(cloth).corner
        return ((float(point[0]) - left) * self.scale, (float(point[1]) - top) * self.scale)

    def frame(self, cloth: Cloth) -> tuple[Motion, float]:
        """What makes a pen's inches the inches of a piece's own frame."""
        return Motion(dx=-cloth.box.left * self.scale, dy=-cloth.box.top * self.scale), self.scale

    def size(self, cloth: Cloth) -> Spot:
        """Width and height of a piece on paper."""
        return (float(cloth.box.width) * self.scale, float(cloth.box.height) * self.scale)


def draw_pile(
    pen: Pen, pile: Pile, look: Look, fan: float = FAN, grain: bool = True, words: bool = True
) -> None:
    """Draw a pile: layer 0 on top in full, the others peeping out below and to the right."""
    for layer in reversed(range(1, min(look.stack, MOST_LAYERS))):
        cloth = pile[layer % len(pile)]
        with pen.framed(Motion(dx=layer * fan, dy=layer * fan)):
            _draw_lower(pen, cloth, layer, look)
    draw_piece(pen, pile[0], look, grain, words)


def _draw_lower(pen: Pen, cloth: Cloth, layer: int, look: Look) -> None:
    """Draw one of the lower layers of a pile."""
    if not _is_measured(pen, lambda: _layer_room(cloth, look)):
        _draw_layer(pen, lines_of(cloth), layer, look)
        _draw_raw_edges(pen, cloth, lines_of(cloth).rims, look)


def draw_piece(pen: Pen, cloth: Cloth, look: Look, grain: bool = True, words: bool = True) -> None:
    """Draw one piece: cloth, seams, allowance shaded, raw edges, stretchy edges (with `words`), and the thread."""
    if cloth.over is not None:
        _draw_faced(pen, cloth, cloth.over, look)
        return
    lines = lines_of(cloth)
    if not _is_measured(pen, lambda: _piece_room(lines, look)):
        _draw_layer(pen, lines, 0, look)
        with pen.framed(*look.frame(cloth)):
            draw_valleys(pen, lines.seams)
        for start, end in lines.left_open:
            pen.line(look.on_paper(cloth, start), look.on_paper(cloth, end), _LEFT_OPEN)
        _draw_allowance(pen, lines, look)
        _draw_raw_edges(pen, cloth, lines.firm, look)
    if grain:
        _draw_grain(pen, lines, look)
    _draw_bias(pen, lines, look, words)


def _is_measured(pen: Pen, room: Callable[[], Box]) -> bool:
    """Whether a pen wants no more of a drawing than its box, and has it now."""
    return isinstance(pen, BoundsPen) and pen.enclose(room())


def _layer_room(cloth: Cloth, look: Look) -> Box:
    """The box that a lower layer of a pile is drawn in, inches of paper."""
    lines = lines_of(cloth)
    return _on_paper(lines, lines.seen, look).joined(_stroked(lines, lines.rims, RAW_EDGE, look))


def _piece_room(lines: PieceLines, look: Look) -> Box:
    """The box that a piece is drawn in, but for its arrows and the waves of its edges, inches of paper."""
    room = _on_paper(lines, lines.seen, look)
    if lines.valleys is not None:
        room = room.joined(_on_paper(lines, lines.valleys, look))
    stitched = [stitched for _, stitched in lines.bands(look.depth)]
    for drawn, stroke in ((lines.left_open, _LEFT_OPEN), (lines.firm, RAW_EDGE), (stitched, _STITCH)):
        room = room.joined(_stroked(lines, drawn, stroke, look))
    return room


def _on_paper(lines: PieceLines, box: Box, look: Look) -> Box:
    (left, top), scale = lines.corner, look.scale
    return Box(
        (box.left - left) * scale,
        (box.top - top) * scale,
        (box.right - left) * scale,
        (box.bottom - top) * scale,
    )


def _stroked(lines: PieceLines, drawn: Sequence[Ends], stroke: Stroke, look: Look) -> Box | None:
    box = box_of_lines(drawn)
    return None if box is None else _on_paper(lines, box, look).grown(stroke.width / 2)


def _draw_faced(pen: Pen, cloth: Cloth, over: Over, look: Look) -> None:
    """Draw two pieces right sides together: the lower one peeps out, the upper shows its wrong side and the seams."""
    with pen.framed(Motion(dx=FAN / 2, dy=FAN / 2)):
        _draw_layer(pen, lines_of(cloth), 0, look)
        _draw_raw_edges(pen, cloth, lines_of(cloth).rims, look)
    draw_face_down(pen, Cloth(over.patches, over.seams, cloth.box), cloth, look)
    for stitch in over.stitches:
        draw_sewing(pen, look.on_paper(cloth, stitch.line.start), look.on_paper(cloth, stitch.line.end))


def draw_face_down(pen: Pen, over: Cloth, on: Cloth, look: Look) -> None:
    """Draw what lies face down on a piece, in that piece's frame: its wrong side, which is paler, and its raw edges."""
    lines = PieceLines(over)
    _draw_layer(pen, lines, 0, look, on)
    for outline in lines.outlines:
        pen.polygon([look.on_paper(on, corner) for corner in outline.corners], Flat(PAPER, _WRONG_SIDE))
    _draw_raw_edges(pen, on, lines.rims, look)


def draw_sewing(pen: Pen, start: Spot, end: Spot) -> None:
    """A line to sew on, with a narrow pale rim that shows it on dark cloth."""
    pen.line(start, end, _SEW_RIM)
    pen.line(start, end, SEW)


def _draw_bias(pen: Pen, lines: PieceLines, look: Look, words: bool) -> None:
    """A wave along each stretchy edge, and once for each kind of stretch a word at the longest."""
    longest: dict[str, Ends] = {}
    for kind, (start, end) in lines.stretchy:
        edge = (look.on_paper(lines.cloth, start), look.on_paper(lines.cloth, end))
        if kind not in longest or dist(*edge) > dist(*longest[kind]) + ALIKE:
            longest[kind] = edge
        bias_wave(pen, *edge)
    for kind, edge in longest.items() if words else ():
        bias_label(pen, *edge, kind)


def _draw_layer(pen: Pen, lines: PieceLines, layer: int, look: Look, on: Cloth | None = None) -> None:
    with pen.framed(*look.frame(on or lines.cloth)):
        draw_cloth(pen, [(one.corners, _fill(one.patch, layer, look)) for one in lines.outlines])


def _fill(patch: Patch, layer: int, look: Look) -> ClothFill:
    fabric = fabric_of(look.fabrics, patch.letter, (layer + patch.layer) % look.stack)
    return laid_fill(fabric, patch.thread, patch.came) if fabric.print else ClothFill(fabric)


def _draw_raw_edges(pen: Pen, cloth: Cloth, drawn: Sequence[Ends], look: Look) -> None:
    pen.lines([(look.on_paper(cloth, start), look.on_paper(cloth, end)) for start, end in drawn], RAW_EDGE)


def _draw_allowance(pen: Pen, lines: PieceLines, look: Look) -> None:
    cloth, bands = lines.cloth, lines.bands(look.depth)
    washed = tuple(
        step for corners, _ in bands for step in ring([look.on_paper(cloth, corner) for corner in corners])
    )
    if washed:
        pen.path(washed, Flat(PAPER, 0.40))
    pen.lines(
        [(look.on_paper(cloth, start), look.on_paper(cloth, end)) for _, (start, end) in bands], _STITCH
    )


def _draw_grain(pen: Pen, lines: PieceLines, look: Look) -> None:
    """One arrow for each way that the thread runs, in the largest patch that has it."""
    for thread, patch in lines.threads:
        left, top = look.on_paper(lines.cloth, (patch.seen.box.left, patch.seen.box.top))
        right, bottom = look.on_paper(lines.cloth, (patch.seen.box.right, patch.seen.box.bottom))
        width, height = right - left, bottom - top
        if min(width, height) < _LEAST_FOR_GRAIN:
            continue
        run = min(0.34, min(width, height) * 0.62)
        if isinstance(patch.seen, Ring):
            grain_arrow(pen, look.on_paper(lines.cloth, middle([patch])), run * 0.8, thread)
            continue
        reach = (abs(cos(radians(thread))) * run / 2 + 0.05, abs(sin(radians(thread))) * run / 2 + 0.05)
        wide = width >= height
        x, y = (max(width * 0.2, reach[0]), height / 2) if wide else (width / 2, max(height * 0.2, reach[1]))
        grain_arrow(pen, (left + x, top + y), run, thread)


def middle(patches: Sequence[Patch]) -> Spot:
    """The center of gravity of what is seen of some patches, taken from the middles of their corners."""
    total = sum(float(patch.seen.area) for patch in patches)
    x = y = 0.0
    for patch in patches:
        corners = [spot(point) for point in patch.seen.points]
        share = float(patch.seen.area) / total / len(corners)
        x += share * sum(corner[0] for corner in corners)
        y += share * sum(corner[1] for corner in corners)
    return (x, y)

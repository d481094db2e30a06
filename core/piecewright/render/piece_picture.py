"""A piece, or a pile, as it lies on the sewing table: in inches of paper, its box's top left at 0, 0."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import atan2, cos, degrees, dist, radians, sin

from piecewright.geometry.motion import Motion, Point
from piecewright.geometry.shapes import Ring
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Cloth, Over, Patch, Pile
from piecewright.making.partial_seams import laid_along, laid_flat
from piecewright.render.cloth import Letters, draw_cloth, draw_valleys, fabric_of, laid_fill
from piecewright.render.marks import bias_label, bias_wave, bias_word, grain_arrow
from piecewright.render.outline import RawEdge, allowances, raw_edges, straight_runs
from piecewright.render.path import Spot, ring, spot
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke
from piecewright.render.style import ACCENT, INK, PAPER, RAW_EDGE, SEW

FAN = 0.05  # inches of paper from one layer of a pile to the next
MOST_LAYERS = 8
_STITCH = Stroke(INK, 0.006, (0.03, 0.025), 0.75)
_LEFT_OPEN = Stroke(ACCENT, 0.02, (0.02, 0.045))
_LEAST_FOR_GRAIN = 0.15
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
        return (float(point[0] - cloth.box.left) * self.scale, float(point[1] - cloth.box.top) * self.scale)

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
            _draw_layer(pen, laid_flat(cloth), layer, look)
            _draw_raw_edges(pen, cloth, straight_runs(raw_edges(cloth), type), look)
    draw_piece(pen, pile[0], look, grain, words)


def draw_piece(pen: Pen, cloth: Cloth, look: Look, grain: bool = True, words: bool = True) -> None:
    """Draw one piece: cloth, seams, allowance shaded, raw edges, stretchy edges (with `words`), and the thread."""
    if cloth.over is not None:
        _draw_faced(pen, cloth, cloth.over, look)
        return
    edges, flat = raw_edges(cloth), laid_flat(cloth)
    runs = straight_runs(edges, _stretch)
    _draw_layer(pen, flat, 0, look)
    with pen.framed(*look.frame(cloth)):
        draw_valleys(pen, [(seam.line.start, seam.line.end) for seam in flat.seams])
    for stretch in laid_along(cloth)[:1]:
        pen.line(look.on_paper(cloth, stretch.start), look.on_paper(cloth, stretch.end), _LEFT_OPEN)
    _draw_allowance(pen, cloth, look)
    _draw_raw_edges(pen, cloth, [run for run in runs if not _stretch(run[0])], look)
    if grain:
        _draw_grain(pen, flat, look)
    _draw_bias(pen, cloth, [run for run in runs if _stretch(run[0])], look, words)


def _draw_faced(pen: Pen, cloth: Cloth, over: Over, look: Look) -> None:
    """Draw two pieces right sides together: the lower one peeps out, the upper shows its wrong side and the seams."""
    with pen.framed(Motion(dx=FAN / 2, dy=FAN / 2)):
        _draw_layer(pen, cloth, 0, look)
        _draw_raw_edges(pen, cloth, straight_runs(raw_edges(cloth), type), look)
    draw_face_down(pen, Cloth(over.patches, over.seams, cloth.box), cloth, look)
    for stitch in over.stitches:
        pen.line(look.on_paper(cloth, stitch.line.start), look.on_paper(cloth, stitch.line.end), SEW)


def draw_face_down(pen: Pen, over: Cloth, on: Cloth, look: Look) -> None:
    """Draw what lies face down on a piece, in that piece's frame: its wrong side, which is paler, and its raw edges."""
    _draw_layer(pen, over, 0, look, on)
    for patch in over.patches:
        pen.polygon([look.on_paper(on, point) for point in patch.seen.points], Flat(PAPER, _WRONG_SIDE))
    _draw_raw_edges(pen, on, straight_runs(raw_edges(over), type), look)


def _stretch(edge: RawEdge) -> str | None:
    return bias_word(degrees_off_thread(edge))


def _draw_bias(pen: Pen, cloth: Cloth, runs: list[list[RawEdge]], look: Look, words: bool) -> None:
    """A wave along each stretchy edge, and once for each kind of stretch a word at the longest."""
    ends = [(look.on_paper(cloth, run[0].start), look.on_paper(cloth, run[-1].end)) for run in runs]
    longest: dict[str | None, tuple[Spot, Spot]] = {}
    for run, edge in zip(runs, ends, strict=True):
        kind = _stretch(run[0])
        if kind not in longest or dist(*edge) > dist(*longest[kind]) + ALIKE:
            longest[kind] = edge
        bias_wave(pen, *edge)
    for kind, edge in longest.items() if words else ():
        bias_label(pen, *edge, kind or "")


def thread_now(patch: Patch) -> float:
    """The lengthwise thread of a patch as it lies, clockwise degrees from x, 0 <= d < 180."""
    thread = 180 - patch.thread if patch.came.faced else patch.thread
    return (thread + patch.came.turn_degrees) % 180


def degrees_off_thread(edge: RawEdge) -> float:
    """How far an edge runs off the nearest thread, 0 to 45 degrees."""
    off = (degrees(atan2(edge.along[1], edge.along[0])) - thread_now(edge.patch)) % 90
    return min(off, 90 - off)


def _draw_layer(pen: Pen, cloth: Cloth, layer: int, look: Look, on: Cloth | None = None) -> None:
    with pen.framed(*look.frame(on or cloth)):
        draw_cloth(pen, [(patch.seen.points, _fill(patch, layer, look)) for patch in cloth.patches])


def _fill(patch: Patch, layer: int, look: Look) -> ClothFill:
    fabric = fabric_of(look.fabrics, patch.letter, (layer + patch.layer) % look.stack)
    return laid_fill(fabric, patch.thread, patch.came)


def _draw_raw_edges(pen: Pen, cloth: Cloth, runs: list[list[RawEdge]], look: Look) -> None:
    lines = [(look.on_paper(cloth, run[0].start), look.on_paper(cloth, run[-1].end)) for run in runs]
    pen.lines(lines, RAW_EDGE)


def _draw_allowance(pen: Pen, cloth: Cloth, look: Look) -> None:
    bands = allowances(cloth, look.depth)
    washed = tuple(
        step for corners, _ in bands for step in ring([look.on_paper(cloth, corner) for corner in corners])
    )
    if washed:
        pen.path(washed, Flat(PAPER, 0.40))
    pen.lines(
        [(look.on_paper(cloth, start), look.on_paper(cloth, end)) for _, (start, end) in bands], _STITCH
    )


def _draw_grain(pen: Pen, cloth: Cloth, look: Look) -> None:
    """One arrow for each way that the thread runs, in the largest patch that has it."""
    largest: dict[float, Patch] = {}
    for patch in sorted(cloth.patches, key=lambda patch: patch.seen.area):
        largest[round(thread_now(patch), 3)] = patch
    for thread, patch in largest.items():
        left, top = look.on_paper(cloth, (patch.seen.box.left, patch.seen.box.top))
        right, bottom = look.on_paper(cloth, (patch.seen.box.right, patch.seen.box.bottom))
        width, height = right - left, bottom - top
        if min(width, height) < _LEAST_FOR_GRAIN:
            continue
        run = min(0.34, min(width, height) * 0.62)
        if isinstance(patch.seen, Ring):
            grain_arrow(pen, look.on_paper(cloth, middle([patch])), run * 0.8, thread)
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

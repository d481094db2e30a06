"""A finished block as it looks: cloth, seams and, when asked, its bias edges."""

from collections.abc import Sequence

from piecewright.geometry.motion import Motion
from piecewright.making.facts import BiasEdge, Kind
from piecewright.model.fabric import Fabric
from piecewright.render.cloth import cloth_fill, draw_cloth, draw_valleys
from piecewright.render.marks import bias_label, bias_wave, bias_word
from piecewright.render.path import Spot, spot
from piecewright.render.pen import Pen


def draw_block(kind: Kind, fabrics: Sequence[Fabric], pen: Pen, words: float | None = None) -> None:
    """Draw a block, its finished top left at 0, 0; `fabrics` has the fabric of each of the kind's patches.

    With `words`, the em of type in the drawing's inches, outer bias edges get a line and a word of their own.
    """
    matched = zip(kind.patches, fabrics, strict=True)
    draw_cloth(pen, [(patch.points, cloth_fill(fabric, patch)) for patch, fabric in matched])
    draw_valleys(pen, [(seam.start, seam.end) for seam in kind.seams])
    if words is not None:
        draw_outer_bias(kind, pen, words)


def draw_outer_bias(kind: Kind, pen: Pen, words: float) -> None:
    """Mark the outer bias edges of a block by a line of their own and a word, `words` the em of its type."""
    for edge in kind.bias_edges:
        said = bias_word(edge.degrees)
        if edge.outer and said is not None:
            ends = _clockwise(edge, kind)
            bias_wave(pen, *ends, words)
            bias_label(pen, *ends, said, words)


def stamp_block(kind: Kind, fabrics: tuple[Fabric, ...], pen: Pen, motion: Motion) -> None:
    """Draw a block moved and turned; pens that can keep one picture for all that look alike."""
    pen.stamp((kind.patches, fabrics), motion, lambda inner: draw_block(kind, fabrics, inner))


def _clockwise(edge: BiasEdge, kind: Kind) -> tuple[Spot, Spot]:
    """The ends of an outer edge such that the block lies on the right of the way from one to the other."""
    points = [spot(point) for patch in kind.patches for point in patch.points]
    middle = (sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points))
    (x0, y0), (x1, y1) = spot(edge.start), spot(edge.end)
    right = (x1 - x0) * (middle[1] - y0) - (y1 - y0) * (middle[0] - x0) > 0
    return ((x0, y0), (x1, y1)) if right else ((x1, y1), (x0, y0))

"""What the picture of a piece is made of, worked out once for each piece and not anew for every scale that is tried."""

from collections import OrderedDict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import atan2, degrees

from piecewright.making.cloth import Cloth, Patch
from piecewright.making.partial_seams import laid_along, laid_flat
from piecewright.render.bounds_pen import Box, bounds
from piecewright.render.cloth import draw_valleys
from piecewright.render.marks import bias_word
from piecewright.render.outline import Band, RawEdge, allowance, raw_edges, straight_runs
from piecewright.render.path import Spot, spot

Ends = tuple[Spot, Spot]
_MOST_KEPT = 512


@dataclass(frozen=True, slots=True)
class Outline:
    """A patch, and the corners of what is seen of it as floats."""

    patch: Patch
    corners: tuple[Spot, ...]


class PieceLines:
    """The lines of a piece in its own frame, inches of cloth as floats; each kind is found when first asked for."""

    def __init__(self, cloth: Cloth) -> None:
        self.cloth = cloth
        self.corner: Spot = (float(cloth.box.left), float(cloth.box.top))
        self._bands: dict[float, tuple[Band, ...]] = {}

    @cached_property
    def flat(self) -> Cloth:
        """The piece with a partial seam laid flat."""
        return laid_flat(self.cloth)

    @cached_property
    def left_open(self) -> tuple[Ends, ...]:
        """Where a partial seam is not sewn yet."""
        return tuple((spot(line.start), spot(line.end)) for line in laid_along(self.cloth)[:1])

    @cached_property
    def outlines(self) -> tuple[Outline, ...]:
        """The patches."""
        return tuple(
            Outline(patch, tuple(spot(point) for point in patch.seen.points)) for patch in self.flat.patches
        )

    @cached_property
    def seams(self) -> tuple[Ends, ...]:
        """The seams that hold them."""
        return tuple((spot(seam.line.start), spot(seam.line.end)) for seam in self.flat.seams)

    @cached_property
    def edges(self) -> tuple[RawEdge, ...]:
        """The raw edges."""
        return raw_edges(self.cloth)

    @cached_property
    def rims(self) -> tuple[Ends, ...]:
        """The raw edges as straight lines round the piece."""
        return _ends(straight_runs(self.edges, type))

    @cached_property
    def firm(self) -> tuple[Ends, ...]:
        """The straight lines among them that do not stretch."""
        return _ends(run for run in self._runs if not stretch(run[0]))

    @cached_property
    def stretchy(self) -> tuple[tuple[str, Ends], ...]:
        """Those that stretch, each with the word for it."""
        return tuple((word, (run[0].start, run[-1].end)) for run in self._runs if (word := stretch(run[0])))

    @cached_property
    def _runs(self) -> list[list[RawEdge]]:
        return straight_runs(self.edges, stretch)

    @cached_property
    def threads(self) -> tuple[tuple[float, Patch], ...]:
        """Each way that the thread runs, with the largest patch that has it."""
        largest: dict[float, Patch] = {}
        for patch in sorted(self.flat.patches, key=lambda patch: patch.seen.area):
            largest[round(thread_now(patch), 3)] = patch
        return tuple(largest.items())

    def bands(self, depth: float) -> tuple[Band, ...]:
        """The allowance along every raw edge that has it."""
        if depth not in self._bands:
            found = (allowance(edge, depth) for edge in self.edges)
            self._bands[depth] = tuple(band for band in found if band is not None)
        return self._bands[depth]

    @cached_property
    def seen(self) -> Box:
        """The box of what is seen."""
        return _box(corner for outline in self.outlines for corner in outline.corners)

    @cached_property
    def valleys(self) -> Box | None:
        """The box of the seams with their shading."""
        return bounds(lambda pen: draw_valleys(pen, self.seams))


def _ends(runs: Iterable[Sequence[RawEdge]]) -> tuple[Ends, ...]:
    return tuple((run[0].start, run[-1].end) for run in runs)


def _box(spots: Iterable[Spot]) -> Box:
    across, down = zip(*spots, strict=True)
    return Box(min(across), min(down), max(across), max(down))


def box_of_lines(lines: Iterable[Ends]) -> Box | None:
    """The box of some lines; None where there are none."""
    spots = [end for line in lines for end in line]
    return _box(spots) if spots else None


_KEPT: OrderedDict[int, PieceLines] = OrderedDict()


def lines_of(cloth: Cloth) -> PieceLines:
    """The lines of a piece, kept by its identity: an edit draws pieces again that it did not touch."""
    kept = _KEPT.get(id(cloth))
    if kept is None or kept.cloth is not cloth:
        kept = _KEPT[id(cloth)] = PieceLines(cloth)
        while len(_KEPT) > _MOST_KEPT:
            _KEPT.popitem(last=False)
    return kept


def stretch(edge: RawEdge) -> str | None:
    """What is said of an edge's stretch; nothing of one that runs along a thread."""
    return bias_word(degrees_off_thread(edge))


def thread_now(patch: Patch) -> float:
    """The lengthwise thread of a patch as it lies, clockwise degrees from x, 0 <= d < 180."""
    thread = 180 - patch.thread if patch.came.faced else patch.thread
    return (thread + patch.came.turn_degrees) % 180


def degrees_off_thread(edge: RawEdge) -> float:
    """How far an edge runs off the nearest thread, 0 to 45 degrees."""
    off = (degrees(atan2(edge.along[1], edge.along[0])) - thread_now(edge.patch)) % 90
    return min(off, 90 - off)

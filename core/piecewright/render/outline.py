"""The raw outer edges of a piece on the sewing table, and the allowance along them."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import hypot

from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Cloth, Patch
from piecewright.making.partial_seams import laid_along, laid_flat
from piecewright.render.path import Spot, spot


@dataclass(frozen=True, slots=True)
class RawEdge:
    """A stretch of a patch's edge that no seam holds, clockwise round it; `whole` if it is all of it."""

    start: Spot
    end: Spot
    patch: Patch
    whole: bool

    @property
    def along(self) -> Spot:
        """The direction it runs, of length 1; the cloth lies on its right."""
        run, rise = self.end[0] - self.start[0], self.end[1] - self.start[1]
        length = hypot(run, rise)
        return (run / length, rise / length)


Band = tuple[tuple[Spot, ...], tuple[Spot, Spot]]
"""The corners of an allowance, and the line it will be sewn on."""


def raw_edges(cloth: Cloth) -> tuple[RawEdge, ...]:
    """Every raw edge of a piece, in its frame; one with a partial seam lies flat."""
    flat = laid_flat(cloth)
    held = [seam.line for seam in (*flat.seams, *cloth.closing_seams)]
    seams = [(spot(line.start), spot(line.end)) for line in (*held, *laid_along(cloth))]
    edges: list[RawEdge] = []
    for patch in flat.patches:
        corners = [spot(point) for point in patch.seen.points]
        for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
            edges.extend(_without_seams(start, end, patch, seams))
    return tuple(edges)


def allowance(edge: RawEdge, depth: float) -> Band | None:
    """The cloth along a raw edge, and the line it will be sewn on; None where the cloth is narrower."""
    line = right_hand(edge.start, edge.end).shrunk(depth)
    band = edge.patch.seen.clipped(line.opposite)
    if band is not None and not edge.whole:
        ux, uy = edge.along
        band = band.clipped(Half(ux, uy, ux * edge.end[0] + uy * edge.end[1]))
        band = band and band.clipped(Half(-ux, -uy, -ux * edge.start[0] - uy * edge.start[1]))
    if band is None:
        return None
    corners = tuple(spot(point) for point in band.points)
    inner = [corner for corner in corners if abs(float(line.distance(corner))) < ALIKE]
    return (corners, (inner[0], inner[-1])) if len(inner) > 1 else None


def _without_seams(start: Spot, end: Spot, patch: Patch, seams: list[tuple[Spot, Spot]]) -> list[RawEdge]:
    length = hypot(end[0] - start[0], end[1] - start[1])
    if length < ALIKE:
        return []
    ux, uy = (end[0] - start[0]) / length, (end[1] - start[1]) / length
    held: list[tuple[float, float]] = []
    for seam in seams:
        spans = [
            (ux * (x - start[0]) + uy * (y - start[1]), abs(ux * (y - start[1]) - uy * (x - start[0])))
            for x, y in seam
        ]
        low, high = max(0.0, min(spans)[0]), min(length, max(spans)[0])
        if high > low and all(off < ALIKE for _, off in spans):
            held.append((low, high))
    found: list[RawEdge] = []
    reached = 0.0
    for low, high in [*sorted(held), (length, length)]:
        if low - reached > ALIKE:
            ends = [(start[0] + ux * at, start[1] + uy * at) for at in (reached, low)]
            found.append(RawEdge(ends[0], ends[1], patch, whole=low - reached > length - ALIKE))
        reached = max(reached, high)
    return found


def straight_runs(edges: Sequence[RawEdge], kind: Callable[[RawEdge], object]) -> list[list[RawEdge]]:
    """Edges of one kind that follow each other in one straight line round a piece, together."""
    runs: list[list[RawEdge]] = []
    left = list(edges)
    while left:
        run = [left.pop(0)]
        alike = [edge for edge in left if kind(edge) == kind(run[0]) and _same_way(edge, run[0])]
        while (after := _first(alike, run[-1].end, lambda edge: edge.start)) is not None:
            run.append(after)
            alike.remove(after)
        while (before := _first(alike, run[0].start, lambda edge: edge.end)) is not None:
            run.insert(0, before)
            alike.remove(before)
        left = [edge for edge in left if edge not in run]
        runs.append(run)
    return runs


def _same_way(one: RawEdge, other: RawEdge) -> bool:
    return hypot(one.along[0] - other.along[0], one.along[1] - other.along[1]) < ALIKE


def _first(edges: list[RawEdge], at: Spot, end: Callable[[RawEdge], Spot]) -> RawEdge | None:
    """The first edge that has an end at a point."""
    return next((edge for edge in edges if hypot(end(edge)[0] - at[0], end(edge)[1] - at[1]) < ALIKE), None)

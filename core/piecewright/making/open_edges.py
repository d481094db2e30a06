"""How long each bias edge seen in a finished block lay open: from the cut that made it to the seam that holds it."""

from collections.abc import Iterable
from dataclasses import dataclass
from math import hypot

from piecewright.geometry.motion import Point
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.facts import BiasEdge, Kind, SeenPatch
from piecewright.making.run import Making
from piecewright.making.stretch import Ending, along, as_laid, endings
from piecewright.words.message import Message, message

_ONE_WAY = 1e-4
"""Unit vectors that differ by less point one way."""


@dataclass(frozen=True, slots=True)
class WaitingEdge:
    """A bias edge as seen in a finished block, and how many steps it lay open; `until` as of `Ending`."""

    edge: BiasEdge
    waits: int
    since: int
    until: int | None

    @property
    def sentence(self) -> Message:
        """How long it is, and from which step to which it lay open; steps count from 1."""
        length, degrees, since = float(self.edge.length), self.edge.degrees, self.since + 1
        if self.until is None:
            return message("sewing.waits-outer", length=length, degrees=degrees, since=since)
        until, waits = self.until + 1, self.waits
        return message(
            "sewing.waits-for", length=length, degrees=degrees, since=since, until=until, waits=waits
        )


def waiting_edges(making: Making, kind: Kind) -> tuple[WaitingEdge, ...]:
    """The bias edges of one kind of block, each with the longest wait of its parts; layer by layer.

    Edges of which nothing is known (they never lay open) are left out. Raises MakingError as `finish` does.
    """
    open_edges = endings(making)
    depth = float(making.names["seam"])
    stack, block_layer = making.recipe.stack, kind.layers[0]
    found = []
    for edge, patch in _edges_with_patches(kind):
        layer = (block_layer + patch.layer) % stack
        alike = list(_under(edge, patch, layer, open_edges, depth))
        if alike:
            longest = max(alike, key=lambda each: each.waits)
            found.append(WaitingEdge(edge, longest.waits, longest.edge.since, longest.until))
    return tuple(found)


def _edges_with_patches(kind: Kind) -> Iterable[tuple[BiasEdge, SeenPatch]]:
    """Every bias edge with the patch whose side it is."""
    sides: dict[tuple[str, Point, Point], SeenPatch] = {}
    for patch in kind.patches:
        for index, end in enumerate(patch.points):
            sides[patch.fabric, patch.points[index - 1], end] = patch
    for edge in kind.bias_edges:
        yield edge, sides[edge.fabric, edge.start, edge.end]


def _under(
    edge: BiasEdge, patch: SeenPatch, layer: int, open_edges: Iterable[Ending], depth: float
) -> Iterable[Ending]:
    """The cut edges that an edge was sewn from: they lie an allowance outside of it, in the cloth as laid."""
    start, end = as_laid(edge.start, patch), as_laid(edge.end, patch)
    if patch.came.faced:
        start, end = end, start
    length = hypot(end[0] - start[0], end[1] - start[1])
    normal = ((end[1] - start[1]) / length, (start[0] - end[0]) / length)
    offset = normal[0] * start[0] + normal[1] * start[1]
    low, high = sorted(along(normal, point) for point in (start, end))
    for each in open_edges:
        cut = each.edge
        if (cut.strip, cut.layer) != (patch.strip, layer):
            continue
        one_way = all(abs(one - other) <= _ONE_WAY for one, other in zip(cut.normal, normal, strict=True))
        beside = -ALIKE <= cut.offset - offset <= 2 * depth + ALIKE
        if one_way and beside and min(high, cut.high) - max(low, cut.low) > ALIKE:
            yield each

"""Edges off the thread: how much bias there is to handle, by fabric, outer or inner, and by how far off."""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from piecewright.making.facts import BiasEdge, Kind
from piecewright.plan.keys import BiasKey, FabricsByLetter

BANDS: tuple[tuple[str, int], ...] = (("quiet", 5), ("pin", 20), ("bias", 45))
"""Names of the bands and the degrees off the thread at which each ends: under 5 needs nothing, up to 20 is
handled gently and pinned, above that is bias (common practice, no source)."""

_PARTS = 10**9
"""Lengths are counted in whole billionths of an inch, so that a sum is the same in whatever order it was
reached."""


@dataclass(frozen=True, slots=True)
class BiasLine:
    """Inches of finished bias edges in one band; an inner edge counts once for each of its two patches."""

    fabric: str
    outer: bool
    band: str
    length: float


def band_of(degrees: float) -> str:
    """The band of an edge so many degrees off its nearest thread."""
    if degrees < BANDS[0][1]:
        return BANDS[0][0]
    return BANDS[1][0] if degrees <= BANDS[1][1] else BANDS[2][0]


def bias_lengths(kind: Kind, layer: int, letters: FabricsByLetter) -> tuple[tuple[BiasKey, int], ...]:
    """The bias edges of one finished block that lies in `layer` of its stack, in billionths of an inch."""
    if not kind.bias_edges:
        return ()
    fabrics = dict(letters)
    totals: dict[BiasKey, int] = {}
    for edge in kind.bias_edges:
        ids = fabrics[edge.fabric]
        fabric = ids[0] if len(set(ids)) == 1 else ids[(layer + _layer(kind, edge)) % len(ids)]
        key = BiasKey(fabric, edge.outer, band_of(edge.degrees))
        totals[key] = totals.get(key, 0) + round(Fraction(edge.length) * _PARTS)
    return tuple(sorted(totals.items()))


def bias_line(key: BiasKey, total: int) -> BiasLine:
    """A total of the account in inches."""
    return BiasLine(key.fabric, key.outer, key.band, total / _PARTS)


def _layer(kind: Kind, edge: BiasEdge) -> int:
    """The layer of the one patch that has this edge in this direction; its neighbor has it the other way."""
    return next(
        patch.layer
        for patch in kind.patches
        if (edge.start, edge.end) in pairwise((*patch.points, patch.points[0]))
    )

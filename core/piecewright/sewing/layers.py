"""How many layers of cloth lie on each other where seams meet, for a way of pressing.

Between two seams lies one layer; each seam, in the order of sewing, folds the allowances of both its neighbors, with
all that already lies in them, onto the one it is pressed to, or each back onto its own when it is pressed open.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import cos, pi, sin

from piecewright.geometry.tolerance import ALIKE
from piecewright.sewing.crossings import sides
from piecewright.sewing.junctions import Junction, Ray, SeamLine, Spot

OPEN = 0
"""The sign of a seam that is pressed open."""


@dataclass(frozen=True, slots=True)
class Lump:
    """Layers at the thickest spot round a point where seams meet.

    As pressed; with the seam sewn last (line `last`) opened; and spun, that seam pressed one way on this side of the
    point and the other way beyond it (None: can not be).
    """

    point: Spot
    last: int
    pressed: int
    opened: int
    spun: int | None


def lump(lines: Sequence[SeamLine], junction: Junction, signs: Sequence[int]) -> Lump:
    """The lump at a junction; `signs` by seam: 1, -1 or OPEN."""
    last = max(junction.rays, key=lambda ray: lines[ray.line].order).line
    pressed = thickest(lines, junction, signs)
    opened = thickest(lines, junction, signs, {last: (OPEN, OPEN)})
    return Lump(junction.point, last, pressed, opened, _spun(lines, junction, signs, last))


def _spun(lines: Sequence[SeamLine], junction: Junction, signs: Sequence[int], last: int) -> int | None:
    """Only where the last seam runs through and one seam comes to it from either side can it be spun."""
    through = [ray for ray in junction.rays if ray.line == last]
    before, after = sides(lines, junction, last)
    if len(through) != 2 or (len(before), len(after)) != (1, 1) or len(junction.rays) != 4:
        return None
    return min(thickest(lines, junction, signs, {last: turned}) for turned in ((1, -1), (-1, 1)))


def thickest(
    lines: Sequence[SeamLine],
    junction: Junction,
    signs: Sequence[int],
    ways: Mapping[int, tuple[int, int]] | None = None,
) -> int:
    """The most layers between any two neighboring rays.

    `ways` gives lines other signs than their seams have, for the first of their rays here and the second.
    """
    ways = ways or {}
    rays = _with_breaks(junction)
    layers = [1] * len(rays)
    met: dict[int, int] = {}
    sewn = [(lines[ray.line].order, place, ray) for place, ray in enumerate(rays) if ray is not None]
    for _, place, ray in sorted(sewn, key=lambda each: each[:2]):
        met[ray.line] = met.get(ray.line, -1) + 1
        sign = ways[ray.line][met[ray.line]] if ray.line in ways else signs[lines[ray.line].seam]
        _fold(layers, place, sign * _clockwise(lines[ray.line], ray.angle))
    return max(layers)


def _with_breaks(junction: Junction) -> list[Ray | None]:
    """The rays, and None where cloth reaches half way round: what is folded on it from either end stays apart."""
    found: list[Ray | None] = []
    for ray, after in pairwise((*junction.rays, junction.rays[0])):
        found.append(ray)
        if (after.angle - ray.angle) % (2 * pi) >= pi - ALIKE:
            found.append(None)
    return found


def _fold(layers: list[int], place: int, way: int) -> None:
    """Press the seam of a ray: `layers` of a place lie clockwise from its ray; way 1 presses it there."""
    there, before = layers[place], layers[place - 1]
    if way == OPEN:
        layers[place], layers[place - 1] = 2 * there, 2 * before
    elif way > 0:
        layers[place] = 2 * there + before
    else:
        layers[place - 1] = 2 * before + there


def _clockwise(line: SeamLine, angle: float) -> int:
    """1 where a line's way with sign 1 is clockwise from its ray."""
    return 1 if line.toward[1] * cos(angle) - line.toward[0] * sin(angle) > 0 else -1

"""Crossings: where a seam is sewn over two others that meet on it from its two sides, so that they ought to nest.

Laid right sides together, each of the two lies on the mirror image of the other; they nest where they are pressed to
opposite sides along the seam that holds them.
"""

from collections.abc import Iterable, Iterator, Sequence
from math import cos, pi, sin
from typing import NamedTuple

from piecewright.geometry.tolerance import ALIKE
from piecewright.sewing.junctions import Junction, Ray, SeamLine, Spot

_FULL = 2 * pi


class Crossing(NamedTuple):
    """Lines `one` and `other`, by index, meet on line `on`; they nest if their seams' signs are the same or not."""

    point: Spot
    on: int
    one: int
    other: int
    same: bool


class Bulk(NamedTuple):
    """Lines run into a seam from one side only: pressed with `sign`, line `on` lies away from them."""

    point: Spot
    on: int
    sign: int


def crossings(lines: Sequence[SeamLine], junctions: Iterable[Junction]) -> tuple[Crossing, ...]:
    """Every crossing at some junctions."""
    return tuple(
        found
        for junction in junctions
        for on in _lines_at(junction)
        for found in _crossings_on(lines, junction, on)
    )


def bulks(lines: Sequence[SeamLine], junctions: Iterable[Junction]) -> tuple[Bulk, ...]:
    """Where seams end on one that runs on, with none to meet them on its other side."""
    found = []
    for junction in junctions:
        for on in _lines_at(junction):
            before, after = sides(lines, junction, on)
            if bool(before) != bool(after) and len(_rays_of(junction, on)) == 2:
                found.append(Bulk(junction.point, on, _sign_away(lines[on], (before or after)[0])))
    return tuple(found)


def sides(lines: Sequence[SeamLine], junction: Junction, on: int) -> tuple[list[Ray], list[Ray]]:
    """The rays of earlier seams on the two sides of a line, each nearest its first ray first.

    A side ends at a seam that was not yet sewn, for what lies beyond it was not yet there, and half way round.
    """
    first = _rays_of(junction, on)[0]
    place = junction.rays.index(first)
    clockwise = [*junction.rays[place + 1 :], *junction.rays[:place]]
    order = lines[on].order
    return (
        _earlier(lines, clockwise, first, order, 1),
        _earlier(lines, clockwise[::-1], first, order, -1),
    )


def _earlier(lines: Sequence[SeamLine], rays: Iterable[Ray], first: Ray, order: int, way: int) -> list[Ray]:
    found = []
    for ray in rays:
        turned = way * (ray.angle - first.angle) % _FULL
        if turned >= pi - ALIKE or lines[ray.line].order >= order:
            break
        found.append(ray)
    return found


def _crossings_on(lines: Sequence[SeamLine], junction: Junction, on: int) -> Iterator[Crossing]:
    before, after = sides(lines, junction, on)
    first = _rays_of(junction, on)[0]
    for one, other in _mirrored(first, before, after):
        leanings = _leaning(lines[one.line], lines[on]), _leaning(lines[other.line], lines[on])
        yield Crossing(junction.point, on, one.line, other.line, leanings[0] != leanings[1])


def _mirrored(first: Ray, before: Sequence[Ray], after: Sequence[Ray]) -> Iterator[tuple[Ray, Ray]]:
    """Pairs of rays, each ray in one at most: those first that lie most nearly on each other's mirror image."""
    pairs = sorted(
        (abs(cos(one.angle - first.angle) - cos(other.angle - first.angle)), i, j)
        for i, one in enumerate(before)
        for j, other in enumerate(after)
    )
    free, others_free = set(range(len(before))), set(range(len(after)))
    for _, i, j in pairs:
        if i in free and j in others_free:
            free.remove(i)
            others_free.remove(j)
            yield before[i], after[j]


def _lines_at(junction: Junction) -> list[int]:
    return list(dict.fromkeys(ray.line for ray in junction.rays))


def _rays_of(junction: Junction, line: int) -> list[Ray]:
    return [ray for ray in junction.rays if ray.line == line]


def _leaning(line: SeamLine, on: SeamLine) -> int:
    """To which end of the seam that holds it a line is pressed, with sign 1."""
    along = (on.end[0] - on.start[0], on.end[1] - on.start[1])
    return 1 if line.toward[0] * along[0] + line.toward[1] * along[1] > 0 else -1


def _sign_away(on: SeamLine, ray: Ray) -> int:
    """The sign with which a line is pressed away from a ray."""
    return -1 if on.toward[0] * cos(ray.angle) + on.toward[1] * sin(ray.angle) > 0 else 1

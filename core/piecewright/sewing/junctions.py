"""Where seams meet: points at which the ends of some lie on others, with all seams there in order round the point.

Inches, x right and y down; everything here is float, for nothing is cut by it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import atan2, hypot, pi

import numpy as np
from numpy.typing import NDArray

from piecewright.geometry.tolerance import ALIKE, SEAMS_MEET

Spot = tuple[float, float]
_MEET = float(SEAMS_MEET) + ALIKE
_AT_ONCE = 256


@dataclass(frozen=True, slots=True)
class SeamLine:
    """A straight piece of a seam as it lies in finished work.

    `seam` numbers the seam as sewn, `order` when it was sewn (later is more); `toward` points across the line to the
    side it is pressed to when its seam's sign is 1.
    """

    seam: int
    order: int
    start: Spot
    end: Spot
    toward: Spot


@dataclass(frozen=True, slots=True)
class Ray:
    """A line leaving a junction: its index, and its angle clockwise from x in radians, 0 <= angle < 2 pi."""

    line: int
    angle: float


@dataclass(frozen=True, slots=True)
class Junction:
    """A point where seams meet, its rays clockwise; a line that runs through has two."""

    point: Spot
    rays: tuple[Ray, ...]

    @property
    def is_inside(self) -> bool:
        """Whether there is cloth all round, as far as the rays can tell: no gap of more than half way round."""
        angles = [ray.angle for ray in self.rays]
        gaps = [after - before for before, after in pairwise((*angles, angles[0] + 2 * pi))]
        return max(gaps) <= pi + ALIKE


def junctions(lines: Sequence[SeamLine]) -> tuple[Junction, ...]:
    """The points where an end of a line lies on another line, from top to bottom and left to right."""
    if not lines:
        return ()
    starts = np.array([line.start for line in lines], np.float64)
    ends = np.array([line.end for line in lines], np.float64)
    lying = _ends_on_lines(starts, ends)
    touching = np.flatnonzero(lying.any(axis=1))
    spots = np.concatenate([starts, ends])[touching]
    found = [
        _junction(lines, [int(touching[index]) for index in cluster], lying) for cluster in _clusters(spots)
    ]
    return tuple(sorted((each for each in found if each), key=lambda each: each.point[::-1]))


def _ends_on_lines(starts: NDArray[np.float64], ends: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Whether each end (all starts, then all ends) lies on each other line that is not parallel to its own."""
    run = ends - starts
    length = np.hypot(run[:, 0], run[:, 1])
    unit = run / length[:, None]
    spots, units = np.concatenate([starts, ends]), np.concatenate([unit, unit])
    lying = np.empty((len(spots), len(starts)), np.bool_)
    for first in range(0, len(spots), _AT_ONCE):
        some = slice(first, first + _AT_ONCE)
        away = spots[some, None, :] - starts[None, :, :]
        along = (away * unit).sum(axis=2)
        beside = away[..., 0] * unit[:, 1] - away[..., 1] * unit[:, 0]
        slant = units[some, None, 0] * unit[:, 1] - units[some, None, 1] * unit[:, 0]
        within = (along >= -ALIKE) & (along <= length + ALIKE)
        lying[some] = within & (np.abs(beside) <= ALIKE) & (np.abs(slant) > ALIKE)
    return lying


def _clusters(spots: NDArray[np.float64]) -> Iterator[list[int]]:
    """Spots that are one place, since seams that miss by so little are made to meet: their indices."""
    anchors: dict[tuple[int, int], list[tuple[Spot, list[int]]]] = {}
    clusters: list[list[int]] = []
    for index, (x, y) in enumerate(spots.tolist()):
        column, row = int(x / _MEET // 1), int(y / _MEET // 1)
        near = (
            cluster
            for i in (column - 1, column, column + 1)
            for j in (row - 1, row, row + 1)
            for (anchor_x, anchor_y), cluster in anchors.get((i, j), ())
            if hypot(anchor_x - x, anchor_y - y) <= _MEET
        )
        cluster = next(near, None)
        if cluster is None:
            cluster = []
            clusters.append(cluster)
            anchors.setdefault((column, row), []).append(((x, y), cluster))
        cluster.append(index)
    yield from clusters


def _junction(lines: Sequence[SeamLine], cluster: Sequence[int], lying: NDArray[np.bool_]) -> Junction | None:
    """The junction of some ends, all at one place; None where no two lines meet there."""
    count = len(lines)
    first = cluster[0]
    point = lines[first].start if first < count else lines[first - count].end
    here = {end % count for end in cluster}
    here.update(np.flatnonzero(lying[list(cluster)].any(axis=0)).tolist())
    rays = sorted(
        (ray for line in here for ray in _rays(lines[line], line, point)), key=lambda ray: ray.angle
    )
    return Junction(point, tuple(rays)) if len(here) > 1 else None


def _rays(line: SeamLine, index: int, point: Spot) -> Iterator[Ray]:
    for end, other in ((line.start, line.end), (line.end, line.start)):
        if hypot(other[0] - point[0], other[1] - point[1]) > _MEET:
            yield Ray(index, atan2(other[1] - end[1], other[0] - end[0]) % (2 * pi))

"""The only door to shapely: coverage, crossings, and the largest rectangle in a piece that is no rectangle itself.

Polygons come in and go out as tuples of points in inches; nothing here is called while a plain block is made. Every
overlay is given a grid: without one it loses or invents whole slivers where corners touch all but exactly.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterable, Sequence
from fractions import Fraction
from itertools import pairwise
from math import hypot
from typing import Any, NamedTuple

import numpy as np
import shapely  # type: ignore[import-untyped] # it ships without types; this file gives it some

from piecewright.geometry.motion import Number, Point
from piecewright.geometry.tolerance import ALIKE, TOUCH

Geometry = Any
"""Any of shapely's geometries."""


def _polygon(points: Sequence[Point]) -> Geometry:
    return shapely.Polygon([(float(x), float(y)) for x, y in points])


def _union(polygons: Iterable[Sequence[Point]]) -> Geometry:
    """What some polygons cover together; gaps narrower than rounding leaves are closed."""
    grown = shapely.union_all(
        [_polygon(points).buffer(ALIKE, join_style="mitre") for points in polygons], grid_size=TOUCH
    )
    return grown.buffer(-ALIKE, join_style="mitre")


def cover_same(one: Iterable[Sequence[Point]], other: Iterable[Sequence[Point]]) -> bool:
    """Whether two sets of polygons cover the same ground, to what rounding leaves."""
    first, second = _union(one), _union(other)
    return bool(first.symmetric_difference(second, grid_size=TOUCH).area <= ALIKE * (1 + first.length))


def reached(outline: Sequence[Point], margin: Number, cells: Sequence[Sequence[Point]]) -> list[bool]:
    """For each cell whether anything of it lies within `margin` of a polygon, by more than a touch."""
    area = _polygon(outline).buffer(float(margin)).buffer(-TOUCH)
    shapely.prepare(area)
    corners = np.array([[(float(x), float(y)) for x, y in cell] for cell in cells], np.float64)
    return [bool(each) for each in shapely.intersects(area, shapely.polygons(corners))]


def crossing(polygons: Iterable[Sequence[Point]], start: Point, end: Point) -> float:
    """How many inches of the endless line through two points run through what some polygons cover."""
    x1, y1, x2, y2 = (float(value) for value in (*start, *end))
    covered = _union(polygons)
    far = covered.length / max(abs(x2 - x1), abs(y2 - y1))
    run, rise = (x2 - x1) * far, (y2 - y1) * far
    line = shapely.LineString([(x1 - run, y1 - rise), (x2 + run, y2 + rise)])
    return float(covered.intersection(line, grid_size=TOUCH).length)


class Found(NamedTuple):
    """A rectangle on a grid step: its size in steps and its top left corner in inches."""

    columns: int
    rows: int
    left: float
    top: float


def largest_rectangle(
    polygons: Iterable[Sequence[Point]],
    step: Fraction,
    *,
    square: bool,
    tell: Callable[[int], None] = lambda _edges: None,
) -> Found | None:
    """The rectangle (or square) of largest area, sides whole multiples of `step`, inside what some polygons cover.

    Of equal ones the nearest to the centre of the box around them, then the upper, then the left. None where none fits.
    `tell` hears, before each size is tried, how many edges are looked at; it may raise to end the search.
    """
    search = _Search(_union(polygons), step, tell)
    return search.largest_square() if square else search.largest()


class _Search:
    def __init__(self, area: Geometry, step: Fraction, tell: Callable[[int], None]) -> None:
        self._tell = tell
        self._area = area.buffer(ALIKE, join_style="mitre").simplify(TOUCH)
        self._step = float(step)
        self._left, self._top, right, bottom = area.bounds
        self._centre = shapely.Point((self._left + right) / 2, (self._top + bottom) / 2)
        self._columns = int((right - self._left + ALIKE) / self._step)
        self._rows = int((bottom - self._top + ALIKE) / self._step)
        shapes = getattr(self._area, "geoms", [self._area])
        self._edges = np.array([edge for shape in shapes for edge in pairwise(shape.exterior.coords)])

    def largest_square(self) -> Found | None:
        sides = range(1, min(self._columns, self._rows) + 1)
        side = bisect_right(sides, 0, key=lambda side: 0 if self._place(side, side) else 1)
        return self._found(side, side) if side else None

    def largest(self) -> Found | None:
        best: list[Found] = []
        area = 1
        for columns in range(self._columns, 0, -1):
            least = -(-area // columns)
            if least > self._rows or self._place(columns, least) is None:
                continue
            heights = range(least, self._rows + 1)
            rows = (
                least - 1 + bisect_right(heights, 0, key=lambda rows: 0 if self._place(columns, rows) else 1)
            )
            if columns * rows > area:
                area, best = columns * rows, []
            found = self._found(columns, rows)
            best += [found] if found else []
        return min(best, key=self._order, default=None)

    def _order(self, found: Found) -> tuple[float, float, float]:
        x, y = found.left + found.columns * self._step / 2, found.top + found.rows * self._step / 2
        away = hypot(x - self._centre.x, y - self._centre.y)
        return round(away, 6), round(found.top, 6), round(found.left, 6)

    def _found(self, columns: int, rows: int) -> Found | None:
        """The rectangle of a size at its place nearest the centre, then the upper, then the left."""
        places = self._place(columns, rows)
        if places is None:
            return None
        wanted = shapely.Point(
            self._centre.x - columns * self._step / 2, self._centre.y - rows * self._step / 2
        )
        parts = getattr(places, "geoms", [places])
        nearest = [shapely.get_point(shapely.shortest_line(part, wanted), 0) for part in parts]
        return min((Found(columns, rows, point.x, point.y) for point in nearest), key=self._order)

    def _moved(self, dx: float, dy: float) -> Geometry:
        return shapely.transform(self._area, lambda points: np.add(points, (dx, dy)))

    def _place(self, columns: int, rows: int) -> Geometry | None:
        """Where the top left corner of a rectangle may lie: its middle inside the area, and no edge running through it.

        An edge runs through the rectangle exactly when the corner lies in the sum of the edge and the rectangle turned
        about its corner (Minkowski sum), which for a straight edge is the hull of the rectangles at its ends.
        """
        self._tell(len(self._edges))
        width, height = columns * self._step, rows * self._step
        reach = np.array([(dx, dy) for dx in (ALIKE, width - ALIKE) for dy in (ALIKE, height - ALIKE)])
        corners = (self._edges[:, :, None, :] - reach).reshape(-1, 2)
        edges = np.repeat(np.arange(len(self._edges)), 2 * len(reach))
        blocked = shapely.convex_hull(shapely.multipoints(shapely.points(corners), indices=edges))
        free = self._moved(-width / 2, -height / 2).difference(shapely.union_all(blocked), grid_size=TOUCH)
        return None if free.is_empty else free

"""Hatching against shapely: the lines run where a lattice of lines crosses the polygon, and nowhere else."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, MultiLineString, Polygon, affinity  # type: ignore[import-untyped]

from piecewright.render.hatching import hatch_segments

_polygons = st.lists(
    st.tuples(st.integers(-40, 40), st.integers(-40, 40)), min_size=3, max_size=7, unique=True
).filter(lambda points: Polygon(points).is_valid and Polygon(points).area > 1)


@given(_polygons, st.sampled_from([0.37, 1.03, 2.71]), st.sampled_from([-45.0, 0.1, 30.0, 45.0, 89.9]))
def test_hatch_lines_are_the_lattice_inside_the_polygon(
    points: list[tuple[int, int]], spacing: float, degrees: float
) -> None:
    polygon = Polygon(points)
    turned = affinity.rotate(polygon, -degrees, origin=(0, 0))
    rows = range(int(-80 / spacing), int(80 / spacing) + 1)
    lattice = MultiLineString([LineString([(-90, row * spacing), (90, row * spacing)]) for row in rows])
    lines = MultiLineString(hatch_segments(points, spacing, degrees))
    assert lines.length == pytest.approx(turned.intersection(lattice).length, abs=1e-6 * (1 + lines.length))
    assert polygon.buffer(1e-6).covers(lines)

"""Shapes are cut, turned and moved as shapely does it; rectangles exactly."""

from fractions import Fraction

import pytest
import shapely  # type: ignore[import-untyped] # it ships without types
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry.half import Half, beyond, right_hand, up_to
from piecewright.geometry.motion import STILL, Motion, Point
from piecewright.geometry.shapes import Placing, Rect, Ring, Segment, Shape

CLOSE = 1e-7
FAR = 1000.0
eighths = st.integers(-160, 160).map(lambda n: Fraction(n, 8))
points = st.tuples(eighths, eighths)
extents = st.integers(1, 160).map(lambda n: Fraction(n, 8))
lines = st.tuples(points, points).filter(lambda ends: ends[0] != ends[1])


@st.composite
def rects(draw: st.DrawFn) -> Rect:
    left, top, width, height = draw(eighths), draw(eighths), draw(extents), draw(extents)
    return Rect(left, top, left + width, top + height)


@st.composite
def shapes(draw: st.DrawFn) -> Shape:
    """A rectangle, or what two slants leave of one."""
    shape: Shape = draw(rects())
    for _ in range(draw(st.integers(0, 2))):
        shape = shape.clipped(draw(slants())) or shape
    return shape


def slants() -> st.SearchStrategy[Half]:
    """The right hand of any line."""
    return lines.map(lambda ends: right_hand(*ends))


def reference(shape: Shape | None) -> shapely.Polygon:
    return shapely.Polygon([(float(x), float(y)) for x, y in shape.points]) if shape else shapely.Polygon()


def walked(half: Half, start: Point, end: Point) -> shapely.Polygon:
    """All that lies within reach on the right hand from start to end, made of points alone (y down)."""
    (x1, y1), (x2, y2) = ((float(x), float(y)) for x, y in (start, end))
    length = ((x2 - x1) ** 2 + (y2 - y1) ** 2) ** 0.5
    run, rise = (x2 - x1) / length * FAR, (y2 - y1) / length * FAR
    corners = [(x1 - run, y1 - rise), (x1 + run, y1 + rise)]
    return shapely.Polygon([*corners, *((x - rise, y + run) for x, y in reversed(corners))])


@given(shapes(), lines)
def test_a_clip_keeps_the_right_hand_side(shape: Shape, line: tuple[Point, Point]) -> None:
    start, end = line
    half = right_hand(start, end)
    expected = reference(shape).intersection(walked(half, start, end)).area
    inside, outside = shape.clipped(half), shape.clipped(half.opposite)
    assert reference(inside).area == pytest.approx(expected, abs=CLOSE)
    assert reference(inside).area + reference(outside).area == pytest.approx(float(shape.area), abs=CLOSE)
    assert reference(inside).difference(reference(shape)).area < CLOSE


@given(rects(), eighths, st.sampled_from([0, 1]))
def test_a_rectangle_cut_square_stays_exact(rect: Rect, place: Fraction, axis: int) -> None:
    before, after = rect.clipped(up_to(axis, place)), rect.clipped(beyond(axis, place))
    parts = [part for part in (before, after) if part is not None]
    assert all(isinstance(part, Rect) and isinstance(part.area, Fraction) for part in parts)
    assert sum(part.area for part in parts) == rect.area
    assert all(part.width > 0 and part.height > 0 for part in parts if isinstance(part, Rect))


@given(shapes())
def test_areas_are_those_of_shapely(shape: Shape) -> None:
    assert float(shape.area) == pytest.approx(reference(shape).area, abs=CLOSE)
    assert shape.area > 0


@given(shapes(), st.integers(-4, 4), eighths, eighths)
def test_placing_is_the_motion_point_by_point(
    shape: Shape, quarters: int, dx: Fraction, dy: Fraction
) -> None:
    motion = Motion(quarters=quarters % 4, dx=dx, dy=dy)
    placed = shape.placed(Placing(quarters, dx, dy))
    expected = shapely.Polygon([tuple(map(float, motion.apply(point))) for point in shape.points])
    assert reference(placed).symmetric_difference(expected).area < CLOSE
    assert Placing(quarters, dx, dy).motion(STILL) == motion
    assert float(placed.area) == pytest.approx(float(shape.area), abs=CLOSE)


@given(points, st.integers(0, 3), st.integers(0, 3), points, points)
def test_motions_follow_each_other(point: Point, first: int, second: int, one: Point, other: Point) -> None:
    earlier, later = Motion(first, dx=one[0], dy=one[1]), Motion(second, dx=other[0], dy=other[1])
    assert earlier.then(later).apply(point) == later.apply(earlier.apply(point))
    assert Placing(second, *other).motion(earlier) == earlier.then(later)


@given(lines, slants())
def test_a_line_is_clipped_at_the_edge_of_a_half_plane(line: tuple[Point, Point], half: Half) -> None:
    whole = Segment(*line)
    inside, outside = whole.clipped(half), whole.clipped(half.opposite)
    runs_along = all(-CLOSE < half.distance(point) < CLOSE for point in line)
    found = sum(float(part.length) for part in (inside, outside) if part)
    assert found == pytest.approx(0 if runs_along else float(whole.length), abs=1e-6)
    for part, side in ((inside, half), (outside, half.opposite)):
        assert part is None or (side.distance(part.start) < CLOSE and side.distance(part.end) < CLOSE)


@given(slants(), points, eighths)
def test_a_shrunk_half_plane_has_its_line_further_in(half: Half, point: Point, by: Fraction) -> None:
    assert float(half.shrunk(by).distance(point)) == pytest.approx(
        float(half.distance(point) + by), abs=CLOSE
    )
    assert float(half.opposite.distance(point)) == pytest.approx(-float(half.distance(point)), abs=CLOSE)


def test_corners_run_clockwise_on_screen() -> None:
    ring = Rect(Fraction(0), Fraction(0), Fraction(4), Fraction(2)).clipped(right_hand((3, 0), (4, 1)))
    assert isinstance(ring, Ring)
    assert ring.points == ((0, 0), (3, 0), (4, 1), (4, 2), (0, 2))

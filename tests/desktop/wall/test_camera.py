"""The camera keeps the place under the pointer, and shares edges between neighbors."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF

from piecewright_qt.wall.camera import FARTHEST, NEAREST, Camera, fitting

LEVELS = st.integers(FARTHEST, NEAREST)
RATIOS = st.sampled_from((1.0, 1.25, 1.5, 2.0, 3.0))
PLACES = st.floats(-50_000, 50_000)
POINTS = st.builds(QPointF, st.floats(0, 2000), st.floats(0, 1500))
CAMERAS = st.builds(Camera, LEVELS, PLACES, PLACES, RATIOS)


@given(CAMERAS, POINTS, st.lists(LEVELS, min_size=1, max_size=8))
def test_zooming_keeps_the_place_under_the_pointer_within_a_pixel(
    camera: Camera, pointer: QPointF, levels: list[int]
) -> None:
    place = camera.inches(pointer)
    for level in levels:
        camera = camera.zoomed(level, pointer)
        painted_at = (
            camera.point(place) + (QPointF(camera.left, camera.top) - QPointF(camera.corner)) / camera.ratio
        )
        assert abs(painted_at.x() - pointer.x()) <= 1
        assert abs(painted_at.y() - pointer.y()) <= 1


@given(CAMERAS, POINTS)
def test_from_view_to_quilt_and_back_is_the_same_point(camera: Camera, point: QPointF) -> None:
    back = camera.point(camera.inches(point))
    assert abs(back.x() - point.x()) < 1e-3
    assert abs(back.y() - point.y()) < 1e-3


@given(CAMERAS, st.lists(st.floats(0.5, 60), min_size=2, max_size=6))
def test_neighbors_share_their_edges_to_the_pixel(camera: Camera, widths: list[float]) -> None:
    edges = [0.0]
    for width in widths:
        edges.append(edges[-1] + width)
    rects = [camera.device((left, 0, right, 1)) for left, right in pairwise(edges)]
    for one, other in pairwise(rects):
        assert one.x() + one.width() == other.x()


@given(st.floats(40, 3000), st.floats(40, 3000), st.integers(300, 3000), st.integers(300, 2000), RATIOS)
def test_a_fitted_quilt_is_seen_whole_and_in_the_middle(
    wide: float, high: float, width: int, height: int, ratio: float
) -> None:
    camera = fitting((-0.25, -0.25, wide, high), width, height, 32, ratio)
    seen = camera.rect((-0.25, -0.25, wide, high))
    assert QRectF(0, 0, width, height).contains(seen)
    assert abs(seen.center().x() - width / 2) <= 1
    assert abs(seen.center().y() - height / 2) <= 1


@given(CAMERAS, POINTS)
def test_panning_moves_the_quilt_by_just_as_much(camera: Camera, by: QPointF) -> None:
    before, after = camera.point((3.0, 4.0)), camera.moved(by).point((3.0, 4.0))
    assert abs((after - before - by).x()) < 1e-6
    assert abs((after - before - by).y()) < 1e-6

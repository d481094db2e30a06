"""Pens agree on where a drawing lies, and what SVG they write is whole, safe and small."""

from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.geometry.motion import Motion
from piecewright.render.affine import Affine
from piecewright.render.bounds_pen import bounds
from piecewright.render.path import arc, circle, spots_of
from piecewright.render.pen import ClothFill, Flat, Pen, Stroke, TextStyle
from piecewright.render.recording_pen import Drawn, RecordingPen, flattened, record, replay
from piecewright.render.svg_pen import SvgPen, svg_picture
from tests.core.render.fabrics import printed
from tests.core.render.reading import LINK, SVG, read_svg

_lengths = st.integers(-400, 400).map(lambda n: Fraction(n, 16))
_points = st.tuples(_lengths, _lengths)
_motions = st.builds(
    Motion,
    quarters=st.integers(0, 3),
    degrees=st.sampled_from([0.0, 13.25, 45.0]),
    faced=st.booleans(),
    dx=_lengths,
    dy=_lengths,
)
Step = Callable[[Pen], None]


def _drawing(steps: list[tuple[Motion, float, list[tuple[Fraction, Fraction]], float]]) -> Step:
    def draw(pen: Pen) -> None:
        for motion, scale, points, width in steps:
            with pen.framed(motion, scale):
                pen.polygon(points, Flat("#aa3300"), Stroke("#000000", width))
                pen.stamp("disc", Motion(dx=points[0][0]), _disc)

    return draw


def _disc(pen: Pen) -> None:
    pen.path(circle(1, 1, 0.5), ClothFill(printed("dots")))


_drawings = st.lists(
    st.tuples(
        _motions,
        st.sampled_from([0.25, 1.0, 3.0]),
        st.lists(_points, min_size=3, max_size=6),
        st.sampled_from([0.01, 0.5]),
    ),
    min_size=1,
    max_size=4,
).map(_drawing)


@given(_drawings, st.sampled_from([0.125, 1.0]))
def test_the_view_box_is_what_the_bounds_pen_found_at_physical_size(draw: Step, scale: float) -> None:
    box = bounds(draw)
    assert box is not None
    root = read_svg(svg_picture(draw, scale))
    left, top, width, height = (float(part) / 96 for part in root.attrib["viewBox"].split())
    assert (left, top) == pytest.approx((box.left, box.top), abs=1e-4)
    assert (width, height) == pytest.approx((box.width, box.height), abs=1e-4)
    assert float(root.attrib["width"].removesuffix("in")) == pytest.approx(box.width * scale, abs=1e-4)
    assert float(root.attrib["height"].removesuffix("in")) == pytest.approx(box.height * scale, abs=1e-4)


@given(_drawings)
def test_a_recording_drawn_again_draws_the_same(draw: Step) -> None:
    steps = record(draw)
    again = RecordingPen()
    replay(steps, again)
    assert again.steps == steps
    assert svg_picture(lambda pen: replay(steps, pen)) == svg_picture(draw)


@given(_drawings)
def test_flattened_points_lie_in_the_bounds(draw: Step) -> None:
    box = bounds(draw)
    assert box is not None
    for item in flattened(record(draw)):
        assert isinstance(item, Drawn)
        for x, y in spots_of(item.path):
            assert box.left - 1e-6 <= x <= box.right + 1e-6
            assert box.top - 1e-6 <= y <= box.bottom + 1e-6


@given(_motions, _motions, _points)
def test_frames_nest_as_motions_do(outer: Motion, inner: Motion, point: tuple[Fraction, Fraction]) -> None:
    nested = Affine.of(outer).after(Affine.of(inner)).apply(point)
    expected = inner.then(outer).apply(point)
    assert nested == pytest.approx((float(expected[0]), float(expected[1])), abs=1e-6)


@given(st.text(max_size=40))
def test_any_text_at_all_gives_well_formed_svg_that_says_it(words: str) -> None:
    text = svg_picture(lambda pen: pen.text((0, 1), words, TextStyle(0.2, "#000000")), title=words)
    root = read_svg(text)
    said = root.find(f"{SVG}text")
    assert said is not None
    assert {sign for sign in words if sign.isprintable()} <= set(said.text or "")


def test_svg_refers_to_nothing_outside_itself_and_to_nothing_missing() -> None:
    def draw(pen: Pen) -> None:
        pen.save()
        pen.clip([(0, 0), (4, 0), (4, 4), (0, 4)])
        for turn in range(4):
            pen.stamp("disc", Motion(quarters=turn, dx=2, dy=2), _disc)
        pen.polygon([(0, 0), (3, 0), (3, 3)], ClothFill(printed("leaves"), Motion(quarters=1)))
        pen.restore()

    text = svg_picture(draw)
    root = read_svg(text)
    names = {element.attrib["id"] for element in root.iter() if "id" in element.attrib}
    links = [element.attrib[LINK] for element in root.iter() if LINK in element.attrib]
    urls = [value for element in root.iter() for value in element.attrib.values() if "url(" in value]
    assert len(links) >= 4
    assert len(urls) >= 3
    assert {link.removeprefix("#") for link in links} <= names
    assert {url.removeprefix("url(#").removesuffix(")") for url in urls} <= names
    assert "http" not in text.replace("http://www.w3.org/2000/svg", "").replace(
        "http://www.w3.org/1999/xlink", ""
    )
    assert text.count('<path d="M144') <= 1  # the disc is written once, used four times


def test_every_group_that_is_opened_is_closed_before_the_next_sibling() -> None:
    def draw(pen: Pen) -> None:
        with pen.framed(Motion(dx=1), 2.0):
            pen.line((0, 0), (1, 0), Stroke("#000000", 0.1))
        pen.line((0, 0), (1, 1), Stroke("#112233", 0.1))

    root = read_svg(svg_picture(draw))
    last = [element for element in root if element.attrib.get("stroke") == "#112233"]
    assert len(last) == 1


def _nothing(pen: Pen) -> None:
    """Draws nothing."""


def test_an_empty_drawing_is_still_a_picture() -> None:
    assert bounds(_nothing) is None
    assert read_svg(svg_picture(_nothing)).tag == f"{SVG}svg"


def test_a_clip_keeps_the_bounds_inside_it() -> None:
    def draw(pen: Pen) -> None:
        pen.save()
        pen.clip([(0, 0), (2, 0), (2, 1), (0, 1)])
        pen.polygon([(-9, -9), (9, -9), (9, 9), (-9, 9)], Flat("#000000"))
        pen.restore()

    box = bounds(draw)
    assert box is not None
    assert (box.left, box.top, box.right, box.bottom) == (0, 0, 2, 1)


@given(st.floats(-360, 360), st.floats(-359, 359).filter(lambda sweep: abs(sweep) > 1))
def test_an_arc_stays_on_its_circle(start: float, sweep: float) -> None:
    steps = arc(3, 4, 2, start, sweep)
    ends = [points[-1] for _, points in steps]
    for x, y in ends:
        assert ((x - 3) ** 2 + (y - 4) ** 2) ** 0.5 == pytest.approx(2, abs=1e-9)
    here = ends[0]
    for _, points in steps[1:]:
        a, b, c = points
        middle = tuple((p + 3 * q + 3 * r + s) / 8 for p, q, r, s in zip(here, a, b, c, strict=True))
        assert ((middle[0] - 3) ** 2 + (middle[1] - 4) ** 2) ** 0.5 == pytest.approx(2, abs=1e-3)
        here = c


def test_two_svg_pens_write_the_same_for_the_same_drawing() -> None:
    pens = SvgPen(), SvgPen()
    box = bounds(_disc)
    assert box is not None
    for pen in pens:
        _disc(pen)
    assert pens[0].document(box) == pens[1].document(box)

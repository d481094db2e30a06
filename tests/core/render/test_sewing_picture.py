"""The pictured sewing plan: every step shows each of its pieces once, apart and never on another; seams lie between."""

from fractions import Fraction
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, unary_union  # type: ignore[import-untyped]  # it ships without types

from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice
from piecewright.model.setting import Pieced, Sashing, Triangles
from piecewright.plan.sewing_order import SewingStep
from piecewright.render.path import spots_of
from piecewright.render.recording_pen import Drawn, flattened, record
from piecewright.render.sewing_page import sewing_svg, step_words
from piecewright.render.sewing_picture import SewingPicture, pieces_of
from piecewright.render.style import ACCENT, INK, SEW
from piecewright.units.measure import Measure
from tests.core.plan.samples import rails
from tests.core.plan.test_setting import filled, settings
from tests.core.plan.test_sewing_order import PINWHEEL, pinwheel
from tests.core.render.reading import read_svg

SCALE = 0.1
INCHES = Measure()


def drawn(picture: SewingPicture, index: int) -> list[Drawn]:
    """What a step's picture draws, on paper."""
    return [item for item in flattened(record(picture.step(index, SCALE))) if isinstance(item, Drawn)]


def outlines(items: list[Drawn]) -> list[Polygon]:
    """The outlines of the pieces."""
    return [
        Polygon(list(spots_of(item.path)))
        for item in items
        if item.fill is None and item.stroke is not None and item.stroke.color == INK and not item.stroke.dash
    ]


def seams(items: list[Drawn]) -> list[tuple[tuple[float, float], ...]]:
    """The dashed lines."""
    return [tuple(spots_of(item.path)) for item in items if item.stroke == SEW]


def sewn(picture: SewingPicture, step: SewingStep) -> int:
    """How many pieces a step of a part has."""
    assert step.part is not None
    return len(pieces_of(picture.order.parts[step.part]))


def check(design: Design) -> SewingPicture:
    """Every step of a part: all its pieces, none on another, a seam dashed for each that is sewn."""
    picture = SewingPicture(design)
    for index, step in enumerate(picture.order.steps):
        items = drawn(picture, index)
        shown = outlines(items)
        assert abs(unary_union(shown).area - sum(one.area for one in shown)) < 1e-4
        if step.border is None:
            assert len(shown) == sewn(picture, step)
            assert len(seams(items)) == step.seams
        assert all(words.text(INCHES) for words in step_words(picture, step))
    return picture


@given(settings(), st.randoms(use_true_random=False))
def test_every_step_shows_its_pieces_apart_and_its_seams(
    setting: tuple[Lattice, Sashing | None, Triangles], random: Random
) -> None:
    lattice, sashing, triangles = setting
    check(filled(lattice, 0.8, random, sashing=sashing, triangles=triangles, coping="f4"))


def test_seams_run_between_the_parts_and_are_as_long_as_these_touch() -> None:
    """Two columns of two blocks of 6 in: seams of 6 in, then one of 12 in, a tenth of their size on paper."""
    picture = check(rails(4).with_quilt(filled(Lattice(Fraction(6), 2, 2)).quilt))
    lengths = [
        abs(x1 - x0) + abs(y1 - y0)
        for index in range(len(picture.order.steps))
        for (x0, y0), (x1, y1) in seams(drawn(picture, index))
    ]
    assert lengths == pytest.approx([0.6, 0.6, 1.2])


@pytest.mark.parametrize(
    "border",
    [
        Border("f1", Fraction(2)),
        Border("f1", Fraction(2), "top and bottom"),
        Border("f1", Fraction(2), corners="mitered"),
        Border("f1", Fraction(2), corners="squares", corner="f2"),
        Border("f1", Fraction(2), pieced=Pieced(Fraction(5), ("f2", "f3"))),
    ],
)
def test_borders_are_sewn_to_what_is_sewn_and_end_as_the_whole_top(border: Border) -> None:
    plain = rails(20)
    picture = check(plain.with_quilt(plain.quilt.changed(borders=(border, Border("f4", Fraction(3))))))
    steps = [index for index, step in enumerate(picture.order.steps) if step.border is not None]
    ring = picture.laid.rounds[-1].ring
    shown = outlines(drawn(picture, steps[-1]))
    assert sum(one.area for one in shown) == pytest.approx(float(ring.width * ring.height) * SCALE**2)
    for index in steps:
        step, found = picture.order.steps[index], seams(drawn(picture, index))
        assert len(found) == (4 if step.seams == 8 else 2)
        if step.seam_length:
            lengths = {round(abs(x1 - x0) + abs(y1 - y0), 6) for (x0, y0), (x1, y1) in found}
            assert lengths == {round(float(step.seam_length) * SCALE, 6)}


def test_a_partial_seam_is_numbered_where_it_begins_and_where_it_ends() -> None:
    picture = SewingPicture(pinwheel(*PINWHEEL))
    items = drawn(picture, 0)
    assert len(outlines(items)) == 5
    assert len(seams(items)) == 5  # four, one of them begun and finished
    assert unary_union(outlines(items)).area == pytest.approx(18 * 18 * SCALE**2)


def test_an_arrow_lies_on_every_seam_that_is_pressed() -> None:
    picture = SewingPicture(rails(20))
    strokes = [item.stroke for item in drawn(picture, 0) if item.stroke is not None]
    arrows = [stroke for stroke in strokes if stroke.color == ACCENT and not stroke.dash]
    assert len(arrows) == picture.order.steps[0].seams


def test_slanted_rows_lie_level_and_the_whole_lies_as_it_hangs() -> None:
    on_point = filled(Lattice(Fraction(6), 3, 3, "on point", 1, 1), triangles=Triangles("f3"))
    picture = check(on_point)
    level = seams(drawn(picture, 0))
    assert all(start[0] == pytest.approx(end[0]) for start, end in level)
    whole = seams(drawn(picture, len(picture.order.steps) - 1))
    assert all(abs(y1 - y0) == pytest.approx(abs(x1 - x0)) for (x0, y0), (x1, y1) in whole)


def test_the_page_is_an_svg_with_every_step() -> None:
    design = filled(Lattice(Fraction(6), 3, 2), sashing=Sashing("f4", Fraction(2), Fraction(2), "f5"))
    root = read_svg(sewing_svg(design, INCHES))
    said = "".join(root.itertext())
    for index in range(len(SewingPicture(design).order.steps)):
        assert str(index + 1) in said
    assert "toward the sashing" in said.replace("\n", " ")


def test_an_empty_wall_is_a_page_without_steps() -> None:
    said = "".join(read_svg(sewing_svg(rails(0), INCHES)).itertext())
    assert "0 seams" in said

"""Borders of every kind: they tile the ring they fill, come out as they say, and are cut as long as they must be."""

from fractions import Fraction
from math import sqrt
from random import Random

from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, unary_union  # type: ignore[import-untyped]  # it ships without types

from piecewright.edit.borders import add_border
from piecewright.model.forms import Form
from piecewright.model.quilt import Border, Quilt
from piecewright.model.setting import Pieced
from piecewright.plan.borders import border_plan, strip_lengths
from piecewright.plan.layout import layout
from piecewright.plan.materials import materials
from piecewright.units.sizes import Cut, Finished
from tests.core.plan.samples import BLOCK, rails
from tests.core.strategies import random_border

SEAM = Fraction(1, 4)


def ringed(*borders: Border) -> Quilt:
    return rails(30).quilt.changed(borders=borders)


@given(st.randoms(use_true_random=False))
def test_the_pieces_of_borders_tile_their_rings(random: Random) -> None:
    borders = tuple(random_border(random, random.choice(("f1", "f2"))) for _ in range(random.randint(1, 3)))
    design = rails(30).with_quilt(ringed(*borders))
    laid = layout(design)
    inside = Polygon([(float(x), float(y)) for x, y in box(laid.center)])
    for border in laid.rounds:
        polygons = [Polygon([(float(x), float(y)) for x, y in piece.points]) for piece in border.pieces]
        ring = Polygon([(float(x), float(y)) for x, y in box(border.ring)]).difference(inside)
        assert abs(sum(polygon.area for polygon in polygons) - ring.area) < 1e-6
        assert unary_union(polygons).symmetric_difference(ring).area < 1e-6
        inside = Polygon([(float(x), float(y)) for x, y in box(border.ring)])


def box(rect: object) -> list[tuple[Fraction, Fraction]]:
    x, y, width, height = rect.x, rect.y, rect.width, rect.height  # type: ignore[attr-defined]
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


def test_a_mitered_border_reaches_its_corners_and_says_when_it_does_not() -> None:
    inner = Finished(Fraction(50), Fraction(60))
    border = Border("f1", Fraction(7), corners="mitered", spare=Fraction(1))
    plan = border_plan(border, inner, Fraction(42), SEAM)
    assert (plan.sides, plan.ends) == (
        Cut(Fraction(151, 2), Fraction(15, 2)),
        Cut(Fraction(131, 2), Fraction(15, 2)),
    )
    assert not plan.findings
    short = border_plan(border.changed(spare=Fraction(1, 2)), inner, Fraction(42), SEAM)
    assert [finding.code for finding in short.findings] == ["plan.miter-short"]
    # the raw outer edge, its slanted end with the allowance: sqrt 2 seams further at each end
    needed = 60 + 2 * 7 + 2 * 0.25 + 2 * sqrt(2) * 0.25
    assert float(plan.sides.width) >= needed > float(short.sides.width)


def test_corner_squares_are_cut_four_times_and_the_strips_end_at_the_edge() -> None:
    design = rails(30).with_quilt(ringed(Border("f1", Fraction(3), corners="squares", corner="f2")))
    made = materials(design)
    (part,) = made.parts
    assert (part.part, part.fabric, part.count, part.cut) == (
        "corner-square",
        "f2",
        4,
        Cut(Fraction(7, 2), Fraction(7, 2)),
    )
    assert (made.borders[0].sides.width, made.borders[0].ends.width) == (Fraction(37, 2), Fraction(121, 2))


def test_a_border_pieced_of_strips_counts_segments_across_its_sets_and_names_its_coping_strips() -> None:
    pieced = Pieced(Fraction(5, 2), ("f1", "f2"))
    made = materials(rails(30).with_quilt(ringed(Border("f3", Fraction(2), pieced=pieced))))
    (border,) = made.borders
    # sides of 18: 7 pieces and twice 1/4; ends of 64: 25 pieces and twice 3/4
    assert border.side_run is not None
    assert border.end_run is not None
    assert (border.side_run.pieces, border.side_run.coping) == (7, Fraction(1, 4))
    assert (border.end_run.pieces, border.end_run.coping) == (25, Fraction(3, 4))
    (ask,) = border.asks
    assert ask.count == 2 * (4 + 13)
    assert [lane.width for lane in ask.sets.lanes] == [3, 3]
    assert [(part.part, part.count, part.finished) for part in made.parts] == [
        ("coping-strip", 4, Finished(Fraction(1, 4), Fraction(2))),
        ("coping-strip", 4, Finished(Fraction(3, 4), Fraction(2))),
    ]
    assert [finding.code for finding in made.findings if finding.where == "border 1"] == [
        "plan.border-coping"
    ]


def test_the_border_named_inside_makes_the_pieces_come_out() -> None:
    pieced = Border("f3", Fraction(3), pieced=Pieced(Fraction(4), ("f1",)))
    (note,) = border_plan(pieced, Finished(Fraction(30), Fraction(38)), Fraction(42), SEAM).findings
    assert (
        str(note.hint)
        == "Inside it, 1 in more on top and bottom and 0 in more on the sides, finished, would make it come out."
    )
    plain = pieced.changed(corners="squares")
    (note,) = border_plan(plain, Finished(Fraction(30), Fraction(38)), Fraction(42), SEAM).findings
    assert str(note.hint) == "A border of 1 in finished inside it would make it come out all round."
    assert not border_plan(plain, Finished(Fraction(32), Fraction(40)), Fraction(42), SEAM).findings


def test_blocks_of_a_border_are_sewn_with_those_of_the_wall() -> None:
    pieced = Border("f3", Fraction(6), corners="squares", pieced=Pieced(Fraction(6), block=BLOCK))
    made = materials(rails(30).with_quilt(ringed(pieced)))
    assert made.block_count == 30 + 2 * (10 + 3)
    assert not [finding for finding in made.findings if finding.where == "border 1"]
    laid = layout(rails(30).with_quilt(ringed(pieced))).rounds[0]
    assert [block.laid.placement.turn for block in laid.blocks] == [0] * 10 + [90] * 3 + [180] * 10 + [
        270
    ] * 3
    added = add_border(
        rails(30), border=pieced.changed(width=Fraction(1), pieced=Pieced(Fraction(1), block=BLOCK))
    )
    assert added.quilt.borders == (pieced,)
    wrong = materials(rails(30).with_quilt(ringed(pieced.changed(width=Fraction(5)))))
    assert [finding.code for finding in wrong.findings if finding.where == "border 1"] == [
        "plan.border-unfit"
    ]


@given(st.randoms(use_true_random=False))
def test_strips_and_the_quilt_round_them_fit_together(random: Random) -> None:
    border, inner = (
        random_border(random),
        Finished(Fraction(random.randint(1, 99)), Fraction(random.randint(1, 99))),
    )
    sides, ends = strip_lengths(border, inner)
    around = 4 * border.width if border.corners == "mitered" else 2 * border.width
    corners = 0 if border.corners != "squares" else 2 * border.width
    assert sides + ends + corners == inner.width + inner.height + around


def test_cloth_too_narrow_for_the_strips_of_a_pieced_border_is_told_and_not_cut() -> None:
    """A border 11 in wide, pieced of strips, cut from squares of 10 in: 11 1/2 in and truing are not there."""
    design = rails(30)
    squares = design.fabrics[0].changed(forms=(Form("10 inch square"),))
    design = design.changed(fabrics=(squares, *design.fabrics[1:]))
    pieced = Border("f2", Fraction(11), pieced=Pieced(Fraction(3, 2), ("f1", "f2")))
    found = materials(design.with_quilt(ringed(pieced))).findings
    said = [each.message.text() for each in found if each.code == "plan.border-strips-short"]
    assert said == ["Strips that a border is pieced of take 12 in of cloth; it gives 10 in."]

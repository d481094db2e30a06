"""Every setting tiles its outline: blocks, sashing, setting triangles and coping strips leave no gap and no overlap."""

from collections import Counter
from fractions import Fraction
from math import sqrt
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, unary_union  # type: ignore[import-untyped]  # it ships without types

from piecewright.edit.registry import Cell, apply, call
from piecewright.edit.setting import change_setting, set_coping, set_sashing
from piecewright.edit.spaces import moves_text
from piecewright.errors import EditError
from piecewright.geometry.motion import Point
from piecewright.model.design import Design
from piecewright.model.frame import HAIR
from piecewright.model.quilt import Border, Lattice, Placement, Row
from piecewright.model.setting import Sashing, Triangles
from piecewright.plan.between import triangle_plan
from piecewright.plan.layout import Layout, layout
from piecewright.plan.materials import materials
from piecewright.plan.rects import corners
from piecewright.plan.sewing_order import sewing_order
from piecewright.sewing.assembly import Piece
from tests.core.plan.samples import BLOCK, rails

ROOT = sqrt(2)


def filled(lattice: Lattice, share: float = 1.0, random: Random | None = None, **fields: object) -> Design:
    """A setting whose spaces all have rails of 6, or a random share of them; the unit divides 6."""
    cells, rows = int(6 / lattice.unit), []
    design = rails(30)
    bare = design.quilt.changed(lattice=lattice, rows=(), **fields)
    for row in range(0, lattice.down, cells):
        placements = tuple(
            Placement(column, BLOCK)
            for column in range(0, lattice.across, cells)
            if bare.fits(column, row, cells, cells) and (random is None or random.random() < share)
        )
        if placements:
            rows.append(Row(row, placements))
    return design.with_quilt(bare.changed(rows=tuple(rows)))


def polygon(points: tuple[Point, ...]) -> Polygon:
    return Polygon([(float(x), float(y)) for x, y in points])


def pieces(laid: Layout) -> list[Polygon]:
    blocks = [polygon(tuple(laid.motion.apply(point) for point in corners(one.rect))) for one in laid.blocks]
    return [*blocks, *(polygon(part.points) for part in (*laid.between, *laid.gaps))]


@st.composite
def settings(draw: st.DrawFn) -> tuple[Lattice, Sashing | None, Triangles]:
    """Any setting of spaces that rails of 6 may lie in."""
    on_point = draw(st.booleans())
    space = draw(st.sampled_from((1, 2)))
    unit = Fraction(6, draw(st.sampled_from((1, 2))))
    cells = space * int(6 / unit)
    counts = st.integers(1, 5)
    columns, rows = draw(counts), draw(counts)
    sashes = st.fractions(Fraction(1, 4), Fraction(3), max_denominator=8)
    wide = draw(sashes)
    other = wide if on_point else draw(st.sampled_from((Fraction(0), wide, wide * 2)))
    sashing = Sashing(
        "f1",
        wide,
        other,
        draw(st.sampled_from((None, "f2"))),
        draw(st.sampled_from(("rows", "columns"))),
        draw(st.booleans()),
    )
    triangles = Triangles("f3", draw(st.sampled_from((Fraction(0), Fraction(1, 2), Fraction(1)))))
    lattice = (
        Lattice(unit, columns, rows, "on point", cells, cells)
        if on_point
        else Lattice(unit, columns * cells, rows * cells + draw(st.integers(0, 1)), "straight", cells, cells)
    )
    return lattice, draw(st.sampled_from((None, sashing))), triangles


@given(settings(), st.randoms(use_true_random=False))
def test_every_setting_tiles_its_outline(
    setting: tuple[Lattice, Sashing | None, Triangles], random: Random
) -> None:
    lattice, sashing, triangles = setting
    found = filled(lattice, 0.7, random, sashing=sashing, triangles=triangles, coping="f4")
    laid = layout(found)
    center = polygon(corners(laid.center))
    tiles = pieces(laid)
    # on point an outline a hair too long is cut to the step: of each outer point that much of a tip is cut off
    tips = 2 * (lattice.columns + lattice.rows) * (float(HAIR) / 2) ** 2 if lattice.kind == "on point" else 0
    assert abs(sum(tile.area for tile in tiles) - center.area) < 1e-4 + tips
    assert unary_union([tile.buffer(1e-7) for tile in tiles]).symmetric_difference(center).area < 1e-4 + tips
    assert not any(finding.severity == "error" for finding in materials(found).findings)


@given(settings(), st.randoms(use_true_random=False))
def test_cells_and_places_of_the_quilt_are_one(
    setting: tuple[Lattice, Sashing | None, Triangles], random: Random
) -> None:
    lattice, sashing, triangles = setting
    found = filled(lattice, sashing=sashing, triangles=triangles, borders=(Border("f1", Fraction(2)),))
    laid = layout(found)
    column, row = random.randrange(lattice.across), random.randrange(lattice.down)
    rect = laid.rect(column, row)
    inside = (float(rect.x + rect.width / 3), float(rect.y + rect.height / 5))
    assert laid.cell(laid.motion.apply(inside)) == (column, row)
    by_hand = sum(lattice.holds(x, y) for x in range(lattice.across) for y in range(lattice.down))
    assert (
        by_hand
        == lattice.cell_count
        == len(layout(found.with_quilt(found.quilt.changed(rows=()))).empty_cells())
    )


@given(settings())
def test_turning_every_block_by_180_changes_no_count(
    setting: tuple[Lattice, Sashing | None, Triangles],
) -> None:
    lattice, sashing, triangles = setting
    found = filled(lattice, sashing=sashing, triangles=triangles, coping="f4")
    if not found.quilt.rows:
        return
    cells = tuple(Cell(one.column, row.row) for row in found.quilt.rows for one in row.placements)
    turned = apply(found, call("turn-blocks", cells=cells, by=180))
    before, after = materials(found), materials(turned)
    assert (before.sets, before.cloth, before.parts, before.borders) == (
        after.sets,
        after.cloth,
        after.parts,
        after.borders,
    )


@given(settings(), st.randoms(use_true_random=False))
def test_the_order_of_sewing_takes_every_piece_once(
    setting: tuple[Lattice, Sashing | None, Triangles], random: Random
) -> None:
    lattice, sashing, triangles = setting
    found = filled(lattice, 0.7, random, sashing=sashing, triangles=triangles, coping="f4")
    order = sewing_order(found)
    laid = layout(found)
    if order.assembly is None:
        assert not laid.blocks
        return
    taken = sorted(part.index for part in order.parts if isinstance(part, Piece))
    assert taken == list(range(len(laid.blocks) + len(laid.between) + len(laid.gaps)))
    assert order.count.seams == len(taken) - 1  # straight seams only: each joins two parts
    assert not order.count.partial
    assert all(str(step.sentence) for step in order.steps)


@pytest.mark.parametrize(("columns", "rows"), [(1, 1), (2, 2), (3, 4), (4, 5), (6, 2)])
def test_setting_triangles_are_counted_by_the_rule(columns: int, rows: int) -> None:
    # 2 (n + m - 2) sides and 4 corners round n x m + (n - 1)(m - 1) blocks (published rows W138, C049)
    found = filled(Lattice(Fraction(6), columns, rows, "on point"))
    made = materials(found)
    counts = Counter({part.part: part.count for part in made.parts})
    assert counts["side-triangle"] == 2 * (columns + rows - 2)
    assert counts["corner-triangle"] == 4
    assert made.block_count == columns * rows + (columns - 1) * (rows - 1)
    assert made.missing == 0
    cut = {part.part: part.cuts for part in made.parts}
    assert cut["corner-triangle"] == 2
    assert cut.get("side-triangle", 0) == -(-2 * (columns + rows - 2) // 4)


@pytest.mark.parametrize("stones", [None, "f2"])
def test_sashing_on_point_runs_round_every_block(stones: str | None) -> None:
    found = filled(
        Lattice(Fraction(6), 3, 3, "on point"), sashing=Sashing("f1", Fraction(1), Fraction(1), stones)
    )
    counts: Counter[str] = Counter()
    for part in materials(found).parts:
        counts[part.part] += part.count
    # 13 blocks: 36 sides, those between two blocks shared (16), each with its sash; in 5 slanted rows
    if stones:
        assert counts["sash"] == 36
        assert (counts["cornerstone"], counts["edge-cornerstone"]) == (12, 12)
    else:
        assert counts["sash"] == 18 + 6


def test_an_edge_on_straight_grain_and_squares_large_enough() -> None:
    laid = layout(filled(Lattice(Fraction(6), 3, 2, "on point"), triangles=Triangles("f3")))
    for part in laid.between:
        assert part.came.turn_degrees == 0  # the thread runs along the edge
        assert polygon(part.points).length > 0
    least = triangle_plan("side-triangle", "f1", 6 * ROOT, Triangles(allowance="exact"), Fraction(1, 4))
    triangle = polygon(((0, 0), (6 * ROOT, 0), (3 * ROOT, 3 * ROOT)))
    raw = triangle.buffer(0.25, join_style="mitre", mitre_limit=9)
    needed = raw.bounds[2] - raw.bounds[0]
    assert needed <= float(least.cut.width) < needed + 1 / 8


def test_changing_the_setting_keeps_the_blocks_and_says_what_moved() -> None:
    design = rails(30)
    after = change_setting(design, kind="on point")
    assert materials(after).block_count == 30
    assert str(moves_text(design, after)).endswith("another.")
    back = change_setting(after, kind="straight")
    assert materials(back).block_count == 30
    small = change_setting(design, kind="on point", columns=3, rows=3)
    assert materials(small).block_count == 13
    assert "17 leave the wall" in str(moves_text(design, small))
    assert str(moves_text(design, design)) == "Every block stays in its cell."


def test_blocks_of_several_cells_stay_together_on_point() -> None:
    fine = apply(rails(30), call("set-unit", unit=Fraction(2)))
    after = change_setting(fine, kind="on point")
    assert after.quilt.lattice.space_columns == 3
    assert materials(after).block_count == 30
    coarse = change_setting(fine, kind="on point", space=6)
    assert materials(coarse).block_count == 30
    assert (
        max(
            Counter(
                (one.column // 6, row.row // 6) for row in coarse.quilt.rows for one in row.placements
            ).values()
        )
        == 4
    )


def test_a_block_on_a_sash_is_refused_in_words() -> None:
    fine = apply(rails(30), call("set-unit", unit=Fraction(2)))
    sashed = set_sashing(fine, sashing=Sashing("f1", Fraction(1), Fraction(1)))
    assert sashed.quilt.lattice.space_columns == 3
    with pytest.raises(EditError, match="would lie on the sashing"):
        apply(sashed, call("move-blocks", cells=(Cell(27, 6),), columns=-1, rows=0))
    with pytest.raises(EditError, match="would lie on the sashing"):
        set_sashing(fine, sashing=Sashing("f1", Fraction(1), Fraction(1)), space_columns=2)


def test_coping_strips_fill_what_is_free_and_no_cell_is_missed() -> None:
    found = set_coping(rails(29), fabric="f4")
    made = materials(found)
    (strip,) = made.parts
    assert (strip.part, strip.count, strip.cut.width) == ("coping-strip", 1, Fraction(13, 2))
    assert "plan.cells-empty" not in [finding.code for finding in made.findings]


def test_long_sashes_are_joined_where_the_cloth_is_narrower() -> None:
    found = filled(Lattice(Fraction(6), 10, 3), sashing=Sashing("f1", Fraction(2), Fraction(2)))
    made = materials(found)
    (joined,) = made.joined
    # four long sashes of 82 1/2 in from 42 in, 1/2 in lost a join
    assert (joined.total, joined.count) == (Fraction(330), 8)
    assert [use.count for cloth in made.cloth for use in cloth.uses if use.part == "sash"] == [8]

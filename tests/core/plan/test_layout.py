"""Where everything lies, held against laying cell by cell and piece by piece."""

from fractions import Fraction

import numpy as np
from hypothesis import given
from hypothesis import strategies as st

from piecewright.edit.footprint import all_laid
from piecewright.edit.shaping import needed_cells
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Row
from piecewright.plan.layout import layout
from piecewright.plan.rects import Rect
from tests.core.plan.samples import rails
from tests.core.strategies import designs


@given(designs())
def test_cells_are_covered_as_often_as_blocks_lie_on_them(found: Design) -> None:
    laid_out, lattice = layout(found), found.quilt.lattice
    counts = np.zeros((lattice.rows, lattice.columns), int)
    for laid in all_laid(found, found.quilt):
        counts[laid.row : laid.row + laid.rows, laid.column : laid.column + laid.columns] += 1
    assert (laid_out.covered() == counts).all()
    shape = found.quilt.shape
    needed = np.ones_like(counts) if shape is None else needed_cells(found.quilt.frame, shape)
    empty = [
        (x, y)
        for y in range(lattice.rows)
        for x in range(lattice.columns)
        if needed[y, x] and not counts[y, x]
    ]
    assert laid_out.empty_cells() == tuple(empty)


def test_blocks_of_one_cell_are_counted_too() -> None:
    laid_out = layout(rails(37))
    assert laid_out.covered().tolist() == [[1] * 10] * 3 + [[1] * 7 + [0] * 3]
    assert laid_out.empty_cells() == ((7, 3), (8, 3), (9, 3))


def test_a_row_that_did_not_change_is_the_same_object() -> None:
    found = rails(30)
    first, second, _ = found.quilt.rows
    changed = found.quilt.changed(rows=(first, second.changed(placements=second.placements[1:])))
    before, after = layout(found), layout(found.with_quilt(changed))
    assert before.rows[0] is after.rows[0]
    assert before.rows[1] is not after.rows[1]


@given(designs())
def test_rectangles_and_arrays_agree_and_blocks_lie_inside_the_center(found: Design) -> None:
    laid_out = layout(found)
    center = laid_out.center
    assert len(laid_out.blocks) == len(laid_out.rects) == len(laid_out.cells)
    for block, rect, cells in zip(laid_out.blocks, laid_out.rects, laid_out.cells, strict=True):
        assert tuple(cells) == block.laid[:4]
        own = block.rect
        assert np.allclose(rect, [float(own.x), float(own.y), float(own.width), float(own.height)])
        assert own.x >= center.x
        assert own.y >= center.y
        assert own.x + own.width <= center.x + center.width
        assert own.y + own.height <= center.y + center.height


borders = st.lists(
    st.builds(
        Border,
        st.just("f1"),
        st.integers(1, 40).map(lambda n: Fraction(n, 8)),
        st.sampled_from(("sides", "top and bottom")),
    ),
    max_size=3,
).map(tuple)


@given(borders)
def test_borders_and_center_tile_the_quilt(around: tuple[Border, ...]) -> None:
    found = rails(4, borders=around)
    laid_out = layout(found)
    rects = [laid_out.center, *(rect for four in laid_out.borders for rect in four)]
    size = laid_out.size.finished
    assert sum(rect.width * rect.height for rect in rects) == Fraction(size.width) * Fraction(size.height)
    for index, one in enumerate(rects):
        assert one.x >= 0
        assert one.y >= 0
        assert one.x + one.width <= size.width
        assert one.y + one.height <= size.height
        assert not any(_meet(one, other) for other in rects[index + 1 :])


def _meet(one: Rect, other: Rect) -> bool:
    across = one.x < other.x + other.width and other.x < one.x + one.width
    return across and one.y < other.y + other.height and other.y < one.y + one.height


def test_the_pair_sewn_on_first_is_the_shorter() -> None:
    around = (Border("f1", Fraction(2)), Border("f2", Fraction(1), "top and bottom"))
    inner, outer = layout(rails(10, borders=around)).borders
    assert inner[0] == Rect(Fraction(1), Fraction(3), Fraction(2), Fraction(6))
    assert inner[2] == Rect(Fraction(1), Fraction(1), Fraction(64), Fraction(2))
    assert outer[0] == Rect(Fraction(0), Fraction(0), Fraction(1), Fraction(12))
    assert outer[2] == Rect(Fraction(1), Fraction(0), Fraction(64), Fraction(1))


def test_a_block_over_the_edge_is_covered_as_far_as_the_quilt_goes() -> None:
    found = rails(10)
    small = found.quilt.changed(
        lattice=Lattice(Fraction(3), 12, 1), rows=(Row(0, found.quilt.rows[0].placements[:1]),)
    )
    covered = layout(found.with_quilt(small)).covered()
    assert covered.tolist() == [[1, 1, *[0] * 10]]


def test_arrays_can_not_be_written_to() -> None:
    laid_out = layout(rails(4))
    assert not laid_out.rects.flags.writeable
    assert not laid_out.cells.flags.writeable

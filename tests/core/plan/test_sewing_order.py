"""The order in which a top is sewn, and what is said of it."""

from fractions import Fraction

from hypothesis import given

from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Border, Lattice, Placement, Quilt, Row
from piecewright.model.value import Sizes
from piecewright.plan.layout import layout
from piecewright.plan.sewing_order import sewing_order
from piecewright.sewing.assembly import Piece, SeamCount
from piecewright.units.sizes import Finished
from tests.core.plan.samples import block, design, letters, rails
from tests.core.strategies import designs

INCH = Fraction(1)


def pinwheel(*placements: tuple[int, int, str, int]) -> Design:
    """Blocks 6 x 12 and 6 x 6 on a grid of 6 in: column, row, block, turn."""
    recipes = shipped_recipes()
    long = block(recipes["two-halves-from-thirds"], letters(A="f1", B="f2"), number=31)
    square = block(recipes["rail-fence-of-three"], letters(A="f1", B="f2", C="f3"), Sizes({"F": 6 * INCH}))
    rows = sorted({row for _, row, _, _ in placements})
    wall = Quilt(
        "Wall",
        Lattice(6 * INCH, 3, 3),
        tuple(
            Row(
                row,
                tuple(
                    Placement(column, name, turn)  # type: ignore[arg-type] # a quarter turn
                    for column, at, name, turn in sorted(placements)
                    if at == row
                ),
            )
            for row in rows
        ),
    )
    return design((long, square), wall)


PINWHEEL = (
    (0, 0, "b31", 90),
    (2, 0, "b31", 0),
    (0, 1, "b31", 0),
    (1, 1, "b30", 0),
    (1, 2, "b31", 90),
)


def test_columns_of_a_wide_grid_then_its_borders() -> None:
    """By hand: ten columns of two blocks of 6 in; 19 seams, 10 of 6 in and 9 of 12 in; borders in the order told."""
    found = rails(20)
    borders = Border("f4", 2 * INCH), Border("f5", 3 * INCH, "top and bottom")
    order = sewing_order(found.with_quilt(found.quilt.changed(borders=borders)))
    assert [step.kind for step in order.steps] == ["column"] * 10 + ["center"] + ["border"] * 4
    assert order.count == SeamCount(19, 0, Fraction(10 * 6 + 9 * 12), Fraction(12))
    assert [step.seams for step in order.steps[-4:]] == [2] * 4
    assert [int(step.seam_length) for step in order.steps[-4:]] == [12, 64, 64, 22]
    assert [step.size for step in order.steps[-4:]] == [
        Finished(Fraction(width), Fraction(height))
        for width, height in ((64, 12), (64, 16), (64, 22), (70, 22))
    ]
    assert (order.border_seams, int(order.border_length)) == (8, 2 * (12 + 64 + 64 + 22))
    said = [str(step.sentence) for step in order.steps]
    assert said[0] == "Sew column 1: 2 x Block 30, from top to bottom; 1 seam 6 in long finished."
    assert said[10] == "Sew column 1 to column 10 together, from left to right; 9 seams 12 in long finished."
    assert said[11] == "Sew border 1, Cloth 4, to the left and the right: 2 seams 12 in long finished."
    assert said[13] == "Sew border 2, Cloth 5, to the top and the bottom: 2 seams 64 in long finished."
    assert str(order.summary) == "27 seams, 492 in long together, the longest 64 in (finished)."
    assert order.findings == ()


def test_a_pinwheel_is_named_with_its_partial_seam() -> None:
    order = sewing_order(pinwheel(*PINWHEEL))
    (step,) = order.steps
    assert (step.kind, step.seams, step.partial) == ("center", 4, 1)
    assert len(step.details) == 5
    assert str(step.details[0]) == (
        "Sew Block 31 turned 90 (column 1, row 1) to Block 31 (column 1, row 2) and Block 30 (column 2, row 2) in "
        "part only: stop 2 in before the first edge where a piece is missing (12 in seam, finished)."
    )
    assert str(step.details[-1]).startswith(
        "Finish the partial seam between Block 31 turned 90 (column 1, row 1)"
    )
    assert (
        str(order.summary)
        == "4 seams, 48 in long together, the longest 12 in (finished); 1 of them is partial."
    )


def test_gaps_and_blocks_in_each_others_way_are_told() -> None:
    order = sewing_order(pinwheel(*PINWHEEL[:3], (2, 2, "b31", 0), (0, 2, "b30", 0)))
    assert len(order.blocks) == 3
    assert [str(finding.message) for finding in order.findings] == [
        "2 blocks lie over another or beyond the quilt, and are not in the order of sewing.",
        "2 cells have no block yet; the order of sewing may change once they do.",
    ]


def test_an_empty_wall_has_no_order() -> None:
    order = sewing_order(rails(0))
    assert (order.assembly, order.steps, order.count.seams) == (None, (), 0)


@given(designs())
def test_any_design_has_an_order_in_which_every_block_is_sewn_once(found: Design) -> None:
    order = sewing_order(found)
    sewn = sorted(part.index for part in order.parts if isinstance(part, Piece))
    assert sewn == list(range(len(order.blocks)))
    assert len(order.blocks) <= len(layout(found).blocks)
    for step in order.steps:
        assert str(step.sentence)
        assert all(str(detail) for detail in step.details)
    assert str(order.summary)
    made = [step.part for step in order.steps if step.part is not None]
    assert made == sorted(made)

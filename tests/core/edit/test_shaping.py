"""UsualShape shapes: what they need is covered, and no more has to be; shapely is the reference."""

from fractions import Fraction

import pytest
from hypothesis import given, settings
from shapely import Polygon, box  # type: ignore[import-untyped]

from piecewright.edit.footprint import all_laid
from piecewright.edit.shaping import cover_shape, needed_cells, outline, set_shape
from piecewright.errors import DesignError, EditError
from piecewright.model.limits import BrokenRuleError
from piecewright.model.shape import Corner, Shape
from piecewright.model.usual_shapes import USUAL_SHAPES, ShapeName
from piecewright.model.value import Sizes
from piecewright.plan.layout import layout
from piecewright.plan.materials import materials
from tests.core.edit.quilts import RAILS, THIRDS, design
from tests.core.strategies import random_shape, randoms


def shape_of(*corners: tuple[int, int], margin: int = 1) -> Shape:
    """A shape with these corners."""
    return Shape(corners=tuple(Corner(Fraction(x), Fraction(y)) for x, y in corners), margin=Fraction(margin))


@pytest.mark.parametrize("name", USUAL_SHAPES)
def test_the_usual_sizes_make_a_shape_of_that_size(name: ShapeName) -> None:
    shape = Shape(name)
    reference = Polygon([(float(corner.x), float(corner.y)) for corner in shape.outline])
    assert reference.is_valid
    assert float(shape.area) == pytest.approx(reference.area)
    assert reference.bounds == pytest.approx((0, 0, float(shape.width), float(shape.height)))


@settings(max_examples=40, deadline=None)
@given(random=randoms)
def test_the_cells_that_a_shape_needs_cover_it_with_its_margin(random: object) -> None:
    shape = random_shape(random)  # type: ignore[arg-type]
    made = set_shape(design(), shape=shape)
    quilt = made.quilt
    area = Polygon(outline(quilt.frame, shape)).buffer(float(shape.margin), join_style="mitre")
    needed = needed_cells(quilt.frame, shape)
    for row in range(quilt.lattice.rows):
        for column in range(quilt.lattice.columns):
            cell = box(column * 6, row * 6, column * 6 + 6, row * 6 + 6)
            assert bool(needed[row, column]) == (cell.intersection(area).area > 1e-4)
    whole = box(0, 0, float(quilt.finished.width), float(quilt.finished.height))
    assert area.difference(whole).area < 1e-6 or shape.margin == 0
    covered = cover_shape(made, block=RAILS)
    assert materials(covered).missing == 0
    assert len(all_laid(covered, covered.quilt)) == int(needed.sum())


def test_a_tote_panel_takes_the_fewest_cells_that_reach() -> None:
    made = set_shape(design(), shape=Shape("tote panel"))  # 16 x 17 with 1 in all round: 18 x 19
    lattice = made.quilt.lattice
    assert (lattice.columns, lattice.rows) == (3, 4)
    codes = [finding.code for finding in materials(made).findings]
    assert "plan.shape-cut" in codes
    small = set_shape(design(2, 2), shape=Shape("tote panel"), cover=False)
    assert "plan.shape-outside" in [finding.code for finding in materials(small).findings]


def test_cells_beyond_the_shape_are_not_missing() -> None:
    sizes = Sizes({"length": Fraction(34), "width": Fraction(16), "point": Fraction(17)})
    runner = Shape("table runner", sizes, margin=Fraction(0))
    made = set_shape(design(), shape=runner)
    lattice = made.quilt.lattice
    assert layout(made).missing < lattice.columns * lattice.rows  # the four corners beside the points
    covered = cover_shape(made, block=RAILS)
    assert layout(covered).missing == 0
    assert layout(covered).outline


def test_larger_blocks_cover_it_too_and_a_full_one_says_so() -> None:
    made = set_shape(design(), shape=shape_of((0, 0), (22, 0), (22, 22), (0, 22)))
    covered = cover_shape(made, block=THIRDS)
    assert layout(covered).missing == 0
    with pytest.raises(EditError, match="No place that the shape needs is free"):
        cover_shape(covered, block=THIRDS)
    with pytest.raises(EditError, match="no shape"):
        cover_shape(design(), block=RAILS)


@pytest.mark.parametrize(
    ("corners", "said"),
    [
        (((0, 0), (12, 12), (12, 0), (0, 6)), "cross"),
        (((0, 0), (12, 0), (6, 0)), "no area"),
        (((1, 0), (12, 0), (6, 9)), "begins at 0"),
        (((0, 0), (12, 0), (12, 12), (12, 6), (0, 12)), "cross or touch"),
        (((0, 0), (1200, 0), (0, 9)), "no larger"),
        ((), "either one that is offered"),
    ],
)
def test_what_is_no_shape_is_refused(corners: tuple[tuple[int, int], ...], said: str) -> None:
    with pytest.raises((BrokenRuleError, DesignError), match=said):
        shape_of(*corners)


@pytest.mark.parametrize(
    ("sizes", "said"),
    [({"wings": Fraction(2)}, 'no size "wings"'), ({"bottom corner": Fraction(9)}, "cross or touch|no area")],
)
def test_sizes_that_make_no_shape_are_refused(sizes: dict[str, Fraction], said: str) -> None:
    with pytest.raises(BrokenRuleError, match=said):
        Shape("tote panel", Sizes(sizes))

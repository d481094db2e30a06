"""Topic 3: settings on point as charts print them: squares for setting triangles, diagonals, blocks that they hold."""

from fractions import Fraction
from math import sqrt
from typing import Any

from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.frame import frame_of
from piecewright.model.quilt import Lattice, Quilt
from piecewright.model.setting import Triangles
from piecewright.plan.between import triangle_plan
from piecewright.plan.materials import materials
from piecewright.plan.parts import Part
from piecewright.units.rounding import nearest, up_to
from tests.outside.published import Row, Topic

TOPIC = Topic("3")
SEAM = Fraction(1, 4)
EIGHTH, QUARTER = Fraction(1, 8), Fraction(1, 4)


def inches(value: Any) -> Fraction:
    return Fraction(str(value))


def cut_for(part: Part, block: int, **settings: Any) -> Fraction:
    """The square that the triangles of a quilt of 3 x 3 blocks on point are cut from, as its materials have it."""
    quilt = Quilt(
        "Set",
        Lattice(Fraction(block), 3, 3, "on point"),
        triangles=Triangles("f1", **settings),
    )
    made = materials(
        Design("Set", fabrics=(Fabric("f1", "Sky", "#88aaff"),), arrangements=(quilt,), next_id=2)
    )
    (found,) = [plan for plan in made.parts if plan.part == part]
    assert found.cut.width == found.cut.height
    return Fraction(found.cut.width)


def chart(part: Part, block: int, **settings: Any) -> Fraction:
    """The same for blocks whose points end at the edge exactly, as charts take it."""
    seen = block * sqrt(2) if part == "side-triangle" else block / sqrt(2)
    return Fraction(triangle_plan(part, "f1", seen, Triangles("f1", **settings), SEAM).cut.width)


def exact(part: Part, block: int) -> float:
    """The least square that will do, finished sides and seam allowances alone."""
    if part == "side-triangle":
        return block * sqrt(2) + 2 * (1 + sqrt(2)) * float(SEAM)
    return block / sqrt(2) + (2 + sqrt(2)) * float(SEAM)


SIDES = "C005", "C007", "C013", "C017", "C019", "C021"
CORNERS = "C002", "C006", "C008", "C012", "C014", "C020", "C046"


@TOPIC.asserts(*SIDES, *CORNERS)
def test_squares_for_setting_triangles(row: Row) -> None:
    ((what, block),) = row.inputs.items()
    part: Part = "side-triangle" if what.startswith("side") else "corner-triangle"
    assert chart(part, block) == inches(row.expected)
    # a whole quilt's outline is made one that a ruler has; what charts have to spare holds that too
    assert 0 <= cut_for(part, block) - inches(row.expected) <= (EIGHTH if part == "corner-triangle" else 0)
    assert exact(part, block) <= float(chart(part, block, allowance="exact")) <= float(inches(row.expected))


QUICK = "C026", "C027", "C028", "C029", "C030", "C031", "C034"


@TOPIC.asserts(*QUICK)
def test_quick_sizes_are_ours_or_a_little_more(row: Row) -> None:
    block = row.inputs["side_and_corner_square_for_block"]
    for part, printed in zip(("side-triangle", "corner-triangle"), row.expected, strict=True):
        ours = chart(part, block)  # type: ignore[arg-type]
        assert ours <= inches(printed) <= ours + QUARTER
        assert exact(part, block) < printed  # type: ignore[arg-type]


@TOPIC.refutes("C033")
def test_a_side_square_printed_too_small_by_the_rule_of_its_own_chart(row: Row) -> None:
    side, corner = map(inches, row.expected)
    assert chart("side-triangle", 14) == side + EIGHTH
    assert chart("corner-triangle", 14) <= corner
    # cut exactly it would still do: the rule has some to spare
    assert exact("side-triangle", 14) < float(side) + float(EIGHTH)


@TOPIC.asserts("C036", "C038")
def test_the_diagonal_of_a_block_is_the_width_it_takes_on_point(row: Row) -> None:
    block = row.inputs["diagonal_of_block"]
    size = frame_of(Lattice(Fraction(block), 1, 1, "on point")).size
    assert nearest(EIGHTH)(block * sqrt(2)) == inches(row.expected)
    # ours is never less than the diagonal: else the points would be cut off
    assert size.width == size.height == up_to(EIGHTH)(block * sqrt(2))


@TOPIC.asserts("C045")
def test_side_corner_and_setting_square(row: Row) -> None:
    side, corner, plain = map(inches, row.expected)
    assert chart("side-triangle", 6) == side
    assert chart("corner-triangle", 6) == corner
    assert plain == 6 + 2 * SEAM


@TOPIC.asserts("C049", "C054", "C055")
def test_blocks_that_a_setting_on_point_holds(row: Row) -> None:
    columns, rows = {"C049": (4, 4), "C054": (4, 5), "C055": (3, 4)}[row.id]
    assert Lattice(Fraction(6), columns, rows, "on point").cell_count == row.expected


@TOPIC.asserts("C052")
def test_a_floated_side_square(row: Row) -> None:
    # float of 3/8 in on both sides is the 3/4 in of the source
    plan = triangle_plan("side-triangle", "f1", 6 * sqrt(2) + 0.75, Triangles("f1"), SEAM)
    assert plan.cut.width == inches(row.expected)
    assert cut_for("side-triangle", 6, float=Fraction(3, 8)) == inches(row.expected)


def test_every_row_is_asserted_or_refuted() -> None:
    TOPIC.check_covered({})

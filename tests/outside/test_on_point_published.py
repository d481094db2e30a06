"""Topic W: settings on point as published; the account of the topic is kept with the other whole quilts."""

from fractions import Fraction
from math import sqrt

from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.frame import frame_of
from piecewright.model.quilt import Border, Lattice, Quilt
from piecewright.model.setting import Pieced, Triangles
from piecewright.plan.between import triangle_plan
from piecewright.plan.borders import border_plan
from piecewright.plan.materials import Materials, materials
from piecewright.plan.parts import Part, PartPlan
from piecewright.plan.size import quilt_size
from piecewright.units.sizes import Finished
from tests.outside.published import Row
from tests.outside.test_quilts_published import SEAM, TOPIC, WOF

EIGHTH = Fraction(1, 8)


def lattice(side: Fraction, columns: int, rows: int) -> Lattice:
    return Lattice(side, columns, rows, "on point")


def set_on_point(side: Fraction, columns: int, rows: int) -> Materials:
    quilt = Quilt("Set", lattice(side, columns, rows), triangles=Triangles("f1"))
    return materials(
        Design("Set", fabrics=(Fabric("f1", "Sky", "#88aaff"),), arrangements=(quilt,), next_id=2)
    )


def the_part(made: Materials, name: Part) -> PartPlan:
    (found,) = [part for part in made.parts if part.part == name]
    return found


@TOPIC.asserts("W056")
def test_blocks_of_a_setting_on_point(row: Row) -> None:
    assert lattice(Fraction(5), 4, 5).cell_count == row.expected


@TOPIC.asserts("W057", "W138", "W069")
def test_side_triangles_of_a_setting_on_point(row: Row) -> None:
    columns, rows = (2, 2) if row.id == "W069" else (4, 5)
    made = set_on_point(Fraction(5), columns, rows)
    sides = the_part(made, "side-triangle")
    assert sides.count == row.expected
    assert sides.cuts == -(-row.expected // 4)  # four triangles of a square, some left over
    assert the_part(made, "corner-triangle").count == 4


def square(block: Fraction, part: Part) -> Fraction:
    """The side of the squares that triangles for blocks of that finished size are cut from, by the charts' rule."""
    seen = float(block) * sqrt(2) if part == "side-triangle" else float(block) / sqrt(2)
    return Fraction(triangle_plan(part, "f1", seen, Triangles("f1"), SEAM).cut.width)


@TOPIC.asserts("W058")
def test_squares_for_the_triangles_of_five_inch_blocks(row: Row) -> None:
    sides, corners = square(Fraction(5), "side-triangle"), square(Fraction(5), "corner-triangle")
    assert [sides, corners] == [Fraction(str(side)) for side in row.expected]


@TOPIC.asserts("W067", "W068")
def test_squares_for_the_triangles_of_fifteen_inch_blocks(row: Row) -> None:
    part: Part = "side-triangle" if row.id == "W067" else "corner-triangle"
    assert square(Fraction(15), part) == Fraction(str(row.expected))


@TOPIC.asserts("W139", "W140")
def test_squares_that_were_rounded_to_the_nearest_are_a_hair_too_small(row: Row) -> None:
    part: Part = "side-triangle" if row.id == "W139" else "corner-triangle"
    printed, cut = Fraction(str(row.expected)), square(Fraction(99, 8), part)
    assert float(printed) < row.recomputed <= float(cut)
    assert cut == printed + EIGHTH


@TOPIC.asserts("W141")
def test_the_center_of_a_setting_on_point(row: Row) -> None:
    # the quilt's own size is one that a ruler has: the nearest eighth
    found = quilt_size(frame_of(lattice(Fraction(99, 8), 4, 5)), (), SEAM).unfinished
    assert [float(found.width), float(found.height)] == row.expected
    for side, exact in zip((found.width, found.height), row.recomputed, strict=True):
        assert abs(float(side) - exact) <= EIGHTH / 2


@TOPIC.asserts("W059")
def test_a_diagonal_rounded_before_it_is_multiplied_is_too_long(row: Row) -> None:
    found = quilt_size(frame_of(lattice(Fraction(5), 4, 5)), (), SEAM).unfinished
    assert abs(float(found.height) - row.recomputed) <= EIGHTH / 2
    assert row.expected - float(found.height) > EIGHTH


@TOPIC.asserts("W060")
def test_units_of_a_pieced_border(row: Row) -> None:
    pieced = Border("f1", Fraction(3), pieced=Pieced(Fraction(3), ("f1", "f2")))
    found = border_plan(pieced, Finished(Fraction(33), Fraction(39)), WOF, SEAM)
    assert found.side_run is not None
    assert found.end_run is not None
    assert 2 * (found.side_run.pieces + found.end_run.pieces) == row.expected
    assert found.side_run.coping == found.end_run.coping == 0

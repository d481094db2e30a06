"""Topic W: whole quilts as published, planned: size, counts, borders, binding, backing, batting, cloth."""

from collections import Counter
from fractions import Fraction
from importlib import import_module

from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.model.frame import frame_of
from piecewright.model.quilt import Backing, Binding, Border, Lattice
from piecewright.plan.backing import backing_plan
from piecewright.plan.batting import batting_plan
from piecewright.plan.binding import binding_plan
from piecewright.plan.borders import BorderPlan, around, border_plan
from piecewright.plan.cloth import Cloth, Use, cloth, strip_use
from piecewright.plan.joining import strips_joined_straight
from piecewright.plan.keys import StripKey
from piecewright.plan.materials import Materials, materials
from piecewright.plan.size import quilt_size
from piecewright.units.rounding import round_yardage
from piecewright.units.scale import YARD
from piecewright.units.sizes import Finished, Unfinished
from tests.outside.published import Row, Topic
from tests.outside.published_quilts import (
    around_the_block,
    cobblestones,
    columns_quilt,
    framed,
    rail_fence_throw,
    rolling_stones,
    staggered_throw,
)

TOPIC = Topic("W")
SEAM = Fraction(1, 4)
WOF = Fraction(42)

NOT_APPLICABLE = {
    "W027": "the block is pieced of half-square triangles, which no recipe of strips gives",
    "W030": "an overage of its own for width and for height; ours is one for both",
}


def exact(values: list[float]) -> list[Fraction]:
    return [Fraction(str(value)) for value in values]


def yards(inches: Fraction, rounding: str = "eighth") -> Fraction:
    return round_yardage(inches, rounding) / YARD


def sides(size: Finished | Unfinished) -> list[Fraction]:
    return [Fraction(size.width), Fraction(size.height)]


def cloth_of(made: Materials, name: str) -> Cloth:
    number = next(fabric.id for fabric in made.fabrics if fabric.name == name)
    return next(found for found in made.cloth if found.fabric == number)


def uses_of(made: Materials, name: str) -> list[tuple[int, Fraction]]:
    return [(use.count, use.size) for use in cloth_of(made, name).uses]


def crosswise(count: int, width: str) -> Use:
    key = StripKey("f1", Fraction(width), "crosswise", Fraction(0))
    return strip_use("piecing", key, count, WOF)


def sum_of(*uses: Use, rounding: str = "eighth") -> Cloth:
    return cloth("f1", WOF, uses, Fraction(0), rounding, None)


# rules that every one of these patterns follows


@TOPIC.asserts(*TOPIC.ids(lambda row: row.inputs["what"] == "binding strips"))
def test_binding_strips(row: Row) -> None:
    width, height = exact(row.inputs["quilt_size"])
    strip, usable = exact([row.inputs["strip"], row.inputs["width"]])
    assert binding_plan(Binding(width=strip), 2 * (width + height), usable).strips == row.expected


def backing_cloth(row: Row) -> Fraction:
    width, height = exact(row.inputs["batting_used_as_backing_size"])
    usable, seam = exact([row.inputs["width"], row.inputs["panel_seam"]])
    return backing_plan(
        Backing(overage=Fraction(0), seam=seam), Unfinished(width, height), usable
    ).panels.cloth


@TOPIC.asserts(*TOPIC.ids(lambda row: row.inputs["what"] == "backing yards"))
def test_backing_yards(row: Row) -> None:
    cloth = backing_cloth(row)
    assert round(float(cloth / YARD), 6) == row.recomputed
    thirds = row.id == "W045"  # 7 1/3 yd exactly: a shop that cuts by thirds
    assert round(float(yards(cloth, "third" if thirds else "eighth")), 6) == row.expected


@TOPIC.refutes("W024", "W065")
def test_backing_yards_that_are_more_than_the_panels_take(row: Row) -> None:
    assert backing_cloth(row) == 116
    assert yards(backing_cloth(row)) == Fraction(13, 4) != Fraction(str(row.expected))


BATTED = {
    "W008": (Fraction(133, 2), Fraction(145, 2)),
    "W017": (Fraction(89, 2), Fraction(119, 2)),
    "W023": (Fraction(50), Fraction(67)),
    "W044": (Fraction(163, 2), Fraction(163, 2)),
    "W064": (Fraction(51), Fraction(57)),
    "W070": (Fraction(129, 2), Fraction(129, 2)),
    "W100": (Fraction(77, 2), Fraction(77, 2)),
    "W114": (Fraction(101, 2), Fraction(119, 2)),
    "W120": (Fraction(63), Fraction(63)),
    "W145": (Fraction(45), Fraction(50)),
}
"""The printed size of the quilt beside its batting; backing rows of the same quilt print their sum."""


@TOPIC.asserts(*BATTED)
def test_batting_is_the_quilt_and_its_overage(row: Row) -> None:
    width, height = BATTED[row.id]
    overage, same = exact(row.expected)
    assert overage == same
    batting = batting_plan(Unfinished(width, height), overage)
    assert [batting.size.width, batting.size.height] == [width + overage, height + overage]
    assert batting.package is not None
    assert batting.package.holds(batting.size)


# rail fence throw


@TOPIC.asserts("W001")
def test_rail_fence_size(row: Row) -> None:
    assert sides(materials(rail_fence_throw()).size.unfinished) == exact(row.expected)


@TOPIC.asserts("W002")
def test_rail_fence_blocks(row: Row) -> None:
    made = materials(rail_fence_throw())
    assert made.block_count == row.expected
    assert made.set_count == row.inputs["sets"]
    assert sum(found.blocks or 0 for found in made.sets) == row.inputs["per_set_needed"]


@TOPIC.asserts("W003")
def test_rail_fence_blocks_to_a_set(row: Row) -> None:
    made = materials(rail_fence_throw())
    assert [found.per_set for found in made.sets] == [row.expected, row.expected]
    assert [(found.sets, found.blocks) for found in made.sets] == [(10, 55), (10, 55)]


@TOPIC.asserts("W004")
def test_rail_fence_black(row: Row) -> None:
    made = materials(rail_fence_throw())
    assert uses_of(made, "black") == [(20, Fraction(5, 2))]
    assert cloth_of(made, "black").buy / YARD == Fraction(row.expected)


@TOPIC.asserts("W005")
def test_rail_fence_teal_with_the_margin_its_pattern_allows(row: Row) -> None:
    throw = rail_fence_throw()
    assert uses_of(materials(throw), "teal") == [(10, Fraction(5, 2))]
    assert cloth_of(materials(throw), "teal").buy / YARD == Fraction(3, 4)
    with_margin = throw.changed(settings=throw.settings.changed(margin=Fraction(4)))
    assert cloth_of(materials(with_margin), "teal").buy / YARD == Fraction(row.expected)


@TOPIC.asserts("W006")
def test_rail_fence_red(row: Row) -> None:
    throw = rail_fence_throw()
    by_quarters = materials(throw.changed(settings=throw.settings.changed(yardage="quarter")))
    uses = Counter[Fraction]()
    for count, width in uses_of(by_quarters, "red"):
        uses[width] += count
    assert uses == {Fraction(7, 2): 7, Fraction(5, 2): 28}
    assert cloth_of(by_quarters, "red").inches / YARD == Fraction(row.recomputed)
    assert cloth_of(by_quarters, "red").buy / YARD == Fraction(row.expected)


@TOPIC.asserts("W007")
def test_rail_fence_border(row: Row) -> None:
    (border,) = materials(rail_fence_throw()).borders
    assert border.strips == row.expected
    assert [border.sides.width, border.ends.width] == [Fraction(133, 2), Fraction(133, 2)]
    assert border.sides.height == border.ends.height == border.width == Fraction(7, 2)


def test_rail_fence_binding_backing_and_batting_in_the_same_plan() -> None:
    # W008, W009 and W010 once more, from the design
    made = materials(rail_fence_throw())
    assert made.binding.strips == 8
    assert sides(Unfinished(made.batting.size.width, made.batting.size.height)) == [75, 81]
    assert made.backing.panels.cloth == 150
    assert cloth_of(made, "back").buy / YARD == Fraction(17, 4)


# columns and sashing


@TOPIC.asserts("W011")
def test_a_column_is_as_long_as_its_pieces(row: Row) -> None:
    assert materials(columns_quilt()).size.unfinished.height == Fraction(str(row.expected))


@TOPIC.asserts("W013")
def test_pieces_of_five_columns(row: Row) -> None:
    made = materials(columns_quilt())
    assert [alike.count for alike in made.blocks] == row.expected
    assert made.missing == 0


@TOPIC.asserts("W012")
def test_columns_with_sashing_and_borders(row: Row) -> None:
    # the height is the column's 53 in and the two 3 in borders; sashing and side borders print no width, so
    # only what they leave is held: six strips beside five columns of 5 1/2 in share 16 1/2 in
    width, height = exact(row.expected)
    column = materials(columns_quilt()).size.finished
    ends = border_plan(Border("f1", Fraction(3)), Finished(width - 2 * SEAM - 6, column.height), WOF, SEAM)
    assert around(Finished(width - 2 * SEAM - 6, column.height), Border("f1", Fraction(3))).height == (
        height - 2 * SEAM
    )
    assert ends.ends.width == width
    assert width - 2 * SEAM - Fraction(column.width) == 6 * Fraction(11, 4)


@TOPIC.asserts("W014")
def test_strips_of_top_and_bottom_border(row: Row) -> None:
    assert strips_joined_straight(2 * Fraction(89, 2), WOF, SEAM) == row.expected


@TOPIC.asserts("W015")
def test_cloth_of_lengthwise_sashing_and_crosswise_borders(row: Row) -> None:
    along = StripKey("f1", Fraction(13, 4), "lengthwise", Fraction(107, 2))
    lengthwise = strip_use("piecing", along, 6, WOF)
    assert lengthwise.inches == Fraction(107, 2)
    print_cloth = sum_of(lengthwise, crosswise(3, "7/2"))
    assert round(float(print_cloth.inches / YARD), 6) == row.recomputed
    assert print_cloth.buy / YARD == Fraction(row.expected)


@TOPIC.asserts("W016")
def test_binding_yardage(row: Row) -> None:
    assert sum_of(crosswise(6, "5/2")).buy / YARD == Fraction(row.expected)


# staggered 10 in squares


@TOPIC.asserts("W020")
def test_staggered_rectangles(row: Row) -> None:
    made = materials(staggered_throw())
    assert [alike.count for alike in made.blocks] == row.expected
    assert made.missing == 0


@TOPIC.asserts("W021")
def test_staggered_size(row: Row) -> None:
    assert sides(materials(staggered_throw()).size.unfinished) == exact(row.expected)


@TOPIC.asserts("W022")
def test_ten_inch_squares_needed(row: Row) -> None:
    strips = uses_of(materials(staggered_throw()), "squares")
    assert strips == [(6, Fraction(11, 4)), (74, Fraction(5))]
    squares = sum(-(-count // int(10 / width)) for count, width in strips)
    assert squares == row.recomputed
    assert squares <= row.expected


# churn dash, without its block


def churn_dash_borders() -> list[BorderPlan]:
    # 3 x 4 blocks of 8 3/4, sashing of 1 1/2 between and round them
    inner = Finished(3 * Fraction(35, 4) + 4 * Fraction(3, 2), 4 * Fraction(35, 4) + 5 * Fraction(3, 2))
    borders = (Border("f1", Fraction(1)), Border("f2", Fraction(4)))
    return [
        border_plan(borders[0], inner, WOF, SEAM),
        border_plan(borders[1], around(inner, borders[0]), WOF, SEAM),
    ]


@TOPIC.asserts("W026")
def test_churn_dash_size(row: Row) -> None:
    lattice = Lattice(Fraction(1, 4), 129, 170)
    borders = (Border("f1", Fraction(1)), Border("f2", Fraction(4)))
    assert sides(quilt_size(frame_of(lattice), borders, SEAM).center) == [Fraction(129, 4), Fraction(85, 2)]
    assert sides(quilt_size(frame_of(lattice), borders, SEAM).unfinished) == exact(row.expected)


@TOPIC.asserts("W028", "W029")
def test_churn_dash_border_strips(row: Row) -> None:
    inner, outer = churn_dash_borders()
    assert [inner.width, outer.width] == [Fraction(3, 2), Fraction(9, 2)]
    assert (inner if row.id == "W028" else outer).strips == row.expected


# rolling stones


@TOPIC.asserts("W040")
def test_rolling_stones_size(row: Row) -> None:
    assert sides(materials(rolling_stones()).size.unfinished) == exact(row.expected)


@TOPIC.asserts("W041")
def test_rolling_stones_blocks(row: Row) -> None:
    made = materials(rolling_stones())
    assert [alike.count for alike in made.blocks] == [41, 40]
    assert made.block_count == row.expected


@TOPIC.asserts("W042")
def test_setting_squares_take_less_than_printed(row: Row) -> None:
    made = materials(rolling_stones())
    squares = next(found for found in made.sets if len(found.lanes) == 1)
    assert (squares.per_set, squares.strips) == (4, 10)
    assert round(float(cloth_of(made, "setting squares").inches / YARD), 6) == row.recomputed
    assert cloth_of(made, "setting squares").buy / YARD == Fraction(11, 4) <= row.expected


@TOPIC.refutes("W043")
def test_binding_yardage_that_is_a_misprint(row: Row) -> None:
    made = materials(rolling_stones())
    assert made.binding.strips == 9
    assert cloth_of(made, "binding").buy / YARD == Fraction(row.recomputed) != row.expected


# four-patch on point: its borders


@TOPIC.asserts("W061")
def test_borders_add_up(row: Row) -> None:
    borders = tuple(Border("f1", Fraction(width)) for width in (3, 2, 4))
    assert sides(quilt_size(frame_of(Lattice(Fraction(3), 11, 13)), borders, SEAM).finished) == row.expected


@TOPIC.asserts("W062")
def test_outer_border_takes_one_strip_less_than_printed(row: Row) -> None:
    border = border_plan(Border("f1", Fraction(4)), Finished(Fraction(43), Fraction(49)), WOF, SEAM)
    assert border.total == 202
    assert border.strips == row.recomputed == row.expected - 1


@TOPIC.asserts("W063")
def test_blue_takes_less_than_printed(row: Row) -> None:
    blue = sum_of(crosswise(6, "9/2"), crosswise(6, "5/2"))
    assert round(float(blue.inches / YARD), 6) == row.recomputed
    assert blue.buy / YARD == Fraction(5, 4) < Fraction(row.expected)


# blocks and sizes


@TOPIC.asserts("W099")
def test_crib_quilt_size(row: Row) -> None:
    # 3 x 3 of 10 and four sashes of 2, in cells of 2
    assert sides(quilt_size(frame_of(Lattice(Fraction(2), 19, 19)), (), SEAM).unfinished) == exact(
        row.expected
    )


@TOPIC.asserts("W113")
def test_courthouse_block(row: Row) -> None:
    made = facts(framed(("1 1/2", "3"), "1 3/4"), Given(usable=WOF))
    assert sides(made.unfinished) == exact(row.expected)


@TOPIC.asserts("W119")
def test_block_size_of_a_square_quilt(row: Row) -> None:
    assert sides(quilt_size(frame_of(Lattice(Fraction(row.expected), 9, 9)), (), SEAM).finished) == [63, 63]


@TOPIC.asserts("W135")
def test_four_hundred_squares(row: Row) -> None:
    size = quilt_size(frame_of(Lattice(Fraction(5, 2), 20, 20)), (), SEAM)
    assert sides(size.finished) == [row.expected, row.expected]
    assert sides(size.unfinished) == [Fraction(101, 2), Fraction(101, 2)]


@TOPIC.asserts("W136")
def test_four_borders_lie_side_by_side(row: Row) -> None:
    long = Fraction(70)
    widths = Fraction(row.expected), Fraction(row.expected) + Fraction(1, 8)
    fits, does_not = (
        strip_use("border 1", StripKey("f1", width, "lengthwise", long), 4, Fraction(40)) for width in widths
    )
    assert fits.inches == long
    assert does_not.inches == 2 * long


@TOPIC.asserts("W137")
def test_cobblestones_block(row: Row) -> None:
    made = materials(cobblestones())
    (batch,) = made.batches
    assert batch.blocks == 42
    block = facts(framed(("3", "3"), "2 1/2"), Given(usable=WOF))
    assert sides(block.unfinished) == [row.expected, row.expected]
    # 42 centers of 3 in, 14 to a strip; round them 84 of 7 in, 6 to a strip, and 84 of 3 in, 14 to a strip
    assert uses_of(made, "centers") == [(3, Fraction(3))]
    assert uses_of(made, "strips") == [(14 + 6, Fraction(5, 2))]


@TOPIC.asserts("W142")
def test_top_border_after_the_sides(row: Row) -> None:
    inner = Unfinished(Fraction(141, 2), Fraction(88)).finished(SEAM)
    border = border_plan(Border("f1", Fraction(2)), inner, WOF, SEAM)
    assert [border.sides.width, border.ends.width] == [88, Fraction(str(row.expected))]


@TOPIC.asserts("W143")
def test_around_the_block_units(row: Row) -> None:
    made = materials(around_the_block())
    assert [alike.count for alike in made.blocks] == row.expected
    pairs = next(found for found in made.sets if len(found.lanes) == 2)
    squares = sum(cuts.sets * count for cuts in pairs.cuts for _, count in cuts.segments)
    assert squares == 108  # each segment has one square of either fabric


@TOPIC.asserts("W144")
def test_around_the_block_is_full(row: Row) -> None:
    made = materials(around_the_block())
    assert made.block_count == row.expected
    assert made.missing == 0
    assert sides(made.size.finished) == [45, 50]


@TOPIC.asserts("W146")
def test_around_the_block_backing_takes_less_than_printed(row: Row) -> None:
    # the printed size, 45 x 50, is without its seams
    top = Unfinished(Fraction(45), Fraction(50))
    backing = backing_plan(Backing(overage=Fraction(5)), top, Fraction(44))
    assert (backing.panels.count, backing.panels.length) == (2, Fraction(50))
    assert round(float(backing.panels.cloth / YARD), 6) == row.recomputed
    assert yards(backing.panels.cloth) == Fraction(23, 8) < row.expected


@TOPIC.asserts("W148")
def test_irish_chain_sizes(row: Row) -> None:
    unit = Fraction(9)
    square, small, long = (
        quilt_size(frame_of(Lattice(unit, columns, rows)), (), SEAM).finished
        for columns, rows in ((10, 10), (8, 8), (8, 10))
    )
    assert [square.width, small.width, *sides(long)] == row.expected


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    import_module("tests.outside.test_on_point_published")  # asserts rows of this topic too
    TOPIC.check_covered(NOT_APPLICABLE)

"""Topic 8: yardage rounding, metric and shrinkage as printed; sources in check_values.json by id."""

from fractions import Fraction
from math import isclose, sqrt

from piecewright.model.settings import Shrinkage
from piecewright.plan.batting import batting_plan
from piecewright.units.length import parse_length
from piecewright.units.measure import Measure
from piecewright.units.rounding import nearest, up_to
from piecewright.units.scale import METRE
from piecewright.units.sizes import Unfinished
from tests.outside.published import Row, Topic

TOPIC = Topic("8")

NOT_APPLICABLE = {
    "H033": "a range that a maker states for one batting: nothing to compute it from",
    "H039": "two shrinkages measured on one light sheeting: nothing to compute them from",
    "H040": "a shrinkage measured on one cloth: nothing to compute it from",
    "H041": "a width measured after one wash: nothing to compute it from",
}


@TOPIC.asserts(*TOPIC.ids(lambda row: "yard_fraction" in row.inputs))
def test_parts_of_a_yard_in_inches(row: Row) -> None:
    part = row.inputs["yard_fraction"]
    inches = parse_length(f"{part} yd")
    assert inches == Fraction(row.expected)
    assert Measure().yards(inches) == f"{part} yd"


@TOPIC.asserts("H012")
def test_two_decimals_of_a_yard_fall_just_short_of_two_thirds(row: Row) -> None:
    inches = parse_length(f"{row.inputs['decimal']} {row.inputs['unit']}")
    assert inches < row.expected == parse_length("2/3 yd")
    assert nearest(Fraction(1))(inches) == row.expected


@TOPIC.asserts("H016", "H017", "H018")
def test_decimals_are_shown_as_the_sixteenths_on_a_ruler(row: Row) -> None:
    inches = parse_length(str(row.inputs["decimal"]))
    assert Measure().bare(inches) == Measure(fraction=16).bare(inches) == row.expected


@TOPIC.asserts("H019")
def test_a_yard_in_meters(row: Row) -> None:
    assert parse_length("1 yd") / METRE == Fraction(str(row.expected))
    assert parse_length(f"{row.expected} m") == parse_length("36 in")


@TOPIC.asserts("H022")
def test_twelve_widths_of_13_inches_in_yards_and_meters(row: Row) -> None:
    yards, meters = row.expected
    inches = 12 * parse_length("13 in")
    assert isclose(inches / parse_length("1 yd"), yards, abs_tol=1e-6)
    assert Measure().yards(inches) == "4 1/3 yd"
    assert Measure("cm").yards(inches) == f"{meters} m"


@TOPIC.refutes("H025")
def test_metric_geese_are_cut_too_small_when_rounded_down(row: Row) -> None:
    # Four geese at a time: the large square is the long side + seam (2 + 2 sqrt 2), the small one the short
    # side + seam (2 + sqrt 2), in cm; the roots come from the diagonals. The source rounds both down.
    seam, exact = 0.75, row.recomputed
    assert isclose(10 + seam * (2 + 2 * sqrt(2)), exact[0], abs_tol=1e-5)
    assert isclose(5 + seam * (2 + sqrt(2)), exact[1], abs_tol=1e-5)
    ours = [up_to(Fraction(1, 2))(value) for value in exact]
    assert ours == [14, 8]
    assert all(
        printed < least <= rounded for printed, least, rounded in zip(row.expected, exact, ours, strict=True)
    )


@TOPIC.asserts("H026")
def test_half_square_addition_in_seams_rounds_up(row: Row) -> None:
    assert up_to(Fraction(1, 2))(2 + sqrt(2)) == up_to(Fraction(1, 8))(2 + sqrt(2)) == Fraction(row.expected)


@TOPIC.asserts("H027")
def test_quarter_square_addition_in_seams_rounds_up(row: Row) -> None:
    assert up_to(Fraction(1, 4))(2 + 2 * sqrt(2)) == row.expected


@TOPIC.asserts("H028")
def test_a_quarter_inch_in_millimeters(row: Row) -> None:
    quarter = parse_length("1/4")
    assert Measure("mm", fraction=10).bare(quarter) == str(row.expected)
    assert Measure("mm").length(quarter) == "6.35 mm"


@TOPIC.refutes("H029")
def test_doubling_a_rounded_value_doubles_its_error(row: Row) -> None:
    two_seams = 2 * parse_length("1/4")
    assert Measure("cm").length(two_seams) == "1.27 cm" != f"{row.expected} cm"
    assert two_seams == parse_length("1.27 cm") < parse_length(f"{row.expected} cm")


@TOPIC.asserts("H030")
def test_a_metric_fat_quarter_has_a_tenth_more_cloth(row: Row) -> None:
    metric, inch = (
        parse_length(f"{width} cm") * parse_length(f"{length} cm")
        for width, length in row.inputs["metric fat quarter area over inch one"]
    )
    assert metric / inch == Fraction(10, 9)
    assert nearest(Fraction(1, 10))(metric / inch) == Fraction(str(row.expected))


@TOPIC.asserts("H032")
def test_batting_before_it_shrinks_by_five_percent(row: Row) -> None:
    top, percent = Unfinished(Fraction(90), Fraction(90)), Fraction(5)
    divide, add = Shrinkage(batting=percent), Shrinkage(batting=percent, way="add")
    for shrinkage, exact in ((divide, 90 / Fraction(95, 100)), (add, Fraction(189, 2))):
        assert shrinkage.before(Fraction(90), percent) == exact
        size = batting_plan(top, Fraction(0), shrinkage, lengths="whole").size
        assert [size.width, size.height] == [row.expected, row.expected]
    left = [Shrinkage().after(size, percent) for size in (90 / Fraction(95, 100), Fraction(189, 2))]
    assert left[0] == 90 > left[1]


@TOPIC.asserts("H038")
def test_what_share_a_swatch_lost(row: Row) -> None:
    swatch = parse_length("6 1/2")
    shares = [parse_length(lost) / swatch for lost in ("1/8", "1/4")]
    assert [float(nearest(Fraction(1, 100))(100 * share)) for share in shares] == row.expected
    assert [Measure().percent(share) for share in shares] == ["1.9 %", "3.8 %"]


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    TOPIC.check_covered(NOT_APPLICABLE)

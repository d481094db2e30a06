"""Topics 4, 5 and 6: borders, binding, backing and batting as published; sources in check_values.json by id."""

from collections import Counter
from fractions import Fraction

from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.frame import frame_of
from piecewright.model.quilt import Backing, Binding, Border, Lattice, Quilt
from piecewright.model.setting import Sashing
from piecewright.plan.backing import BackingPlan, backing_plan, panels
from piecewright.plan.batting import batting_plan
from piecewright.plan.bias_square import bias_length, bias_square
from piecewright.plan.binding import BindingPlan, binding_plan
from piecewright.plan.borders import border_plan
from piecewright.plan.cloth import cloth, strip_use
from piecewright.plan.keys import StripKey
from piecewright.plan.materials import materials
from piecewright.plan.size import quilt_size
from piecewright.plan.trade import packages
from piecewright.units.rounding import nearest
from piecewright.units.scale import YARD
from piecewright.units.sizes import Finished, Unfinished
from tests.outside.published import Row, Topic

BORDERS, BINDING, BACKING = Topic("4"), Topic("5"), Topic("6")
SEAM = Fraction(1, 4)
WOF = Fraction(42)

NO_BORDER = {
    "D026": "a rule of taste, by the golden ratio",
}
NO_BINDING = {
    "E030": "the size of the eight mats is not printed: nothing to compute their way round from",
}


def top(width: float, height: float) -> Unfinished:
    return Unfinished(Fraction(str(width)), Fraction(str(height)))


def sides(found: Unfinished) -> Fraction:
    return 2 * (Fraction(found.width) + Fraction(found.height))


def bound(
    around: Fraction, usable: Fraction, width: Fraction = Fraction(5, 2), extra: int = 0
) -> BindingPlan:
    return binding_plan(Binding(width=width, extra=Fraction(extra)), around, usable)


def backed(
    found: Unfinished, overage: Fraction, usable: Fraction, seam: Fraction = Fraction(1, 2)
) -> BackingPlan:
    return backing_plan(Backing(overage=overage, seam=seam), found, usable)


# borders


@BORDERS.asserts("D009")
def test_blocks_without_sashing(row: Row) -> None:
    size = quilt_size(frame_of(Lattice(Fraction(12), 5, 6)), (), SEAM).finished
    assert [size.width, size.height] == row.expected


@BORDERS.asserts("D020")
def test_a_border_on_a_border(row: Row) -> None:
    border = border_plan(Border("f1", Fraction(2)), top(34.5, 46).finished(SEAM), WOF, SEAM)
    assert [border.sides.width, border.ends.width] == [Fraction(str(length)) for length in row.expected]


def sashed(columns: int, rows: int, *, outside: bool) -> Counter[str]:
    """How many sashes and cornerstones a quilt of so many blocks has."""
    sashing = Sashing("f1", Fraction(2), Fraction(2), "f1", outside=outside)
    quilt = Quilt("Sashed", Lattice(Fraction(10), columns, rows), sashing=sashing)
    cloths = (Fabric("f1", "Sky", "#88aaff"),)
    made = materials(Design("Sashed", fabrics=cloths, arrangements=(quilt,), next_id=2))
    counts = Counter[str]()
    for part in made.parts:
        counts["sashes" if part.part == "sash" else "cornerstones"] += part.count
    return counts


@BORDERS.asserts("D004", "D005", "D007", "D008")
def test_sashes_and_cornerstones(row: Row) -> None:
    if row.id == "D005":
        assert sashed(4, 4, outside=False)["sashes"] == row.expected
    elif row.id == "D004":
        counts = sashed(3, 3, outside=True)
        assert [counts["cornerstones"], counts["sashes"]] == row.expected
    else:
        assert sashed(5, 5, outside=True)[row.inputs["what"]] == row.expected


@BORDERS.asserts("D017", "D018")
def test_mitered_strips_reach_round_their_corners(row: Row) -> None:
    # several borders joined and mitered as one; each source adds a spare of its own
    width, spare = (Fraction(7, 2), 6) if row.id == "D017" else (Fraction(7), 1)
    quilt = top(22.5, 22.5) if row.id == "D017" else top(50, 60)
    border = Border("f1", width, corners="mitered", spare=Fraction(spare))
    found = border_plan(border, quilt.finished(SEAM), WOF, SEAM)
    printed = [row.expected] * 2 if row.id == "D017" else row.expected
    assert [found.ends.width, found.sides.width] == [Fraction(str(length)) for length in printed]


@BORDERS.asserts("D022")
def test_all_of_a_border(row: Row) -> None:
    inner = top(56, 61).finished(SEAM)
    sides_first = border_plan(Border("f1", Fraction(5)), inner, WOF, SEAM)
    ends_first = border_plan(Border("f1", Fraction(5), "top and bottom"), inner, WOF, SEAM)
    assert sides_first.total == ends_first.total == row.expected
    assert (sides_first.sides.width, sides_first.ends.width) == (61, 66)
    assert (ends_first.sides.width, ends_first.ends.width) == (71, 56)


@BORDERS.asserts("D024", "D025")
def test_borders_along_the_selvage_take_their_longest_strip_as_often_as_none_fits_beside(row: Row) -> None:
    """D024 allows 10 in over the longest side of 80; D025: four strips of 12 in are 48 in, more than the cloth."""
    long = Border("f1", Fraction(12) - 2 * SEAM if row.id == "D025" else Fraction(6), grain="lengthwise")
    quilt = Fraction(80) - 2 * SEAM if row.id == "D024" else Fraction(60)
    plan = border_plan(long, Finished(quilt - 2 * long.width, quilt), WOF, SEAM)
    assert plan.strips == 4
    use = strip_use("border 1", StripKey("f1", plan.width, "lengthwise", plan.longest), 4, WOF)
    if row.id == "D024":
        assert plan.longest == 80
        assert use.inches + 10 == row.expected * YARD
    else:
        assert 4 * plan.width == row.expected > WOF
        assert use.inches == 2 * plan.longest


@BORDERS.asserts("D023")
def test_border_strips_from_a_length_of_cloth(row: Row) -> None:
    strips, inches = row.expected
    key = StripKey("f1", Fraction(5), "crosswise", Fraction(0))
    taken = [strip_use("border 1", key, count, WOF).inches for count in (strips, strips + 1)]
    assert taken[0] <= 37 < taken[1]
    assert strips * WOF == inches


# binding


@BINDING.asserts("E001")
def test_strips_from_40_inch_cloth(row: Row) -> None:
    # the source adds 20 in and divides by all of 40; taking the joins off comes to the same
    width, height = row.inputs["quilt"]
    found = bound(sides(top(width, height)), Fraction(40))
    assert found.strips == row.expected


@BINDING.asserts("E002")
def test_binding_cloth_by_quarters(row: Row) -> None:
    strips = strip_use("binding", StripKey("f1", Fraction(5, 2), "crosswise", Fraction(0)), 7, Fraction(40))
    found = cloth("f1", Fraction(40), (strips,), Fraction(0), "quarter", None)
    assert round(float(found.inches / YARD), 6) == row.recomputed
    assert found.buy / YARD == Fraction(str(row.expected))


@BINDING.asserts("E003")
def test_two_inches_lost_at_joins(row: Row) -> None:
    width, height = row.inputs["quilt"]
    assert bound(sides(top(width, height)), Fraction(40), Fraction(2)).strips == row.expected


def binding_54_by_60() -> BindingPlan:
    return bound(sides(top(54, 60)), WOF, extra=10)


@BINDING.asserts("E006")
def test_the_way_round_and_what_the_source_adds(row: Row) -> None:
    found = binding_54_by_60()
    assert found.around + row.inputs["extra"] == found.length == row.expected


@BINDING.asserts("E007")
def test_strips_for_it(row: Row) -> None:
    # the 10 in that the source adds are for the joins, which are counted here as such
    found = bound(sides(top(54, 60)), WOF)
    assert found.strips == row.expected
    assert found.gives == 6 * (WOF - Fraction(5, 2)) >= 228


@BINDING.asserts("E008", "E009", "E010", "E011")
def test_binding_is_cut_at_any_of_the_usual_widths(row: Row) -> None:
    width = Fraction(str(row.expected))
    found = bound(Fraction(200), WOF, width)
    assert found.width == width
    assert (found.strips - 1) * (WOF - width) < 200 <= found.strips * (WOF - width)


@BINDING.asserts("E017")
def test_one_strip_less_than_a_source_that_adds_a_spare(row: Row) -> None:
    found = bound(Fraction(row.inputs["perimeter"]), Fraction(45))
    assert found.strips == row.recomputed == row.expected - 1


@BINDING.asserts("E018")
def test_purchased_binding_is_longer_than_the_way_round(row: Row) -> None:
    width, height = row.inputs["quilt"]
    around = sides(top(width, height))
    assert round(float(around / YARD), 6) == row.recomputed
    assert Fraction(str(row.expected)) * YARD - around == 13


@BINDING.asserts("E015")
def test_extra_length_is_counted_before_the_strips(row: Row) -> None:
    around = Fraction(248)  # the source's quilt of 66 x 58
    for extra in row.expected:
        found = bound(around, Fraction(40), extra=extra)
        assert found.length == around + extra
        assert found.gives >= found.length > found.gives - (Fraction(40) - found.lost)
        assert found.to_spare >= extra
        assert not found.findings


@BINDING.asserts("E020")
def test_the_rule_of_area_promises_more_bias_than_a_square_gives(row: Row) -> None:
    # the rule leaves out the seams, which take it to 190.1 in, and that only whole rounds are cut
    side, width, seam = Fraction(20), Fraction(2), Fraction(1, 4)
    assert side**2 / width == row.expected
    net = (side - seam) * (side - 3 * seam) / width
    assert f"{float(net):.1f}" in row.note
    assert bias_length(side, width, Fraction(0)) <= row.expected
    assert bias_length(side, width, seam) == Fraction(1306, 8)  # 6 rounds of 19 1/4 x sqrt 2: 163.3 in
    assert bias_length(Fraction(81, 4), width, seam) > net  # where the rounds just fill it


@BINDING.asserts("E021")
def test_a_square_for_250_inches(row: Row) -> None:
    found = bias_square(Fraction(250), Fraction(2), Fraction(1, 4), "whole")
    assert found.side == row.expected
    assert 250 <= found.length <= Fraction("253.1")
    assert bias_length(found.side - 1, Fraction(2), Fraction(1, 4)) < 250


# backing and batting


@BACKING.asserts("F003")
def test_two_widths_across_up_to_80_inches(row: Row) -> None:
    width = Fraction(60)
    for longest, count in ((Fraction(74), 2), (Fraction(80), 2)):
        found = backed(Unfinished(width, longest), Fraction(row.expected), Fraction(44))
        assert found.panels.count == count
        assert found.panels.seams == "across"
        assert found.panels.cloth == 2 * (width + row.expected)
    long = backed(Unfinished(width, Fraction(84)), Fraction(row.expected), Fraction(44)).panels
    assert (long.count, long.seams) == (2, "up")
    both = backed(Unfinished(Fraction(84), Fraction(84)), Fraction(row.expected), Fraction(44)).panels
    assert both.count == 3


@BACKING.asserts("F004", "F005")
def test_backing_of_two_panels_without_a_seam(row: Row) -> None:
    found = panels("up", Fraction(80), Fraction(56), Fraction(40), Fraction(0))
    assert found.count == 2
    assert [found.length, found.spread] == [56, 80]
    if row.id == "F004":
        assert found.cloth == row.expected
    else:
        assert nearest(Fraction(1, 100))(found.cloth / YARD) == Fraction(str(row.expected))


@BACKING.asserts("F007", "F008")
def test_backing_ten_inches_larger(row: Row) -> None:
    found = backed(top(59, 75), Fraction(10), WOF).panels
    assert (found.count, found.seams) == (2, "up")
    assert found.length == 85
    if row.id == "F007":
        assert found.cloth == row.expected
    else:
        assert nearest(Fraction(1, 100))(found.cloth / YARD) == Fraction(str(row.expected))


@BACKING.asserts("F009")
def test_the_backing_that_a_length_in_hand_gives(row: Row) -> None:
    # 3 3/4 yd make two panels of 67 1/2 in: with one seam, 83 in spread
    length, spread = (Fraction(str(value)) for value in row.expected)
    found = backed(top(59, 65), Fraction(17, 2), WOF)
    assert (found.panels.length, found.panels.spread) == (length, spread)
    assert found.panels.cloth / YARD == Fraction(str(row.inputs["fabric_yd"]))
    assert found.panels.seams == "across"


@BACKING.asserts("F012", "F013", "F014", "F017", "F035")
def test_overage_is_for_both_sides_together(row: Row) -> None:
    overage = Fraction(10 if row.id == "F017" else row.expected)
    size = backed(top(63, 87), overage, WOF).size
    assert size == batting_plan(top(63, 87), overage).size
    assert [size.width, size.height] == [63 + overage, 87 + overage]
    if row.id == "F017":
        assert [size.width, size.height] == row.expected
    if row.id == "F013":
        assert Backing().overage == overage


@BACKING.asserts(*BACKING.ids(lambda row: "packaged batting" in row.inputs))
def test_packaged_batting(row: Row) -> None:
    found = next(package for package in packages("us") if package.name == row.inputs["packaged batting"])
    assert [found.width, found.height] == row.expected
    assert batting_plan(top(*row.expected), Fraction(0)).package == found
    over = batting_plan(top(*row.expected), Fraction(1, 8)).package
    assert over is None or over.width > found.width


def test_every_row_is_asserted_refuted_or_set_aside() -> None:
    BORDERS.check_covered(NO_BORDER)
    BINDING.check_covered(NO_BINDING)
    BACKING.check_covered({})

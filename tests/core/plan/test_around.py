"""What goes round and behind a quilt: exact, never short, and the least of what is wanted."""

from fractions import Fraction
from math import isclose, sqrt
from typing import Literal, get_args

from hypothesis import given
from hypothesis import strategies as st

from piecewright.model.fabric import Print
from piecewright.model.quilt import Backing, Binding, Label, Sleeve
from piecewright.model.settings import Country, Settings, Shrinkage
from piecewright.plan.back_pieces import label_plan, sleeve_plan
from piecewright.plan.backing import backing_plan
from piecewright.plan.batting import batting_plan
from piecewright.plan.bias_square import bias_length, bias_square, rounds_of
from piecewright.plan.binding import binding_plan
from piecewright.plan.materials import materials
from piecewright.plan.trade import Mattress, bed_quilt, mattresses, packages, sewn_for_washed
from piecewright.units.sizes import Finished, Unfinished
from tests.core.plan.samples import BOLT, rails

EIGHTHS = st.integers(1, 8 * 120).map(lambda n: Fraction(n, 8))
SIDES = st.integers(8 * 10, 8 * 120).map(lambda n: Fraction(n, 8))
WIDTHS = st.sampled_from((Fraction(2), Fraction(9, 4), Fraction(5, 2), Fraction(3)))
SEAMS = st.sampled_from((Fraction(1, 4), Fraction(3, 8), Fraction(1, 2)))
QUARTER = Fraction(1, 4)


# binding


@given(EIGHTHS, WIDTHS, SEAMS, st.sampled_from(("diagonal", "straight")), st.integers(0, 20))
def test_a_straight_binding_is_long_enough_and_one_strip_less_is_not(
    around: Fraction, width: Fraction, seam: Fraction, join: Literal["diagonal", "straight"], extra: int
) -> None:
    found = binding_plan(Binding(None, width, "straight", join, seam, Fraction(extra)), around, Fraction(40))
    each = Fraction(40) - (width if join == "diagonal" else 2 * seam)
    assert (found.strips - 1) * each < around + extra <= found.strips * each == found.gives
    assert found.cloth == found.strips * width
    assert bool(found.findings) == (found.to_spare < 10)


@given(SIDES, WIDTHS, SEAMS)
def test_the_strip_of_a_square_is_what_its_geometry_leaves(
    side: Fraction, width: Fraction, seam: Fraction
) -> None:
    # the halves of the square, with coordinates: legs of a along the thread, s gone of the leg that is sewn
    leg = float(side - seam)
    apart = leg / sqrt(2)  # the distance between x + y = a and x + y = s
    edge = leg * sqrt(2) - 2 * float(seam) * sqrt(
        2
    )  # the bias edge, less s at 45 degrees of both other sides
    rounds = rounds_of(side, width, seam)
    assert rounds * float(width) <= apart + 1e-9
    assert (rounds + 1) * float(width) > apart - 1e-9
    assert float(bias_length(side, width, seam)) <= rounds * edge + 1e-9
    assert float(bias_length(side, width, seam)) > rounds * edge - 1 / 8 - 1e-9
    assert bias_length(side, width, seam) <= (side - seam) * (side - 3 * seam) / width < side**2 / width


@given(st.integers(20, 600).map(Fraction), WIDTHS, SEAMS)
def test_the_square_is_the_smallest_that_is_enough(length: Fraction, width: Fraction, seam: Fraction) -> None:
    found = bias_square(length, width, seam)
    assert found.length == bias_length(found.side, width, seam) >= length
    assert bias_length(found.side - Fraction(1, 8), width, seam) < length


@given(EIGHTHS, WIDTHS, st.sampled_from((Fraction(20), Fraction(40))))
def test_bias_squares_fit_the_cloth_and_go_round(around: Fraction, width: Fraction, usable: Fraction) -> None:
    found = binding_plan(Binding(None, width, "bias", extra=Fraction(10)), around, usable)
    assert found.squares is not None
    assert found.strips == 0
    assert found.squares.side <= usable
    assert found.gives >= around + 10
    assert found.cloth >= found.squares.side
    assert found.cloth * usable >= found.squares.count * found.squares.side**2


def test_cloth_that_a_join_takes_gives_no_binding() -> None:
    for binding in (Binding(width=Fraction(3)), Binding(width=Fraction(3), cut="bias")):
        found = binding_plan(binding, Fraction(100), Fraction(3))
        assert [finding.code for finding in found.findings] == ["plan.binding-too-narrow"]
        assert (found.strips, found.squares) == (0, None)


def test_a_tight_binding_says_how_tight() -> None:
    found = binding_plan(Binding(), Fraction(79 * 2), Fraction(42))
    (tight,) = found.findings
    assert found.to_spare == 0
    assert str(tight.message).startswith(
        "The binding is tight: joined it is 158 in, 0 in more than the way round"
    )
    assert not binding_plan(Binding(extra=Fraction(10)), Fraction(158), Fraction(42)).findings


# backing


@given(SIDES, SIDES, st.sampled_from((Fraction(40), Fraction(108))), SEAMS, st.booleans())
def test_the_backing_covers_its_size_with_the_least_cloth_of_what_is_wanted(
    width: Fraction, height: Fraction, usable: Fraction, seam: Fraction, pieced: bool
) -> None:
    backing = Backing(None, Fraction(8), seam, pieced=pieced)
    found = backing_plan(backing, Unfinished(width, height), usable)
    wanted = [way for way in found.ways if pieced or not way.pieces]
    assert found.panels.cloth == min(way.cloth for way in wanted)
    for way in found.ways:
        sides = (width + 8, height + 8)
        breadth, length = sides if way.lie == "up" else sides[::-1]
        assert way.spread >= breadth
        assert way.length == length
        if way.pieces:
            assert way.count * usable + way.strip - 2 * seam * way.count == breadth
            assert way.pieces * usable - (way.pieces - 1) * 2 * seam >= length
    assert {way.lie for way in found.ways} == {"up", "across"}


def test_a_strip_pieced_on_saves_cloth_where_little_is_missing() -> None:
    top = Unfinished(Fraction(38), Fraction(60))
    plain = backing_plan(Backing(), top, Fraction(42))
    pieced = backing_plan(Backing(pieced=True), top, Fraction(42))
    assert plain.panels.cloth == 92
    assert plain.panels.seams == "across"
    assert pieced.panels.lie == "up"
    assert [pieced.panels.count, pieced.panels.length] == [1, 68]
    assert [pieced.panels.strip, pieced.panels.pieces] == [5, 2]  # 46 wide: 42 + 5 less the inch of the seam
    assert pieced.panels.cloth == 78
    assert "with a strip pieced to 1 panel up the quilt 78 in" in str(plain.why)
    assert "1 panel of 68 in and a strip of 2 x 5 in, seams up" in str(pieced.why)


def test_a_print_with_an_up_lies_up_the_quilt() -> None:
    top = Unfinished(Fraction(56), Fraction(80))
    free = backing_plan(Backing(), top, Fraction(42))
    bound = backing_plan(Backing(pieced=True), top, Fraction(42), directional=True)
    assert bound.panels.lie == "up"
    assert not bound.panels.pieces
    assert bound.panels.cloth >= free.panels.cloth
    assert "the print has an up" in str(bound.why)


def test_a_wide_backing_does_without_seams() -> None:
    top = Unfinished(Fraction(70), Fraction(84))
    found = backing_plan(Backing(), top, Fraction(42))
    assert found.wide is not None
    assert [found.wide.count, found.wide.cloth] == [1, 78]
    assert backing_plan(Backing(), top, Fraction(108)).panels == found.wide
    assert backing_plan(Backing(), top, Fraction(108)).wide is None


def test_the_backing_may_be_told_which_way_to_lie() -> None:
    top = Unfinished(Fraction(59), Fraction(75))
    for backing in (Backing(lie="up"), Backing(lie="across")):
        assert backing_plan(backing, top, Fraction(42)).panels.lie == backing.lie


def test_a_sleeve_and_a_label_are_cut_from_the_backing() -> None:
    # cut edge + 2 in, with two 1 1/2 in hems: an inch narrower than the edge
    # (international quilt show organiser, 'Instructions for making sleeves')
    sleeve = sleeve_plan(Sleeve(), Unfinished(Fraction(60), Fraction(72)), Fraction(42), QUARTER)
    assert (sleeve.size.width, sleeve.size.height, sleeve.strips) == (62, Fraction(17, 2), 2)
    assert sleeve.size.width - 2 * Sleeve().hem == 60 - 1
    label = label_plan(Label(), QUARTER)
    assert (label.size.width, label.size.height) == (Fraction(11, 2), Fraction(9, 2))
    found = materials(rails(110, BOLT, backing=Backing("f5", sleeve=Sleeve(), label=Label())))
    (cloth,) = [each for each in found.cloth if each.fabric == "f5"]
    assert [use.part for use in cloth.uses] == ["backing", "sleeve", "label"]
    assert cloth.inches == found.backing.panels.cloth + sum(piece.cloth for piece in found.back_pieces)


# batting, washing, beds


@given(SIDES, SIDES, st.sampled_from(("us", "uk", "europe", "australia")))
def test_the_package_is_the_smallest_that_holds_the_batting(
    width: Fraction, height: Fraction, country: Country
) -> None:
    found = batting_plan(Unfinished(width, height), Fraction(8), country=country)
    fitting = [package for package in packages(country) if package.holds(found.size)]
    assert [found.package, found.larger] == [*fitting[:2], None, None][:2]
    if found.roll is not None:
        near, far = found.size.width, found.size.height
        assert (found.roll.width >= near and found.roll.length == far) or (
            found.roll.width >= far and found.roll.length == near
        )


@given(EIGHTHS, st.integers(0, 50).map(Fraction))
def test_what_is_divided_comes_out_and_what_is_added_comes_out_short(
    length: Fraction, percent: Fraction
) -> None:
    divide, add = Shrinkage(way="divide"), Shrinkage(way="add")
    assert divide.after(divide.before(length, percent), percent) == length
    assert add.after(add.before(length, percent), percent) <= length


def test_cloth_that_shrinks_is_bought_longer_and_the_quilt_ends_smaller() -> None:
    plain = materials(rails(110))
    washed = Shrinkage(Fraction(5), Fraction(3), Fraction(2))
    shrunk = materials(rails(110, BOLT.changed(shrinkage=washed)))
    for before, after in zip(plain.cloth, shrunk.cloth, strict=True):
        assert after.inches == before.inches
        assert after.buy >= before.inches / Fraction(95, 100)
        assert "5 % that washing takes" in str(after.why)
    assert Fraction(shrunk.batting.size.width) >= Fraction(plain.batting.size.width) / Fraction(97, 100)
    assert isclose(float(shrunk.washed.width), float(plain.size.unfinished.width) * 0.98)
    assert plain.washed.width == plain.size.unfinished.width
    wanted = Finished(Fraction(60), Fraction(80))
    sewn = sewn_for_washed(wanted, Settings(shrinkage=washed))
    assert washed.after(Fraction(sewn.width), washed.take_up) == wanted.width


def test_settings_of_buying_leave_the_sewing_alone() -> None:
    plain, other = rails(110), rails(110, BOLT.changed(lengths="half", country="uk", drop=Fraction(3)))
    assert materials(plain).sets == materials(other).sets


def test_every_row_of_the_trade_tells_its_source() -> None:
    for country in get_args(Country):
        assert all(package.source and package.width > 0 for package in packages(country))
        assert all(mattress.source and mattress.width > 0 for mattress in mattresses(country))


def test_a_bed_quilt_hangs_over_three_sides() -> None:
    # 39 x 75 with 13 in of drop: 65 x 88 (Fabric shop 'Common quilt and batting sizes', 2012);
    # 39 x 75 with 12 in, and 10 in at the head: 63 x 97 ('Standard bed sizes' with head allowance)
    twin = Mattress("twin", Fraction(39), Fraction(75))
    assert bed_quilt(twin, Settings(drop=Fraction(13))) == Finished(Fraction(65), Fraction(88))
    assert bed_quilt(twin, Settings(tuck=Fraction(10))) == Finished(Fraction(63), Fraction(97))


def test_a_directional_backing_is_known_by_its_print() -> None:
    found = rails(110, BOLT, backing=Backing("f5"))
    one_way = Print("sprigs", ("#101010",), one_way=True)
    cloths = tuple(fabric.changed(print=one_way) if fabric.id == "f5" else fabric for fabric in found.fabrics)
    assert not materials(found).backing.directional
    assert materials(found.changed(fabrics=cloths)).backing.panels.lie == "up"

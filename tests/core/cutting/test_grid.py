"""Exact inches in, whole numbers inside, exact inches out; what can not be exact is rounded up and said."""

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from piecewright.cutting.grid import FINEST, common_unit, grid_of
from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.planning import first_plan
from piecewright.cutting.sheets import bolt, fat_quarter
from piecewright.cutting.telling import findings
from piecewright.cutting.verify import verify
from piecewright.units.scale import CM


def test_the_unit_is_the_finest_common_one() -> None:
    assert common_unit([Fraction(5, 2), Fraction(13, 8)]) == Fraction(1, 8)
    assert common_unit([Fraction(13, 3), Fraction(5, 2)]) == Fraction(1, 6)
    assert common_unit([6 * CM, 4 * CM]) == 2 * CM
    assert common_unit([]) == 1


@given(st.lists(st.fractions(Fraction(1, 8), 100, max_denominator=64), min_size=1, max_size=6))
def test_every_length_is_a_whole_number_of_units(lengths: list[Fraction]) -> None:
    unit = common_unit(lengths)
    assert all((length / unit).denominator == 1 for length in lengths)


def test_pieces_of_one_size_are_one_item_whatever_they_are_for() -> None:
    pieces = (
        Piece("center", Fraction(5), Fraction(3), 4),
        Piece("corner", Fraction(3), Fraction(5), 2),
        Piece("stripe", Fraction(5), Fraction(3), 1, may_turn=False),
    )
    grid = grid_of(Job(pieces, bolt(Fraction(42))))
    assert sorted(grid.problem.demand) == [1, 6]


def test_a_length_without_a_common_unit_is_cut_a_little_larger_and_that_is_said() -> None:
    odd = Piece("odd", Fraction(10007, 3001), Fraction(5), 8)
    other = Piece("other", Fraction(4999, 997), Fraction(3), 5)
    job = Job((odd, other), bolt(Fraction(42)))
    plan = first_plan(job)
    assert verify(plan) == ()
    cut = {old.key: new for old, new in plan.rounded}
    assert cut["odd"].width == Fraction(27, 8)
    assert cut["odd"].width - odd.width < Fraction(1, 16)
    said = [found.message.text() for found in findings(plan)]
    assert any("so it is cut 3 3/8 x 5 in cut" in text for text in said)


def test_a_piece_as_wide_as_the_cloth_stays_so_when_others_are_rounded() -> None:
    usable = Fraction(40) + Fraction(1, 37)
    pieces = (
        Piece("strip", usable, Fraction(5, 2), 3, may_turn=False),
        Piece("odd", Fraction(10007, 3001), Fraction(5), 8),
    )
    plan = first_plan(Job(pieces, bolt(usable)))
    assert (usable / grid_of(plan.job).unit) <= FINEST
    assert verify(plan) == ()
    assert plan.unplaced == ()
    assert plan.pieces_cut["strip"].width == usable


def test_a_piece_larger_than_the_cloth_is_left_out_and_said() -> None:
    plan = first_plan(
        Job(
            (Piece("wide", Fraction(43), Fraction(43)), Piece("fits", Fraction(3), Fraction(3))),
            bolt(Fraction(42)),
        )
    )
    assert [piece.key for piece in plan.unplaced] == ["wide"]
    assert verify(plan) == ()
    (finding,) = findings(plan)
    assert finding.severity == "error"
    assert finding.sentence() == (
        "wide: wide: 43 x 43 in cut does not fit on cloth 42 in wide. Use larger cloth, or join the piece from smaller "
        "ones."
    )


def test_a_piece_larger_than_a_sheet_is_said_with_the_sheet() -> None:
    plan = first_plan(Job((Piece("long", Fraction(25), Fraction(3)),), fat_quarter()))
    assert findings(plan)[0].message.text() == "long: 25 x 3 in cut does not fit on a sheet of 22 x 18 in."

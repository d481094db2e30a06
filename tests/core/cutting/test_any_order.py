"""Straight cuts in any order: every piece once, on the cloth, parted by cuts right through, the same every time."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings

from piecewright.cutting.any_order import MOST_PIECES, AnyOrderPlan, any_order_plan, cuts_said
from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.placed import PlacedPiece, Rectangle
from piecewright.cutting.planning import best_plan
from piecewright.cutting.search import SETTLED
from piecewright.cutting.sheets import bolt, fat_quarter
from piecewright.cutting.verify import parted
from tests.core.cutting.jobs import jobs, quilt_job


def _over(place: Rectangle) -> tuple[Fraction, Fraction]:
    return place.x, place.x + place.width


def _up(place: Rectangle) -> tuple[Fraction, Fraction]:
    return place.y, place.y + place.height


def _comes_apart(pieces: Sequence[PlacedPiece]) -> bool:
    """Whether cuts right through part all pieces: some cut leaves two groups, and each of them comes apart."""
    if len(pieces) <= 1:
        return True
    for axis in (_over, _up):
        parts = parted(pieces, axis)
        if len(parts) > 1:
            return all(_comes_apart(part) for part in parts)
    return False


def _check(plan: AnyOrderPlan) -> None:
    job = plan.job
    pieces = [piece for section in plan.sections for piece in section.pieces]
    assert Counter(piece.key for piece in pieces) == job.demand
    lies = {piece.key: piece.lies for piece in job.pieces}
    for section in plan.sections:
        assert _comes_apart(section.pieces)
        taken = [*(piece.place for piece in section.pieces), *section.rests]
        assert sum(each.width * each.height for each in taken) == section.place.width * section.place.height
        for piece in section.pieces:
            place = piece.place
            assert (place.width, place.height) in lies[piece.key]
            assert place.x + place.width <= job.sheet.width
            assert section.place.y <= place.y
            assert place.y + place.height <= section.place.y + section.place.height
        assert len(section.cuts) == len(taken) - 1


@settings(deadline=None, max_examples=12)
@given(jobs(with_stock=False))
def test_every_plan_is_sound(job: Job) -> None:
    plan = any_order_plan(job)
    if plan is not None:
        _check(plan)


def test_it_finds_what_no_plan_in_stages_can() -> None:
    """4 x 6 over 4 x 4 beside 6 x 10 in fill 10 in of cloth 10 in wide; stacks of unlike pieces are of another kind."""
    job = Job(
        (
            Piece("a", Fraction(6), Fraction(10), may_turn=False),
            Piece("b", Fraction(4), Fraction(6), may_turn=False),
            Piece("c", Fraction(4), Fraction(4), may_turn=False),
        ),
        bolt(Fraction(10)),
    )
    plan = any_order_plan(job)
    assert plan is not None
    assert plan.amount == 10
    assert best_plan(job, SETTLED).amount > 10
    said = [each.text() for each in cuts_said(plan)]
    assert said[0] == "A strip of 10 in from selvage to selvage"
    assert len(said) == 3


def test_it_is_the_same_every_time_and_stops() -> None:
    job = quilt_job(8, 20, may_turn=False, number=1)
    assert any_order_plan(job) == any_order_plan(job)
    stopped = any_order_plan(job, lambda: True)
    assert stopped is not None
    _check(stopped)


def test_it_is_for_few_pieces_off_the_bolt() -> None:
    job = quilt_job(3, 20, may_turn=False, number=1)
    assert any_order_plan(replace(job, sheet=fat_quarter())) is None
    many = Job((Piece("a", Fraction(2), Fraction(2), MOST_PIECES),), bolt(Fraction(42)))
    assert any_order_plan(many) is None

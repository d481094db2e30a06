"""What holds for every plan: each piece once, on the cloth, in allowed cuts, never more than plain cutting."""

from dataclasses import replace
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.job import Job
from piecewright.cutting.left_overs import left_overs
from piecewright.cutting.pieces import Piece
from piecewright.cutting.placed import placed_sheets
from piecewright.cutting.planning import best_plan, first_plan, plain_plan
from piecewright.cutting.search import SETTLED
from piecewright.cutting.verify import verify
from tests.core.cutting.jobs import QUICK, SHEETS, jobs, lengths

every_job = st.one_of(jobs(), jobs(st.sampled_from(SHEETS)))


@settings(deadline=None, max_examples=50)
@given(every_job)
def test_every_plan_is_sound_and_more_work_never_takes_more_cloth(job: Job) -> None:
    plain, first, best = plain_plan(job), first_plan(job), best_plan(job, QUICK)
    wanted = job.demand
    for piece in plain.unplaced:
        del wanted[piece.key]
    for plan in (plain, first, best):
        assert verify(plan) == ()
        assert plan.recount() == wanted
    assert best.amount <= first.amount <= plain.amount
    assert best.bound is not None
    assert best.bound <= best.amount


@settings(deadline=None, max_examples=15)
@given(every_job)
def test_the_same_job_gives_the_same_plan(job: Job) -> None:
    assert best_plan(job, QUICK) == best_plan(job, QUICK)
    assert first_plan.__wrapped__(job) == first_plan(job)  # type: ignore[attr-defined] # not the remembered one


@settings(deadline=None, max_examples=40)
@given(jobs(with_stock=False), lengths, lengths)
def test_on_proven_plans_one_more_piece_never_takes_less_cloth(
    job: Job, width: Fraction, height: Fraction
) -> None:
    before = best_plan(job, SETTLED)
    more = replace(job, pieces=(*job.pieces, Piece("more", width, height)))
    after = best_plan(more, SETTLED)
    if before.proven and after.proven and not after.rounded:
        assert after.amount >= before.amount


@settings(deadline=None, max_examples=60)
@given(every_job)
def test_pieces_and_left_overs_make_up_the_cloth(job: Job) -> None:
    for sheet in placed_sheets(first_plan(job)):
        covered = [piece.place for strip in sheet.strips for piece in strip.pieces]
        rest = [*sheet.left_over, *(each for strip in sheet.strips for each in strip.left_over)]
        area = sum(each.width * each.height for each in (*covered, *rest))
        assert area == sheet.outline.width * sheet.outline.height


@settings(deadline=None, max_examples=40)
@given(every_job)
def test_left_overs_listed_are_those_worth_keeping(job: Job) -> None:
    for left in left_overs(first_plan(job)):
        assert job.keep.keeps(left.width, left.height)
        assert left.count > 0

"""Small jobs solved again by trying everything, and middling ones by a model of another kind."""

from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from itertools import product
from random import Random

import highspy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.planning import best_plan, first_plan
from piecewright.cutting.search import SETTLED
from piecewright.cutting.sheets import bolt
from piecewright.cutting.verify import verify

USABLE = 12
Counts = tuple[int, ...]


def _least_cloth(job: Job) -> Fraction:
    """Every way to part the pieces into strips: the strip with the first piece, then the rest."""

    @cache
    def cloth(counts: Counts) -> Fraction:
        if not any(counts):
            return Fraction(0)
        first = next(place for place, count in enumerate(counts) if count)
        tries = (
            height + cloth(tuple(count - taken for count, taken in zip(counts, part, strict=True)))
            for part in product(*(range(count + 1) for count in counts))
            if part[first]
            for height in [_strip_height(job, part)]
            if height is not None
        )
        return min(tries)

    return cloth(tuple(piece.count for piece in job.pieces))


def _strip_height(job: Job, part: Counts) -> Fraction | None:
    """The least height of a strip that holds just these pieces; None where none does."""
    heights = sorted(
        {
            stack * along
            for piece in job.pieces
            for _, along in piece.lies
            for stack in range(1, job.stack + 1)
        }
    )
    for height in heights:
        widths = [
            min(_widths(piece, count, height, job.stack), default=None)
            for piece, count in zip(job.pieces, part, strict=True)
        ]
        if None not in widths and sum(width for width in widths if width is not None) <= job.sheet.width:
            return height
    return None


def _widths(piece: Piece, count: int, height: Fraction, stack: int) -> Iterator[Fraction]:
    """How much of the strip `count` pieces take: every split between the two ways to lie."""
    lies = piece.lies
    for turned in range(count + 1) if len(lies) > 1 else (0,):
        width = Fraction(0)
        for number, (across, along) in zip((count - turned, turned), lies, strict=False):
            deep = min(stack, int(height // along))
            if number and not deep:
                break
            width += -(-number // deep) * across if number else 0
        else:
            yield width


@st.composite
def _small_jobs(draw: st.DrawFn) -> Job:
    side = st.integers(2, 2 * USABLE).map(lambda halves: Fraction(halves, 2))
    pieces = tuple(
        Piece(f"p{number}", draw(side), draw(side), draw(st.integers(1, 3)), may_turn=draw(st.booleans()))
        for number in range(draw(st.integers(1, 3)))
    )
    return Job(pieces, bolt(Fraction(USABLE)), stack=draw(st.sampled_from((1, 2, 4))))


@settings(deadline=None, max_examples=150)
@given(_small_jobs())
def test_small_jobs_are_cut_from_the_least_cloth_and_that_is_proven(job: Job) -> None:
    best = best_plan(job, SETTLED)
    least = _least_cloth(job)
    assert verify(best) == ()
    assert best.amount == least
    assert best.proven
    assert first_plan(job).amount >= least


def _level_model(pieces: list[tuple[int, int]], width: int) -> int:
    """The least cloth without stacks, by the model of Lodi and Monaci (2003): each piece opens a strip or joins one.

    Pieces by falling height; `y[i]` opens a strip with piece i, `x[i, j]` puts a later piece j into it.
    """
    highs = highspy.Highs()  # type: ignore[no-untyped-call] # it has no annotation
    highs.silent()
    order = sorted(pieces, key=lambda piece: -piece[1])
    opens = [highs.addBinary(obj=height) for _, height in order]
    joins = {(i, j): highs.addBinary() for j in range(len(order)) for i in range(j)}
    for j in range(len(order)):
        highs.addConstr(opens[j] + sum(joins[i, j] for i in range(j)) == 1)
    for i, (across, _) in enumerate(order):
        inside = sum(order[j][0] * joins[i, j] for j in range(i + 1, len(order)))
        highs.addConstr(inside <= (width - across) * opens[i])
    highs.minimize()
    assert highs.getModelStatus() == highspy.HighsModelStatus.kOptimal
    return round(highs.getInfo().objective_function_value)


@pytest.mark.parametrize("number", range(8))
def test_middling_jobs_are_as_good_as_another_model_proves(number: int) -> None:
    random = Random(number)
    sizes = [(random.randint(3, 20), random.randint(2, 15), random.randint(1, 4)) for _ in range(7)]
    single = [(across, along) for across, along, count in sizes for _ in range(count)]
    job = Job(
        tuple(
            Piece(f"p{place}", Fraction(across), Fraction(along), count, may_turn=False)
            for place, (across, along, count) in enumerate(sizes)
        ),
        bolt(Fraction(40)),
        stack=1,
    )
    best = best_plan(job, SETTLED)
    assert best.proven
    assert best.amount == _level_model(single, 40)

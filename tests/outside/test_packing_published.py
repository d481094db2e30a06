"""Cutting against published optima of the same kind of cutting; instances and sources are in `packing/`."""

from fractions import Fraction

import pytest

from piecewright.cutting.fullest import fullest
from piecewright.cutting.job import Job
from piecewright.cutting.patterns import Limits
from piecewright.cutting.pieces import Piece
from piecewright.cutting.planning import best_plan, first_plan, plain_plan
from piecewright.cutting.sheets import fat_quarter
from piecewright.cutting.verify import verify
from tests.outside.packing_instances import (
    LEAST_STRIPS,
    PAPER_ROLLS,
    BinInstance,
    KnapsackInstance,
    bins,
    knapsacks,
    paper_mill,
    strips_of_gcut,
)
from tests.outside.published import Row, rows

TAKE_LONG = {
    ("cung2000/CHL1", "Horizontal"),
    ("cung2000/CHL6", "Horizontal"),
    ("cung2000/Hchl2", "Horizontal"),
    ("cung2000/Hchl7s", "Horizontal"),
}
"""Found as well, but in seconds: the bench of cutting asks for all 76."""
LIMITS = Limits(nodes=2_000, layouts=4_000)


def _go_on() -> bool:
    return False


@pytest.mark.parametrize("number", range(1, 13))
def test_strips_of_gcut_are_the_least(number: int) -> None:
    plan = best_plan(strips_of_gcut(number))
    assert verify(plan) == ()
    assert plan.amount == LEAST_STRIPS[number - 1]
    assert plan.bound is not None
    assert plan.amount - plan.bound <= plan.amount / 5_000


def test_the_paper_mill_needs_73_rolls_and_that_is_proven() -> None:
    plan = best_plan(paper_mill())
    assert verify(plan) == ()
    assert plan.amount == PAPER_ROLLS
    assert plan.proven


@pytest.mark.parametrize("instance", list(bins()), ids=lambda instance: instance.name)
def test_bins_are_the_fewest_known_and_that_is_proven(instance: BinInstance) -> None:
    plan = best_plan(instance.job)
    assert verify(plan) == ()
    assert plan.amount == instance.fewest
    assert plan.proven


@pytest.mark.parametrize(
    "instance",
    [each for each in knapsacks() if (each.name, each.first_cuts) not in TAKE_LONG],
    ids=lambda instance: f"{instance.name} {instance.first_cuts}",
)
def test_the_fullest_sheet_is_the_published_one_and_that_is_proven(instance: KnapsackInstance) -> None:
    found = fullest(instance.problem, 0, instance.values, LIMITS, _go_on)
    made = [0] * len(instance.values)
    for fill in found.layout.fills:
        assert sum(group.columns * group.across for group in fill.groups) <= instance.problem.faces[0].width
        for group in fill.groups:
            assert group.stack == 1
            made[group.item] += group.pieces
    assert sum(fill.height for fill in found.layout.fills) <= (instance.problem.faces[0].length or 0)
    assert all(count <= wanted for count, wanted in zip(made, instance.problem.demand, strict=True))
    assert sum(count * value for count, value in zip(made, instance.values, strict=True)) == found.value
    assert (found.value, found.bound) == (instance.most, instance.most)


SQUARES = [row for row in rows("2") if row.inputs.get("squares_per") == "fat quarter"]


@pytest.mark.parametrize("row", SQUARES, ids=str)
def test_a_fat_quarter_gives_as_many_squares_as_charts_say(row: Row) -> None:
    """One fat quarter holds the printed number; one square more takes a second."""
    side, printed = Fraction(str(row.inputs["cut"])), int(row.expected)
    for count, sheets in ((printed, 1), (printed + 1, 2)):
        job = Job((Piece("square", side, side, count),), fat_quarter())
        plan = best_plan(job)
        assert verify(plan) == ()
        assert [plain_plan(job).amount, first_plan(job).amount, plan.amount] == [sheets] * 3
        assert plan.proven

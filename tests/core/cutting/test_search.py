"""The search reports, stops when told, gives the same everywhere, and works without HiGHS but for the bound."""

import subprocess
import sys
from fractions import Fraction

import pytest

from piecewright.cutting import solver
from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.planning import Progress, best_plan, first_plan, plain_plan
from piecewright.cutting.sheets import bolt
from piecewright.cutting.verify import verify
from tests.core.cutting.jobs import QUICK, quilt_job

JOB = quilt_job(8, 200, may_turn=True, number=1)
DIGEST = """
import hashlib
from tests.core.cutting.jobs import QUICK, quilt_job
from piecewright.cutting.planning import best_plan
plan = best_plan(quilt_job(8, 200, may_turn=True, number=1), QUICK)
print(hashlib.sha256(repr(plan.laid).encode()).hexdigest())
"""
ABSENT = """
import sys
import piecewright.cutting.planning as planning
import piecewright.cutting.demand, piecewright.cutting.cutting_list, piecewright.cutting.telling
from tests.core.cutting.jobs import QUICK, quilt_job
job = quilt_job(3, 50, may_turn=True, number=1)
planning.first_plan(job), planning.plain_plan(job)
assert "highspy" not in sys.modules
sys.modules["highspy"] = None
plan = planning.best_plan(job, QUICK)
assert plan.bound is None and plan.amount <= planning.first_plan(job).amount
"""


def _run(source: str, hashing: str = "0") -> str:
    environment = {"PYTHONHASHSEED": hashing, "PYTHONPATH": ":".join(sys.path)}
    done = subprocess.run(
        [sys.executable, "-c", source], capture_output=True, text=True, check=False, env=environment
    )
    assert done.returncode == 0, done.stderr
    return done.stdout


def test_the_plan_is_the_same_in_another_process() -> None:
    assert _run(DIGEST, "1") == _run(DIGEST, "2")


def test_highs_is_only_loaded_by_the_slow_path_which_works_without_it() -> None:
    _run(ABSENT)


def test_without_highs_the_plan_is_sound_but_has_no_bound(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solver, "is_there", lambda: False)
    plan = best_plan(JOB, QUICK)
    assert verify(plan) == ()
    assert plan.bound is None
    assert plan.amount <= first_plan(JOB).amount


def test_progress_only_gets_better() -> None:
    seen: list[Progress] = []
    plan = best_plan(JOB, QUICK, seen.append)
    amounts = [each.amount for each in seen]
    assert amounts == sorted(amounts, reverse=True)
    assert [each.step for each in seen if each.step == "recut"] == ["recut"] * QUICK.turns
    bounds = [each.bound for each in seen if each.bound is not None]
    assert bounds == sorted(bounds)
    assert plan.amount <= amounts[-1]


@pytest.mark.parametrize("asked", [0, 1, 5, 20])
def test_a_search_that_is_cancelled_gives_the_best_so_far(asked: int) -> None:
    times = iter(range(10**9))
    plan = best_plan(JOB, QUICK, cancelled=lambda: next(times) >= asked)
    assert verify(plan) == ()
    assert plan.stopped
    assert plan.amount <= plain_plan(JOB).amount
    assert plan.bound is None or plan.bound <= plan.amount


def test_nothing_to_cut_takes_nothing() -> None:
    plan = best_plan(Job((), bolt(Fraction(40))), QUICK)
    assert plan.amount == 0
    assert plan.bound == 0
    assert plan.laid == ()


def test_equal_cloth_is_cut_from_fewer_heights() -> None:
    """A 2 in and a 3 in square six times each, 10 in cloth: 3 + 3 + 2 + 2 one way, the same as any mix."""
    job = Job(
        (Piece("two", Fraction(2), Fraction(2), 10), Piece("three", Fraction(3), Fraction(3), 6)),
        bolt(Fraction(10)),
    )
    plan = best_plan(job)
    assert plan.proven
    assert len(plan.heights) <= 2

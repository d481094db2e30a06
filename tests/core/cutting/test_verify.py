"""The check of plans finds each kind of fault: plans are broken on purpose."""

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction

import pytest

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.plans import CuttingPlan, Laid, Strip, SubCut
from piecewright.cutting.sheets import OnHand, bolt, fat_eighth, roll_strip
from piecewright.cutting.verify import verify

BOLT = bolt(Fraction(20))
JOB = Job(
    (Piece("a", Fraction(5), Fraction(3), 8), Piece("b", Fraction(4), Fraction(6), 1, may_turn=False)), BOLT
)
STRIP = Strip(
    Fraction(6),
    (
        SubCut(Fraction(5), Fraction(3), 2, (("a", 5),)),
        SubCut(Fraction(4), Fraction(6), 1, (("b", 1),)),
    ),
)
OTHER = Strip(Fraction(3), (SubCut(Fraction(5), Fraction(3), 1, (("a", 3),)),))
TURNED = replace(STRIP, cuts=(STRIP.cuts[0], SubCut(Fraction(6), Fraction(4), 1, (("b", 1),))))
NARROW = replace(STRIP, cuts=(replace(STRIP.cuts[0], width=Fraction(9, 2)), STRIP.cuts[1]))
PLAN = CuttingPlan(JOB, (Laid(BOLT, None, "across", (STRIP, OTHER)),))


def _with(*strips: Strip) -> CuttingPlan:
    return replace(PLAN, laid=(Laid(BOLT, None, "across", strips),))


def _codes(plan: CuttingPlan) -> set[str]:
    assert all(fault.text() for fault in verify(plan))
    return {fault.code.removeprefix("cutting.fault-") for fault in verify(plan)}


def test_a_sound_plan_has_no_fault() -> None:
    assert verify(PLAN) == ()
    assert PLAN.amount == 9
    assert PLAN.recount() == {"a": 8, "b": 1}


@pytest.mark.parametrize(
    ("fault", "broken"),
    [
        ("count", lambda: _with(STRIP)),
        ("count", lambda: _with(STRIP, OTHER, OTHER)),
        ("size", lambda: _with(TURNED, OTHER)),
        ("size", lambda: _with(NARROW, OTHER)),
        ("outside", lambda: _with(STRIP, replace(OTHER, cuts=(replace(OTHER.cuts[0], pieces=(("a", 5),)),)))),
        ("outside", lambda: _with(replace(OTHER, height=Fraction(2)))),
        ("overlap", lambda: _with(replace(STRIP, height=Fraction(5)), OTHER)),
        ("stack", lambda: replace(PLAN, job=replace(JOB, stack=1))),
    ],
)  # fmt: skip
def test_each_fault_is_found(fault: str, broken: Callable[[], CuttingPlan]) -> None:
    assert fault in _codes(broken())


def test_more_sheets_than_there_are_is_a_fault() -> None:
    held = fat_eighth()
    job = Job((Piece("a", Fraction(5), Fraction(3), 4),), BOLT, (OnHand(held, 1),))
    strip = Strip(Fraction(3), (SubCut(Fraction(5), Fraction(3), 1, (("a", 2),)),))
    plan = CuttingPlan(job, (Laid(held, 0, "across", (strip,), count=2),))
    assert _codes(plan) == {"stock"}


def test_pieces_without_count_or_size_are_refused() -> None:
    with pytest.raises(ValueError, match="no piece"):
        Piece("a", Fraction(0), Fraction(3))
    with pytest.raises(ValueError, match="no piece"):
        Piece("a", Fraction(1), Fraction(3), 0)
    with pytest.raises(ValueError, match="keys of two"):
        Job((Piece("a", Fraction(1), Fraction(3)), Piece("a", Fraction(2), Fraction(3))), BOLT)
    with pytest.raises(ValueError, match="no cloth"):
        bolt(Fraction(0))
    with pytest.raises(ValueError, match="on hand"):
        OnHand(BOLT, 1)


def test_a_strip_is_only_cut_along_its_length() -> None:
    assert roll_strip(Fraction(40)).directions == ("across",)
    assert fat_eighth().directions == ("across", "along")

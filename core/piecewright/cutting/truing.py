"""Room for truing: strips that are cut across lose a little at their first end, and again after so many cuts."""

from fractions import Fraction

from piecewright.cutting.job import Job
from piecewright.cutting.plans import CuttingPlan, Laid, Strip
from piecewright.plan.packing import Truing


def is_trued(job: Job, laid: Laid, strip: Strip) -> bool:
    """Whether a strip's end is trued: not on squares, and not where one long piece takes nearly all of it."""
    if job.truing is None or not laid.sheet.is_trued:
        return False
    return strip.columns > 1 or strip.used + job.truing.first <= laid.strip_length


def trim_before(truing: Truing, cuts: int) -> Fraction:
    """What is trimmed off before the next cut, when so many are made."""
    if not cuts:
        return truing.first
    return truing.again if cuts % truing.every == 0 else Fraction(0)


def leaves_room(plan: CuttingPlan) -> bool:
    """Whether every strip of a plan that is cut across can be trued as often as it has to be."""
    truing = plan.job.truing
    return truing is None or all(
        strip.used + truing.loss(strip.columns) <= laid.strip_length
        for laid in plan.laid
        for strip in laid.strips
        if is_trued(plan.job, laid, strip)
    )


def reserve_for(truing: Truing, shortest: Fraction, length: Fraction) -> Fraction:
    """What truing takes of a strip of a length in which as many pieces as can be are the shortest."""
    cuts = 0
    while (cuts + 1) * shortest + truing.loss(cuts + 1) <= length:
        cuts += 1
    return truing.loss(max(cuts, 1))

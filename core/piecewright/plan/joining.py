"""Strips sewn end to end: how many it takes for a length longer than the cloth is wide."""

from fractions import Fraction

from piecewright.errors import Finding
from piecewright.units.rounding import whole_up
from piecewright.words.message import message


def strips_joined_straight(total: Fraction, usable: Fraction, seam: Fraction) -> int | None:
    """Strips of `usable` inches that, sewn end to end by straight seams, give at least `total` inches.

    Every join takes two allowances: n strips give n x usable - (n - 1) x 2 x seam. Bears out the border
    strips of published quilts (4 x 66 1/2 in from 42 in cloth: 7 strips; 2 x 44 1/2 in: 3 strips). None where
    a join takes all.
    """
    lost = 2 * seam
    if total <= usable:
        return 1
    return whole_up((total - lost) / (usable - lost)) if usable > lost else None


def strips_joined_diagonally(total: Fraction, usable: Fraction, width: Fraction) -> int | None:
    """Strips of `usable` inches that, joined end to end by diagonal seams, give `total` inches.

    A diagonal join takes as much of each strip as the strip is wide: ceil(total / (usable - width)), the rule
    by which published quilts count binding strips (278 in round, 2 1/2 in strips, 42 in cloth: 8). None where
    a join takes all.
    """
    return whole_up(total / (usable - width)) if usable > width else None


def cloth_too_narrow(part: str, usable: Fraction, lost: Fraction) -> Finding:
    """The finding that a join takes all there is of the cloth; `part` is "border", "binding" or "backing"."""
    return Finding(
        code=f"plan.{part}-too-narrow",
        severity="error",
        message=message(f"plan.{part}-too-narrow", usable=usable, lost=lost),
        where=part,
        hint=message("plan.widen-cloth", least=lost),
    )

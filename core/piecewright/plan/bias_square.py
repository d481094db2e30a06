"""One continuous bias strip from a square: how long it gets, and how large the square must be.

A square of side a is cut from corner to corner and the halves are sewn along two sides that lie with the
thread: of a parallelogram a - s is left between the other two sides, and its bias edges lie (a - s) / sqrt 2
apart. Those sides are then sewn to a tube, offset by one strip, which takes s of each, s x sqrt 2 along the
bias: each round of the tube is (a - 3 s) x sqrt 2 long. Only whole rounds are cut. With no rounding to whole rounds the
strip is (a - s) (a - 3 s) / width long, with no seams a x a / width, which is the trade's own rule.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt, sqrt

from piecewright.plan.stage import stage
from piecewright.units.rounding import ROUNDINGS, whole_down, whole_up

_MOST_SQUARES = 1000


@dataclass(frozen=True, slots=True)
class BiasSquare:
    """`count` squares of `side` inches; each gives `rounds` rounds, together a strip of `length` inches."""

    count: int
    side: Fraction
    rounds: int
    length: Fraction

    def cloth(self, usable: Fraction) -> Fraction:
        """Inches off the bolt, the squares side by side."""
        return whole_up(Fraction(self.count, max(1, whole_down(usable / self.side)))) * self.side


def rounds_of(side: Fraction, width: Fraction, seam: Fraction) -> int:
    """Whole rounds of a strip that a square gives: the greatest n with n x width x sqrt 2 <= side - seam."""
    if side <= 3 * seam:
        return 0
    squared = ((side - seam) / width) ** 2 / 2
    return isqrt(squared.numerator // squared.denominator)


def bias_length(side: Fraction, width: Fraction, seam: Fraction) -> Fraction:
    """The length of the strip from one square, down to an eighth of an inch."""
    rounds = rounds_of(side, width, seam)
    if not rounds:
        return Fraction(0)
    squared = 2 * (8 * rounds * (side - 3 * seam)) ** 2
    return Fraction(isqrt(squared.numerator // squared.denominator), 8)


def bias_square(length: Fraction, width: Fraction, seam: Fraction, lengths: str = "eighth") -> BiasSquare:
    """The smallest square whose strip is at least `length` inches long; `lengths` rounds its side up."""
    step = ROUNDINGS[f"{'sixteenth' if lengths == 'exact' else lengths} in up"]
    best, rounds = None, 0
    while best is None or rounds * float(width) * sqrt(2) < best:
        rounds += 1
        high_enough = rounds * float(width) * sqrt(2) + float(seam)
        long_enough = float(length) / (rounds * sqrt(2)) + 3 * float(seam)
        best = min(best or high_enough + long_enough, max(high_enough, long_enough))
    side = step(best)
    while bias_length(side, width, seam) < length:
        side += step(Fraction(1, 1000))
    return BiasSquare(1, side, rounds_of(side, width, seam), bias_length(side, width, seam))


@stage(keep=256)
def bias_squares(
    length: Fraction,
    lost: Fraction,
    width: Fraction,
    seam: Fraction,
    usable: Fraction,
    lengths: str = "eighth",
) -> BiasSquare | None:
    """As few equal squares as fit into the cloth and give `length` inches, each join taking `lost`.

    None where cloth of `usable` inches is too narrow for any.
    """
    for count in range(1, _MOST_SQUARES):
        one = bias_square(length / count + lost, width, seam, lengths)
        if one.side <= usable:
            return BiasSquare(count, one.side, one.rounds, one.length)
        if bias_length(usable, width, seam) <= lost:
            return None
    return None

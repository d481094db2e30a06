"""What the quilter's own hands, cloth and shop are like: the numbers every plan takes into account."""

from fractions import Fraction
from typing import Literal

from piecewright.model.limits import check_count, check_not_negative, check_positive, check_text, refuse
from piecewright.model.value import Value

PERFECT_STRIPS = Fraction(13, 2)
"""Three 2 1/2 in strips sewn with 1/4 in seams: 3 x 2 1/2 - 4 x 1/4."""
MOST_OFF = Fraction(1)
WIDEST_SEAM = Fraction(2)
LONGEST_CURRENCY = 8


class Settings(Value, frozen=True):
    """Inches throughout.

    `seam` is the allowance in force; `three_strips` what three 2 1/2 in strips sewn together with the
    quilter's own 1/4 in seam really measure (6 1/2 when perfect); `usable` the usable width of cloth; truing
    cuts `trim_first` off the first end of a set and `trim_again` after every `trim_every` cuts; `yardage`
    names a rounding; `margin` is added to each length of yardage before rounding.
    """

    seam: Fraction = Fraction(1, 4)
    three_strips: Fraction = PERFECT_STRIPS
    usable: Fraction = Fraction(40)
    trim_first: Fraction = Fraction(1, 2)
    trim_again: Fraction = Fraction(1, 4)
    trim_every: int = 3
    yardage: Literal["exact", "eighth", "quarter", "third", "half"] = "eighth"
    margin: Fraction = Fraction(0)
    currency: str = ""

    def __post_init__(self) -> None:
        check_positive(self.seam, "seam allowance", WIDEST_SEAM)
        if abs(self.three_strips - PERFECT_STRIPS) > MOST_OFF:
            refuse("three-strips", measured=self.three_strips, perfect=PERFECT_STRIPS, most=MOST_OFF)
        check_positive(self.usable, "usable width")
        check_not_negative(self.trim_first, "first trim of a strip set")
        check_not_negative(self.trim_again, "later trim of a strip set")
        check_count(self.trim_every, "cuts between trims", 1, 1000)
        check_not_negative(self.margin, "yardage margin")
        check_text(self.currency)
        check_count(len(self.currency), "letters of the currency", 0, LONGEST_CURRENCY)

    @property
    def lost_per_seam(self) -> Fraction:
        """Width that each seam eats beyond its two allowances: (6 1/2 - measured) / 2."""
        return (PERFECT_STRIPS - self.three_strips) / 2

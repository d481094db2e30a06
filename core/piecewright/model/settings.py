"""What the quilter's own hands, cloth and shop are like: the numbers every plan takes into account."""

from fractions import Fraction
from typing import Literal

from piecewright.model.value import Value


class Settings(Value):
    """Inches throughout.

    `seam` is the allowance in force; `three_strips` what three 2 1/2 in strips sewn together really measure (6 1/2 when
    perfect); `usable` the usable width of cloth; truing cuts `trim_first` off the first end of a set and `trim_again` after
    every `trim_every` cuts; `yardage` names a rounding; `margin` is added to each length of yardage before rounding.
    """

    seam: Fraction = Fraction(1, 4)
    three_strips: Fraction = Fraction(13, 2)
    usable: Fraction = Fraction(40)
    trim_first: Fraction = Fraction(1, 2)
    trim_again: Fraction = Fraction(1, 4)
    trim_every: int = 3
    yardage: Literal["exact", "eighth", "quarter", "third", "half"] = "eighth"
    margin: Fraction = Fraction(0)
    currency: str = ""

    @property
    def lost_per_seam(self) -> Fraction:
        """Width that each seam eats beyond its two allowances: (6 1/2 - measured) / 2."""
        return (Fraction(13, 2) - self.three_strips) / 2

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


MOST_SHRUNK = Fraction(50)
Country = Literal["us", "uk", "europe", "australia"]


class Shrinkage(Value, frozen=True):
    """What washing and quilting take, each in percent of a length; 0 where it is not reckoned with.

    `cloth` that is washed before it is cut is bought longer, `batting` that is washed before it is laid in is
    cut larger; `take_up` is what quilting and the first wash take of the finished quilt. `way` "divide": enough
    that just the wanted length is left; "add": so many percent more, which comes out a little short.
    """

    cloth: Fraction = Fraction(0)
    batting: Fraction = Fraction(0)
    take_up: Fraction = Fraction(0)
    way: Literal["divide", "add"] = "divide"

    def __post_init__(self) -> None:
        check_not_negative(self.cloth, "shrinkage of cloth in percent", MOST_SHRUNK)
        check_not_negative(self.batting, "shrinkage of batting in percent", MOST_SHRUNK)
        check_not_negative(self.take_up, "take-up of quilting in percent", MOST_SHRUNK)

    def before(self, inches: Fraction, percent: Fraction) -> Fraction:
        """How long a thing must be so that `inches` are left of it once `percent` are gone."""
        share = percent / 100
        return inches / (1 - share) if self.way == "divide" else inches * (1 + share)

    def after(self, inches: Fraction, percent: Fraction) -> Fraction:
        """What is left of `inches` once `percent` are gone."""
        return inches * (1 - percent / 100)


UNSHRUNK = Shrinkage()


class Bundles(Value, frozen=True):
    """What a bundle holds and how large its pieces are, inches.

    A fat quarter is `quarter_width` by `quarter_length`, a fat eighth as wide and half as long; a strip roll
    has `roll` strips, a bundle of squares `squares`.
    """

    quarter_width: Fraction = Fraction(22)
    quarter_length: Fraction = Fraction(18)
    roll: int = 40
    squares: int = 42

    def __post_init__(self) -> None:
        check_positive(self.quarter_width, "width of a fat quarter")
        check_positive(self.quarter_length, "length of a fat quarter")
        check_count(self.roll, "strips of a roll", 1, 1000)
        check_count(self.squares, "squares of a bundle", 1, 1000)


class Settings(Value, frozen=True):
    """Inches throughout.

    `seam` is the allowance in force; `three_strips` what three 2 1/2 in strips sewn together with the
    quilter's own 1/4 in seam really measure (6 1/2 when perfect); `usable` the usable width of cloth; truing
    cuts `trim_first` off the first end of a set and `trim_again` after every `trim_every` cuts; `yardage`
    names a rounding; `margin` is added to each length of yardage before rounding.
    `lengths` names the rounding up of sizes that may well be larger: backing, batting, the square of a bias
    binding. `country` says whose mattresses and packages are meant; `drop` hangs over each side and the foot of
    a bed, `tuck` goes under its pillows. `oversize` is added to the squares that pieces with edges off the thread are
    cut from, to be trimmed once sewn; strips are cut exactly.
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
    lengths: Literal["exact", "sixteenth", "eighth", "quarter", "half", "whole"] = "eighth"
    shrinkage: Shrinkage = Shrinkage()
    bundles: Bundles = Bundles()
    country: Country = "us"
    drop: Fraction = Fraction(12)
    tuck: Fraction = Fraction(0)
    oversize: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        check_positive(self.seam, "seam allowance", WIDEST_SEAM)
        if abs(self.three_strips - PERFECT_STRIPS) > MOST_OFF:
            refuse("three-strips", measured=self.three_strips, perfect=PERFECT_STRIPS, most=MOST_OFF)
        check_positive(self.usable, "usable width")
        check_not_negative(self.trim_first, "first trim of a strip set")
        check_not_negative(self.trim_again, "later trim of a strip set")
        check_count(self.trim_every, "cuts between trims", 1, 1000)
        check_not_negative(self.margin, "yardage margin")
        check_not_negative(self.drop, "drop of a bed quilt")
        check_not_negative(self.tuck, "pillow tuck of a bed quilt")
        check_not_negative(self.oversize, "oversize of what has bias", MOST_OFF)
        check_text(self.currency)
        check_count(len(self.currency), "letters of the currency", 0, LONGEST_CURRENCY)

    @property
    def lost_per_seam(self) -> Fraction:
        """Width that each seam eats beyond its two allowances: (6 1/2 - measured) / 2."""
        return (PERFECT_STRIPS - self.three_strips) / 2

"""Cloth by fabric: the strips and panels cut from each, their sum in inches, and what to buy."""

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from piecewright.model.settings import UNSHRUNK, Shrinkage
from piecewright.plan.keys import Key, StripKey
from piecewright.plan.packing import NOTHING
from piecewright.plan.stage import stage
from piecewright.units.measure import Yardage
from piecewright.units.rounding import ROUNDINGS, round_yardage, whole_up
from piecewright.units.scale import YARD
from piecewright.words.message import ByUnit, Message, message

_UP = ROUNDINGS["eighth in up"]


class Use(Key, frozen=True):
    """One line of a fabric.

    `count` strips or panels of one width or length, and the inches of cloth they take.

    `part` is "piecing", "border 1" (from the inside out), "binding", "backing", "backing-strip", "sleeve" or
    "label"; `size` is the cut width of strips or the length of panels; `run` how long strips are cut that do
    not run from selvage to selvage. `grain` "square" is the square of a bias binding, `size` its side.
    """

    part: str
    count: int
    size: Fraction
    grain: str
    inches: Fraction
    run: Fraction = NOTHING

    @property
    def is_strip(self) -> bool:
        """Whether it is strips to cut for the top or the binding."""
        return self.part not in ("backing", "backing-strip", "sleeve", "label") and self.grain != "square"

    @property
    def said(self) -> Message:
        """The line as a term of the fabric's sum, such as "20 x 2 1/2"."""
        return message("plan.cloth-term", count=self.count, size=self.size)


@dataclass(frozen=True, slots=True)
class Cloth:
    """One fabric: its uses, the inches they sum to, and what to buy.

    With what washing takes and the margin that is `exact`; `buy` is rounded up once, by name.

    `cost` is None where the fabric has no price.
    """

    fabric: str
    usable: Fraction
    uses: tuple[Use, ...]
    inches: Fraction
    buy: Fraction
    cost: Fraction | None
    why: Message
    exact: Fraction

    @property
    def yardage(self) -> Yardage:
        """What to buy, for whichever measure it is shown in."""
        return Yardage(self.exact, self.buy)


@stage(keep=4096)
def cloth(
    fabric: str,
    usable: Fraction,
    uses: tuple[Use, ...],
    margin: Fraction,
    rounding: str,
    price: Fraction | None,
    shrinkage: Shrinkage = UNSHRUNK,
) -> Cloth:
    """The cloth of one fabric; `rounding` names one of the roundings of yardage, `price` is per yard."""
    inches = sum((use.inches for use in uses), NOTHING)
    unwashed = shrinkage.before(inches, shrinkage.cloth)
    exact = unwashed + margin
    buy = round_yardage(exact, rounding)
    why = message(
        f"plan.cloth-why{'-margin' if margin else ''}{'-shrunk' if shrinkage.cloth else ''}",
        terms=tuple(use.said for use in uses),
        inches=inches,
        percent=shrinkage.cloth,
        unwashed=unwashed,
        margin=margin,
        exact=exact,
        buy=Yardage(exact, buy),
        rounding=said_rounding(rounding),
    )
    return Cloth(fabric, usable, uses, inches, buy, None if price is None else price * buy / YARD, why, exact)


def said_rounding(rounding: str) -> ByUnit:
    """How cloth to buy is rounded: by the name of a rounding of yards; meters always as shops cut them."""
    return ByUnit(message(f"plan.rounding-{rounding}"), message("plan.rounding-meters"))


@stage(keep=8192)
def strip_use(part: str, strips: StripKey, count: int, usable: Fraction) -> Use:
    """The cloth that strips of a fabric take off the bolt."""
    inches = _strip_inches(strips, count, usable)
    return Use(part, count, strips.width, strips.grain, inches, strips.run)


def _strip_inches(strips: StripKey, count: int, usable: Fraction) -> Fraction:
    if strips.grain == "crosswise":
        return count * strips.width
    if strips.grain == "lengthwise":
        beside_each_other = int(usable // strips.width)
        return whole_up(Fraction(count, beside_each_other)) * strips.run
    # at 45 degrees, one above the other: each takes width x sqrt 2 of the bolt, the first its slanted run too
    width = float(strips.width)
    return _UP((float(strips.run) + width) / sqrt(2) + (count - 1) * width * sqrt(2))

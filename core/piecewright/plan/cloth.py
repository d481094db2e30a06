"""Cloth by fabric: the strips and panels cut from each, their sum in inches, and what to buy."""

from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from piecewright.plan.keys import Key, StripKey
from piecewright.plan.packing import NOTHING
from piecewright.plan.stage import stage
from piecewright.units.rounding import ROUNDINGS, round_yardage, whole_up
from piecewright.units.scale import YARD
from piecewright.words.message import Message, message

_UP = ROUNDINGS["eighth in up"]


class Use(Key, frozen=True):
    """One line of a fabric.

    `count` strips or panels of one width or length, and the inches of cloth they take.

    `part` is "piecing", "border 1" (from the inside out), "binding" or "backing"; `size` is the cut width of
    strips or the length of panels; `run` how long strips are cut that do not run from selvage to selvage.
    """

    part: str
    count: int
    size: Fraction
    grain: str
    inches: Fraction
    run: Fraction = NOTHING

    @property
    def said(self) -> Message:
        """The line as a term of the fabric's sum, such as "20 x 2 1/2"."""
        return message("plan.cloth-term", count=self.count, size=self.size)


@dataclass(frozen=True, slots=True)
class Cloth:
    """One fabric: its uses, the inches they sum to, and what to buy.

    With the margin, rounded up once, by name.

    `cost` is None where the fabric has no price.
    """

    fabric: str
    usable: Fraction
    uses: tuple[Use, ...]
    inches: Fraction
    buy: Fraction
    cost: Fraction | None
    why: Message


@stage(keep=4096)
def cloth(
    fabric: str,
    usable: Fraction,
    uses: tuple[Use, ...],
    margin: Fraction,
    rounding: str,
    price: Fraction | None,
) -> Cloth:
    """The cloth of one fabric; `rounding` names one of the roundings of yardage, `price` is per yard."""
    inches = sum((use.inches for use in uses), NOTHING)
    buy = round_yardage(inches + margin, rounding)
    why = message(
        "plan.cloth-why-margin" if margin else "plan.cloth-why",
        terms=tuple(use.said for use in uses),
        inches=inches,
        margin=margin,
        exact=inches + margin,
        buy=buy,
        rounding=message(f"plan.rounding-{rounding}"),
    )
    return Cloth(fabric, usable, uses, inches, buy, None if price is None else price * buy / YARD, why)


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

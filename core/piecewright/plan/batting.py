"""The batting: the top's size with its overage, and the smallest packaged size that holds it."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.model.settings import UNSHRUNK, Country, Shrinkage
from piecewright.plan.stage import stage
from piecewright.plan.trade import Package, packages, roll_widths
from piecewright.units.rounding import round_length
from piecewright.units.sizes import Cut, Unfinished
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class Roll:
    """Batting off the roll: its width, and how much of its length to buy, inches."""

    width: Fraction
    length: Fraction


@dataclass(frozen=True, slots=True)
class BattingPlan:
    """The size to cut and the package to buy; no package where none is large enough.

    `larger` is the package after it, for more to trim; `roll` what it takes off the roll where one is wide
    enough.
    """

    size: Cut
    package: Package | None
    why: Message
    larger: Package | None = None
    roll: Roll | None = None


@stage(keep=256)
def batting_plan(
    top: Unfinished,
    overage: Fraction,
    shrinkage: Shrinkage = UNSHRUNK,
    country: Country = "us",
    lengths: str = "eighth",
) -> BattingPlan:
    """`overage` inches are added to the unfinished top's width and height, both sides together.

    What shrinks in the wash before it is laid in is cut larger by as much.
    """
    width, height = (
        round_length(shrinkage.before(Fraction(side) + overage, shrinkage.batting), lengths)
        for side in (top.width, top.height)
    )
    size = Cut(width, height)
    holding = [package for package in packages(country) if package.holds(size)]
    package, larger = (*holding[:2], None, None)[:2]
    why = _why(size, top, overage, shrinkage.batting, package)
    return BattingPlan(size, package, why, larger, _roll(size, country))


def _why(
    size: Cut, top: Unfinished, overage: Fraction, percent: Fraction, package: Package | None
) -> Message:
    shrunk = message("plan.batting-shrunk", percent=percent) if percent else message("plan.batting-as-is")
    if package is None:
        return message("plan.batting-none", size=size, top=top, overage=overage, shrunk=shrunk)
    return message(
        "plan.batting-why",
        size=size,
        top=top,
        overage=overage,
        shrunk=shrunk,
        package=package.name,
        width=package.width,
        height=package.height,
    )


def _roll(size: Cut, country: Country) -> Roll | None:
    """The least batting off a roll, laid either way; of equal amounts the narrower roll."""
    sides = (Fraction(size.width), Fraction(size.height))
    ways = [
        Roll(width, length)
        for width in roll_widths(country)
        for across, length in (sides, sides[::-1])
        if across <= width
    ]
    return min(ways, key=lambda roll: (roll.length * roll.width, roll.width), default=None)

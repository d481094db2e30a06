"""The batting: the top's size with its overage, and the smallest packaged size that holds it."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.plan.stage import stage
from piecewright.units.sizes import Cut, Unfinished
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class Package:
    """A batting as sold, inches."""

    name: str
    width: Fraction
    height: Fraction

    def holds(self, size: Cut) -> bool:
        """Whether a piece of that size can be cut from it, either way round."""
        near, far = sorted((size.width, size.height))
        short, long = sorted((self.width, self.height))
        return near <= short and far <= long


PACKAGES = tuple(
    Package(name, Fraction(width), Fraction(height))
    for name, width, height in (
        ("craft", 34, 45),
        ("crib", 45, 60),
        ("twin", 72, 90),
        ("full", 81, 96),
        ("queen", 90, 108),
        ("king", 120, 120),
    )
)
"""As sold in the United States, from the smallest: a fabric shop's 'Common quilt and batting sizes' (2012),
'Standard quilt sizes' packaged batting list (2012), and for full and king 'Quilt sizes: how to measure for
specific projects' (2011). Sources differ on full (84 x 96) and king (124 x 120); the smaller is given, so
that what is bought is enough."""


@dataclass(frozen=True, slots=True)
class BattingPlan:
    """The size to cut and the package to buy; no package where none is large enough."""

    size: Cut
    package: Package | None
    why: Message


@stage(keep=256)
def batting_plan(top: Unfinished, overage: Fraction) -> BattingPlan:
    """`overage` inches are added to the unfinished top's width and height, both sides together."""
    size = Cut(top.width + overage, top.height + overage)
    package = next((package for package in PACKAGES if package.holds(size)), None)
    if package is None:
        return BattingPlan(size, None, message("plan.batting-none", size=size, top=top, overage=overage))
    why = message(
        "plan.batting-why",
        size=size,
        top=top,
        overage=overage,
        package=package.name,
        width=package.width,
        height=package.height,
    )
    return BattingPlan(size, package, why)

"""The backing: panels of cloth side by side, seams up or across, whichever takes less cloth."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from piecewright.errors import Finding
from piecewright.plan.joining import cloth_too_narrow, strips_joined_straight
from piecewright.plan.stage import stage
from piecewright.units.sizes import Cut, Unfinished
from piecewright.words.message import Message, message

Seams = Literal["none", "up", "across"]


@dataclass(frozen=True, slots=True)
class Panels:
    """`count` whole widths of cloth, each `length` inches of the bolt, sewn side by side.

    Together `spread` inches wide. `seams` run "up" the quilt or "across" it; one panel has none, and lies
    "up" or "across" by `lie`.
    """

    lie: Literal["up", "across"]
    count: int
    length: Fraction
    spread: Fraction

    @property
    def seams(self) -> Seams:
        """Which way the seams run."""
        return "none" if self.count <= 1 else self.lie

    @property
    def cloth(self) -> Fraction:
        """Inches off the bolt."""
        return self.count * self.length


@dataclass(frozen=True, slots=True)
class BackingPlan:
    """The backing's size with its overage, the panels chosen and the other way they could lie.

    No fabric: not chosen yet.
    """

    fabric: str | None
    size: Cut
    usable: Fraction
    seam: Fraction
    panels: Panels
    other: Panels
    why: Message
    findings: tuple[Finding, ...] = ()


@stage(keep=256)
def backing_plan(
    fabric: str | None, top: Unfinished, overage: Fraction, usable: Fraction, seam: Fraction
) -> BackingPlan:
    """Least cloth of both ways; fewer panels, then seams up, where cloth is equal.

    `overage` is for both sides together, `seam` the allowance of a panel seam.

    n panels spread n x usable - (n - 1) x 2 x seam: the rule by which published quilts give backing yardage
    (75 x 81 in of 42 in cloth, 1/2 in seam: 2 x 75 = 150 in).
    """
    width, height = top.width + overage, top.height + overage
    up = panels("up", Fraction(width), Fraction(height), usable, seam)
    across = panels("across", Fraction(height), Fraction(width), usable, seam)
    chosen, other = sorted(
        (up, across), key=lambda way: (not way.count, way.cloth, way.count, way.lie != "up")
    )
    size = Cut(width, height)
    findings = () if chosen.count else (cloth_too_narrow("backing", usable, 2 * seam),)
    return BackingPlan(
        fabric, size, usable, seam, chosen, other, _why(size, chosen, other, usable, seam), findings
    )


def panels(
    lie: Literal["up", "across"], breadth: Fraction, length: Fraction, usable: Fraction, seam: Fraction
) -> Panels:
    """As many widths of cloth as spread over `breadth` inches, each `length` inches long.

    None where a seam takes all.
    """
    count = strips_joined_straight(breadth, usable, seam)
    if count is None:
        return Panels(lie, 0, length, Fraction(0))
    lost = 2 * seam
    return Panels(lie, count, length, count * usable - (count - 1) * lost)


def _why(size: Cut, chosen: Panels, other: Panels, usable: Fraction, seam: Fraction) -> Message:
    spread = message(
        "plan.backing-spread" if chosen.count > 1 else "plan.backing-one-width",
        count=chosen.count,
        usable=usable,
        lost=2 * seam * (chosen.count - 1),
        spread=chosen.spread,
    )
    return message(
        f"plan.backing-why-{chosen.seams}",
        cloth=chosen.cloth,
        count=chosen.count,
        length=chosen.length,
        size=size,
        spread=spread,
        other=message(f"plan.backing-other-{other.lie}", count=other.count, cloth=other.cloth),
    )

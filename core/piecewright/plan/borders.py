"""Butted borders: exact lengths to cut, in the order they are sewn on, and the strips for them."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.model.quilt import Border
from piecewright.plan.joining import cloth_too_narrow, strips_joined_straight
from piecewright.plan.stage import stage
from piecewright.units.sizes import Cut, Finished, Unfinished
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class BorderPlan:
    """One border.

    `sides` and `ends` (top and bottom) are cut sizes, two of each, length first; `first` tells the pair that
    is sewn on first. `strips` of `usable` inches, cut `width` wide, are joined to `total` inches.
    """

    fabric: str
    finished_width: Fraction
    width: Fraction
    first: str
    sides: Cut
    ends: Cut
    total: Fraction
    usable: Fraction
    strips: int
    why: Message
    findings: tuple[Finding, ...] = ()


@stage(keep=256)
def border_plan(border: Border, inner: Finished, usable: Fraction, seam: Fraction) -> BorderPlan:
    """The border round an `inner` quilt of that finished size.

    The pair sewn on first is as long as the unfinished edge it meets, the second pair as long as that edge
    once the first pair is on (common practice; Quilting club handout '4Bs': 46 and 34 1/2 + 2 x 2 = 38 1/2
    in).
    """
    edge: Unfinished = inner.unfinished(seam)
    width = border.width + 2 * seam
    side_length, end_length = Fraction(edge.height), Fraction(edge.width)
    if border.first == "sides":
        end_length += 2 * border.width
    else:
        side_length += 2 * border.width
    total = 2 * side_length + 2 * end_length
    strips = strips_joined_straight(total, usable, seam)
    why = message(
        "plan.border-why",
        strips=strips or 0,
        sides=side_length,
        ends=end_length,
        total=total,
        usable=usable,
        join=2 * seam,
    )
    return BorderPlan(
        fabric=border.fabric,
        finished_width=border.width,
        width=width,
        first=border.first,
        sides=Cut(side_length, width),
        ends=Cut(end_length, width),
        total=total,
        usable=usable,
        strips=strips or 0,
        why=why,
        findings=() if strips else (cloth_too_narrow("border", usable, 2 * seam),),
    )


def around(inner: Finished, border: Border) -> Finished:
    """The finished size once the border is on."""
    return Finished(inner.width + 2 * border.width, inner.height + 2 * border.width)

"""The backing: panels of cloth side by side, seams up or across, whichever takes less cloth."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from piecewright.errors import Finding
from piecewright.model.quilt import Backing
from piecewright.plan.joining import cloth_too_narrow, strips_joined_straight
from piecewright.plan.stage import stage
from piecewright.units.rounding import round_length
from piecewright.units.sizes import Cut, Unfinished
from piecewright.words.message import Message, message

WIDE = Fraction(108)
"""How wide a wide backing is (common practice, no source; 90 to 120 in are sold too)."""
Seams = Literal["none", "up", "across"]
Lie = Literal["up", "across"]


@dataclass(frozen=True, slots=True)
class Panels:
    """`count` whole widths of cloth, each `length` inches of the bolt, sewn side by side.

    Together `spread` inches wide. `seams` run "up" the quilt or "across" it; one panel has none, and lies
    "up" or "across" by `lie`. Where the last panel is pieced of `pieces` strips from selvage to selvage, they
    are cut `strip` wide, and `count` is of the whole widths only.
    """

    lie: Lie
    count: int
    length: Fraction
    spread: Fraction
    strip: Fraction = Fraction(0)
    pieces: int = 0

    @property
    def seams(self) -> Seams:
        """Which way the seams run."""
        return "none" if self.count + bool(self.pieces) <= 1 else self.lie

    @property
    def cloth(self) -> Fraction:
        """Inches off the bolt."""
        return self.count * self.length + self.pieces * self.strip


@dataclass(frozen=True, slots=True)
class BackingPlan:
    """The backing's size with its overage, the panels chosen and the other way they could lie.

    `ways` are all ways there are, from the least cloth, those that are not wanted too; `wide` is what a wide
    backing would take in one piece; `directional`: the print has an up, so panels lie up the quilt and are not
    pieced. No fabric: not chosen yet.
    """

    fabric: str | None
    size: Cut
    usable: Fraction
    seam: Fraction
    panels: Panels
    other: Panels
    why: Message
    findings: tuple[Finding, ...] = ()
    ways: tuple[Panels, ...] = ()
    wide: Panels | None = None
    directional: bool = False


@stage(keep=256)
def backing_plan(
    backing: Backing, top: Unfinished, usable: Fraction, directional: bool = False, lengths: str = "eighth"
) -> BackingPlan:
    """Least cloth of the ways that are wanted; fewer panels, then seams up, where cloth is equal.

    `usable` is the width of the fabric. `lengths` names the rounding up of
    the size. n panels spread n x usable - (n - 1) x 2 x seam: the rule by which published quilts give backing
    yardage (75 x 81 in of 42 in cloth, 1/2 in seam: 2 x 75 = 150 in).
    """
    width, height = (
        round_length(Fraction(side) + backing.overage, lengths) for side in (top.width, top.height)
    )
    ways = _all_ways(width, height, usable, backing.seam)
    chosen = next(way for way in ways if _wanted(way, backing, directional))
    other = next(way for way in ways if way.lie != chosen.lie and not way.pieces)
    size = Cut(width, height)
    findings = () if chosen.count else (cloth_too_narrow("backing", usable, 2 * backing.seam),)
    return BackingPlan(
        fabric=backing.fabric,
        size=size,
        usable=usable,
        seam=backing.seam,
        panels=chosen,
        other=other,
        why=_why(size, chosen, ways, usable, backing.seam, directional),
        findings=findings,
        ways=ways,
        wide=_wide(width, height, usable, backing.seam),
        directional=directional,
    )


def _least(way: Panels) -> tuple[bool, Fraction, int, bool]:
    return (not way.count, way.cloth, way.count + way.pieces, way.lie != "up")


def _wanted(way: Panels, backing: Backing, directional: bool) -> bool:
    if directional:
        return way.lie == "up" and not way.pieces
    return backing.lie in ("least", way.lie) and (backing.pieced or not way.pieces)


def _all_ways(width: Fraction, height: Fraction, usable: Fraction, seam: Fraction) -> tuple[Panels, ...]:
    """Every way to lay cloth of this width, from the one that takes least."""
    up, across = _ways("up", width, height, usable, seam), _ways("across", height, width, usable, seam)
    return tuple(sorted((*up, *across), key=_least))


def _wide(width: Fraction, height: Fraction, usable: Fraction, seam: Fraction) -> Panels | None:
    """What it would take of a wide backing, where one does without seams and the cloth in hand does not."""
    least = next(way for way in _all_ways(width, height, WIDE, seam) if not way.pieces)
    return least if least.count == 1 and usable < min(width, height) else None


def _ways(
    lie: Lie, breadth: Fraction, length: Fraction, usable: Fraction, seam: Fraction
) -> tuple[Panels, ...]:
    whole = panels(lie, breadth, length, usable, seam)
    pieced = _pieced(whole, breadth, usable, seam)
    return (whole,) if pieced is None else (whole, pieced)


def panels(lie: Lie, breadth: Fraction, length: Fraction, usable: Fraction, seam: Fraction) -> Panels:
    """As many widths of cloth as spread over `breadth` inches, each `length` inches long.

    None where a seam takes all.
    """
    count = strips_joined_straight(breadth, usable, seam)
    if count is None:
        return Panels(lie, 0, length, Fraction(0))
    lost = 2 * seam
    return Panels(lie, count, length, count * usable - (count - 1) * lost)


def _pieced(whole: Panels, breadth: Fraction, usable: Fraction, seam: Fraction) -> Panels | None:
    """The same with a strip in the place of the last panel: as wide as is missing, pieced end to end."""
    if whole.count < 2:
        return None
    lost = 2 * seam
    missing = breadth - (whole.spread - usable + lost)
    pieces = strips_joined_straight(whole.length, usable, seam)
    if pieces is None:
        return None
    return Panels(whole.lie, whole.count - 1, whole.length, breadth, missing + lost, pieces)


def _why(
    size: Cut, chosen: Panels, ways: tuple[Panels, ...], usable: Fraction, seam: Fraction, directional: bool
) -> Message:
    telling = [way for way in ways if way.lie != chosen.lie and not way.pieces]
    telling += [way for way in ways if way.pieces and way.cloth < chosen.cloth]
    others = tuple(_said(way) for way in telling)
    return message(
        f"plan.backing-why-{chosen.seams}",
        cloth=chosen.cloth,
        panels=_cut(chosen),
        size=size,
        spread=_spread(chosen, usable, seam),
        other=message("plan.backing-directional" if directional else "plan.backing-others", others=others),
    )


def _cut(way: Panels) -> Message:
    whole = message("plan.backing-panels", count=way.count, length=way.length)
    if not way.pieces:
        return whole
    return message("plan.backing-with-strip", panels=whole, pieces=way.pieces, strip=way.strip)


def _spread(way: Panels, usable: Fraction, seam: Fraction) -> Message:
    lost = 2 * seam * (way.count - 1 + bool(way.pieces))
    if way.pieces:
        return message(
            "plan.backing-spread-strip",
            count=way.count,
            usable=usable,
            strip=way.strip,
            lost=lost,
            spread=way.spread,
        )
    code = "plan.backing-spread" if way.count > 1 else "plan.backing-one-width"
    return message(code, count=way.count, usable=usable, lost=lost, spread=way.spread)


def _said(way: Panels) -> Message:
    if way.pieces:
        return message(f"plan.backing-pieced-{way.lie}", count=way.count, cloth=way.cloth)
    return message(f"plan.backing-other-{way.lie}", count=way.count, cloth=way.cloth)

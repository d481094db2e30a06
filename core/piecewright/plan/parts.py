"""Cloth between and round the blocks, piece by piece: what each is cut as, and what that asks of strips."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from piecewright.errors import Finding
from piecewright.plan.batches import Ask
from piecewright.plan.joining import cloth_too_narrow, strips_joined_straight
from piecewright.plan.keys import Lane, SetKey, StripKey
from piecewright.plan.packing import NOTHING, Kit
from piecewright.plan.workroom import Workroom
from piecewright.units.rounding import whole_up
from piecewright.units.sizes import Cut, Finished
from piecewright.words.message import Message

Part = Literal[
    "sash",
    "cornerstone",
    "edge-cornerstone",
    "side-triangle",
    "corner-triangle",
    "coping-strip",
    "corner-square",
]


@dataclass(frozen=True, slots=True)
class PartPlan:
    """So many parts of a fabric that are alike.

    `finished` is what is seen of each, of a triangle the box round it; `cut` is the piece that leaves the ruler, of
    which `yields` parts are made: 1, or 2 or 4 triangles of a square. `where` says which border they belong to, 0 for
    the center. `trim` is the side on straight grain that a triangle is trimmed to once sewn on, allowances counted.
    """

    part: Part
    fabric: str
    count: int
    finished: Finished
    cut: Cut
    yields: int
    why: Message
    where: int = 0
    trim: float | None = None

    @property
    def cuts(self) -> int:
        """How many pieces are cut."""
        return whole_up(Fraction(self.count, self.yields))


@dataclass(frozen=True, slots=True)
class Joined:
    """Pieces longer than the cloth is wide: `strips` of one width, sewn end to end to `total` inches and cut up."""

    part: Part
    strips: StripKey
    count: int
    total: Fraction
    usable: Fraction


@dataclass(frozen=True, slots=True)
class PartsDemand:
    """What parts ask of strip sets (single strips), what of strips joined end to end, and what can not be had."""

    asks: tuple[Ask, ...]
    joined: tuple[Joined, ...]
    findings: tuple[Finding, ...]


def parts_demand(room: Workroom, parts: Iterable[PartPlan]) -> PartsDemand:
    """The strips for parts. Pieces of one fabric and strip width share strips, whatever they are for.

    A piece is cut from a strip as wide as its shorter side; one longer than a strip gives is joined.
    """
    asks: list[Ask] = []
    lengths: dict[tuple[Part, StripKey], Fraction] = {}
    for plan in parts:
        short, long = sorted((Fraction(plan.cut.width), Fraction(plan.cut.height)))
        key = SetKey((Lane(plan.fabric, short, "crosswise"),))
        kit = Kit((long,), long, whole=False, trims=False, blocks=NOTHING)
        capacity = room.capacity(key)
        if capacity is None or kit.needs(room.truing) <= capacity:
            asks.append(Ask(key, kit, plan.cuts))
        else:
            strip = plan.part, StripKey(plan.fabric, short, "crosswise", NOTHING)
            lengths[strip] = lengths.get(strip, NOTHING) + plan.cuts * long
    joined, findings = _joined(room, lengths)
    return PartsDemand(tuple(asks), tuple(joined), tuple(findings))


def _joined(
    room: Workroom, lengths: dict[tuple[Part, StripKey], Fraction]
) -> tuple[list[Joined], list[Finding]]:
    joined: list[Joined] = []
    findings: list[Finding] = []
    seam = room.settings.seam
    for (part, strip), total in lengths.items():
        usable = room.usable(strip.fabric)
        strips = strips_joined_straight(total, usable, seam)
        if strips is None or part.endswith("triangle"):
            findings.append(cloth_too_narrow("part", usable, 2 * seam))
        else:
            joined.append(Joined(part, strip, strips, total, usable))
    return joined, findings


def merged(parts: Iterable[PartPlan]) -> Iterator[PartPlan]:
    """The parts, alike ones that are named several times counted together, in the order of their first."""
    met: dict[int, tuple[PartPlan, int]] = {}  # most are one object, named again and again
    for plan in parts:
        known = met.get(id(plan))
        met[id(plan)] = (plan, plan.count + (known[1] if known else 0))
    counts: dict[PartPlan, int] = {}
    for plan, count in met.values():
        one = replace(plan, count=1)
        counts[one] = counts.get(one, 0) + count
    for one, count in counts.items():
        yield replace(one, count=count)

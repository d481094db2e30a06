"""Strip sets to sew: one key's segments packed into sets, with the sum that explains their number."""

from dataclasses import dataclass
from fractions import Fraction

from piecewright.plan.keys import Lane, SetKey, StripKey
from piecewright.plan.packing import (
    NOTHING,
    TIGHT,
    Kit,
    Packing,
    Segments,
    SetCuts,
    Truing,
    pack,
    segments_per_set,
)
from piecewright.plan.stage import stage
from piecewright.units.rounding import whole_down
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class StripSet:
    """Strips sewn side by side: how many sets, how each is cut, what is to spare.

    One strip alone is a set of one.

    `kits` is what all batches ask for. `blocks` they go into, and `per_set` of them from one full set, are
    only told where every segment serves alike. `to_length`: the strips run along the bolt and are cut as long
    as they are needed, so that nothing is left to spare, nor has to be.
    """

    key: SetKey
    kits: tuple[tuple[Kit, int], ...]
    usable: Fraction
    sets: int
    cuts: tuple[SetCuts, ...]
    blocks: int | None
    per_set: int | None
    to_spare: Fraction
    why: Message
    to_length: bool = False

    @property
    def lanes(self) -> tuple[Lane, ...]:
        """The strips of one set, in order."""
        return self.key.lanes

    @property
    def strips(self) -> int:
        """Strips to cut for all sets."""
        return self.sets * len(self.key.lanes)

    @property
    def tight(self) -> bool:
        """Whether so little is to spare that one slip costs a set."""
        return self.to_spare < TIGHT and not self.to_length

    @property
    def run(self) -> Fraction:
        """The most cloth that any set uses along its length, truing included."""
        return self.usable - self.to_spare

    def strip_counts(self) -> dict[StripKey, int]:
        """The strips of all sets by what leaves the ruler alike."""
        counts: dict[StripKey, int] = {}
        for lane in self.key.lanes:
            run = NOTHING if lane.grain == "crosswise" else self.run
            key = StripKey(lane.fabric, lane.width, lane.grain, run)
            counts[key] = counts.get(key, 0) + self.sets
        return counts


@stage(keep=16384)
def strip_set(
    key: SetKey, kits: tuple[tuple[Kit, int], ...], capacity: Fraction | None, truing: Truing
) -> StripSet:
    """The sets for all kits.

    Without a `capacity` (strips along the bolt) sets are as long as the longest kit needs.
    """
    usable = max(kit.needs(truing) for kit, _ in kits) if capacity is None else capacity
    packing = pack(kits, usable, truing)
    blocks, per_set = _blocks(kits, usable, truing)
    why = _why(key, packing, usable, blocks, per_set)
    to_spare = min(cuts.to_spare for cuts in packing.cuts)
    to_length = capacity is None
    return StripSet(key, kits, usable, packing.sets, packing.cuts, blocks, per_set, to_spare, why, to_length)


def _blocks(
    kits: tuple[tuple[Kit, int], ...], usable: Fraction, truing: Truing
) -> tuple[int | None, int | None]:
    """Blocks of all kits, and of one full set, where all kits are alike and have segments of one length."""
    (kit, count), *others = kits
    if others or len(set(kit.segments)) > 1 or not kit.blocks:
        return None, None
    if kit.whole:
        kits_per_set = Fraction(1)
    elif kit.trims:
        kits_per_set = Fraction(int(usable // kit.run))
    else:
        kits_per_set = Fraction(segments_per_set(kit.segments[0], usable, truing), len(kit.segments))
    return whole_down(count * kit.blocks), whole_down(kits_per_set * kit.blocks)


def _why(key: SetKey, packing: Packing, usable: Fraction, blocks: int | None, per_set: int | None) -> Message:
    fullest = max(packing.cuts, key=lambda cuts: (-cuts.to_spare, cuts.sets))
    lanes = len(key.lanes)
    sets = message(
        "plan.strips-of-sets" if lanes > 1 else "plan.strips-single",
        strips=packing.sets * lanes,
        sets=packing.sets,
        lanes=lanes,
    )
    terms = {"usable": usable, "truing": fullest.truing, "spare": fullest.to_spare}
    if blocks is None or per_set is None or len(fullest.segments) > 1:
        return message("plan.set-why-mixed", sets=sets, segments=_segments(fullest.segments), **terms)
    ((length, count),) = fullest.segments
    code = "plan.set-why-trued" if fullest.truing else "plan.set-why"
    return message(code, sets=sets, blocks=blocks, per_set=per_set, length=length, count=count, **terms)


def _segments(segments: Segments) -> tuple[Message, ...]:
    return tuple(message("plan.segments", count=count, length=length) for length, count in segments)

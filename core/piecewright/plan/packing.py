"""Segments into strip sets: how many sets it takes at a usable width with truing, and how each is cut.

Sets are filled next-fit, in two fixed orders, and the better is taken. Next-fit in a fixed order gives the
fewest sets of all plans that keep that order, whatever the order; so one more segment can never take fewer
sets, and the answer is never worse than cutting every length from sets of its own.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.plan.keys import Key
from piecewright.plan.stage import stage

NOTHING = Fraction(0)
TIGHT = Fraction(1, 2)
"""A set with less to spare than this is marked (common practice, no source)."""

Segments = tuple[tuple[Fraction, int], ...]
"""Lengths in inches with their count, longest first."""


class Truing(Key, frozen=True):
    """`first` inches come off the first end of a set, `again` after every `every` cuts."""

    first: Fraction
    again: Fraction
    every: int

    def loss(self, cuts: int) -> Fraction:
        """Inches lost to truing in a set that gives `cuts` segments."""
        return self.first + self.again * ((cuts - 1) // self.every) if cuts else NOTHING


class Kit(Key, frozen=True):
    """What one bed of a batch asks of its sets: the `segments` in the order cut, from a `run` of cloth.

    `whole`: the recipe asks for the whole width, so every kit is a set of its own; `trims`: the recipe trues
    the ends itself within its run, by `trim` where the cut is square. `blocks` is how many blocks one kit goes into.
    """

    segments: tuple[Fraction, ...]
    run: Fraction
    whole: bool
    trims: bool
    blocks: Fraction
    trim: Fraction = NOTHING

    def needs(self, truing: Truing) -> Fraction:
        """The usable width in inches without which one kit can not be cut."""
        if self.trims:
            return self.run
        trued = sum(self.segments, NOTHING) + truing.loss(len(self.segments))
        return max(self.run, trued) if self.whole else max(self.run + truing.loss(len(self.segments)), trued)


@dataclass(frozen=True, slots=True)
class SetCuts:
    """`sets` strip sets that are cut alike.

    Their segments, what truing takes of each and what is left of each.
    """

    sets: int
    segments: Segments
    truing: Fraction
    to_spare: Fraction


@dataclass(frozen=True, slots=True)
class Packing:
    """All sets of one key."""

    sets: int
    cuts: tuple[SetCuts, ...]

    @property
    def to_spare(self) -> Fraction:
        """What is left of the fullest set, inches."""
        return min((cuts.to_spare for cuts in self.cuts), default=NOTHING)


def segments_per_set(length: Fraction, usable: Fraction, truing: Truing) -> int:
    """How many segments of one length a set gives, with truing; 0 where there is not enough for one."""
    return _Filling(usable, truing).room(length)


@stage(keep=8192)
def pack(kits: tuple[tuple[Kit, int], ...], usable: Fraction, truing: Truing) -> Packing:
    """The sets for all kits with their counts. Each kit by itself must fit: `kit.needs(truing) <= usable`."""
    shared = tuple((kit, count) for kit, count in kits if not kit.trims and not kit.whole)
    cuts = _shared_sets(shared, usable, truing)
    for kit, count in kits:
        if kit.whole:
            cuts.append(_whole_sets(kit, count, usable, truing))
        elif kit.trims:
            cuts += _trimmed_sets(kit, count, usable)
    return Packing(sum(alike.sets for alike in cuts), tuple(cuts))


class _Filling:
    """Fills sets next-fit: a set is closed, for good, as soon as the next segment does not fit."""

    def __init__(self, usable: Fraction, truing: Truing) -> None:
        self.usable, self.truing = usable, truing
        self.closed: Counter[Segments] = Counter()
        self.used, self.cuts, self.lengths = NOTHING, 0, Counter[Fraction]()

    @property
    def pattern(self) -> Segments:
        """What the open set gives so far."""
        return tuple(sorted(self.lengths.items(), reverse=True))

    def room(self, length: Fraction) -> int:
        """How many more segments of `length` the open set takes."""
        count = int(max(0, (self.usable - self.used) // length))
        while count and self.used + count * length + self.truing.loss(self.cuts + count) > self.usable:
            count -= 1
        return count

    def add(self, length: Fraction, count: int) -> None:
        """Add `count` segments of one length, which must fit into an empty set."""
        taken = min(count, self.room(length))
        self._take(length, taken)
        if taken == count:
            return
        self.close()
        full = self.room(length)
        sets, rest = divmod(count - taken - 1, full)
        if sets:
            self.closed[((length, full),)] += sets
        self._take(length, rest + 1)

    def close(self) -> None:
        """Close the open set, if anything is in it."""
        if self.cuts:
            self.closed[self.pattern] += 1
        self.used, self.cuts, self.lengths = NOTHING, 0, Counter()

    def _take(self, length: Fraction, count: int) -> None:
        if count:
            self.used += length * count
            self.cuts += count
            self.lengths[length] += count


def _shared_sets(kits: tuple[tuple[Kit, int], ...], usable: Fraction, truing: Truing) -> list[SetCuts]:
    """Segments of all kits, from sets they share.

    By falling length, or kit by kit where that takes no more sets.
    """
    lengths: Counter[Fraction] = Counter()
    for kit, count in kits:
        for length in kit.segments:
            lengths[length] += count
    patterns = _by_length(lengths, usable, truing)
    if len(lengths) > 1:
        kit_by_kit = _kit_by_kit(kits, usable, truing)
        if kit_by_kit.total() <= patterns.total():
            patterns = kit_by_kit
    return [
        _set_cuts(pattern, sets, usable, truing) for pattern, sets in sorted(patterns.items(), reverse=True)
    ]


def _by_length(lengths: Counter[Fraction], usable: Fraction, truing: Truing) -> Counter[Segments]:
    filling = _Filling(usable, truing)
    for length, count in sorted(lengths.items(), reverse=True):
        filling.add(length, count)
    filling.close()
    return filling.closed


def _kit_by_kit(kits: tuple[tuple[Kit, int], ...], usable: Fraction, truing: Truing) -> Counter[Segments]:
    """Kits one after another, as one sews batch by batch."""
    filling = _Filling(usable, truing)
    for kit, count in kits:
        _add_alike(_falling(kit.segments), count, filling)
    filling.close()
    return filling.closed


def _add_alike(kit: Segments, count: int, filling: _Filling) -> None:
    """Add the same kit `count` times.

    Once the open set looks as it did before, whole rounds are taken at one go.
    """
    seen: dict[Segments, tuple[int, Counter[Segments]]] = {}
    done = 0
    while done < count:
        if filling.pattern in seen:
            before, closed_before = seen[filling.pattern]
            rounds = (count - done) // (done - before)
            for pattern, sets in (filling.closed - closed_before).items():
                filling.closed[pattern] += sets * rounds
            done += rounds * (done - before)
            seen = {}
        else:
            seen[filling.pattern] = (done, filling.closed.copy())
            for length, alike in kit:
                filling.add(length, alike)
            done += 1


def _set_cuts(pattern: Segments, sets: int, usable: Fraction, truing: Truing) -> SetCuts:
    trued = truing.loss(sum(count for _, count in pattern))
    return SetCuts(
        sets, pattern, trued, usable - trued - sum((length * count for length, count in pattern), NOTHING)
    )


def _whole_sets(kit: Kit, count: int, usable: Fraction, truing: Truing) -> SetCuts:
    trued = kit.trim if kit.trims else truing.loss(len(kit.segments))
    used = sum(kit.segments, NOTHING) + trued
    if kit.trims and not kit.trim:  # what a leaning cut takes is not told: all of the run is
        used = kit.run
    return SetCuts(count, _falling(kit.segments), trued, usable - used)


def _trimmed_sets(kit: Kit, count: int, usable: Fraction) -> Iterator[SetCuts]:
    """Kits that true themselves are cut off the set run by run; their truing is in the run."""
    full = int(usable // kit.run)
    sets, rest = divmod(count, full)
    for alike, runs in ((sets, full), (1 if rest else 0, rest)):
        if alike:
            used = runs * kit.run
            lost = used - runs * sum(kit.segments, NOTHING)
            yield SetCuts(alike, _falling(kit.segments * runs), lost, usable - used)


def _falling(segments: tuple[Fraction, ...]) -> Segments:
    return tuple(sorted(Counter(segments).items(), reverse=True))

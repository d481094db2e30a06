"""Which way to press every seam as sewn, so that as many crossings nest as can: in one block and all its like."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass

from piecewright.sewing.balance import balance_in_order
from piecewright.sewing.crossings import Bulk, Crossing, bulks, crossings
from piecewright.sewing.junctions import Junction, SeamLine, junctions
from piecewright.sewing.signs import Tie


@dataclass(frozen=True, slots=True)
class Seamwork:
    """The seams seen in one finished block, where they meet, where they cross and where they end on one another."""

    lines: tuple[SeamLine, ...]
    junctions: tuple[Junction, ...]
    crossings: tuple[Crossing, ...]
    bulks: tuple[Bulk, ...]


def seamwork(lines: Iterable[SeamLine]) -> Seamwork:
    """What the seams of a block make of it."""
    lines = tuple(lines)
    met = junctions(lines)
    return Seamwork(lines, met, crossings(lines, met), bulks(lines, met))


@dataclass(frozen=True, slots=True)
class Nesting:
    """A sign for every seam as sewn; crossings that clash, as (block, index of its crossing).

    `bound` is the least number of clashes of any pressing; `free` numbers seams that may be flipped together at no
    cost (0: held by a seam that is fixed).
    """

    signs: tuple[int, ...]
    clashes: tuple[tuple[int, int], ...]
    bound: int
    free: tuple[int, ...]

    @property
    def proven(self) -> bool:
        """Whether no pressing has fewer clashes."""
        return len(self.clashes) == self.bound


def nest(
    count: int,
    blocks: Sequence[Seamwork],
    fixed: Mapping[int, int],
    aside: AbstractSet[int] = frozenset(),
    alike: Sequence[tuple[int, int]] = (),
    *,
    library: bool = True,
) -> Nesting:
    """Press `count` seams: those `fixed` have their signs; those set `aside` (open, or not known) never clash.

    First as few clashes as can be; then seams away from others that end on them, where that is less bulk; then the
    pairs `alike` the same way. A seam that nothing decides gets sign 1.
    """
    ties = [
        _tie(block, crossing)
        for block in blocks
        for crossing in block.crossings
        if not _is_aside(block, crossing, aside)
    ]
    away = [Tie(block.lines[bulk.on].seam, count, bulk.sign > 0) for block in blocks for bulk in block.bulks]
    same = [Tie(one, other, same=True) for one, other in alike]
    found = balance_in_order(count, ties, (away, same), fixed, library=library)
    clashes = tuple(_clashes(blocks, found.signs, aside))
    return Nesting(found.signs, clashes, found.bound, found.groups)


def _tie(block: Seamwork, crossing: Crossing) -> Tie:
    return Tie(block.lines[crossing.one].seam, block.lines[crossing.other].seam, crossing.same)


def _is_aside(block: Seamwork, crossing: Crossing, aside: AbstractSet[int]) -> bool:
    return block.lines[crossing.one].seam in aside or block.lines[crossing.other].seam in aside


def _clashes(
    blocks: Sequence[Seamwork], signs: Sequence[int], aside: AbstractSet[int]
) -> Iterator[tuple[int, int]]:
    for number, block in enumerate(blocks):
        for index, crossing in enumerate(block.crossings):
            tie = _tie(block, crossing)
            alike = signs[tie.one] == signs[tie.other]
            if alike != tie.same and not _is_aside(block, crossing, aside):
                yield number, index


def opened(pairs: Iterable[tuple[int, int]]) -> tuple[int, ...]:
    """Seams that, pressed open, leave none of some clashing pairs: the one in most of them first."""
    left = [frozenset(pair) for pair in pairs]
    found = []
    while left:
        counts: dict[int, int] = {}
        for pair in left:
            for seam in pair:
                counts[seam] = counts.get(seam, 0) + 1
        most = min(counts, key=lambda seam: (-counts[seam], seam))
        found.append(most)
        left = [pair for pair in left if most not in pair]
    return tuple(found)

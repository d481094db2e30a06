"""From whole numbers back to inches: which piece every place in a solution is, alike strips told together."""

from collections.abc import Sequence
from fractions import Fraction
from math import gcd

from piecewright.cutting.grid import Grid
from piecewright.cutting.plans import CuttingPlan, Laid, Strip, SubCut
from piecewright.cutting.problem import Fill, Group, Lie, Solution, fill_of

Alike = list[tuple[Fill, int]]
"""Strips with how many there are of each."""


def plan_of(
    grid: Grid, solution: Solution, bound: int | None = None, *, stopped: bool = False
) -> CuttingPlan:
    """The plan behind a solution that gives exactly the demand."""
    deck = _Deck(grid)
    laid: list[Laid] = []
    off_the_bolt: Alike = []
    for layout in sorted(solution):
        if grid.problem.faces[layout.face].is_bolt:
            off_the_bolt += [(band, solution[layout]) for fill in layout.fills for band in bands_of(fill)]
        else:
            fills = [(fill, 1) for fill in layout.fills]
            laid += [deck.laid(layout.face, fills) for _ in range(solution[layout])]
    if off_the_bolt:
        laid.append(deck.laid(grid.problem.open_faces[0], sorted(off_the_bolt, key=_fullest_first)))
    inches = grid.unit if grid.job.sheet.length is None else Fraction(1)
    return CuttingPlan(
        job=grid.job,
        laid=_sheets_together(laid),
        unplaced=grid.unplaced,
        rounded=grid.rounded,
        bound=None if bound is None else bound * inches,
        stopped=stopped,
    )


def _fullest_first(alike: tuple[Fill, int]) -> tuple[int, int, Fill]:
    """The order of strips off the bolt: highest first, of one height those that leave least beside their pieces."""
    fill, _ = alike
    return -fill.height, -sum(group.across * group.columns for group in fill.groups), fill


def bands_of(fill: Fill) -> list[Fill]:
    """A strip parted into lower ones where every column can be cut at one height: fewer cuts, the same cloth."""
    bands = gcd(*(group.stack for group in fill.groups))
    if bands == 1 or any(group.stack * group.along != fill.height for group in fill.groups):
        return [fill]
    return [fill_of(_in_band(group, bands, band) for group in fill.groups) for band in range(bands)]


def _in_band(group: Group, bands: int, band: int) -> Group:
    """A group's pieces in the band so far up: whole columns alike, the last one filled from below."""
    stack = group.stack // bands
    full, rest = divmod(group.pieces, group.stack)
    count = full * stack + max(0, min(stack, rest - band * stack))
    return group._replace(stack=stack, pieces=count)


class _Deck:
    """Deals out the pieces of each item in the order of the job."""

    def __init__(self, grid: Grid) -> None:
        self.grid = grid
        self._keys = [[piece.key for piece in item] for item in grid.items]
        self._left = [[piece.count for piece in item] for item in grid.items]

    def laid(self, index: int, fills: Alike) -> Laid:
        """Strips of one sheet, or of all the bolt."""
        source, direction = self.grid.faces[index]
        strips = [strip for fill, times in fills for strip in self._strips(index, fill, times)]
        place = None if source == self.grid.problem.source else source
        return Laid(self.grid.sources[source], place, direction, _strips_together(strips))

    def _strips(self, index: int, fill: Fill, times: int) -> list[Strip]:
        if all(len(self._keys[group.item]) == 1 for group in fill.groups):
            return [self._strip(index, fill, times)]
        return [self._strip(index, fill, 1) for _ in range(times)]

    def _strip(self, index: int, fill: Fill, times: int) -> Strip:
        cuts = tuple(self._cut(index, group) for group in fill.groups)
        return Strip(max(cut.height * cut.stack for cut in cuts), cuts, times)

    def _cut(self, index: int, group: Group) -> SubCut:
        width, height = self.grid.sizes[index, Lie(group.item, group.across, group.along)]
        return SubCut(width, height, group.stack, self._dealt(group.item, group.pieces))

    def _dealt(self, item: int, count: int) -> tuple[tuple[str, int], ...]:
        """The next pieces of an item. One that is all of a kind need not be counted."""
        keys, left = self._keys[item], self._left[item]
        if len(keys) == 1:
            return ((keys[0], count),)
        dealt: list[tuple[str, int]] = []
        for place, key in enumerate(keys):
            taken = min(count, left[place])
            if taken:
                dealt.append((key, taken))
                left[place] -= taken
                count -= taken
        return tuple(dealt)


def _strips_together(strips: Sequence[Strip]) -> tuple[Strip, ...]:
    counts: dict[tuple[Fraction, tuple[SubCut, ...]], int] = {}
    for strip in strips:
        counts[strip.height, strip.cuts] = counts.get((strip.height, strip.cuts), 0) + strip.count
    return tuple(Strip(height, cuts, count) for (height, cuts), count in counts.items())


def _sheets_together(sheets: Sequence[Laid]) -> tuple[Laid, ...]:
    counts: dict[Laid, int] = {}
    for laid in sheets:
        counts[laid] = counts.get(laid, 0) + laid.count
    return tuple(
        Laid(laid.sheet, laid.source, laid.direction, laid.strips, count) for laid, count in counts.items()
    )

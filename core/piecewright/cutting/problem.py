"""The question in whole numbers, as the solvers see it: items, faces of cloth, strips and layouts."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

Demand = tuple[int, ...]
"""How many of each item, by its index."""


class Lie(NamedTuple):
    """One allowed way for an item to lie on a face: along the strip, and up the strip."""

    item: int
    across: int
    along: int


class Variant(NamedTuple):
    """A column of `stack` equal pieces; a strip has to be `top` high for it."""

    top: int
    item: int
    across: int
    along: int
    stack: int


class Group(NamedTuple):
    """`pieces` equal ones side by side in a strip, in columns of `stack`; the last may hold fewer."""

    item: int
    across: int
    along: int
    stack: int
    pieces: int

    @property
    def columns(self) -> int:
        """Sub-cuts of the strip."""
        return -(-self.pieces // self.stack)


class Fill(NamedTuple):
    """One strip, as high as its highest column."""

    height: int
    groups: tuple[Group, ...]


class Layout(NamedTuple):
    """The strips of one sheet by the face they are cut on; off the bolt every strip is a layout of its own."""

    face: int
    fills: tuple[Fill, ...]


Solution = Mapping[Layout, int]
"""How often each layout is cut."""


@dataclass(frozen=True)
class Face:
    """A source of cloth seen with its first cuts running across: strips of `width`, up to `length` in all.

    `length` None: as long as it takes. In a strip at most `stack` equal pieces lie one above the other.
    """

    source: int
    turned: bool
    width: int
    length: int | None
    lies: tuple[Lie, ...]
    stack: int

    @cached_property
    def variants(self) -> tuple[Variant, ...]:
        """Every column that a strip of the face can hold, by rising height."""
        return tuple(
            sorted(
                Variant(stacked * lie.along, lie.item, lie.across, lie.along, stacked)
                for lie in self.lies
                for stacked in range(1, self.stack + 1)
                if self.length is None or stacked * lie.along <= self.length
            )
        )

    @cached_property
    def lies_by_item(self) -> Mapping[int, tuple[Lie, ...]]:
        """The ways to lie of every item that fits on the face."""
        found: dict[int, tuple[Lie, ...]] = {}
        for lie in self.lies:
            found[lie.item] = (*found.get(lie.item, ()), lie)
        return found

    @property
    def is_bolt(self) -> bool:
        """Whether a strip more makes the cloth longer."""
        return self.length is None


@dataclass(frozen=True)
class Problem:
    """`demand` of items of `areas`, on `faces`; `stocks` has how many sheets each source has, None: no limit.

    The last source is the one that costs: its length off the bolt, or 1 a sheet.
    """

    demand: Demand
    areas: tuple[int, ...]
    faces: tuple[Face, ...]
    stocks: tuple[int | None, ...]

    @property
    def source(self) -> int:
        """The source that costs."""
        return len(self.stocks) - 1

    @property
    def open_faces(self) -> tuple[int, ...]:
        """The faces of the source that costs."""
        return tuple(index for index, face in enumerate(self.faces) if face.source == self.source)

    def cost_of(self, layout: Layout) -> int:
        """What one layout costs."""
        face = self.faces[layout.face]
        if face.source != self.source:
            return 0
        return layout.fills[0].height if face.is_bolt else 1

    def covered(self, layout: Layout) -> int:
        """How much of a layout its pieces cover, in square units."""
        return sum(self.areas[group.item] * group.pieces for fill in layout.fills for group in fill.groups)

    def fullness(self, layout: Layout) -> float:
        """The share of a layout's strip or sheet that its pieces cover."""
        face = self.faces[layout.face]
        height = layout.fills[0].height if face.length is None else face.length
        return self.covered(layout) / (height * face.width)

    def cost(self, solution: Solution) -> int:
        """Cloth in units of length, or sheets."""
        return sum(self.cost_of(layout) * times for layout, times in solution.items())

    def score(self, solution: Solution) -> tuple[int, int, int]:
        """Cloth, then how many heights of strips, then how many cuts: less is better."""
        heights = {fill.height for layout in solution for fill in layout.fills}
        cuts = sum(times * sum(cuts_of(fill) for fill in layout.fills) for layout, times in solution.items())
        return self.cost(solution), len(heights), cuts

    def without(self, solution: Solution) -> "Problem":
        """What is left of the problem once a part of its solution is settled."""
        stocks = list(self.stocks)
        for layout, times in solution.items():
            source = self.faces[layout.face].source
            stock = stocks[source]
            stocks[source] = None if stock is None else stock - times
        demand = minus(self.demand, made_in(solution, len(self.demand)))
        return Problem(demand, self.areas, self.faces, tuple(stocks))


def cuts_of(fill: Fill) -> int:
    """Cuts with the ruler: the strip, its sub-cuts, and what parts or trims a column."""
    cuts = 1
    for group in fill.groups:
        trimmed = group.stack * group.along < fill.height
        cuts += group.columns * (group.stack + trimmed)
    return cuts


def fill_of(groups: Iterable[Group]) -> Fill:
    """The strip that holds these groups: stacks no higher than their count, equal groups made one."""
    pieces: dict[tuple[int, int, int, int], int] = {}
    for item, across, along, stack, count in groups:
        if count:
            kind = (item, across, along, min(stack, count))
            pieces[kind] = pieces.get(kind, 0) + count
    alike = [Group(*kind, count) for kind, count in pieces.items()]
    alike.sort(key=lambda group: (-group.stack * group.along, -group.across, group.item, group.along))
    return Fill(max((group.stack * group.along for group in alike), default=0), tuple(alike))


def made_by(fills: Iterable[Fill], items: int) -> list[int]:
    """How many of each item some strips give."""
    made = [0] * items
    for fill in fills:
        for group in fill.groups:
            made[group.item] += group.pieces
    return made


def made_in(solution: Solution, items: int) -> list[int]:
    """How many of each item a solution gives."""
    made = [0] * items
    for layout, times in solution.items():
        for item, count in enumerate(made_by(layout.fills, items)):
            made[item] += count * times
    return made


def minus(demand: Sequence[int], made: Sequence[int], times: int = 1) -> Demand:
    """What is left of a demand, never below zero."""
    return tuple(max(0, wanted - times * given) for wanted, given in zip(demand, made, strict=True))


def joined(*solutions: Solution) -> Solution:
    """Several solutions as one."""
    total: Counter[Layout] = Counter()
    for solution in solutions:
        total.update(solution)
    return total

"""The sizes table of a recipe: every finished size from its strips, what to cut, what they give and what is left."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from itertools import islice, product

from piecewright.errors import PiecewrightError
from piecewright.making.events import Severed
from piecewright.making.facts import Facts, Lane
from piecewright.making.given import Given
from piecewright.making.nudging import Named
from piecewright.making.recipe import Recipe
from piecewright.making.run import run
from piecewright.making.solve import StripWidth, solve
from piecewright.model.settings import Settings
from piecewright.plan.batches import kit_of
from piecewright.plan.packing import NOTHING, Kit, Truing, pack
from piecewright.plan.workroom import trued_facts
from piecewright.units.rounding import whole_down
from piecewright.words.message import Message, message

ROLL_STRIP = Fraction(5, 2)
"""The width of strips in a roll."""
_USUAL = Settings()
USUAL_TRUING = Truing(_USUAL.trim_first, _USUAL.trim_again, _USUAL.trim_every)
NO_TRUING = Truing(NOTHING, NOTHING, 1)
_MOST_ROWS = 64
_MOST_BATCHES = 2**20


@dataclass(frozen=True, slots=True)
class CutSize:
    """What one step cuts: `count` segments of a width, inches, from the piece named."""

    piece: str
    width: Fraction | float
    count: int


@dataclass(frozen=True, slots=True)
class SetYield:
    """Strip sets of one make-up (one strip alone is a set of one): what all batches of a recipe ask of them.

    `batches` fit into one set of the usable width, with `truing` off and `left_over` inches left of it; where a batch
    does not fit into one set it takes `sets_per_batch`, and `batches` is 0. `short` is by how much the cloth is too
    narrow for a batch at all, 0 where it is not.
    """

    lanes: tuple[Lane, ...]
    kits: tuple[tuple[Kit, int], ...]
    batches: int
    sets_per_batch: int
    truing: Fraction
    left_over: Fraction
    short: Fraction

    @property
    def height(self) -> Fraction:
        """The widths of its strips together, unsewn."""
        return sum((lane.width for lane in self.lanes), NOTHING)


@dataclass(frozen=True)
class SizeRow:
    """One finished size: the recipe and the given that make it, what comes out, and what strips it takes.

    `fitted` says that it is the size that strips of the asked width give, rather than one the recipe lists.
    """

    recipe: Recipe
    given: Given
    facts: Facts
    cuts: tuple[CutSize, ...]
    sets: tuple[SetYield, ...]
    truing: Truing
    fitted: bool

    @property
    def sizes(self) -> Mapping[str, Fraction]:
        """The sizes chosen, by name."""
        return self.facts.sizes

    @property
    def possible(self) -> bool:
        """Whether the cloth is wide enough."""
        return not any(alike.short for alike in self.sets)

    def blocks_per_set(self, alike: SetYield) -> Fraction:
        """How many blocks one set of a make-up gives; the sets of all layers of the stack count as one."""
        if alike.short:
            return NOTHING
        return Fraction(self.facts.blocks * max(alike.batches, 1), alike.sets_per_batch)

    @cached_property
    def waste(self) -> Fraction:
        """The share of the cloth used that is neither seen nor allowance: cut off in the making, or for truing."""
        trued = sum((alike.truing * alike.height / max(alike.batches, 1) for alike in self.sets), NOTHING)
        ledger = self.facts.ledger
        return (Fraction(ledger.waste) + trued) / (Fraction(ledger.laid) + trued)

    def strips_for(self, batches: int) -> int:
        """The strips, of all layers and make-ups, that so many batches take."""
        if not batches:
            return 0
        sets = (
            len(alike.lanes) * pack(_times(alike.kits, batches), self.given.usable, self.truing).sets
            for alike in self.sets
        )
        return self.facts.stack * sum(sets)

    def from_strips(self, strips: int) -> tuple[int, int]:
        """How many blocks so many strips of the usable width give, and how many strips are over."""
        if not self.possible:
            return 0, strips
        low, high = 0, 1
        while high < _MOST_BATCHES and self.strips_for(high) <= strips:
            low, high = high, high * 2
        while high - low > 1:
            middle = (low + high) // 2
            low, high = (middle, high) if self.strips_for(middle) <= strips else (low, middle)
        return low * self.facts.blocks, strips - self.strips_for(low)


@dataclass(frozen=True, slots=True)
class SizesTable:
    """The table, smallest block first, and why sizes are missing from it."""

    name: str
    strip_width: Fraction | None
    usable: Fraction
    truing: Truing
    rows: tuple[SizeRow, ...]
    missing: tuple[Message, ...]


def sizes_table(
    recipe: Recipe, given: Given, width: Fraction | None = ROLL_STRIP, truing: Truing = USUAL_TRUING
) -> SizesTable:
    """Every finished size of the choices that the recipe lists, and those for which its widest strips have a width.

    At most 64 choices are taken. Sizes whose making fails are told in `missing`.
    """
    missing: dict[Message, None] = {}
    rows: dict[tuple[Recipe, Given], SizeRow] = {}
    for sized in _choices(recipe, given):
        fitted = None if width is None else _fitted(recipe, sized, width)
        for kind, made in ((True, fitted), (False, (recipe, sized))):
            if made is None:
                continue
            try:
                row = _row(*made, truing, fitted=kind)
            except PiecewrightError as fault:
                missing[message("solve.table-missing", sizes=_named(sized.sizes), said=fault.message)] = None
            else:
                rows.setdefault((row.recipe, row.given), row)
    found = sorted(rows.values(), key=lambda row: (row.facts.finished.width * row.facts.finished.height,))
    return SizesTable(recipe.name, width, given.usable, truing, tuple(found), tuple(missing))


def _named(sizes: Mapping[str, Fraction]) -> tuple[Message, ...]:
    return tuple(message("solve.table-size", name=name, value=value) for name, value in sizes.items())


def _choices(recipe: Recipe, given: Given) -> Iterator[Given]:
    """The given with every choice of sizes; the sizes given come first."""
    names = tuple(recipe.sizes)
    listed = (
        {**given.sizes},
        *(dict(zip(names, choice, strict=True)) for choice in product(*recipe.sizes.values())),
    )
    for sizes in islice(listed, _MOST_ROWS):
        full = {name: sizes.get(name, choices[0]) for name, choices in recipe.sizes.items()}
        yield replace(given, sizes=full)


def _fitted(recipe: Recipe, given: Given, width: Fraction) -> tuple[Recipe, Given] | None:
    """The making whose widest strips have the width; None where none has."""
    try:
        found = solve(recipe, given, StripWidth(width), free=[Named("sizes", name) for name in recipe.sizes])
    except PiecewrightError:
        return None
    return found.recipe, found.given


def _row(recipe: Recipe, given: Given, truing: Truing, *, fitted: bool) -> SizeRow:
    found = trued_facts(recipe, given, truing)
    sets = tuple(_yield(lanes, kits, given.usable, truing) for lanes, kits in _by_make_up(found).items())
    return SizeRow(recipe, given, found, tuple(_cut_sizes(recipe, given)), sets, truing, fitted)


def _cut_sizes(recipe: Recipe, given: Given) -> Iterator[CutSize]:
    for outcome in run(recipe, given).outcomes:
        for event in outcome.events:
            if isinstance(event, Severed):
                for width in dict.fromkeys(event.widths):
                    yield CutSize(event.made, width, event.widths.count(width))


def _by_make_up(found: Facts) -> dict[tuple[Lane, ...], tuple[tuple[Kit, int], ...]]:
    """What one batch asks of the sets of each make-up."""
    asked: dict[tuple[Lane, ...], list[tuple[Kit, int]]] = {}
    for bed in found.beds:
        asked.setdefault(bed.lanes, []).append((kit_of(bed, found), bed.count))
    return {lanes: tuple(kits) for lanes, kits in asked.items()}


def _times(kits: Iterable[tuple[Kit, int]], batches: int) -> tuple[tuple[Kit, int], ...]:
    return tuple((kit, count * batches) for kit, count in kits)


def _yield(
    lanes: tuple[Lane, ...], kits: tuple[tuple[Kit, int], ...], usable: Fraction, truing: Truing
) -> SetYield:
    short = max(max(kit.needs(truing) for kit, _ in kits) - usable, NOTHING)
    if short:
        return SetYield(lanes, kits, 0, 1, NOTHING, NOTHING, short)
    batches = _batches_in_one(kits, usable, truing)
    packing = pack(_times(kits, max(batches, 1)), usable, truing)
    fullest = min(packing.cuts, key=lambda cuts: cuts.to_spare)
    return SetYield(lanes, kits, batches, packing.sets, fullest.truing, fullest.to_spare, NOTHING)


def _batches_in_one(kits: tuple[tuple[Kit, int], ...], usable: Fraction, truing: Truing) -> int:
    least = sum((sum(kit.segments, NOTHING) * count for kit, count in kits), NOTHING)
    low, high = 0, whole_down(usable / least) + 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if pack(_times(kits, middle), usable, truing).sets <= 1 else (low, middle)
    return low

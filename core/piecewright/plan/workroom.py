"""The blocks of a design as they are sewn: their facts with truing taken off, the cloth and its limits."""

from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import sqrt

from piecewright.edit.facts_of import given_of, usable_width
from piecewright.errors import PiecewrightError
from piecewright.making.facts import Bed, Facts
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric, Print
from piecewright.model.settings import Settings
from piecewright.model.value import Letters
from piecewright.plan.keys import UNCHOSEN, BatchKey, FabricsByLetter, Lane, SetKey
from piecewright.plan.packing import NOTHING, Truing
from piecewright.plan.stage import stage
from piecewright.units.rounding import ROUNDINGS

_DOWN = ROUNDINGS["eighth in down"]
_MOST_TRIES = 40
"""A bed still too long after so many is left so, and found to give no block."""
_ONE_WAY = Print("dots", ("#000000",), one_way=True)
_BUYING = (
    "yardage",
    "margin",
    "currency",
    "lengths",
    "shrinkage",
    "country",
    "drop",
    "tuck",
    "oversize",
)
"""Settings that tell how cloth is bought, and what goes round the quilt: no block is sewn by them."""
_ANY_ID = 10**9
"""More than any id of a design: a workroom gives none."""


@dataclass(frozen=True, slots=True)
class Work:
    """A block of the shelf and what its making gives; where the making fails, the fault instead."""

    block: Block
    letters: tuple[str, ...]
    outcome: Facts | PiecewrightError

    @property
    def facts(self) -> Facts:
        """What the making gives. Raises the fault where it fails."""
        if isinstance(self.outcome, PiecewrightError):
            raise self.outcome
        return self.outcome


@dataclass(frozen=True, eq=False)
class Workroom:
    """All of a design that decides how its blocks are sewn: placements change, this stays.

    Compared by identity; the stage `workroom` gives the same one for the same values.
    """

    design: Design

    @cached_property
    def settings(self) -> Settings:
        """The quilter's settings."""
        return self.design.settings

    @cached_property
    def truing(self) -> Truing:
        """What truing takes of a strip set."""
        return Truing(self.settings.trim_first, self.settings.trim_again, self.settings.trim_every)

    @cached_property
    def works(self) -> dict[str, Work]:
        """Every block on the shelf by its id, as far as asked for."""
        return {}

    def work(self, block_id: str) -> Work:
        """The block of that id as it is sewn."""
        found = self.works.get(block_id)
        if found is None:
            found = self.works[block_id] = _work(self.design, self.design.shelf.blocks[block_id], self.truing)
        return found

    @cached_property
    def _positions(self) -> dict[str, int]:
        return {block.id: index for index, block in enumerate(self.design.blocks)}

    def position(self, block_id: str) -> int:
        """Where a block stands on the shelf."""
        return self._positions[block_id]

    def usable(self, fabric: str) -> Fraction:
        """The usable width of a fabric, its own or the design's."""
        return usable_width(self.design.shelf.fabrics.get(fabric), self.settings)

    def one_way(self, fabric: str) -> bool:
        """Whether a fabric's print has an up and a down."""
        found = self.design.shelf.fabrics.get(fabric)
        return found is not None and found.print is not None and found.print.one_way

    def set_key(self, bed: Bed, fabrics: dict[str, str]) -> SetKey:
        """The key of the sets a bed is cut from; `fabrics` by letter, in the layer meant."""
        lanes = tuple(Lane(fabrics[lane.fabric], lane.width, lane.grain) for lane in bed.lanes)
        turned = lanes[::-1]
        if turned < lanes and not any(self.one_way(lane.fabric) for lane in lanes):
            return SetKey(turned)
        return SetKey(lanes)

    def capacity(self, key: SetKey) -> Fraction | None:
        """How long a set can be: its narrowest cloth. None where all strips run lengthwise along the bolt."""
        lengths = [length for lane in key.lanes if (length := self._longest(lane)) is not None]
        return min(lengths, default=None)

    def _longest(self, lane: Lane) -> Fraction | None:
        usable = self.usable(lane.fabric)
        if lane.grain == "lengthwise":
            return None if lane.width <= usable else NOTHING
        if lane.grain == "bias":
            # a square-ended strip at 45 degrees lies across (length + width) / sqrt 2 of the cloth
            return max(NOTHING, _DOWN(float(usable) * sqrt(2) - float(lane.width)))
        return usable


@stage(keep=64)
def cloths(fabrics: tuple[Fabric, ...]) -> tuple[Fabric, ...]:
    """The fabrics with only what sewing needs of them: a new color or name leaves every count alone."""
    return tuple(
        Fabric(
            id=fabric.id,
            name=fabric.id,
            color="#000000",
            width=fabric.width,
            print=_ONE_WAY if fabric.print and fabric.print.one_way else None,
            forms=tuple(form for form in fabric.forms if form.bought),
        )
        for fabric in fabrics
    )


@stage(keep=8)
def workroom(
    fabrics: tuple[Fabric, ...],
    recipes: tuple[RecipeEntry, ...],
    blocks: tuple[Block, ...],
    settings: Settings,
) -> Workroom:
    """The workroom for `cloths`, recipes, blocks and `sewing_settings` of a design."""
    return Workroom(Design("workroom", fabrics, recipes, blocks, settings=settings, next_id=_ANY_ID))


def workroom_of(design: Design) -> Workroom:
    """The workroom of a design."""
    sewing = sewing_settings(design.settings)
    blocks = tuple(block.changed(made=0) if block.made else block for block in design.blocks)
    return workroom(cloths(design.fabrics), design.recipes, blocks, sewing)


@stage(keep=64)
def sewing_settings(settings: Settings) -> Settings:
    """The settings without those that only tell how cloth is bought."""
    plain = Settings()
    return settings.changed(**{name: getattr(plain, name) for name in _BUYING})


def effective(letters: tuple[str, ...], stack: int, fabrics: Letters) -> FabricsByLetter:
    """The fabric ids of each letter in every layer of the stack; a letter without fabric is "?A"."""
    return tuple(
        (letter, tuple(fabrics.fabric(letter, layer) or UNCHOSEN + letter for layer in range(stack)))
        for letter in letters
    )


def batch_key(work: Work, fabrics: FabricsByLetter) -> BatchKey:
    """The key by which alike makings are sewn together, whatever block of the shelf they belong to."""
    block = work.block
    return BatchKey(block.recipe, tuple(block.sizes.items()), tuple(block.draws.items()), fabrics)


def _work(design: Design, block: Block, truing: Truing) -> Work:
    recipe = design.shelf.recipes[block.recipe]
    try:
        found = trued_facts(recipe, given_of(design, block), truing)
    except PiecewrightError as fault:
        return Work(block, recipe.letters, fault)
    return Work(block, recipe.letters, found)


def trued_facts(recipe: Recipe, given: Given, truing: Truing) -> Facts:
    """The facts, where a bed that asks for the whole usable width gets it less the truing of its cuts.

    So 6 x 7 = 42 of 42 in becomes 5 to a set.
    """
    usable = given.usable
    found = facts(recipe, given)
    for _ in range(_MOST_TRIES):
        whole = [bed for bed in found.beds if bed.whole and not bed.trims]
        over = max((_over(bed, given.usable, truing) for bed in whole), default=NOTHING)
        if over <= 0 or over >= usable:
            break
        usable -= over
        found = facts(recipe, replace(given, usable=usable))
    return found


def _over(bed: Bed, usable: Fraction, truing: Truing) -> Fraction:
    """Inches by which the cuts of a whole bed and their truing are more than the usable width."""
    cuts = bed.cuts or (bed.length,)
    return sum(cuts, NOTHING) + truing.loss(len(cuts)) - usable

"""A block as it is being made up: recipe, sizes and fabrics, and what would come out; no widget knows more."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from random import Random

from piecewright.edit.blocks import recipe_id
from piecewright.edit.facts_of import facts_of
from piecewright.edit.footprint import footprint
from piecewright.edit.ids import new_ids
from piecewright.edit.registry import EditCall, apply, call
from piecewright.errors import PiecewrightError
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.names import resolve_names, vary_range
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import dark_to_light
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.naming import free_name
from piecewright.model.quilt import Placement
from piecewright.model.value import NO_SIZES, Letters, Sizes
from piecewright.plan.batches import batch
from piecewright.plan.workroom import batch_key, effective, workroom_of
from piecewright.render.tint import lightness
from piecewright.words.message import Message, message
from piecewright_qt.shelf.cards import Face, faces_of
from piecewright_qt.wall.looks import Looks


@dataclass(frozen=True)
class Outcome:
    """What a draft gives: its `facts` and faces, what to know, or the `fault` that stops it."""

    facts: Facts | None
    faces: tuple[Face, ...]
    notes: tuple[Message | PiecewrightError, ...]
    fault: PiecewrightError | None = None


@dataclass(frozen=True)
class BlockDraft:
    """A block to be added to a design, or one to be changed: then `before` is it. Sizes are inches."""

    design: Design
    recipe: Recipe
    name: str
    sizes: Mapping[str, Fraction]
    fabrics: Letters
    draws: Sizes = NO_SIZES
    before: Block | None = None
    made: int = 0

    @property
    def call(self) -> EditCall:
        """The one edit that this draft ends in."""
        own = Sizes({name: size for name, size in self.sizes.items() if size != self.recipe.sizes[name][0]})
        fabrics = _plain_letters(self.fabrics)
        if self.before is not None:
            begun = draft_of(self.design, self.before)
            changed = self.before.changed(
                name=self.name,
                sizes=self.before.sizes if self.sizes == begun.sizes else own,
                fabrics=self.before.fabrics if self.fabrics == begun.fabrics else fabrics,
                draws=self.draws,
                made=self.made,
            )
            return call("change-block", block=changed)
        known = recipe_id(self.design, self.recipe)
        source = {"recipe": known} if known is not None else {"new_recipe": self.recipe}
        return call(
            "add-block",
            name=self.name,
            sizes=own,
            fabrics=fabrics,
            draws=self.draws,
            made=self.made,
            **source,
        )

    def outcome(self) -> Outcome:
        """Make it, in a copy of the design that has it."""
        try:
            after = apply(self.design, self.call)
            block = self.before.id if self.before is not None else new_ids(self.design, after)[-1]
            made = facts_of(after, block)
        except PiecewrightError as fault:
            return Outcome(None, (), (), fault)
        return Outcome(made, faces_of(Looks(after), block, made), _notes(after, block, made))

    def with_fabric(self, letter: str, layer: int, fabric: str) -> "BlockDraft":
        """The draft with another fabric for a letter in one layer of the stack."""
        ids = list(self.fabrics.get(letter, (fabric,) * self.recipe.stack))
        ids[layer] = fabric
        return replace(self, fabrics=self.fabrics.with_item(letter, tuple(ids)))

    def drawn_anew(self, chance: Random) -> "BlockDraft":
        """The draft with other values for what the recipe varies."""
        draws: dict[str, Fraction] = {}
        for name, varied in self.recipe.vary.items():
            names = resolve_names(self.recipe, Given(sizes=self.sizes, draws=draws))
            choices = vary_range(varied, names, name)
            draws[name] = choices.value(chance.randrange(choices.count))
        return replace(self, draws=Sizes(draws))


def new_draft(design: Design, recipe: Recipe) -> BlockDraft:
    """A block by a recipe that could be added as it is: its first sizes, fabrics that stand apart, a free name."""
    name = free_name(recipe.name, {block.name for block in design.blocks})
    sizes = {size: choices[0] for size, choices in recipe.sizes.items()}
    return BlockDraft(design, recipe, name, sizes, first_fabrics(design, recipe))


def draft_of(design: Design, block: Block) -> BlockDraft:
    """A block of the design, to be changed."""
    recipe = design.shelf.recipes[block.recipe]
    sizes = {size: block.sizes.get(size, choices[0]) for size, choices in recipe.sizes.items()}
    layers = range(recipe.stack)
    fabrics = {
        letter: tuple(ids[layer % len(ids)] for layer in layers) for letter, ids in block.fabrics.items()
    }
    return BlockDraft(design, recipe, block.name, sizes, Letters(fabrics), block.draws, block, block.made)


def first_fabrics(design: Design, recipe: Recipe) -> Letters:
    """Fabrics to begin with: spread evenly from the lightest to the darkest, so that neighbors stand apart.

    A recipe that wants its fabrics sorted by value gets them from dark to light.
    In a stack every layer begins one further, so that each block gets every fabric.
    """
    if not design.fabrics:
        return Letters()
    ordered = sorted(design.fabrics, key=lambda fabric: -lightness(fabric.color))
    wanted = max(len(recipe.letters), recipe.stack)
    count = min(wanted, len(ordered))
    numbers = [*reversed(range(count))] if recipe in dark_to_light() else _apart(count)
    spread = [ordered[_spread(n, count, len(ordered))].id for n in numbers]
    return Letters(
        {
            letter: tuple(spread[(index + layer) % count] for layer in range(recipe.stack))
            for index, letter in enumerate(recipe.letters)
        }
    )


def strips_to_cut(made: Facts) -> list[Message]:
    """What to cut for one batch, a heading first."""
    heading = message(
        "making.text-strips" if made.stack == 1 else "making.text-strips-layered", layers=made.stack
    )
    lines = [
        message(
            "making.text-strip-least" if strip.least else "making.text-strip",
            fabric=strip.fabric,
            count=strip.count,
            width=strip.width,
            length=strip.length,
        )
        for strip in made.strips
    ]
    return [heading, *lines]


def _notes(design: Design, block: str, made: Facts) -> tuple[Message | PiecewrightError, ...]:
    """What to know of a block that can be made: the plan's own findings, the grid, warnings of the making."""
    notes: list[Message | PiecewrightError] = []
    room = workroom_of(design)
    work = room.work(block)
    try:
        key = batch_key(work, effective(work.letters, made.stack, work.block.fabrics))
        kind = made.kinds[0]
        found = batch(room, key, ((block, 0, kind.layers[0], 1),))
        notes += [
            part for finding in found.findings for part in (finding.message, finding.hint) if part is not None
        ]
        footprint(design, Placement(0, block))
    except PiecewrightError as fault:
        notes.append(fault)
    notes += [message("shelf.warning", step=one.step, said=one.message) for one in made.warnings]
    return tuple(notes)


def _plain_letters(fabrics: Letters) -> Letters:
    """Letters with one fabric in all layers name it once."""
    return Letters({letter: ids if len(set(ids)) > 1 else ids[:1] for letter, ids in fabrics.items()})


def _spread(number: int, count: int, among: int) -> int:
    return number * (among - 1) // (count - 1) if count > 1 else 0


def _apart(count: int) -> list[int]:
    """0 to count - 1, from the ends to the middle by turns: what follows each other differs most."""
    low, high, found = 0, count - 1, list[int]()
    while low <= high:
        found += [low, high] if low < high else [low]
        low, high = low + 1, high - 1
    return found

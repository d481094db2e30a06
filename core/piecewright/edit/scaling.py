"""Blocks made larger or smaller: the sizes that finish a block at a multiple of what it finishes at now."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import islice, product

from piecewright.edit.facts_of import facts_of, given_of
from piecewright.edit.ids import with_new_id
from piecewright.errors import MakingError, RecipeError
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.value import Sizes
from piecewright.units.sizes import Finished

MOST_TRIED = 64
"""How many combinations of a recipe's listed sizes are tried for one block."""


def with_blocks_scaled(design: Design, factor: Fraction) -> tuple[Design, dict[str, str]]:
    """The design in which the blocks in view are made `factor` times as large where they can be.

    Also gives, for each of those blocks, the id it now has: its own, or a new one where the block lies in
    other arrangements too and stays as it is for them. None of a new size is made yet.
    """
    others = frozenset[str]().union(
        *(quilt.blocks for quilt in design.arrangements if quilt is not design.quilt)
    )
    names: dict[str, str] = {}
    for block in design.blocks:
        sizes = scaled_sizes(design, block, factor) if block.id in design.quilt.blocks else None
        if sizes is None:
            continue
        names[block.id] = block.id
        if sizes == block.sizes:
            continue
        if block.id in others:
            names[block.id], design = with_new_id(design, "b")
            design = design.changed(
                blocks=(*design.blocks, block.changed(id=names[block.id], sizes=sizes, made=0))
            )
        else:
            changed = block.changed(sizes=sizes, made=0)
            design = design.changed(blocks=tuple(changed if old is block else old for old in design.blocks))
    return design, names


def scaled_sizes(design: Design, block: Block, factor: Fraction) -> Sizes | None:
    """The sizes that finish a block at `factor` times its present size; None where none are found."""
    recipe = design.shelf.recipes[block.recipe]
    try:
        now = facts_of(design, block.id).finished
    except (RecipeError, MakingError):
        return None
    wanted = Finished(now.width * factor, now.height * factor)
    for sizes in _candidates(recipe, block, factor):
        if _finished(design, recipe, block.changed(sizes=sizes)) == wanted:
            return sizes
    return None


def block_units(design: Design) -> tuple[Fraction, ...]:
    """Cell sizes, rising, to which every block in view whose recipe lists sizes can be brought."""
    unit = design.quilt.lattice.unit
    offered: set[Fraction] | None = None
    for block in design.blocks:
        if block.id not in design.quilt.blocks or not design.shelf.recipes[block.recipe].sizes:
            continue
        factors = {unit * factor for factor in _listed_factors(design, block)}
        offered = factors if offered is None else offered & factors
    return tuple(sorted(offered or {unit}))


def _listed_factors(design: Design, block: Block) -> Iterator[Fraction]:
    recipe = design.shelf.recipes[block.recipe]
    now = _finished(design, recipe, block)
    for sizes in _listed(recipe):
        other = _finished(design, recipe, block.changed(sizes=sizes))
        if now is None or other is None or isinstance(now.width, float) or isinstance(other.width, float):
            continue
        if other.width * now.height == other.height * now.width:
            yield Fraction(other.width) / now.width


def _candidates(recipe: Recipe, block: Block, factor: Fraction) -> Iterator[Sizes]:
    """The sizes as they are, all of them scaled, then those the recipe lists."""
    current = _current(recipe, block)
    yield block.sizes
    if current:
        yield Sizes({name: size * factor for name, size in current.items()})
        yield from _listed(recipe)


def _listed(recipe: Recipe) -> Iterator[Sizes]:
    names = tuple(recipe.sizes)
    choices = product(*(recipe.sizes[name] for name in names))
    for sizes in islice(choices, MOST_TRIED):
        yield Sizes(zip(names, sizes, strict=True))


def _current(recipe: Recipe, block: Block) -> dict[str, Fraction]:
    return {name: block.sizes.get(name, choices[0]) for name, choices in recipe.sizes.items()}


def _finished(design: Design, recipe: Recipe, block: Block) -> Finished | None:
    try:
        return facts(recipe, given_of(design, block)).finished
    except (RecipeError, MakingError):
        return None

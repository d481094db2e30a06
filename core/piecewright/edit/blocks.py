"""The shelf: recipes and the blocks made by them, added, changed and taken away."""

from piecewright.edit.fitting import check_still_fits
from piecewright.edit.ids import with_new_id
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import Arguments, edit, last_wins
from piecewright.edit.wall import check_block, with_placements
from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.quilt import Placement, Quilt
from piecewright.model.value import NO_LETTERS, NO_SIZES, Letters, Sizes
from piecewright.words.message import message


@edit("add-recipe", undo="edit.undo-add-recipe")
def add_recipe(design: Design, *, recipe: Recipe) -> Design:
    """Add a recipe under a new id; one that the design has already is not added again."""
    if recipe_id(design, recipe) is not None:
        return design
    new, counted = with_new_id(design, "r")
    return counted.changed(recipes=(*design.recipes, RecipeEntry(new, recipe)))


def _one_recipe(previous: Arguments, following: Arguments) -> Arguments | None:
    """Both as one, where the recipe in between makes the blocks lose nothing that the last one knows."""
    between, last = previous["to"], following["to"]
    if previous["recipe"] != following["recipe"] or not (
        set(last.letters) <= set(between.letters)
        and last.sizes.keys() <= between.sizes.keys()
        and last.vary.keys() <= between.vary.keys()
    ):
        return None
    return {**following, "fabrics": Letters({**following["fabrics"], **previous["fabrics"]})}


@edit("change-recipe", undo="edit.undo-change-recipe", merge=_one_recipe)
def change_recipe(design: Design, *, recipe: str, to: Recipe, fabrics: Letters = NO_LETTERS) -> Design:
    """Put another recipe in the place of one, by its id.

    Its blocks keep the letters, sizes and draws that the new one has; `fabrics` are for letters they have not yet.

    Raises EditError where placed blocks would no longer fit.
    """
    check_recipe(design, recipe)
    return check_still_fits(design, _with_recipe(design, recipe, to, fabrics))


@edit("remove-recipe", undo="edit.undo-remove-recipe")
def remove_recipe(design: Design, *, recipe: str) -> Design:
    """Take away a recipe that no block uses.

    Raises EditError, with the count of its blocks, where some do.
    """
    check_recipe(design, recipe)
    count = sum(block.recipe == recipe for block in design.blocks)
    if count:
        refuse(
            "recipe-used",
            message("edit.remove-blocks-first"),
            name=design.shelf.recipes[recipe].name,
            count=count,
        )
    return design.changed(recipes=tuple(entry for entry in design.recipes if entry.id != recipe))


@edit("add-block", undo="edit.undo-add-block")
def add_block(
    design: Design,
    *,
    name: str,
    recipe: str = "",
    new_recipe: Recipe | None = None,
    sizes: Sizes = NO_SIZES,
    fabrics: Letters = NO_LETTERS,
    draws: Sizes = NO_SIZES,
    favorite: bool = False,
    note: str = "",
    made: int = 0,
) -> Design:
    """Add a block to the end of the shelf, made by a recipe of the design or a new one that comes along."""
    if new_recipe is not None:
        design = add_recipe(design, recipe=new_recipe)
        recipe = recipe_id(design, new_recipe) or recipe
    check_recipe(design, recipe)
    new, counted = with_new_id(design, "b")
    block = Block(new, name, recipe, sizes, fabrics, draws, favorite, note, made)
    return counted.changed(blocks=(*design.blocks, block))


def _same_block(previous: Arguments, following: Arguments) -> Arguments | None:
    return following if previous["block"].id == following["block"].id else None


@edit("change-block", undo="edit.undo-change-block", merge=_same_block)
def change_block(design: Design, *, block: Block) -> Design:
    """Put a block in the place of the one that has its id.

    Raises EditError where placed blocks would no longer fit.
    """
    check_block(design, block.id)
    check_recipe(design, block.recipe)
    return check_still_fits(design, _with_block(design, block))


@edit("remake-block", undo="edit.undo-remake-block")
def remake_block(design: Design, *, block: Block, to: Recipe) -> Design:
    """Put another recipe in the place of a block's, and the block in the place of the one that has its id, at once.

    For lengths that were found together: those of the steps in the recipe, the sizes in the block. Other blocks of
    the recipe follow it as they do under "change-recipe". Raises EditError where placed blocks would no longer fit.
    """
    check_block(design, block.id)
    check_recipe(design, block.recipe)
    return check_still_fits(design, _with_block(_with_recipe(design, block.recipe, to, NO_LETTERS), block))


@edit("remove-block", undo="edit.undo-remove-block")
def remove_block(design: Design, *, block: str) -> Design:
    """Take a block off the shelf that lies on no wall.

    Raises EditError, with the count of its places, where it does.
    """
    check_block(design, block)
    count = placed_count(design, block)
    if count:
        refuse(
            "block-used", message("edit.lift-block-first"), name=design.shelf.blocks[block].name, count=count
        )
    return design.changed(blocks=tuple(old for old in design.blocks if old.id != block))


@edit("set-favorite", undo="edit.undo-favorite")
def set_favorite(design: Design, *, block: str, favorite: bool) -> Design:
    """Mark a block as a favorite, or no longer."""
    check_block(design, block)
    return design.changed(
        blocks=tuple(old.changed(favorite=favorite) if old.id == block else old for old in design.blocks)
    )


@edit("set-made", undo="edit.undo-set-made", merge=last_wins("block"))
def set_made(design: Design, *, block: str, made: int) -> Design:
    """Say how many of a block are sewn so far."""
    check_block(design, block)
    blocks = tuple(old.changed(made=made) if old.id == block else old for old in design.blocks)
    return design.changed(blocks=blocks)


def recipe_id(design: Design, recipe: Recipe) -> str | None:
    """The id under which the design has an equal recipe; None where it has none."""
    return next((entry.id for entry in design.recipes if entry.recipe == recipe), None)


def placed_count(design: Design, block: str) -> int:
    """In how many places, of all arrangements, a block lies; a border pieced of it is one."""
    quilts = [quilt for quilt in design.arrangements if block in quilt.blocks]
    borders = sum(quilt.blocks_around.count(block) for quilt in design.arrangements)
    return borders + sum(
        one.block == block for quilt in quilts for row in quilt.rows for one in row.placements
    )


def check_recipe(design: Design, recipe: str) -> None:
    """Refuse a recipe id that the design has not."""
    if recipe not in design.shelf.recipes:
        refuse("no-recipe", message("edit.add-recipe-first"), id=recipe)


def _with_recipe(design: Design, recipe: str, to: Recipe, fabrics: Letters) -> Design:
    """The design with a recipe replaced, its blocks keeping what the new one knows."""
    entries = tuple(RecipeEntry(recipe, to) if entry.id == recipe else entry for entry in design.recipes)
    blocks = tuple(_under(block, to, fabrics) if block.recipe == recipe else block for block in design.blocks)
    made = frozenset(block.id for block in design.blocks if block.recipe == recipe)
    stale = frozenset(design.shelf.recipes[recipe].letters).difference(to.letters)
    quilts = tuple(_without_letters(quilt, made, stale) for quilt in design.arrangements)
    return design.changed(recipes=entries, blocks=blocks, arrangements=quilts)


def _with_block(design: Design, block: Block) -> Design:
    """The design with a block replaced."""
    known = design.shelf.recipes[block.recipe].letters
    stale = frozenset(design.shelf.letters(block.id)).difference(known)
    quilts = tuple(_without_letters(quilt, frozenset({block.id}), stale) for quilt in design.arrangements)
    blocks = tuple(block if old.id == block.id else old for old in design.blocks)
    return design.changed(blocks=blocks, arrangements=quilts)


def _under(block: Block, recipe: Recipe, fabrics: Letters) -> Block:
    """The block with what its new recipe still knows, and fabrics for letters that are new to it."""
    known = Letters({**fabrics, **block.fabrics})
    return block.changed(
        sizes=block.sizes.without(frozenset(block.sizes).difference(recipe.sizes)),
        draws=block.draws.without(frozenset(block.draws).difference(recipe.vary)),
        fabrics=known.without(frozenset(known).difference(recipe.letters)),
    )


def _without_letters(quilt: Quilt, blocks: frozenset[str], letters: frozenset[str]) -> Quilt:
    """The arrangement in which placements of these blocks no longer replace these letters."""
    if not letters or quilt.blocks.isdisjoint(blocks):
        return quilt

    def freed(placement: Placement) -> Placement:
        if placement.block not in blocks or letters.isdisjoint(placement.fabrics):
            return placement
        return placement.changed(fabrics=placement.fabrics.without(letters))

    return quilt.changed(rows=with_placements(quilt, freed))

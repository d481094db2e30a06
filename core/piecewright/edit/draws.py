"""Blocks that differ only in what is left to chance: drawn, looked at, and kept."""

from piecewright.edit.facts_of import given_of
from piecewright.edit.ids import with_new_id
from piecewright.edit.refusing import refuse
from piecewright.edit.registry import edit
from piecewright.edit.wall import check_block
from piecewright.making.names import resolve_names
from piecewright.model.design import Design
from piecewright.model.naming import free_name
from piecewright.model.value import Sizes
from piecewright.words.message import message


@edit("keep-draws", undo="edit.undo-keep-draws")
def keep_draws(design: Design, *, block: str, draws: tuple[Sizes, ...]) -> Design:
    """Add a block to the shelf for each of some draws, like one that is there but for what was drawn.

    The values drawn are what is kept. Raises EditError where the block's recipe leaves nothing to chance, and
    RecipeError for values that it can not draw.
    """
    check_block(design, block)
    like = design.shelf.blocks[block]
    recipe = design.shelf.recipes[like.recipe]
    if not recipe.vary:
        refuse("nothing-varies", message("edit.choose-varied"), name=like.name)
    for drawn in draws:
        changed = like.changed(draws=drawn)
        resolve_names(recipe, given_of(design, changed))
        new, design = with_new_id(design, "b")
        name = free_name(like.name, (one.name for one in design.blocks))
        design = design.changed(blocks=(*design.blocks, changed.changed(id=new, name=name, favorite=False)))
    return design

"""A block begun from nothing: one strip laid on the table, everything else by hand."""

from piecewright.edit.registry import call
from piecewright.making.recipe import Recipe
from piecewright.model.value import Letters
from piecewright_qt.document import Document


def begin_block(document: Document, name: str) -> str | None:
    """Put a block of one strip of the shelf's first fabric on the shelf; its id. None where no fabric is there.

    Name and recipe are its own: two blocks begun alike do not change each other.
    """
    design = document.design
    if not design.fabrics:
        return None
    taken = {block.name for block in design.blocks} | {entry.recipe.name for entry in design.recipes}
    free = next(one for one in (name, *(f"{name} {n}" for n in range(2, len(taken) + 3))) if one not in taken)
    strip = {"make": "strip", "lay": {"fabric": "A", "width": "2 1/2", "length": "20"}}
    recipe = Recipe.from_plain({"recipe": 1, "name": free, "steps": [strip], "block": ["strip"]})
    fabrics = Letters({"A": (design.fabrics[0].id,)})
    if not document.perform(call("add-block", name=free, new_recipe=recipe, fabrics=fabrics)):
        return None
    return document.design.blocks[-1].id

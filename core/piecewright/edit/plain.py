"""Plain blocks: one piece of cloth, as large as it is wanted, that lies on the wall like any other block."""

from fractions import Fraction

from piecewright.edit.blocks import recipe_id
from piecewright.edit.ids import with_new_id
from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.value import Letters, Sizes
from piecewright.units.measure import Measure

PLAIN = Recipe.from_plain(
    {
        "recipe": 1,
        "name": "Plain block",
        "about": "One piece of cloth.",
        "sizes": {"W": ["6", "8", "9", "10", "12"], "H": ["6", "8", "9", "10", "12"]},
        "steps": [{"make": "block", "lay": {"fabric": "A", "width": "H + 2*seam", "length": "W + 2*seam"}}],
        "block": ["block"],
        "finished": ["W", "H"],
    }
)


def with_plain_block(design: Design, width: Fraction, height: Fraction, fabric: str) -> tuple[Design, str]:
    """The design with a plain block of this finished size and fabric on its shelf, and the block's id."""
    recipe = recipe_id(design, PLAIN)
    sizes, letters = Sizes({"W": width, "H": height}), Letters({"A": (fabric,)})
    for block in design.blocks:
        if (block.recipe, block.sizes, block.fabrics) == (recipe, sizes, letters):
            return design, block.id
    if recipe is None:
        recipe, design = with_new_id(design, "r")
        design = design.changed(recipes=(*design.recipes, RecipeEntry(recipe, PLAIN)))
    name, design = with_new_id(design, "b")
    title = f"Plain {Measure().bare(width)} x {Measure().bare(height)}"
    return design.changed(blocks=(*design.blocks, Block(name, title, recipe, sizes, letters))), name

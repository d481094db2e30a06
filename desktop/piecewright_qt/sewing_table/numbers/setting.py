"""A making that was found for the block in hand, put in the place of the one it has, as one undo step."""

from piecewright.edit.registry import call
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.model.value import Sizes
from piecewright_qt.sewing_table.bench import Bench


def set_made(bench: Bench, recipe: Recipe, given: Given) -> bool:
    """Give the block these lengths and sizes. False where that was refused, which is said.

    Sizes are the block's own. Where steps change as well they are two edits, since other blocks may share the steps.
    """
    block, standing = bench.block, bench.standing
    if block is None or standing is None:
        return False
    sizes = Sizes({**block.sizes, **given.sizes})
    done = True
    if sizes != block.sizes:
        done = bench.document.perform(call("change-block", block=block.changed(sizes=sizes)))
    if done and recipe != standing.sound:
        done = bench.change(recipe.plain)
    return done

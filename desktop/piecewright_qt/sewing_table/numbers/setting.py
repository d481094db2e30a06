"""A making that was found for the block in hand, put in the place of the one it has, as one undo step."""

from piecewright.edit.registry import call
from piecewright.errors import EditError
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.model.value import Sizes
from piecewright_qt.sewing_table.bench import Bench


def set_made(bench: Bench, recipe: Recipe, given: Given) -> EditError | None:
    """Give the block these lengths and sizes; where that can not be, nothing changes and the answer is why."""
    block, standing, document = bench.block, bench.standing, bench.document
    if block is None or standing is None:
        return None
    after = block.changed(sizes=Sizes({**block.sizes, **given.sizes}))
    if recipe == standing.sound:
        setting = call("change-block", block=after)
    elif after == block:
        setting = call("change-recipe", recipe=block.recipe, to=recipe)
    else:
        setting = call("remake-block", block=after, to=recipe)
    refused = None if document.preview(setting) else document.preview_refusal
    document.drop_preview()
    if refused is None:
        document.perform(setting)
    return refused

"""The facts of a design's blocks: the one place where a block meets the settings it is made under."""

from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.settings import Settings


def given_under(settings: Settings, block: Block) -> Given:
    """What the making of a block is given under these settings."""
    return Given(
        sizes=block.sizes,
        seam=settings.seam,
        usable=settings.usable,
        draws=block.draws,
        lost=settings.lost_per_seam,
    )


def given_of(design: Design, block: Block) -> Given:
    """What the making of a block is given in this design."""
    return given_under(design.settings, block)


def facts_of(design: Design, block: str) -> Facts:
    """The facts of the block with this id.

    Raises KeyError for an unknown id, RecipeError or MakingError as its making does.
    """
    found = design.shelf.blocks[block]
    return facts(design.shelf.recipes[found.recipe], given_of(design, found))


def stack_of(design: Design, block: str) -> int:
    """How many layers the block with this id is cut in together."""
    return design.shelf.recipes[design.shelf.blocks[block].recipe].stack

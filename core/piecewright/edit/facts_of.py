"""The facts of a design's blocks: the one place where a block meets the settings it is made under."""

from dataclasses import replace

from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.settings import Settings


def given_under(settings: Settings, block: Block) -> Given:
    """What the making of a block is given under these settings, sewn to the nominal seam."""
    return Given(sizes=block.sizes, seam=settings.seam, usable=settings.usable, draws=block.draws)


def given_of(design: Design, block: Block) -> Given:
    """What the making of a block is given in this design, sewn to the nominal seam: what all plans go by."""
    return given_under(design.settings, block)


def facts_of(design: Design, block: str) -> Facts:
    """The facts of the block with this id, sewn to the nominal seam.

    Raises KeyError for an unknown id, RecipeError or MakingError as its making does.
    """
    found = design.shelf.blocks[block]
    return facts(design.shelf.recipes[found.recipe], given_of(design, found))


def sewn_facts_of(design: Design, block: str) -> Facts:
    """The same with the quilter's own seam carried through: what the block will really measure.

    Raises as `facts_of` does.
    """
    found = design.shelf.blocks[block]
    given = replace(given_of(design, found), lost=design.settings.lost_per_seam)
    return facts(design.shelf.recipes[found.recipe], given)


def stack_of(design: Design, block: str) -> int:
    """How many layers the block with this id is cut in together."""
    return design.shelf.recipes[design.shelf.blocks[block].recipe].stack

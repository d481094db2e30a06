"""The facts of a design's blocks: the one place where a block meets the settings it is made under."""

from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.forms import bought_form, form_size
from piecewright.model.settings import Settings

Widths = tuple[tuple[str, Fraction], ...]
"""Usable widths by fabric id."""


def usable_width(fabric: Fabric | None, settings: Settings) -> Fraction:
    """How long a strip from selvage to selvage is, inches: of the form bought, or the cloth's or design's usable."""
    if fabric is None:
        return settings.usable
    quarter = settings.bundles.quarter_width, settings.bundles.quarter_length
    return form_size(bought_form(fabric.forms), fabric.width or settings.usable, quarter)[0]


@lru_cache(maxsize=64)
def narrow_widths(fabrics: tuple[Fabric, ...], settings: Settings) -> Widths:
    """The fabrics that are narrower than the design's usable width."""
    widths = ((fabric.id, usable_width(fabric, settings)) for fabric in fabrics)
    return tuple((fabric, width) for fabric, width in widths if width < settings.usable)


def given_under(settings: Settings, narrow: Widths, block: Block) -> Given:
    """What the making of a block is given under these settings, sewn to the nominal seam.

    Usable is the width of its narrowest fabric, for all strips of a set are as long; never more than the design's.
    """
    named = block.fabrics.ids() if narrow else frozenset()
    usable = min([settings.usable, *(width for fabric, width in narrow if fabric in named)])
    return Given(sizes=block.sizes, seam=settings.seam, usable=usable, draws=block.draws)


def given_of(design: Design, block: Block) -> Given:
    """What the making of a block is given in this design, sewn to the nominal seam: what all plans go by."""
    return given_under(design.settings, narrow_widths(design.fabrics, design.settings), block)


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

"""What a quilt is to be resized to: a size, a bed, or whatever the blocks at hand give."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from piecewright.errors import EditError
from piecewright.model.design import Design
from piecewright.model.settings import Country, Settings
from piecewright.plan.trade import bed_quilt, mattresses, sewn_for_washed
from piecewright.units.rounding import round_length
from piecewright.units.sizes import Finished
from piecewright.words.message import message


@dataclass(frozen=True, slots=True)
class SizeWish:
    """A finished size, borders included, inches."""

    width: Fraction
    height: Fraction


@dataclass(frozen=True, slots=True)
class BedWish:
    """A bed by the name of its mattress; its country is that of the settings where none is told.

    Drop, pillow tuck and what washing takes are those of the settings.
    """

    mattress: str
    country: Country | None = None


@dataclass(frozen=True, slots=True)
class BlocksWish:
    """As large as the blocks made so far allow; where none are counted as made, those that hang."""


Wish = SizeWish | BedWish | BlocksWish


def target_of(wish: SizeWish | BedWish, settings: Settings) -> Finished:
    """The finished size that a wish asks for.

    For a bed it is rounded up as the settings round lengths. Raises EditError for a mattress that its country has not,
    and for a size that is none.
    """
    if isinstance(wish, SizeWish):
        if min(wish.width, wish.height) <= 0:
            raise EditError(message("resize.no-size", width=wish.width, height=wish.height))
        return Finished(wish.width, wish.height)
    known = mattresses(wish.country or settings.country)
    found = next((one for one in known if one.name == wish.mattress), None)
    if found is None:
        names = tuple(one.name for one in known)
        raise EditError(message("resize.no-bed", name=wish.mattress), message("resize.beds", names=names))
    sewn = sewn_for_washed(bed_quilt(found, settings), settings)
    width, height = (round_length(Fraction(side), settings.lengths) for side in (sewn.width, sewn.height))
    return Finished(width, height)


def blocks_on(design: Design) -> Counter[str]:
    """How many of each block hang in the arrangement in view, by id."""
    return Counter(one.block for row in design.quilt.rows for one in row.placements)


def blocks_at_hand(design: Design) -> Counter[str]:
    """How many of each block there are to hang, by id: those made, or where none are counted those that hang."""
    made = Counter({block.id: block.made for block in design.blocks if block.made})
    return made or blocks_on(design)


def blocks_to_make(design: Design) -> int:
    """How many of the blocks in view are not made yet."""
    made = {block.id: block.made for block in design.blocks}
    return sum(max(count - made[block], 0) for block, count in blocks_on(design).items())

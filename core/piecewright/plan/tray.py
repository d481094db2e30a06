"""The tray: blocks of the shelf counted against the wall, made and not made, hanging and waiting."""

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache

from piecewright.model.design import Design
from piecewright.model.quilt import Quilt, Row


@dataclass(frozen=True)
class Tray:
    """The blocks of one kind on the shelf, counted against the wall in view: made so far, and hanging on it."""

    made: int
    hanging: int

    @property
    def to_make(self) -> int:
        """How many hang that are not made yet."""
        return max(self.hanging - self.made, 0)

    @property
    def to_place(self) -> int:
        """How many are made and do not hang yet."""
        return max(self.made - self.hanging, 0)


def trays(design: Design) -> Mapping[str, Tray]:
    """Every block of the shelf, by its id and in the shelf's order."""
    hanging = placed_counts(design.quilt)
    return {block.id: Tray(block.made, hanging.get(block.id, 0)) for block in design.blocks}


@lru_cache(maxsize=64)
def placed_counts(quilt: Quilt) -> Mapping[str, int]:
    """How often each block lies in an arrangement. Cached, and by row: an edit changes few."""
    return sum((_counts_of(row) for row in quilt.rows), Counter[str]())


@lru_cache(maxsize=16384)
def _counts_of(row: Row) -> Counter[str]:
    return Counter(placement.block for placement in row.placements)

"""A block on the shelf: a recipe with its sizes and fabrics."""

from piecewright.model.limits import check_count, check_name, check_positive, check_text
from piecewright.model.value import Letters, Sizes, Value

MOST_MADE = 100_000
"""The most blocks of one kind that can be made."""


class Block(Value, frozen=True, omit_defaults=True):
    """What the shelf holds: a recipe, by its id in the design, with sizes and fabrics of its own.

    Sizes left out take the recipe's first choice.

    `fabrics` gives the fabric ids of each letter, by layer; `draws` the drawn values of a recipe that varies.
    `made` counts the blocks that are sewn so far.
    """

    id: str
    name: str
    recipe: str
    sizes: Sizes = Sizes()
    fabrics: Letters = Letters()
    draws: Sizes = Sizes()
    favorite: bool = False
    note: str = ""
    made: int = 0

    def __post_init__(self) -> None:
        check_name(self.name, "block")
        check_text(self.note)
        check_count(self.made, "blocks made", 0, MOST_MADE)
        for name, size in self.sizes.items():
            check_positive(size, f"size {name}")

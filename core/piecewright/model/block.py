"""A block on the shelf: a recipe with its sizes and fabrics."""

from piecewright.model.value import Letters, Sizes, Value


class Block(Value):
    """What the shelf holds: `recipe` names an entry of the design's recipes; sizes left out take the recipe's first choice.

    `fabrics` gives the fabric ids of each letter, by layer; `draws` the drawn values of a recipe that varies.
    """

    id: str
    name: str
    recipe: str
    sizes: Sizes = Sizes()
    fabrics: Letters = Letters()
    draws: Sizes = Sizes()
    favorite: bool = False
    note: str = ""

"""The whole design: fabrics, recipes, blocks, arrangements and settings, as one frozen value."""

from typing import Self

from piecewright.making.recipe import Recipe
from piecewright.model.block import Block
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Quilt
from piecewright.model.settings import Settings
from piecewright.model.value import Value

FORMAT = 1


class RecipeEntry(Value):
    """A recipe under the id by which blocks name it."""

    id: str
    recipe: Recipe


class Design(Value):
    """Ids are letters and a number ("f3", "b1", "r2"), drawn from `next_id`; `current` is the arrangement in view."""

    name: str
    fabrics: tuple[Fabric, ...] = ()
    recipes: tuple[RecipeEntry, ...] = ()
    blocks: tuple[Block, ...] = ()
    arrangements: tuple[Quilt, ...] = ()
    current: int = 0
    settings: Settings = Settings()
    about: str = ""
    author: str = ""
    next_id: int = 1
    piecewright: int = FORMAT

    @property
    def quilt(self) -> Quilt:
        """The arrangement in view."""
        return self.arrangements[self.current]

    def with_quilt(self, quilt: Quilt) -> Self:
        """A copy in which the arrangement in view is another."""
        before, after = self.arrangements[: self.current], self.arrangements[self.current + 1 :]
        return self.changed(arrangements=(*before, quilt, *after))

"""A recipe inside another: by the name of one that ships, or written out in its place."""

from typing import TYPE_CHECKING, Self

from piecewright.making.faults import refuse, shown
from piecewright.words.message import message

if TYPE_CHECKING:
    from piecewright.making.recipe import Recipe


class UsedRecipe:
    """The recipe that a step uses. Equal by content; `name` is that of a shipped one, None of one written out."""

    __slots__ = ("name", "recipe")

    def __init__(self, recipe: "Recipe", name: str | None) -> None:
        self.recipe = recipe
        self.name = name

    @classmethod
    def parse(cls, value: object) -> Self:
        """Read a name or a recipe as JSON gives it. Raises RecipeError, placed below the value."""
        # a recipe is read by way of its steps, of which this is a part: so both can not be imported first
        from piecewright.making.recipe import Recipe
        from piecewright.making.shipped import shipped_recipe

        if isinstance(value, str):
            return cls(shipped_recipe(value), value)
        if not isinstance(value, dict):
            refuse("recipe.wrong-value", message("recipe.write-recipe"), value=shown(value))
        return cls(Recipe.from_plain(value), None)

    def __eq__(self, other: object) -> bool:
        if not isinstance(other, UsedRecipe):
            return NotImplemented
        return (self.name, self.recipe) == (other.name, other.recipe)

    def __hash__(self) -> int:
        return hash((self.name, self.recipe))

    def __repr__(self) -> str:
        return f"UsedRecipe({self.recipe!r})"

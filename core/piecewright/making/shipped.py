"""The recipes that come with the program."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from piecewright.making.recipe import Recipe, read_recipe

ENDING = ".recipe.json"


@cache
def shipped_recipes() -> Mapping[str, Recipe]:
    """Every shipped recipe by its file's name without the ending, in order ("rail-fence-of-three")."""
    folder = files("piecewright_data") / "recipes"
    names = sorted(file.name for file in folder.iterdir() if file.name.endswith(ENDING))
    recipes = {name.removesuffix(ENDING): read_recipe((folder / name).read_bytes()) for name in names}
    return MappingProxyType(recipes)

"""The recipes that come with the program."""

from collections.abc import Mapping
from functools import cache
from importlib.resources import files
from types import MappingProxyType

from piecewright.making.recipe import Recipe, read_recipe

ENDING = ".recipe.json"


@cache
def shipped_recipes() -> Mapping[str, Recipe]:
    """Every shipped recipe by its file's name without the ending, such as "rail-fence-of-three", in the order of names."""
    folder = files("piecewright_data") / "recipes"
    found = sorted((file for file in folder.iterdir() if file.name.endswith(ENDING)), key=lambda file: file.name)
    recipes = {file.name.removesuffix(ENDING): read_recipe(file.read_bytes()) for file in found}
    return MappingProxyType(recipes)

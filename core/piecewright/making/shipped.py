"""The recipes that come with the program."""

import json
from collections.abc import Mapping
from contextvars import ContextVar
from functools import cache
from importlib.resources import files
from types import MappingProxyType
from typing import Any

from piecewright.making.faults import nearest, refuse, shown
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.words.message import message

ENDING = ".recipe.json"
_IN_HAND: ContextVar[frozenset[str]] = ContextVar("recipes being read", default=frozenset())


@cache
def shipped_recipes() -> Mapping[str, Recipe]:
    """Every shipped recipe by its file's name without the ending, in order ("rail-fence-of-three")."""
    return MappingProxyType({name: shipped_recipe(name) for name in shipped_names()})


@cache
def shipped_recipe(name: str) -> Recipe:
    """The recipe of that name. Raises RecipeError for a name that none has, and for one that uses itself."""
    if name not in shipped_names():
        near = nearest(name, shipped_names())
        hint = message("recipe.did-you-mean", word=near) if near else message("recipe.write-it-inside")
        refuse("recipe.no-recipe", hint, name=shown(name))
    if name in _IN_HAND.get():
        refuse("recipe.uses-itself", message("recipe.use-another"), name=shown(name))
    token = _IN_HAND.set(_IN_HAND.get() | {name})
    try:
        return read_recipe(_bytes_of(name))
    finally:
        _IN_HAND.reset(token)


@cache
def families() -> Mapping[str, tuple[str, ...]]:
    """The families of the shipped recipes in order, each with the names of its recipes in order."""
    return MappingProxyType({row["family"]: tuple(row["recipes"]) for row in _table()})


@cache
def dark_to_light() -> frozenset[Recipe]:
    """The shipped recipes that look best with fabrics sorted by value, from the first letter to the last."""
    return frozenset(shipped_recipe(name) for row in _table() for name in row.get("dark to light", ()))


@cache
def _table() -> list[dict[str, Any]]:
    table: list[dict[str, Any]] = json.loads(
        (files("piecewright_data") / "recipes" / "families.json").read_bytes()
    )
    return table


@cache
def shipped_names() -> tuple[str, ...]:
    """The names of the recipes that ship, in order; none of them is read."""
    folder = files("piecewright_data") / "recipes"
    return tuple(
        sorted(file.name.removesuffix(ENDING) for file in folder.iterdir() if file.name.endswith(ENDING))
    )


def _bytes_of(name: str) -> bytes:
    return (files("piecewright_data") / "recipes" / f"{name}{ENDING}").read_bytes()

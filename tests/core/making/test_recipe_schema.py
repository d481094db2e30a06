"""The schema that ships is what the classes say; it takes what the reader takes, and refuses slips."""

import json
from importlib.resources import files
from typing import Any

import pytest
from hypothesis import given
from jsonschema import Draft202012Validator  # type: ignore[import-untyped]  # has no types of its own

from piecewright.errors import MakingError, RecipeError
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.making.schema import recipe_schema
from piecewright.making.shipped import shipped_recipes
from tests.core.making.recipe_spoiling import change, drop, sample, spoiled_recipes

VALIDATOR = Draft202012Validator(recipe_schema())


def test_the_schema_is_itself_in_order() -> None:
    Draft202012Validator.check_schema(recipe_schema())


def test_the_file_that_ships_is_the_schema() -> None:
    """To write it anew: json.dumps(recipe_schema(), indent=2, ensure_ascii=False) and a line end."""
    shipped = (files("piecewright_data") / "schema" / "recipe.schema.json").read_text("utf-8")
    assert shipped == json.dumps(recipe_schema(), indent=2, ensure_ascii=False) + "\n"


def test_every_key_is_described() -> None:
    schema = recipe_schema()
    parts = [schema, *schema["$defs"].values()]
    keys = [key for part in parts for key in part.get("properties", {}).values()]
    assert len(keys) > 40
    assert all(key["description"] for key in keys)


@pytest.mark.parametrize("name", shipped_recipes())
def test_every_shipped_recipe_is_valid(name: str) -> None:
    VALIDATOR.validate(shipped_recipes()[name].plain)


@given(spoiled_recipes())
def test_the_schema_takes_whatever_can_be_made(plain: dict[str, Any]) -> None:
    if not VALIDATOR.is_valid(plain):
        with pytest.raises((RecipeError, MakingError)):
            facts(Recipe.from_plain(plain), Given())


@pytest.mark.parametrize(
    "spoil",
    [
        change("recipe", to=2),
        change("sise", to={}),
        change("name", to=7),
        change("sizes", "F", to="12"),
        change("sizes", "seam", to=["1"]),
        change("let", "cm", to="1"),
        change("stack", to=0),
        change("steps", to=[]),
        change("block", to=None),
        change("finished", to=["F"]),
        change("steps", 0, "make", to="2a"),
        change("steps", 0, "lay", "grain", to="up"),
        change("steps", 3, "every", to=13),
        change("steps", 3, "widths", to=["1"]),
        change("steps", 3, "step", to="1/8"),
        change("steps", 4, "by", to=450),
        change("steps", 4, "level", to="top"),
        change("steps", 4, "which", to="all"),
        change("steps", 4, "cut", to="col.1"),
        drop("steps", 3, "count"),
        drop("steps", 2, "axis"),
        drop("steps", 2, "sew"),
        drop("name"),
    ],
)
def test_slips_of_the_pen_are_refused(spoil: Any) -> None:
    plain = sample()
    VALIDATOR.validate(plain)
    spoil(plain)
    assert not VALIDATOR.is_valid(plain)

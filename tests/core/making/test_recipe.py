"""A recipe is read whole, kept as written, and compared by its content."""

import copy
import json
import pickle
from fractions import Fraction
from typing import Any

import pytest

from piecewright.errors import RecipeError
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.shipped import shipped_recipes

MIDDLE = """{
  "recipe": 1,
  "name": "Middle end for end",
  "about": "Two strips, cut in three, sewn, cut again, the middle turned.",
  "sizes": {"F": ["12", "9", "6"]},
  "let":   {"w": "(F + 12*seam) / 6", "part": "F + 6*seam"},
  "steps": [
    {"make": "a",     "lay": {"fabric": "A", "width": "w", "length": "3 * part"}, "note": "Trim it."},
    {"make": "b",     "lay": {"fabric": "B", "width": "w", "length": "3 * part"}},
    {"make": "set",   "sew": ["a", "b"], "axis": "down"},
    {"make": "third", "cut": "set", "axis": "across", "every": "part", "count": 3},
    {"make": "slab",  "sew": ["third.*"], "axis": "down"},
    {"make": "col",   "cut": "slab", "axis": "across", "every": "part / 3", "count": 3},
    {"make": "mid",   "turn": "col.2", "by": 180},
    {"make": "block", "sew": ["col.1", "mid", "col.3"], "axis": "across"}
  ],
  "block": ["block"],
  "finished": ["F", "F"],
  "note": "½ yd of each fabric makes a handful."
}"""


def plain() -> dict[str, Any]:
    found: dict[str, Any] = json.loads(MIDDLE)
    return found


def test_a_recipe_is_read_from_bytes() -> None:
    recipe = read_recipe(MIDDLE.encode())
    assert recipe.name == "Middle end for end"
    assert recipe.sizes == {"F": (Fraction(12), Fraction(9), Fraction(6))}
    assert recipe.letters == ("A", "B")
    assert [type(step).__name__ for step in recipe.steps] == [
        "Lay",
        "Lay",
        "Sew",
        "Cut",
        "Sew",
        "Cut",
        "Turn",
        "Sew",
    ]
    assert (recipe.stack, recipe.seam, recipe.block) == (1, None, ("block",))


def test_letters_come_in_the_order_of_first_use() -> None:
    swapped = plain()
    swapped["steps"][0]["lay"]["fabric"] = "Z"
    assert Recipe.from_plain(swapped).letters == ("Z", "B")


def test_bytes_may_begin_with_a_mark_of_their_order() -> None:
    assert read_recipe(MIDDLE.encode("utf-8-sig")) == read_recipe(MIDDLE.encode())


@pytest.mark.parametrize("name", shipped_recipes())
def test_what_is_kept_is_what_was_read_with_notes_and_order(name: str) -> None:
    recipe = shipped_recipes()[name]
    again = Recipe.from_plain(recipe.plain)
    assert again == recipe
    assert hash(again) == hash(recipe)
    assert json.dumps(again.plain) == json.dumps(recipe.plain)


def test_the_plain_form_is_what_the_file_says_key_by_key() -> None:
    assert json.dumps(read_recipe(MIDDLE.encode()).plain) == json.dumps(plain())


def test_the_plain_form_is_fresh_and_the_recipe_does_not_change_with_it() -> None:
    source = plain()
    recipe = Recipe.from_plain(source)
    source["steps"].clear()
    recipe.plain["name"] = "Another"
    assert recipe.plain == plain()
    with pytest.raises(AttributeError):
        recipe.name = "Another"  # type: ignore[misc]


def test_the_order_of_keys_makes_no_other_recipe_but_that_of_tables_does() -> None:
    recipe = Recipe.from_plain(plain())
    turned = dict(reversed(plain().items()))
    turned["steps"] = [dict(reversed(step.items())) for step in turned["steps"]]
    assert Recipe.from_plain(turned) == recipe
    assert hash(Recipe.from_plain(turned)) == hash(recipe)
    other = {**plain(), "let": dict(reversed(plain()["let"].items()))}
    assert Recipe.from_plain(other) != recipe


def test_any_other_word_makes_another_recipe() -> None:
    recipe = Recipe.from_plain(plain())
    noted, named = plain(), {**plain(), "name": "Middle"}
    noted["steps"][0]["note"] = "Trim both."
    assert len({recipe, Recipe.from_plain(noted), Recipe.from_plain(named)}) == 3
    assert recipe != plain()


def test_a_recipe_goes_through_copies_and_other_processes() -> None:
    recipe = Recipe.from_plain(plain())
    assert copy.deepcopy(recipe) == recipe
    assert pickle.loads(pickle.dumps(recipe)) == recipe  # noqa: S301  our own bytes


def test_a_newer_version_is_told_apart_by_its_code() -> None:
    with pytest.raises(RecipeError) as refusal:
        Recipe.from_plain({"recipe": 2, "steps": "of a kind yet unknown"})
    assert refusal.value.message.code == "making.recipe-newer"

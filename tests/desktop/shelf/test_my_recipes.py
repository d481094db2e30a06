"""Recipes of the user's own shelf among those to choose from, in every design."""

from PySide6.QtWidgets import QApplication

from piecewright.files.folders import recipes_folder
from piecewright.files.own_recipes import keep_recipe
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import families, shipped_recipes
from piecewright_qt.shelf.recipe_cards import Heading, recipe_cards, with_headings
from tests.desktop.shelf.conftest import SetUp
from tests.desktop.shelf.designs import small_design

MINE = Recipe.from_plain({**shipped_recipes()["cut-turn-sew"].plain, "name": "Turned my way"})


def headings() -> list[str]:
    return [card.name for card in with_headings(recipe_cards(small_design())) if isinstance(card, Heading)]


def test_own_recipes_stand_under_their_own_heading_between_the_design_and_those_that_ship() -> None:
    without = headings()
    assert without[-len(families()) :] == [*families()]
    assert "My recipes" not in without
    keep_recipe(recipes_folder(), MINE)
    (recipes_folder() / "torn.recipe.json").write_text("{")
    at = len(without) - len(families())
    assert headings() == [*without[:at], "My recipes", *without[at:]]
    (card,) = (card for card in recipe_cards(small_design()) if card.family == "My recipes")
    assert card.recipe == MINE


def test_a_shipped_recipe_that_is_kept_is_offered_once_and_as_ones_own() -> None:
    name = "wonky-cross"
    keep_recipe(recipes_folder(), shipped_recipes()[name])
    (card,) = (card for card in recipe_cards(small_design()) if card.recipe == shipped_recipes()[name])
    assert card.family == "My recipes"


def test_a_shelf_that_can_not_be_read_leaves_the_others(set_up: SetUp) -> None:
    recipes_folder().parent.mkdir(parents=True)
    recipes_folder().write_text("a file in the way")
    assert "My recipes" not in headings()
    place = set_up(small_design())
    place.shelf.blocks.add.click()
    editor = place.shelf.blocks.editor
    assert editor is not None
    assert editor.column is not None
    QApplication.processEvents()
    assert editor.column.model.recipes

"""Recipes that come and go: kept on the user's own shelf, saved as files to share, opened from files."""

import re
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from piecewright.edit.ids import new_ids
from piecewright.errors import PiecewrightError
from piecewright.files.folders import recipes_folder
from piecewright.files.own_recipes import (
    OwnRecipe,
    keep_recipe,
    own_recipes,
    recipe_in,
    remove_recipe,
    replace_recipe,
    save_recipe,
)
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import ENDING
from piecewright_qt.asking import ask_what_to_open, ask_where_to_save
from piecewright_qt.messages import words
from piecewright_qt.my_recipes import MyRecipes
from piecewright_qt.shelf.block_draft import new_draft

if TYPE_CHECKING:
    from piecewright_qt.window import Window

_NOT_IN_NAMES = re.compile(r"[^\w.-]+")
_ABOUT = "recipe"


class RecipeFiles(QObject):
    """What a window does with recipes beyond its design. Whatever can not be done is said in the notice bar."""

    def __init__(self, window: "Window") -> None:
        super().__init__(window)
        self._window = window

    def keep(self) -> None:
        """Put the recipe in view on the user's own shelf; beside one that has its name, which may be replaced then."""
        recipe = self._in_view()
        if recipe is None:
            return
        try:
            before = own_recipes(recipes_folder())
            kept = keep_recipe(recipes_folder(), recipe)
        except PiecewrightError as error:
            self._refuse(error)
            return
        if kept in before:
            self._window.show_status(self.tr("“{name}” is on your shelf already.").format(name=kept.name))
            return
        self._window.show_status(self.tr("Kept on your shelf: {name}").format(name=kept.name))
        namesake = next((one for one in before if one.name == recipe.name and one.recipe is not None), None)
        if kept.name != recipe.name and namesake is not None:
            self._offer_to_replace(recipe, namesake, kept)

    def save_as(self) -> None:
        """Save the recipe in view as a file under a name the user chooses."""
        recipe = self._in_view()
        if recipe is None:
            return
        name = _NOT_IN_NAMES.sub("-", recipe.name.casefold()).strip("-.")[:80] or "recipe"
        suggested = self._window.workroom.last_folder() / f"{name}{ENDING}"
        kinds = (self.tr("Recipes (*{ending})").format(ending=ENDING),)
        chosen = ask_where_to_save(self._window, self.tr("Save as a recipe file"), suggested, kinds, ENDING)
        if chosen is None:
            return
        try:
            save_recipe(chosen, recipe)
        except PiecewrightError as error:
            self._refuse(error)
        else:
            self._window.show_status(self.tr("Recipe saved: {name}").format(name=chosen.name))

    def drawer(self) -> MyRecipes:
        """The user's own shelf, to be pulled out where the shelf is."""
        return MyRecipes(self._window.document, self._window.look, recipes_folder(), self.open)

    def choose_and_open(self) -> None:
        """Ask for a recipe file and add a block made by it."""
        kinds = (self.tr("Recipes (*{ending} *.json)").format(ending=ENDING),)
        folder = self._window.workroom.last_folder()
        chosen = ask_what_to_open(self._window, self.tr("Open a recipe"), folder, kinds)
        if chosen is not None:
            self.open(chosen)

    def open(self, path: Path) -> bool:
        """Add a block made by the recipe of a file; False where it can not be made, and that is said."""
        document = self._window.document
        try:
            recipe = recipe_in(path)
        except PiecewrightError as error:
            self._refuse(error)
            return False
        draft = new_draft(document.design, recipe)
        fault = draft.outcome().fault
        if fault is not None:
            said = self.tr("“{file}” can be read, but no block comes of it. {why}")
            self._say(said.format(file=path.name, why=words(fault, self._window.look.measure)))
            return False
        before = document.design
        if not document.perform(draft.call):
            return False
        self._window.notice.clear(_ABOUT)
        self._window.show_shelf("blocks")
        page = self._window.shelf.blocks
        page.search.clear()
        page.choose(new_ids(before, document.design)[-1])
        self._window.show_status(self.tr("Added to the shelf: {name}").format(name=draft.name))
        return True

    def _offer_to_replace(self, recipe: Recipe, namesake: OwnRecipe, kept: OwnRecipe) -> None:
        def replace() -> None:
            try:
                replace_recipe(recipes_folder(), namesake, recipe)
                remove_recipe(kept)
            except PiecewrightError as error:
                self._refuse(error)
                return
            self._window.notice.clear(_ABOUT)
            self._window.show_status(self.tr("Kept on your shelf: {name}").format(name=namesake.name))

        said = self.tr("Your shelf has another recipe named “{name}”, so this one is kept as “{new}”.")
        text = said.format(name=recipe.name, new=kept.name)
        self._window.notice.say(text, (self.tr("Replace the other one"), replace), about=_ABOUT)

    def _in_view(self) -> Recipe | None:
        """The recipe at hand: that of the Sewing table while it is in view, else of the block in view."""
        window = self._window
        if window.place == "table":
            draft = window.table.bench.standing
            if draft is None or draft.sound is None:
                self._say(self.tr("The recipe is not in order yet. Mend the step that is marked first."))
                return None
            return draft.sound
        block = window.block_in_view()
        if block is None:
            window.show_status(self.tr("There is no block yet whose recipe could be kept."))
            return None
        shelf = window.document.design.shelf
        return shelf.recipes[shelf.blocks[block].recipe]

    def _refuse(self, error: PiecewrightError) -> None:
        said = words(error, self._window.look.measure)
        self._say(f"{error.where}: {said}" if error.where else said)

    def _say(self, text: str) -> None:
        self._window.notice.say(text, about=_ABOUT)

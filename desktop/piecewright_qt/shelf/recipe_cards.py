"""The recipes to choose from as cards under quiet headings: what is known of each before it is made."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QCoreApplication, Qt

from piecewright.errors import FileError
from piecewright.files.folders import recipes_folder
from piecewright.files.own_recipes import own_recipes
from piecewright.making.given import Given
from piecewright.making.offered import claimed_sizes, verb_words
from piecewright.making.recipe import Recipe
from piecewright.making.shipped import families, shipped_recipes
from piecewright.model.design import Design
from piecewright.units.sizes import Finished
from piecewright_qt.shelf.card_model import CardModel, Index
from piecewright_qt.shelf.searching import Query


@dataclass(frozen=True)
class Heading:
    """The name of a family above its recipes; nothing to choose."""

    name: str

    @property
    def id(self) -> str:
        """Its own among recipes: theirs have no spaces at the start."""
        return f" {self.name}"


@dataclass(frozen=True)
class RecipeCard:
    """A recipe to choose. `given` has the seam and the width of cloth of the design."""

    id: str
    recipe: Recipe
    family: str
    given: Given

    @cached_property
    def sizes(self) -> tuple[Finished, ...]:
        """The finished sizes it offers, as far as it says so, the usual one first."""
        return claimed_sizes(self.recipe, self.given)

    @cached_property
    def words(self) -> str:
        """All that it can be found by, folded: name, family, what is said of it, its verbs."""
        recipe = self.recipe
        return " ".join((recipe.name, self.family, recipe.about, *verb_words(recipe))).casefold()

    def found_by(self, query: Query) -> bool:
        """Whether a search means it: by words, or by any of its sizes."""
        return query.finds(self.words) or any(query.finds(self.words, size) for size in self.sizes)


class RecipeModel(CardModel[RecipeCard | Heading]):
    """A list of recipes in which headings can not be chosen."""

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Recipes can be chosen."""
        return Qt.ItemFlag.NoItemFlags if isinstance(self.card(index), Heading) else super().flags(index)

    @property
    def recipes(self) -> tuple[RecipeCard, ...]:
        """The recipes shown, in order."""
        return tuple(card for card in self.cards if isinstance(card, RecipeCard))


def card_of(design: Design, key: str, recipe: Recipe, family: str) -> RecipeCard:
    """A recipe as a card of a design."""
    given = Given(seam=design.settings.seam, usable=design.settings.usable)
    return RecipeCard(key, recipe, family, given)


def recipe_cards(design: Design) -> list[RecipeCard]:
    """Every recipe once, family by family: those of the design, those of the user's own shelf, those that ship."""
    own = {entry.recipe: entry.id for entry in design.recipes}
    here = QCoreApplication.translate("recipes", "In this design")
    mine = QCoreApplication.translate("recipes", "My recipes")
    shelf = {recipe: key for recipe, key in _own_shelf() if recipe not in own}
    shipped = shipped_recipes()
    return [
        *(card_of(design, key, recipe, here) for recipe, key in own.items()),
        *(card_of(design, key, recipe, mine) for recipe, key in shelf.items()),
        *(
            card_of(design, name, shipped[name], family)
            for family, names in families().items()
            for name in names
            if shipped[name] not in own and shipped[name] not in shelf
        ),
    ]


def _own_shelf() -> list[tuple[Recipe, str]]:
    """The recipes of the user's own shelf that can be read; what can not be is told where the shelf is pulled out."""
    try:
        kept = own_recipes(recipes_folder())
    except FileError:
        return []
    return [(one.recipe, f"mine/{one.path.name}") for one in kept if one.recipe is not None]


def with_headings(cards: list[RecipeCard]) -> list[RecipeCard | Heading]:
    """The cards with the name of its family above the first of each."""
    return list(_with_headings(cards))


def _with_headings(cards: list[RecipeCard]) -> Iterator[RecipeCard | Heading]:
    family = None
    for card in cards:
        if card.family != family:
            family = card.family
            yield Heading(family)
        yield card

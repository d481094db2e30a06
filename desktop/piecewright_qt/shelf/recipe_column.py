"""The recipes a new block can be made by: by picture, and any recipe file."""

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QMimeData, QModelIndex, Qt, Signal
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from piecewright.errors import PiecewrightError
from piecewright.files.atomic import read_file
from piecewright.files.limits import STATE_BYTES
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.shipped import ENDING
from piecewright.model.design import Design
from piecewright.words.message import message
from piecewright_qt.look import Look as Dress
from piecewright_qt.messages import words
from piecewright_qt.shelf.block_draft import Outcome, new_draft, recipes_for
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.card_model import CardModel
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.row_delegate import RowDelegate, RowText
from piecewright_qt.theme.tokens import SPACE

_WIDTH = 280


@dataclass(frozen=True)
class RecipeCard:
    """A recipe to choose, as a block of the design's fabrics would come out."""

    id: str
    recipe: Recipe
    outcome: Outcome


class RecipeColumn(QWidget):
    """`marked(recipe)` follows each choice; `taken` tells that the one marked is wanted as it is."""

    marked = Signal(object)
    taken = Signal()

    def __init__(self, design: Design, dress: Dress, pictures: Pictures) -> None:
        super().__init__()
        self._design = design
        self._dress = dress
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedWidth(round(_WIDTH * min(dress.scale.text, 1.5)))
        self.model = CardModel[RecipeCard](_name, _hint, self)
        self.list = CardList(self.model)
        self.list.setAccessibleName(self.tr("Recipes"))
        self.list.setDragEnabled(False)
        self.list.setItemDelegate(RowDelegate(self.list, dress, pictures, self._row))
        self.from_file = QPushButton(self.tr("From a file…"))
        self.from_file.setAutoDefault(False)
        self.from_file.setToolTip(self.tr("Choose a recipe file; one can be dropped here too"))
        self.fault = note_label("error")
        self.fault.hide()
        self._lay_out()
        self.list.selectionModel().currentChanged.connect(self._mark)
        self.list.taken.connect(self.taken)
        self.from_file.clicked.connect(self._choose_file)

    def begin(self) -> None:
        """Offer the recipes of the design and those that ship; mark the first."""
        self.model.show([self._card(key, recipe) for key, recipe in recipes_for(self._design)])
        self.list.choose(self.model.index(0, 0))
        self.list.setFocus()

    def bring(self, path: Path) -> None:
        """Offer the recipe of a file and mark it; one that can not be read is told."""
        try:
            recipe = read_recipe(read_file(path, STATE_BYTES))
        except PiecewrightError as error:
            place = f"{path.name}: {error.where}: " if error.where else f"{path.name}: "
            self.fault.setText(place + words(error, self._dress.measure))
            self.fault.show()
            return
        self.fault.hide()
        card = self._card(path.name, recipe)
        self.model.show([card, *(one for one in self.model.cards if one.recipe != recipe)])
        self.list.choose(self.model.index_of(card.id))

    def _card(self, key: str, recipe: Recipe) -> RecipeCard:
        return RecipeCard(key, recipe, new_draft(self._design, recipe).outcome())

    def _row(self, card: RecipeCard) -> RowText:
        looks = tuple(face.look for face in card.outcome.faces[:1])
        made = card.outcome.facts
        if made is None:
            return RowText(card.recipe.name, (), looks)
        lines = [message("plan.size", size=made.finished).text(self._dress.measure)]
        if made.stack > 1:
            lines.append(self.tr("from a stack of {layers}").format(layers=made.stack))
        return RowText(card.recipe.name, tuple(lines), looks)

    def _mark(self, index: QModelIndex) -> None:
        card = self.model.card(index)
        if card is not None:
            self.marked.emit(card.recipe)

    def _choose_file(self) -> None:
        kinds = self.tr("Recipes ({endings})").format(endings=f"*{ENDING} *.json")
        chosen, _ = QFileDialog.getOpenFileName(self, self.tr("A recipe"), str(Path.home()), kinds)
        if chosen:
            self.bring(Path(chosen))

    def _lay_out(self) -> None:
        heading = QLabel(self.tr("Recipe"))
        heading.setProperty("type", "lead")
        heading.setContentsMargins(SPACE, 0, SPACE, 0)
        row = QHBoxLayout()
        row.setContentsMargins(SPACE, 0, SPACE, 0)
        row.addWidget(self.from_file)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, SPACE, 0, SPACE)
        column.addWidget(heading)
        column.addWidget(self.list, 1)
        column.addWidget(self.fault)
        column.addLayout(row)


def recipe_path(mime: QMimeData) -> Path | None:
    """The file of a recipe that a drop brings; None where it brings none."""
    paths = (Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile())
    return next((path for path in paths if path.suffix.lower() == ".json"), None)


def _name(card: RecipeCard) -> str:
    return card.recipe.name


def _hint(card: RecipeCard) -> str:
    return f"{card.recipe.name}\n{card.recipe.about}" if card.recipe.about else card.recipe.name

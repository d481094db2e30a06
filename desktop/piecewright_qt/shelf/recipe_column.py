"""The recipes a new block can be made by: by picture, and any recipe file."""

from pathlib import Path

from PySide6.QtCore import QMimeData, QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QFileDialog, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from piecewright.errors import PiecewrightError
from piecewright.files.atomic import read_file
from piecewright.files.limits import STATE_BYTES
from piecewright.making.recipe import read_recipe
from piecewright.making.shipped import ENDING
from piecewright.model.design import Design
from piecewright.units.scale import INCHES_BY_UNIT
from piecewright.words.message import message
from piecewright_qt.look import Look as Dress
from piecewright_qt.messages import words
from piecewright_qt.shelf.block_draft import new_draft
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.recipe_cards import (
    Heading,
    RecipeCard,
    RecipeModel,
    card_of,
    recipe_cards,
    with_headings,
)
from piecewright_qt.shelf.recipe_delegate import RecipeDelegate
from piecewright_qt.shelf.row_delegate import RowText
from piecewright_qt.shelf.search_field import SearchField
from piecewright_qt.shelf.searching import read_query
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.wall.looks import Look

_WIDTH = 280


class _Search(SearchField):
    """Enter leads down to the list too: in the dialog around it, it would mean the main button."""

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter leads on, and no further."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.down.emit()
        else:
            super().keyPressEvent(event)


class RecipeColumn(QWidget):
    """`marked(recipe)` follows each choice; `taken` tells that the one marked is wanted as it is."""

    marked = Signal(object)
    taken = Signal()

    def __init__(self, design: Design, dress: Dress, pictures: Pictures) -> None:
        super().__init__()
        self._design = design
        self._dress = dress
        self._cards: list[RecipeCard] = []
        self._marked = ""
        self._filling = False
        self._looks: dict[str, tuple[Look, ...]] = {}
        self._waiting: list[RecipeCard] = []
        self.setProperty("place", "panel")
        self.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        self.setFixedWidth(round(_WIDTH * min(dress.scale.text, 1.5)))
        self.model = RecipeModel(_name, _hint, self)
        self.list = CardList(self.model)
        self.list.setAccessibleName(self.tr("Recipes"))
        self.list.setDragEnabled(False)
        self.list.setItemDelegate(RecipeDelegate(self.list, dress, pictures, self._row, self._ask_for))
        self.search = _Search(dress)
        self.search.setAccessibleName(self.tr("Find a recipe"))
        self.search.setPlaceholderText(self.tr("Name, step or size"))
        self.search.setToolTip(
            self.tr(
                "Finds recipes by name, family, what is done (slice, shuffle, …) or finished size (Ctrl+F)"
            )
        )
        self.none = note_label()
        self.none.hide()
        self.from_file = QPushButton(self.tr("From a file…"))
        self.from_file.setAutoDefault(False)
        self.from_file.setToolTip(self.tr("Choose a recipe file; one can be dropped here too"))
        self.fault = note_label("error")
        self.fault.hide()
        self._timer = QTimer(self)
        self._timer.setInterval(0)
        self._lay_out()
        self._connect()

    def begin(self) -> None:
        """Offer the recipes of the design and those that ship; mark the first."""
        self._cards = recipe_cards(self._design)
        self._fill()
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
        card = card_of(self._design, path.name, recipe, self.tr("From a file"))
        self._cards = [card, *(one for one in self._cards if one.recipe != recipe)]
        self.search.clear()
        self._fill(card.id)

    # What is shown ----------------------------------------------------------------------------------------------

    def _fill(self, marked: str = "") -> None:
        """Show what the search means, and mark a recipe: the one named, the one marked so far, or the first."""
        text = self.search.text().strip()
        query = read_query(text, INCHES_BY_UNIT[self._dress.measure.unit])
        found = [card for card in self._cards if not text or card.found_by(query)]
        self._filling = True  # rows that go would pass the mark on to any neighbor
        self.model.show(with_headings(found))
        self._filling = False
        self.none.setText(
            self.tr("No recipe is called “{text}”, and none does or measures so.").format(text=text)
        )
        self.none.setVisible(not found)
        self.list.setVisible(bool(found))
        shown = [card.id for card in found]
        kept = next((key for key in (marked, self._marked) if key in shown), shown[0] if shown else None)
        if kept is not None:
            self.list.choose(self.model.index_of(kept))
            self._mark(self.list.currentIndex())

    def _row(self, card: RecipeCard) -> RowText:
        lines = [message("plan.size", size=size).text(self._dress.measure) for size in card.sizes[:1]]
        if card.recipe.stack > 1:
            lines.append(self.tr("from a stack of {layers}").format(layers=card.recipe.stack))
        return RowText(card.recipe.name, tuple(lines), self._looks.get(card.id, ()))

    def _ask_for(self, card: RecipeCard) -> None:
        """A recipe has come into view: make it when the window has time, what is in view last first."""
        if card.id not in self._looks and card not in self._waiting:
            self._waiting.append(card)
            self._timer.start()

    def _make_one(self) -> None:
        card = self._waiting.pop()
        faces = new_draft(self._design, card.recipe).outcome().faces
        self._looks[card.id] = tuple(face.look for face in faces[:1])
        self.list.update(self.model.index_of(card.id))
        if not self._waiting:
            self._timer.stop()

    def _mark(self, index: QModelIndex) -> None:
        card = self.model.card(index)
        if self._filling or not isinstance(card, RecipeCard) or card.id == self._marked:
            return
        self._marked = card.id
        self.marked.emit(card.recipe)

    def _to_the_list(self) -> None:
        if self.model.recipes:
            self.list.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def _to_the_search(self) -> None:
        self.search.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.search.selectAll()

    def _choose_file(self) -> None:
        kinds = self.tr("Recipes ({endings})").format(endings=f"*{ENDING} *.json")
        chosen, _ = QFileDialog.getOpenFileName(self, self.tr("A recipe"), str(Path.home()), kinds)
        if chosen:
            self.bring(Path(chosen))

    # Arranging --------------------------------------------------------------------------------------------------

    def _connect(self) -> None:
        self.list.selectionModel().currentChanged.connect(self._mark)
        self.list.taken.connect(self.taken)
        self.from_file.clicked.connect(self._choose_file)
        self.search.textChanged.connect(lambda _text: self._fill())
        self.search.down.connect(self._to_the_list)
        self._timer.timeout.connect(self._make_one)
        find = QShortcut(QKeySequence("Ctrl+F"), self)
        find.setContext(Qt.ShortcutContext.WindowShortcut)
        find.activated.connect(self._to_the_search)

    def _lay_out(self) -> None:
        heading = QLabel(self.tr("Recipe"))
        heading.setProperty("type", "lead")
        heading.setContentsMargins(SPACE, 0, SPACE, 0)
        search = QHBoxLayout()
        search.setContentsMargins(SPACE, SPACE_TIGHT, SPACE, SPACE_TIGHT)
        search.addWidget(self.search)
        row = QHBoxLayout()
        row.setContentsMargins(SPACE, 0, SPACE, 0)
        row.addWidget(self.from_file)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, SPACE, 0, SPACE)
        column.addWidget(heading)
        column.addLayout(search)
        column.addWidget(self.none)
        column.addWidget(self.list, 1)
        column.addStretch(0)
        column.addWidget(self.fault)
        column.addLayout(row)


def recipe_path(mime: QMimeData) -> Path | None:
    """The file of a recipe that a drop brings; None where it brings none."""
    paths = (Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile())
    return next((path for path in paths if path.suffix.lower() == ".json"), None)


def _name(card: RecipeCard | Heading) -> str:
    return card.name if isinstance(card, Heading) else card.recipe.name


def _hint(card: RecipeCard | Heading) -> str:
    if isinstance(card, Heading):
        return ""
    return "\n".join(part for part in (card.recipe.name, card.recipe.about) if part)

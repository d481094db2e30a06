"""Make up a block, or change one: recipe by picture, name, sizes, fabrics by letter, and what comes out, live."""

from dataclasses import dataclass, replace
from pathlib import Path
from random import Random

from PySide6.QtCore import QMimeData, QModelIndex, QSize, Qt
from PySide6.QtGui import QDrag, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QDialog,
    QFileDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.ids import new_ids
from piecewright.errors import PiecewrightError
from piecewright.files.atomic import read_file
from piecewright.files.limits import STATE_BYTES
from piecewright.making.recipe import Recipe, read_recipe
from piecewright.making.shipped import ENDING
from piecewright.model.fabric import Fabric
from piecewright.model.value import Letters
from piecewright.words.message import message
from piecewright_qt.document import Document
from piecewright_qt.look import Look as Dress
from piecewright_qt.messages import words
from piecewright_qt.shelf.block_draft import (
    BlockDraft,
    Outcome,
    draft_of,
    new_draft,
    recipes_for,
)
from piecewright_qt.shelf.block_view import BlockView
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.card_model import CardModel
from piecewright_qt.shelf.cards import FabricCard, fabric_cards
from piecewright_qt.shelf.dragging import drag_with
from piecewright_qt.shelf.fabric_words import fabric_line
from piecewright_qt.shelf.fields import LengthField, TextField
from piecewright_qt.shelf.letter_slots import LetterSlots
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.row_delegate import RowDelegate, RowText
from piecewright_qt.shelf.swatch_delegate import SwatchDelegate
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE
from piecewright_qt.wall.mime import fabric_mime

_PALETTE = 44
_DRAGGED = QSize(52, 40)
_FINISHED = "F"
"""What the shipped recipes call the finished size; the word is said beside it."""


@dataclass(frozen=True)
class RecipeCard:
    """A recipe to choose, as a block of the design's fabrics would come out."""

    id: str
    recipe: Recipe
    outcome: Outcome


class BlockEditor(QDialog):
    """On a block of the design by its id, or a new one. `saved` is the id of the block once accepted.

    It leaves the window behind it free, so that fabrics can be dragged in from the shelf.
    """

    def __init__(
        self, document: Document, look: Dress, pictures: Pictures, block: str | None, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self.saved = ""
        self._document = document
        self._look = look
        self._pictures = pictures
        self._block = block
        self._chance = Random()  # noqa: S311 - a draw for the eye, no secret
        self._named = False
        self._finished = False
        self._draft: BlockDraft | None = None
        self.sizes: dict[str, LengthField] = {}
        self.recipes = CardModel[RecipeCard](_recipe_name, _recipe_hint, self)
        self.palette_model = CardModel[FabricCard](self._fabric_spoken, self._fabric_spoken, self)
        self._build()
        self._lay_out()
        self._connect()
        self._begin()

    # Choosing ---------------------------------------------------------------------------------------------------

    def choose_recipe(self, recipe: Recipe) -> None:
        """Begin anew with a recipe; a name typed by hand stays."""
        draft = new_draft(self._document.design, recipe)
        if self._named and self._draft is not None:
            draft = replace(draft, name=self._draft.name)
        self._draft = draft
        self._show_draft()

    def read_recipe_file(self, path: Path) -> None:
        """Offer the recipe of a file and choose it; one that can not be read is told."""
        try:
            recipe = read_recipe(read_file(path, STATE_BYTES))
        except PiecewrightError as error:
            place = f"{path.name}: {error.where}: " if error.where else f"{path.name}: "
            self._recipe_fault.setText(place + words(error, self._look.measure))
            self._recipe_fault.show()
            return
        self._recipe_fault.hide()
        card = self._recipe_card(path.name, recipe)
        cards = [one for one in self.recipes.cards if one.recipe != recipe]
        self.recipes.show([card, *cards])
        self.recipe_list.choose(self.recipes.index_of(card.id))

    def put_fabric(self, letter: str, layer: int, fabric: str) -> None:
        """Let a letter be another fabric."""
        if self._draft is not None and fabric in self._document.design.shelf.fabrics:
            self._draft = self._draft.with_fabric(letter, layer, fabric)
            self._follow()

    def accept(self) -> None:
        """Add or change the block as one step; while something is wrong, stay."""
        draft = self._valid_draft()
        if draft is None or draft.outcome().fault is not None:
            return
        before = self._document.design
        self._finished = True
        self._document.perform(draft.call)
        self.saved = self._block if self._block is not None else new_ids(before, self._document.design)[-1]
        super().accept()

    def done(self, result: int) -> None:
        """Close; the wall shows the design as it stands."""
        self._finished = True
        self._document.drop_preview()
        super().done(result)

    # Following ----------------------------------------------------------------------------------------------------

    def _begin(self) -> None:
        design = self._document.design
        self._show_palette()
        if self._block is not None:
            self._draft = draft_of(design, design.shelf.blocks[self._block])
            self._show_draft()
            self.name.line.setFocus()
            return
        self.recipes.show([self._recipe_card(key, recipe) for key, recipe in recipes_for(design)])
        self.recipe_list.choose(self.recipes.index(0, 0))
        self.recipe_list.setFocus()

    def _show_palette(self) -> None:
        fabrics = fabric_cards(self._document.design)
        self.palette_model.show(fabrics)
        self._no_fabrics.setVisible(not fabrics)
        self.palette_list.setVisible(bool(fabrics))

    def _show_draft(self) -> None:
        """Lay out the fields of the draft's recipe, and follow."""
        draft = self._draft
        if draft is None:
            return
        self.name.show_value(draft.name)
        self._about.setText(draft.recipe.about)
        self._about.setVisible(bool(draft.recipe.about))
        self._anew.setVisible(bool(draft.recipe.vary))
        self._show_sizes(draft)
        self.slots.build(draft.recipe)
        self._follow()

    def _show_sizes(self, draft: BlockDraft) -> None:
        for field in self.sizes.values():
            self._size_row.removeWidget(field)
            field.hide()
            field.deleteLater()
        self.sizes = {}
        for name, choices in draft.recipe.sizes.items():
            label = self.tr("Finished size ({name})") if name == _FINISHED else self.tr("Size {name}")
            field = LengthField(label.format(name=name), self._look.measure, choices)
            field.show_value(draft.sizes[name])
            field.edited.connect(self._follow)
            self.sizes[name] = field
            self._size_row.addWidget(field, 1)

    def _valid_draft(self) -> BlockDraft | None:
        """The draft with what is typed; None while that can not be."""
        sizes = {name: field.value for name, field in self.sizes.items()}
        found = {name: size for name, size in sizes.items() if size is not None}
        if self._draft is None or len(found) < len(sizes):
            return None
        return replace(self._draft, name=self.name.line.text().strip(), sizes=found)

    def _follow(self) -> None:
        """Show what the fields say: the block here, and where it lies already, on the wall."""
        draft = self._valid_draft()
        shown = draft if draft is not None else self._draft
        if shown is not None:
            self.slots.show_fabrics(shown.fabrics, self._document.design.shelf.fabrics.get)
        if draft is None:
            self.view.say_fault(self.tr("Mend the size that is marked."))
            self.save.setEnabled(False)
            return
        self._draft = draft
        outcome = draft.outcome()
        self.view.show_outcome(outcome, draft.name)
        self.save.setEnabled(outcome.fault is None)
        if self._block is not None and outcome.fault is None:
            self._document.preview(draft.call)

    def _draw_anew(self) -> None:
        draft = self._valid_draft()
        if draft is not None:
            self._draft = draft.drawn_anew(self._chance)
            self._follow()

    def _name_typed(self) -> None:
        self._named = True
        self._follow()

    def _document_changed(self, _before: object, _after: object) -> None:
        """Fabrics may have come or gone, or the block itself, while this was open."""
        if self._finished or self._draft is None:
            return
        design = self._document.design
        block = design.shelf.blocks.get(self._block) if self._block is not None else None
        if self._block is not None and block != self._draft.before:
            if block is None:
                self.reject()
            else:
                self._begin()
            return
        known = design.shelf.fabrics
        fabrics = {
            letter: tuple(key for key in ids if key in known) for letter, ids in self._draft.fabrics.items()
        }
        whole = Letters(
            {letter: ids for letter, ids in fabrics.items() if ids == self._draft.fabrics[letter]}
        )
        self._draft = replace(self._draft, design=design, fabrics=whole)
        self._show_palette()
        self._follow()

    def _recipe_marked(self, index: QModelIndex) -> None:
        card = self.recipes.card(index)
        if card is not None:
            self.choose_recipe(card.recipe)

    def _palette_taken(self) -> None:
        card = self.palette_model.card(self.palette_list.currentIndex())
        if card is not None:
            self.slots.put(card.id)

    # Recipes and fabrics as cards -----------------------------------------------------------------------------------

    def _recipe_card(self, key: str, recipe: Recipe) -> RecipeCard:
        return RecipeCard(key, recipe, new_draft(self._document.design, recipe).outcome())

    def _recipe_row(self, card: RecipeCard) -> RowText:
        looks = tuple(face.look for face in card.outcome.faces[:1])
        made = card.outcome.facts
        lines = (
            [message("plan.size", size=made.finished).text(self._look.measure)] if made is not None else []
        )
        if made is not None and made.stack > 1:
            lines.append(self.tr("from a stack of {layers}").format(layers=made.stack))
        return RowText(card.recipe.name, tuple(lines), looks)

    def _fabric_spoken(self, card: FabricCard) -> str:
        return f"{card.fabric.name}, {fabric_line(card.fabric, self._look.measure)}"

    def _photo_of(self, fabric: Fabric) -> bytes | None:
        return self._document.pictures.get(fabric.picture) if fabric.picture is not None else None

    def _drag_fabric(self, index: QModelIndex) -> QDrag | None:
        card = self.palette_model.card(index)
        if card is None:
            return None
        ratio = self.devicePixelRatioF()
        pixmap = self._pictures.swatch(card.fabric, self._photo_of(card.fabric), _DRAGGED, ratio)
        return drag_with(self.palette_list, fabric_mime(card.id), pixmap)

    # Recipe files ---------------------------------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """A recipe file may be dropped anywhere here."""
        if self._block is None and _recipe_path(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Offer the recipe of the file."""
        path = _recipe_path(event.mimeData())
        if path is not None:
            event.acceptProposedAction()
            self.read_recipe_file(path)

    def _choose_file(self) -> None:
        kinds = self.tr("Recipes ({endings})").format(endings=f"*{ENDING} *.json")
        chosen, _ = QFileDialog.getOpenFileName(self, self.tr("A recipe"), str(Path.home()), kinds)
        if chosen:
            self.read_recipe_file(Path(chosen))

    # Arranging ------------------------------------------------------------------------------------------------------

    def _build(self) -> None:
        changing = self._block is not None
        self.setWindowTitle(self.tr("Change the block") if changing else self.tr("Add a block"))
        self.setAcceptDrops(True)
        self.recipe_list = CardList(self.recipes)
        self.recipe_list.setAccessibleName(self.tr("Recipes"))
        self.recipe_list.setDragEnabled(False)
        self.recipe_list.setItemDelegate(
            RowDelegate(self.recipe_list, self._look, self._pictures, self._recipe_row)
        )
        self._from_file = QPushButton(self.tr("From a file…"))
        self._from_file.setToolTip(self.tr("Choose a recipe file; one can be dropped here too"))
        self._recipe_fault = note_label("error")
        self._recipe_fault.hide()
        self.view = BlockView(self._look, self._pictures)
        self._about = note_label()
        self._about.setContentsMargins(0, 0, 0, 0)
        self.name = TextField(self.tr("Name"), self.tr("Name of the block"))
        self._anew = QPushButton(self.tr("Draw anew"))
        self._anew.setToolTip(self.tr("Other values for what the recipe leaves to chance"))
        self.slots = LetterSlots(self._pictures, self._photo_of)
        self.palette_list = CardList(self.palette_model)
        self.palette_list.setAccessibleName(self.tr("Fabrics to choose from"))
        self.palette_list.lay_out_as_grid()
        self.palette_list.setItemDelegate(
            SwatchDelegate(self.palette_list, self._look, self._pictures, self._photo_of, side=_PALETTE)
        )
        self.palette_list.setMinimumHeight(_PALETTE * 2 + SPACE)
        self.palette_list.drag_of = self._drag_fabric
        self._no_fabrics = note_label()
        self._no_fabrics.setText(
            self.tr("The design has no fabrics yet. The block can be added as it is and given fabrics later.")
        )
        self.cancel = QPushButton(self.tr("Cancel"))
        self.cancel.setToolTip(self.tr("Leave everything as it was (Esc)"))
        self.save = QPushButton(self.tr("Save") if changing else self.tr("Add the block"))
        self.save.setProperty("weight", "main")
        for button in (self._from_file, self._anew, self.cancel):
            button.setAutoDefault(False)  # Enter means the one button that says so
        self.save.setDefault(True)
        self.save.setToolTip(self.tr("Done (Enter)"))

    def _lay_out(self) -> None:
        self._size_row = QHBoxLayout()
        self._size_row.setSpacing(SPACE)
        body = QWidget()
        column = QVBoxLayout(body)
        column.setContentsMargins(SPACE_WIDE, SPACE_WIDE, SPACE_WIDE, SPACE)
        column.setSpacing(SPACE)
        for part in (self.view, self._about, self.name):
            column.addWidget(part)
        column.addLayout(self._size_row)
        column.addWidget(self._anew, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(_heading(self.tr("Fabrics")))
        column.addWidget(self.slots)
        column.addWidget(self._no_fabrics)
        column.addWidget(self.palette_list, 1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(body)
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        if self._block is None:
            row.addWidget(self._recipe_column())
        row.addWidget(scroll, 1)
        foot = QWidget()
        foot.setProperty("place", "foot")
        foot.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        buttons = QHBoxLayout(foot)
        buttons.addStretch(1)
        buttons.addWidget(self.cancel)
        buttons.addWidget(self.save)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.setSpacing(0)
        whole.addLayout(row, 1)
        whole.addWidget(foot)
        text = self._look.scale.text
        self.resize(
            round((880 if self._block is None else 580) * min(text, 1.5)), round(680 * min(text, 1.3))
        )

    def _recipe_column(self) -> QWidget:
        holder = QWidget()
        holder.setProperty("place", "panel")
        holder.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        holder.setFixedWidth(round(280 * min(self._look.scale.text, 1.5)))
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, SPACE, 0, SPACE)
        heading = _heading(self.tr("Recipe"))
        heading.setContentsMargins(SPACE, 0, SPACE, 0)
        column.addWidget(heading)
        column.addWidget(self.recipe_list, 1)
        column.addWidget(self._recipe_fault)
        row = QHBoxLayout()
        row.setContentsMargins(SPACE, 0, SPACE, 0)
        row.addWidget(self._from_file)
        column.addLayout(row)
        return holder

    def _connect(self) -> None:
        self.recipe_list.selectionModel().currentChanged.connect(self._recipe_marked)
        self.recipe_list.taken.connect(self.accept)
        self.palette_list.taken.connect(self._palette_taken)
        self.palette_list.clicked.connect(lambda _index: self._palette_taken())
        self.slots.chosen.connect(self.put_fabric)
        self.name.edited.connect(self._name_typed)
        self._anew.clicked.connect(self._draw_anew)
        self._from_file.clicked.connect(self._choose_file)
        self.cancel.clicked.connect(self.reject)
        self.save.clicked.connect(self.accept)
        self._document.changed.connect(self._document_changed)


def _recipe_name(card: RecipeCard) -> str:
    return card.recipe.name


def _recipe_hint(card: RecipeCard) -> str:
    return f"{card.recipe.name}\n{card.recipe.about}" if card.recipe.about else card.recipe.name


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("type", "lead")
    return label


def _recipe_path(mime: QMimeData) -> Path | None:
    """The file of a recipe that a drop brings."""
    paths = (Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile())
    return next((path for path in paths if path.suffix.lower() == ".json"), None)

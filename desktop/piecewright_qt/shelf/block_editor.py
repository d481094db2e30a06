"""Make up a block, or change one: recipe by picture, name, sizes, fabrics by letter, and what comes out, live."""

from dataclasses import replace
from functools import partial
from random import Random

from PySide6.QtCore import Qt
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from piecewright.edit.ids import new_ids
from piecewright.making.recipe import Recipe
from piecewright.model.block import MOST_MADE
from piecewright.model.value import Letters
from piecewright_qt.count_field import CountField
from piecewright_qt.document import Document
from piecewright_qt.look import Look as Dress
from piecewright_qt.shelf.block_draft import BlockDraft, draft_of, new_draft
from piecewright_qt.shelf.block_view import BlockView
from piecewright_qt.shelf.fields import LengthField, TextField
from piecewright_qt.shelf.letter_slots import LetterSlots
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.palette import FabricPalette
from piecewright_qt.shelf.photos import photo_in
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.recipe_column import RecipeColumn, recipe_path
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE

_FINISHED = "F"
"""What the shipped recipes call the finished size; the word is said beside it."""


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
        self.column: RecipeColumn | None = None
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
        if self._block is not None:
            design = self._document.design
            self._draft = draft_of(design, design.shelf.blocks[self._block])
            self._show_draft()
            self.name.line.setFocus()
        elif self.column is not None:
            self.column.begin()

    def _show_draft(self) -> None:
        """Lay out the fields of the draft's recipe, and follow."""
        draft = self._draft
        if draft is None:
            return
        self.name.show_value(draft.name)
        self.made.show_value(draft.made)
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
        name, made = self.name.line.text().strip(), self.made.box.value()
        return replace(self._draft, name=name, sizes=found, made=made)

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
        self.offered.refresh()
        self._follow()

    def _measure_changed(self) -> None:
        for field in self.sizes.values():
            field.show_measure(self._look.measure)
        self._follow()

    # Recipe files ---------------------------------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:  # noqa: N802 - Qt's name
        """A recipe file may be dropped anywhere here."""
        if self.column is not None and recipe_path(event.mimeData()) is not None:
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:  # noqa: N802 - Qt's name
        """Offer the recipe of the file."""
        path = recipe_path(event.mimeData())
        if self.column is not None and path is not None:
            event.acceptProposedAction()
            self.column.bring(path)

    # Arranging ------------------------------------------------------------------------------------------------------

    def _build(self) -> None:
        changing = self._block is not None
        self.setWindowTitle(self.tr("Change the block") if changing else self.tr("Add a block"))
        self.setAcceptDrops(True)
        if not changing:
            self.column = RecipeColumn(self._document.design, self._look, self._pictures)
        self.view = BlockView(self._look, self._pictures)
        self._about = note_label()
        self._about.setContentsMargins(0, 0, 0, 0)
        self.name = TextField(self.tr("Name"), self.tr("Name of the block"))
        self.made = CountField(self.tr("Made so far"), 0, MOST_MADE)
        self._anew = QPushButton(self.tr("Draw anew"))
        self._anew.setToolTip(self.tr("Other values for what the recipe leaves to chance"))
        photo_of = partial(photo_in, self._document.pictures)
        self.slots = LetterSlots(self._pictures, photo_of)
        self.offered = FabricPalette(self._document, self._look, self._pictures, photo_of)
        self.cancel = QPushButton(self.tr("Cancel"))
        self.cancel.setToolTip(self.tr("Leave everything as it was (Esc)"))
        self.save = QPushButton(self.tr("Save") if changing else self.tr("Add the block"))
        self.save.setProperty("weight", "main")
        for button in (self._anew, self.cancel):
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
        for part in (self.view, self._about):
            column.addWidget(part)
        named = QHBoxLayout()
        named.setSpacing(SPACE)
        named.addWidget(self.name, 1)
        named.addWidget(self.made)
        column.addLayout(named)
        column.addLayout(self._size_row)
        column.addWidget(self._anew, 0, Qt.AlignmentFlag.AlignLeft)
        column.addWidget(_heading(self.tr("Fabrics")))
        column.addWidget(self.slots)
        column.addWidget(self.offered, 1)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setWidget(body)
        row = QHBoxLayout()
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(0)
        if self.column is not None:
            row.addWidget(self.column)
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

    def _connect(self) -> None:
        if self.column is not None:
            self.column.marked.connect(self.choose_recipe)
            self.column.taken.connect(self.accept)
        self.offered.taken.connect(self.slots.put)
        self.slots.chosen.connect(self.put_fabric)
        self.name.edited.connect(self._name_typed)
        self.made.edited.connect(self._follow)
        self._anew.clicked.connect(self._draw_anew)
        self.cancel.clicked.connect(self.reject)
        self.save.clicked.connect(self.accept)
        self._document.changed.connect(self._document_changed)
        self._look.changed.connect(self._measure_changed)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    label.setProperty("type", "lead")
    return label

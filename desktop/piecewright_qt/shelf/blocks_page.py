"""The page of blocks: true pictures to drag to the wall, favorites first."""

from functools import partial
from typing import Protocol

from PySide6.QtCore import QModelIndex, QPoint, Qt
from PySide6.QtGui import QDrag, QIcon
from PySide6.QtWidgets import QDialog, QMenu

from piecewright.edit.ids import new_ids
from piecewright.edit.registry import call
from piecewright.edit.replacing import takes_place_of
from piecewright.model.naming import free_name
from piecewright.units.scale import INCHES_BY_UNIT
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.shelf.block_editor import BlockEditor
from piecewright_qt.shelf.card_list import CardAction
from piecewright_qt.shelf.card_model import Index
from piecewright_qt.shelf.cards import BlockCard, block_cards
from piecewright_qt.shelf.dragging import drag_with
from piecewright_qt.shelf.page import Page
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.row_delegate import RowDelegate, RowText
from piecewright_qt.shelf.searching import read_query
from piecewright_qt.wall.mime import block_mime
from piecewright_qt.wall.selection import Selection

_IN_MENU = 32
_DRAGGED = 64
"""Device-independent pixels of the picture under the pointer; the wall shows the block at its own scale."""


class Wall(Protocol):
    """What the shelf needs of the wall."""

    @property
    def selection(self) -> Selection:
        """The selected blocks."""

    def take_in_hand(self, block: str, kind: int = 0, layer: int = 0) -> None:
        """Let arrows move a block of the shelf over the wall."""


class BlocksPage(Page[BlockCard]):
    """The blocks of the design. A block that comes in several faces shows them all; each can be chosen and dragged."""

    def __init__(self, document: Document, look: Look, wall: Wall, pictures: Pictures) -> None:
        super().__init__(document, look)
        self._faces: dict[str, int] = {}
        self._pictures = pictures
        self._wall = wall
        self.editor: BlockEditor | None = None
        view = self.list
        self._delegate = RowDelegate(view, look, pictures, self._row)
        self._delegate.starred = self._toggle_at
        self._delegate.faced = self._choose_face
        view.setItemDelegate(self._delegate)
        view.setAccessibleName(self.tr("Blocks of the shelf"))
        view.drag_of = self._drag
        view.is_part = self._is_part
        view.steps = {
            Qt.Key.Key_Left: lambda: self._step_face(-1),
            Qt.Key.Key_Right: lambda: self._step_face(1),
        }
        view.taken.connect(self.take_in_hand)
        view.actions_of_card = (
            CardAction(self.tr("Take in hand"), "Return", self.take_in_hand),
            CardAction(self.tr("Change the block…"), "F2", self.edit),
            CardAction(self.tr("Duplicate"), "D", self.duplicate),
            CardAction(self._favorite_text, "F", self.toggle_favorite),
            CardAction(self.tr("One more is made"), "M", lambda: self.count_made(1), apart=True),
            CardAction(self.tr("One fewer is made"), "Shift+M", lambda: self.count_made(-1)),
            CardAction(self.tr("All that hang are made"), "Ctrl+M", self.all_made),
            CardAction(
                self.tr("Put in the place of the selected blocks"), "P", self.put_in_place, apart=True
            ),
            CardAction(self.tr("Replace everywhere by…"), "E", self.replace),
            CardAction(self.tr("Remove from the shelf"), "Del", self.remove, apart=True),
        )
        self.search.setPlaceholderText(self.tr("Name, size or fabric"))
        self.search.setAccessibleName(self.tr("Search the blocks"))
        self.search.setToolTip(self.tr("Search by name, fabric or size, such as 6 x 12 (Ctrl+F)"))
        self.add.setText(self.tr("Add a block"))
        self.add.setToolTip(self.tr("Add a block (Ins)"))
        self.refresh()

    def all_cards(self) -> list[BlockCard]:
        """Every block, favorites first."""
        return block_cards(self.document.design)

    def finds(self, card: BlockCard, text: str) -> bool:
        """By name, recipe, fabrics or finished size."""
        unit = INCHES_BY_UNIT[self.look.measure.unit]
        return read_query(text, unit).finds(card.words, card.finished)

    def empty_words(self) -> str:
        """Where a first block comes from."""
        return self.tr(
            "No blocks yet. A block is made by a recipe: strips are sewn, cut, turned and sewn again. "
            "Choose a recipe and its fabrics, and drag the block to the wall."
        )

    def add_one(self) -> None:
        """Open the editor on a new block."""
        self._open(None)

    def edit(self) -> None:
        """Open the editor on the chosen block."""
        if self.chosen is not None:
            self._open(self.chosen.id)

    def take_in_hand(self) -> None:
        """Hand the chosen block to the wall, where arrows move it and Enter lays it down."""
        card = self.chosen
        if card is not None and card.faces:
            face = card.faces[self._face(card)]
            self._wall.take_in_hand(card.id, face.kind, face.layer)
        elif card is not None:
            self.say(self.text(card.size))

    def duplicate(self) -> None:
        """Put a copy of the chosen block on the shelf."""
        card = self.chosen
        if card is None:
            return
        block, before = card.block, self.document.design
        name = free_name(block.name, {one.name for one in before.blocks})
        done = self.perform(
            call(
                "add-block",
                name=name,
                recipe=block.recipe,
                sizes=block.sizes,
                fabrics=block.fabrics,
                draws=block.draws,
                note=block.note,
            )
        )
        if done:
            self.choose(new_ids(before, self.document.design)[-1])

    def toggle_favorite(self) -> None:
        """Mark the chosen block as a favorite, or no longer."""
        card = self.chosen
        if card is not None:
            self.perform(call("set-favorite", block=card.id, favorite=not card.block.favorite))
            self.list.scrollTo(self.list.currentIndex())

    def count_made(self, more: int) -> None:
        """So many more of the chosen block are sewn than before; presses in a row are one step."""
        card = self.chosen
        if card is not None:
            edit = call("set-made", block=card.id, made=max(card.block.made + more, 0))
            self.perform(edit, ("made", card.id))

    def all_made(self) -> None:
        """As many of the chosen block are sewn as hang on the wall."""
        card = self.chosen
        if card is not None:
            self.perform(call("set-made", block=card.id, made=card.count))

    def put_in_place(self) -> None:
        """Put the chosen block in the places of the selected ones."""
        card = self.chosen
        if card is not None:
            self.perform(call("replace-blocks", cells=self._wall.selection.cells, block=card.id))

    def replace(self) -> None:
        """Offer the blocks that can take the place of the chosen one everywhere."""
        if self.chosen is None:
            return
        self.say("")
        menu = self.others_menu(self.chosen)
        if menu is None:
            self.say(self.tr("No other block on the shelf covers as many columns and rows."))
        else:
            place = self.list.visualRect(self.list.currentIndex()).bottomLeft()
            menu.popup(self.list.viewport().mapToGlobal(place))

    def others_menu(self, card: BlockCard) -> QMenu | None:
        """The blocks that fit, by picture and name; the wall shows what the one under the bar would do. None: none."""
        cards = {one.id: one for one in self.all_cards()}
        fitting = [cards[block] for block in takes_place_of(self.document.design, card.id)]
        if not fitting:
            return None
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        title = self.tr("Replace “{name}” everywhere by").format(name=card.block.name)
        menu.setAccessibleName(title)
        menu.addAction(title).setEnabled(False)
        for other in fitting:
            edit = call("replace-everywhere", block=card.id, to=other.id)
            action = menu.addAction(other.block.name, partial(self.perform, edit))
            action.hovered.connect(partial(self.document.preview, edit))
            if other.faces:
                pixmap = self._pictures.block(other.faces[0].look, _IN_MENU, self.devicePixelRatioF())
                action.setIcon(QIcon(pixmap))
        menu.aboutToHide.connect(self.document.drop_preview)
        return menu

    def remove(self) -> None:
        """Take the chosen block off the shelf; while it lies on a wall, say why not."""
        if self.chosen is not None:
            self.perform(call("remove-block", block=self.chosen.id))

    def _favorite_text(self) -> str:
        favorite = self.chosen is not None and self.chosen.block.favorite
        return self.tr("No longer a favorite") if favorite else self.tr("Make it a favorite")

    def _open(self, block: str | None) -> None:
        if self.editor is not None:
            self.editor.close()
        self.editor = BlockEditor(self.document, self.look, self._pictures, block, self)
        self.editor.finished.connect(self._closed)
        self.editor.show()

    def _closed(self, result: int) -> None:
        editor, self.editor = self.editor, None
        if editor is not None and result == QDialog.DialogCode.Accepted:
            self.search.clear()
            self.choose(editor.saved)
        if editor is not None:
            editor.deleteLater()
        self.list.setFocus()

    # Faces ----------------------------------------------------------------------------------------------------

    def _face(self, card: BlockCard) -> int:
        return min(self._faces.get(card.id, 0), max(len(card.faces) - 1, 0))

    def _choose_face(self, index: Index, face: int) -> None:
        card = self.model.card(index)
        if card is not None:
            self._faces[card.id] = face
            self.model.dataChanged.emit(index, index)

    def _step_face(self, by: int) -> bool:
        card = self.chosen
        if card is None or len(card.faces) < 2:
            return False
        self._choose_face(self.list.currentIndex(), (self._face(card) + by) % len(card.faces))
        return True

    def _toggle_at(self, index: Index) -> None:
        self.list.setCurrentIndex(self.model.index(index.row(), 0))
        self.toggle_favorite()

    def _is_part(self, index: QModelIndex, point: QPoint) -> bool:
        places = self._delegate.places(index, self.list.visualRect(index).width())
        return places.star.contains(point) or places.face_at(point) is not None

    # What is shown ----------------------------------------------------------------------------------------------

    def _row(self, card: BlockCard) -> RowText:
        looks = tuple(face.look for face in card.faces)
        star = card.block.favorite
        if not looks:
            return RowText(card.block.name, (self.text(card.size),), (), 0, star, tone="warn")
        word = card.faces[self._face(card)].word
        tray = card.tray
        lines = [
            self.text(card.size),
            self.text(card.placed),
            *([self.text(tray)] if tray is not None else []),
        ]
        if word is not None:
            lines.append(self.text(word).capitalize())
        return RowText(card.block.name, tuple(lines), looks, self._face(card), star)

    def spoken(self, card: BlockCard) -> str:
        """Name, face, size, places, and whether it is a favorite."""
        return self.text(card.spoken(self._face(card)))

    def hint(self, card: BlockCard) -> str:
        """All of the name, the recipe, the size and the fabrics."""
        fabrics = ", ".join(card.fabrics)
        return "\n".join(
            part for part in (card.block.name, card.recipe, self.text(card.size), fabrics) if part
        )

    def _drag(self, index: QModelIndex) -> QDrag | None:
        card = self.model.card(index)
        if card is None or not card.faces:
            return None
        face = card.faces[self._face(card)]
        pixmap = self._pictures.block(face.look, _DRAGGED, self.devicePixelRatioF())
        return drag_with(self.list, block_mime(card.id, face.kind, face.layer), pixmap)

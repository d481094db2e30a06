"""Choose one fabric of the design by its cloth; while one is marked, the wall shows what choosing it would do."""

from collections.abc import Callable

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QVBoxLayout, QWidget

from piecewright.edit.registry import EditCall
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.card_model import CardModel
from piecewright_qt.shelf.cards import FabricCard, fabric_cards
from piecewright_qt.shelf.fabric_words import fabric_line, print_name
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.search_field import SearchField
from piecewright_qt.shelf.searching import read_query
from piecewright_qt.shelf.swatch_delegate import PhotoOf, SwatchDelegate
from piecewright_qt.theme.tokens import SPACE


class FabricChooser(QDialog):
    """Every fabric but `without`; `edit_for` gives the edit that choosing one is."""

    def __init__(
        self,
        document: Document,
        look: Look,
        shown: tuple[Pictures, PhotoOf],
        without: str,
        edit_for: Callable[[str], EditCall],
        words: tuple[str, str],
        parent: QWidget,
    ) -> None:
        """`words` are the title and the word of the button."""
        super().__init__(parent)
        title, verb = words
        self._document = document
        self._edit_for = edit_for
        self._cards = [card for card in fabric_cards(document.design) if card.id != without]
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(title)
        self.search = SearchField(look)
        self.search.setPlaceholderText(self.tr("Name or print"))
        self.search.setAccessibleName(self.tr("Search the fabrics"))
        self.search.setToolTip(self.tr("Search the fabrics"))
        self.model = CardModel[FabricCard](
            lambda card: f"{card.fabric.name}, {_below(card)}",
            lambda card: f"{card.fabric.name}\n{fabric_line(card.fabric, look.measure)}",
        )
        self.list = CardList(self.model)
        self.list.setAccessibleName(title)
        self.list.lay_out_as_grid(drags=False)
        self.list.setItemDelegate(SwatchDelegate(self.list, look, *shown, _below))
        self._said = note_label()
        buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Cancel | QDialogButtonBox.StandardButton.Ok
        )
        self._ok = buttons.button(QDialogButtonBox.StandardButton.Ok)
        self._ok.setText(verb)
        self._ok.setProperty("weight", "main")
        column = QVBoxLayout(self)
        column.setSpacing(SPACE)
        for widget in (self.search, self.list, self._said, buttons):
            column.addWidget(widget)
        buttons.accepted.connect(self._take)
        buttons.rejected.connect(self.reject)
        self.search.textChanged.connect(self._show)
        self.search.down.connect(self.list.setFocus)
        self.list.taken.connect(self._take)
        self.list.selectionModel().currentChanged.connect(self._try)
        self.finished.connect(lambda _result: document.drop_preview())
        self.resize(380, 480)
        self._show("")

    def _show(self, text: str) -> None:
        query = read_query(text)
        self.model.show([card for card in self._cards if not text.strip() or query.finds(card.words)])
        if self.model.rowCount() and not self.list.currentIndex().isValid():
            self.list.choose(self.model.index(0, 0))
        self._ok.setEnabled(bool(self.model.rowCount()))

    def _try(self, index: QModelIndex) -> None:
        card = self.model.card(index)
        if card is not None:
            self._document.preview(self._edit_for(card.id))
            self._said.setText(card.fabric.name)

    def _take(self) -> None:
        card = self.model.card(self.list.currentIndex())
        if card is not None:
            self._document.perform(self._edit_for(card.id))
            self.accept()


def _below(card: FabricCard) -> str:
    return print_name(card.fabric.print.kind if card.fabric.print is not None else None)

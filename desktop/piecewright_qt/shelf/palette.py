"""The design's fabrics as small bare swatches, to choose from and to drag off."""

from PySide6.QtCore import QModelIndex, QSize, Signal
from PySide6.QtGui import QDrag
from PySide6.QtWidgets import QVBoxLayout, QWidget

from piecewright_qt.document import Document
from piecewright_qt.look import Look as Dress
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.card_model import CardModel
from piecewright_qt.shelf.cards import FabricCard, fabric_cards
from piecewright_qt.shelf.dragging import drag_with
from piecewright_qt.shelf.fabric_words import fabric_line
from piecewright_qt.shelf.page import note_label
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.swatch_delegate import PhotoOf, SwatchDelegate
from piecewright_qt.theme.tokens import SPACE
from piecewright_qt.wall.mime import fabric_mime

_SIDE = 44
_DRAGGED = QSize(52, 40)


class FabricPalette(QWidget):
    """`taken(id)` follows a click or Enter on a fabric; where there are none, a sentence says so."""

    taken = Signal(str)

    def __init__(self, document: Document, dress: Dress, pictures: Pictures, photo_of: PhotoOf) -> None:
        super().__init__()
        self._document = document
        self._dress = dress
        self._pictures = pictures
        self._photo_of = photo_of
        self.model = CardModel[FabricCard](self._spoken, self._spoken, self)
        self.list = CardList(self.model)
        self.list.setAccessibleName(self.tr("Fabrics to choose from"))
        self.list.lay_out_as_grid()
        self.list.setItemDelegate(SwatchDelegate(self.list, dress, pictures, photo_of, side=_SIDE))
        self.list.setMinimumHeight(2 * _SIDE + SPACE)
        self.list.drag_of = self._drag
        self.without = note_label()
        self.without.setText(
            self.tr("The design has no fabrics yet. The block can be added as it is and given fabrics later.")
        )
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self.without)
        column.addWidget(self.list, 1)
        self.list.taken.connect(self._take)
        self.list.clicked.connect(self._take)
        self.refresh()

    def refresh(self) -> None:
        """Show the fabrics of the design as it stands."""
        cards = fabric_cards(self._document.design)
        self.model.show(cards)
        self.without.setVisible(not cards)
        self.list.setVisible(bool(cards))

    def _take(self) -> None:
        card = self.model.card(self.list.currentIndex())
        if card is not None:
            self.taken.emit(card.id)

    def _spoken(self, card: FabricCard) -> str:
        return f"{card.fabric.name}, {fabric_line(card.fabric, self._dress.measure)}"

    def _drag(self, index: QModelIndex) -> QDrag | None:
        card = self.model.card(index)
        if card is None:
            return None
        ratio, photo = self.devicePixelRatioF(), self._photo_of(card.fabric)
        pixmap = self._pictures.swatch(card.fabric, photo, _DRAGGED, ratio)
        return drag_with(self.list, fabric_mime(card.id), pixmap)

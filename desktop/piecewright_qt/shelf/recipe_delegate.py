"""Paints the list of recipes: rows as everywhere on the shelf, quiet headings between them."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPointF, QSize
from PySide6.QtGui import QColor, QFontMetrics, QPainter
from PySide6.QtWidgets import QAbstractItemView, QStyleOptionViewItem

from piecewright_qt.look import Look as Dress
from piecewright_qt.shelf.card_model import CARD, Index
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.shelf.recipe_cards import Heading, RecipeCard
from piecewright_qt.shelf.row_delegate import RowDelegate, RowText
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT


class RecipeDelegate(RowDelegate):
    """`seen` is told of every recipe that comes into view, so that only those are made."""

    def __init__(
        self,
        view: QAbstractItemView,
        dress: Dress,
        pictures: Pictures,
        describe: Callable[[RecipeCard], RowText],
        seen: Callable[[RecipeCard], None],
    ) -> None:
        super().__init__(view, dress, pictures, describe)
        self._seen = seen

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802 - Qt's name
        """A heading is a line of small type with air above it."""
        if not isinstance(index.data(CARD), Heading):
            return super().sizeHint(option, index)
        return QSize(self._view.viewport().width(), self._type().small_height + SPACE + SPACE_TIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint a heading or a row."""
        card = index.data(CARD)
        if isinstance(card, Heading):
            self._paint_heading(painter, option, card.name)
        else:
            self._seen(card)
            super().paint(painter, option, index)

    def editorEvent(  # noqa: N802 - Qt's name
        self, event: QEvent, model: QObject, option: QStyleOptionViewItem, index: Index
    ) -> bool:
        """Nothing of a heading is pressed."""
        if isinstance(index.data(CARD), Heading):
            return False
        return super().editorEvent(event, model, option, index)

    def _paint_heading(self, painter: QPainter, option: QStyleOptionViewItem, name: str) -> None:
        font = self._type().small
        metrics = QFontMetrics(font)
        painter.setFont(font)
        painter.setPen(QColor(self._dress.theme.text_soft))
        base = option.rect.bottom() + 1 - SPACE_TIGHT - metrics.descent()
        painter.drawText(QPointF(option.rect.left() + SPACE, base), name)

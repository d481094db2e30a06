"""Paints a fabric as a pinked swatch at the one scale of all cloth, with its name and value under it."""

from collections.abc import Callable

from PySide6.QtCore import QRect, QSize
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtWidgets import QAbstractItemView, QStyledItemDelegate, QStyleOptionViewItem

from piecewright.model.fabric import Fabric
from piecewright_qt.look import Look as Dress
from piecewright_qt.shelf.card_model import CARD, Index
from piecewright_qt.shelf.cards import FabricCard
from piecewright_qt.shelf.painting import (
    Type,
    inks,
    paint_cloth,
    paint_ground,
    paint_lines,
    paint_shadow,
    repaint_when_there,
    type_of,
)
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE_TIGHT

SWATCH_HEIGHT = 64
_LEAST_WIDTH = 106
"""Device-independent pixels of a named swatch at a text scale of 1; larger text needs wider ones."""

PhotoOf = Callable[[Fabric], bytes | None]
Below = Callable[[FabricCard], str]


class SwatchDelegate(QStyledItemDelegate):
    """`below` gives the line under the name.

    `side` None: named swatches in as many columns as have room; else bare squares of that side.
    """

    def __init__(
        self,
        view: QAbstractItemView,
        dress: Dress,
        pictures: Pictures,
        photo_of: PhotoOf,
        below: Below = lambda _card: "",
        side: int | None = None,
    ) -> None:
        super().__init__(view)
        self._view = view
        self._dress = dress
        self._pictures = pictures
        self._photo_of = photo_of
        self._below = below
        self._side = side

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802, ARG002 - Qt's name
        """A column's width, and what swatch, name and value need."""
        if self._side is not None:
            return QSize(self._side, self._side)
        kind = self._type()
        columns = max(1, self._width() // round(_LEAST_WIDTH * self._dress.scale.text))
        height = SWATCH_HEIGHT + 4 * SPACE_TIGHT + kind.name_height + kind.small_height
        return QSize(self._width() // columns, height)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint a swatch."""
        card: FabricCard = index.data(CARD)
        theme, kind = self._dress.theme, self._type()
        paint_ground(painter, option, theme)
        painter.save()
        inner = option.rect.adjusted(SPACE_TIGHT, SPACE_TIGHT, -SPACE_TIGHT, -SPACE_TIGHT)
        cloth = (
            inner if self._side is not None else QRect(inner.topLeft(), QSize(inner.width(), SWATCH_HEIGHT))
        )
        paint_shadow(painter, cloth.adjusted(2, 2, -2, -2))
        paint_cloth(painter, cloth, self._pixmap(card.fabric, cloth.size(), index), card.fabric.color)
        if self._side is None:
            ink, soft = inks(option, theme)
            line = QRect(inner.left() + 2, cloth.bottom() + 1 + SPACE_TIGHT, inner.width() - 4, 0)
            line.translate(0, paint_lines(painter, line, card.fabric.name, kind.name, ink))
            paint_lines(painter, line, self._below(card), kind.small, soft)
        painter.restore()

    def _type(self) -> Type:
        return type_of(self._view.font(), self._dress.scale)

    def _width(self) -> int:
        return self._view.viewport().width() - 1

    def _pixmap(self, fabric: Fabric, size: QSize, index: Index) -> QPixmap | None:
        view, photo = self._view, self._photo_of(fabric)
        who, arrived = (id(view), index.row()), repaint_when_there(view, index)
        return self._pictures.swatch_later(fabric, photo, size, view.devicePixelRatioF(), who, arrived)

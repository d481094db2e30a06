"""Paints a card as a row: a true picture of the block, its name and lines beside it, its other faces under them."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QEvent, QObject, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFontMetrics, QMouseEvent, QPainter, QPen, QPixmap
from PySide6.QtWidgets import QAbstractItemView, QStyledItemDelegate, QStyleOptionViewItem

from piecewright_qt.look import Look as Dress
from piecewright_qt.shelf.card_model import CARD, Index
from piecewright_qt.shelf.painting import (
    STAR,
    State,
    Type,
    fitted,
    inks,
    paint_cloth,
    paint_edge,
    paint_ground,
    paint_lines,
    paint_shadow,
    paint_star,
    repaint_when_there,
    type_of,
)
from piecewright_qt.shelf.pictures import Pictures
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT
from piecewright_qt.wall.looks import Look

PICTURE = 72
FACE = 24
"""The side of a small face: also the least that can be pressed."""
_NAME_LINES = 2
_LARGE = 1.3
"""Type larger than this is large."""


@dataclass(frozen=True)
class RowText:
    """What a row shows. `looks` are its faces, `chosen` the one in the large picture; `star` None: it has none.

    `tone` is the token of the color of `lines` where they must be noticed.
    """

    name: str
    lines: tuple[str, ...]
    looks: tuple[Look, ...]
    chosen: int = 0
    star: bool | None = None
    tone: str = ""


@dataclass(frozen=True)
class RowPlaces:
    """Where the parts of a row lie, from the row's own top left."""

    picture: QRect
    name: QRect
    lines: QRect
    star: QRect
    faces: tuple[QRect, ...]
    height: int

    def face_at(self, point: QPoint) -> int | None:
        """The face under a point."""
        return next((n for n, face in enumerate(self.faces) if face.contains(point)), None)


class RowDelegate(QStyledItemDelegate):
    """`describe` tells what a card shows. Presses on the star and on a face are told to `starred` and `faced`."""

    def __init__(
        self, view: QAbstractItemView, dress: Dress, pictures: Pictures, describe: Callable[..., RowText]
    ) -> None:
        super().__init__(view)
        self._view = view
        self._dress = dress
        self._pictures = pictures
        self.describe = describe
        self.starred: Callable[[Index], None] | None = None
        self.faced: Callable[[Index, int], None] | None = None

    def places(self, index: Index, width: int) -> RowPlaces:
        """Where everything of a row lies in a list so wide."""
        return self._places(self.describe(index.data(CARD)), self._type(), width)

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802, ARG002 - Qt's name
        """As high as picture and text need."""
        width = self._view.viewport().width()
        return QSize(width, self.places(index, width).height)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint a row."""
        theme, kind = self._dress.theme, self._type()
        row = self.describe(index.data(CARD))
        places = self._places(row, kind, option.rect.width())
        paint_ground(painter, option, theme)
        painter.save()
        painter.translate(option.rect.topLeft())
        ink, soft = inks(option, theme)
        self._paint_picture(painter, index, row, places)
        paint_lines(painter, places.name, row.name, kind.name, ink, _NAME_LINES)
        top, color = places.lines.top(), getattr(theme, row.tone) if row.tone else soft
        for line in row.lines:
            space = QRect(places.lines.left(), top, places.lines.width(), 0)
            top += paint_lines(painter, space, line, kind.small, color, self._lines_of(row))
        if row.star is not None and (
            row.star or option.state & (State.State_MouseOver | State.State_Selected)
        ):
            paint_star(painter, places.star, row.star, theme.accent if row.star else soft)
        self._paint_faces(painter, index, row, places)
        painter.restore()

    def editorEvent(  # noqa: N802 - Qt's name
        self,
        event: QEvent,
        model: QObject,  # noqa: ARG002 - Qt's signature
        option: QStyleOptionViewItem,
        index: Index,
    ) -> bool:
        """A press on the star or on a face."""
        if not isinstance(event, QMouseEvent) or event.button() != Qt.MouseButton.LeftButton:
            return False
        places = self.places(index, option.rect.width())
        point = event.position().toPoint() - option.rect.topLeft()
        face = places.face_at(point)
        if event.type() == QEvent.Type.MouseButtonPress and face is not None and self.faced is not None:
            self.faced(index, face)
            return False  # the press may become a drag of this face
        if event.type() == QEvent.Type.MouseButtonRelease and places.star.contains(point) and self.starred:
            self.starred(index)
            return True
        return False

    def _lines_of(self, row: RowText) -> int:
        """What must be noticed may take two lines, and so may all in large type."""
        return 2 if row.tone or self._dress.scale.text > _LARGE else 1

    def _type(self) -> Type:
        return type_of(self._view.font(), self._dress.scale)

    def _places(self, row: RowText, kind: Type, width: int) -> RowPlaces:
        left = SPACE + PICTURE + SPACE
        room = width - left - SPACE
        star = QRect() if row.star is None else QRect(width - STAR - SPACE_TIGHT, SPACE_TIGHT, STAR, STAR)
        beside = room if star.isNull() else star.left() - left
        named = len(fitted(row.name, QFontMetrics(kind.name), beside, _NAME_LINES)) * kind.name_height
        most, metrics = self._lines_of(row), QFontMetrics(kind.small)
        said = sum(len(fitted(line, metrics, room, most)) for line in row.lines) * kind.small_height
        name, lines = QRect(left, SPACE, beside, named), QRect(left, SPACE + named, room, said)
        faces = _face_places(len(row.looks), QPoint(left, lines.bottom() + 1 + SPACE_TIGHT), room)
        bottom = faces[-1].bottom() if faces else lines.bottom()
        picture = QRect(SPACE, SPACE, PICTURE, PICTURE)
        return RowPlaces(picture, name, lines, star, faces, max(bottom, picture.bottom()) + 1 + SPACE)

    def _paint_picture(self, painter: QPainter, index: Index, row: RowText, places: RowPlaces) -> None:
        theme = self._dress.theme
        if not row.looks:
            painter.setPen(QPen(QColor(theme.outline), 1, Qt.PenStyle.DashLine))
            painter.drawRect(places.picture.adjusted(8, 8, -9, -9))
            return
        look = row.looks[row.chosen]
        pixmap = self._pixmap(look, PICTURE, index)
        place = places.picture if pixmap is not None else _fitting(places.picture, look)
        size = pixmap.deviceIndependentSize().toSize() if pixmap is not None else place.size()
        at = QRect(0, 0, size.width(), size.height())
        at.moveCenter(places.picture.center())
        paint_shadow(painter, at)
        paint_edge(painter, paint_cloth(painter, at, pixmap, look.fabrics[0].color))

    def _paint_faces(self, painter: QPainter, index: Index, row: RowText, places: RowPlaces) -> None:
        for number, face in enumerate(places.faces):
            look = row.looks[number]
            pixmap = self._pixmap(look, FACE - 4, index)
            paint_edge(
                painter,
                paint_cloth(painter, face.adjusted(2, 2, -2, -2), pixmap, look.fabrics[0].color),
            )
            if number == row.chosen:
                painter.setPen(QPen(QColor(self._dress.theme.accent), 2))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                painter.drawRect(face.adjusted(1, 1, -1, -1))

    def _pixmap(self, look: Look, side: int, index: Index) -> QPixmap | None:
        view = self._view
        who, arrived = (id(view), index.row()), repaint_when_there(view, index)
        return self._pictures.block_later(look, side, view.devicePixelRatioF(), who, arrived)


def _fitting(place: QRect, look: Look) -> QRect:
    """The part of a square place that a block's picture will take."""
    longer = max(look.width, look.height)
    return QRect(
        0, 0, round(place.width() * look.width / longer), round(place.height() * look.height / longer)
    )


def _face_places(count: int, corner: QPoint, room: int) -> tuple[QRect, ...]:
    """The squares of the small faces, in rows; none for the only face."""
    if count < 2:
        return ()
    across = max(1, (room + SPACE_TIGHT) // (FACE + SPACE_TIGHT))
    step = FACE + SPACE_TIGHT
    return tuple(
        QRect(corner.x() + n % across * step, corner.y() + n // across * step, FACE, FACE)
        for n in range(count)
    )

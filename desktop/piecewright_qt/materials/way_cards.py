"""The ways to a size as cards: a small picture, what is done, the size it gives, and why it stands where it does."""

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from PySide6.QtCore import QEvent, QModelIndex, QPoint, QPointF, QRect, QSize, Signal
from PySide6.QtGui import QColor, QPainter
from PySide6.QtWidgets import QStyledItemDelegate, QStyleOptionViewItem

from piecewright.plan.resize_ways import Way
from piecewright.units.measure import Measure
from piecewright_qt.arrangements.quilt_pictures import QuiltPictures
from piecewright_qt.look import Look
from piecewright_qt.materials.typesetting import Face, Type
from piecewright_qt.materials.wish_field import say
from piecewright_qt.shelf.card_list import CardList
from piecewright_qt.shelf.card_model import CARD, CardModel, Index
from piecewright_qt.shelf.painting import inks, paint_cloth, paint_ground
from piecewright_qt.theme.tokens import SPACE

PICTURE = QSize(76, 76)
_LEFT = PICTURE.width() + 2 * SPACE
"""Where the words of a card begin."""
_LINES = 6
_IN_SIGHT = 2
"""So many cards are seen at once; the rest is scrolled to."""


@dataclass(frozen=True)
class WayCard:
    """A way and its rank, counted from 0."""

    number: int
    way: Way

    @property
    def id(self) -> str:
        """What tells it from the others."""
        return str(self.number)


class WayList(CardList):
    """`hovered` tells of the way under the pointer, None where it left; `chosen` of the one that keys or a click chose.

    `taken` (from the list of cards): Enter or a double click.
    """

    hovered = Signal(object)
    chosen = Signal(object)

    def __init__(self, look: Look) -> None:
        self._look = look
        self._told: WayCard | None = None
        self.pictures = QuiltPictures()
        self.cards = CardModel[WayCard](self._spoken, self._spoken)
        super().__init__(self.cards)
        self.setDragEnabled(False)
        self.setAccessibleName(say("Ways to the size"))
        self.setAccessibleDescription(
            say("Arrow keys show a way on the wall; Enter keeps it, Escape leaves the quilt as it was.")
        )
        self.setItemDelegate(_WayDelegate(self, look))
        self.pictures.setParent(self)
        self.pictures.arrived.connect(self._picture_arrived)
        self.selectionModel().currentChanged.connect(self._tell)
        self.setMouseTracking(True)
        self.entered.connect(lambda index: self.hovered.emit(self._way(index)))
        self.doubleClicked.connect(lambda _index: self.taken.emit())
        self.hide()

    def show_ways(self, ways: tuple[Way, ...]) -> None:
        """Show these; none is chosen."""
        self._told = None
        for card in self.cards.cards:
            self.pictures.forget(card.id)
        self.cards.show(())
        self.cards.show([WayCard(number, way) for number, way in enumerate(ways)])
        self.setVisible(bool(ways))
        self.fit()

    def choose_way(self, number: int) -> None:
        """Choose a way by its rank."""
        self.choose(self.cards.index(number, 0))

    def forget_choice(self) -> None:
        """No way is chosen any more."""
        self._told = None
        self.setCurrentIndex(QModelIndex())
        self.clearSelection()

    @property
    def way(self) -> Way | None:
        """The way that is chosen."""
        return self._way(self.currentIndex())

    def fit(self) -> None:
        """As high as the first few cards."""
        heights = [
            self.sizeHintForIndex(self.cards.index(row, 0)).height() for row in range(self.cards.rowCount())
        ]
        self.setFixedHeight(
            sum(heights[:_IN_SIGHT]) + (heights[_IN_SIGHT] // 3 if len(heights) > _IN_SIGHT else 0)
        )

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """The pointer is over none of them any more."""
        super().leaveEvent(event)
        self.hovered.emit(None)

    def _way(self, index: Index) -> Way | None:
        card = self.cards.card(index)
        return card.way if card is not None else None

    def _tell(self, current: QModelIndex) -> None:
        card = self.cards.card(current)
        if card is not None and card != self._told:
            self._told = card
            self.chosen.emit(card.way)

    def _spoken(self, card: WayCard) -> str:
        measure = self._look.measure
        return ". ".join(text.rstrip(".") for text in texts(card.way, measure)) + "."

    def _picture_arrived(self, slot: object) -> None:
        index = self.cards.index_of(str(slot))
        if index.isValid():
            self.update(index)


class _WayDelegate(QStyledItemDelegate):
    """Paints a card: the picture at the left, the words beside it."""

    def __init__(self, view: WayList, look: Look) -> None:
        super().__init__(view)
        self._view = view
        self._look = look
        self._faces = Type(look.scale)

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802, ARG002 - Qt's name
        """As high as picture or words need."""
        width = self._view.viewport().width()
        lines = self._lines(index.data(CARD), width)
        high = sum(self._type().line(face) for face, _ in lines)
        return QSize(width, max(ceil(high), PICTURE.height()) + 2 * SPACE)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Paint a card."""
        card: WayCard = index.data(CARD)
        theme, faces = self._look.theme, self._type()
        paint_ground(painter, option, theme)
        painter.save()
        painter.translate(option.rect.topLeft())
        ratio = self._view.devicePixelRatioF()
        found = self._view.pictures.picture(card.id, card.way.design, PICTURE, theme, ratio)
        if found is not None:
            paint_cloth(painter, QRect(QPoint(SPACE, SPACE), PICTURE), found, theme.flannel)
        ink, soft = inks(option, theme)
        top = float(SPACE)
        for face, line in self._lines(card, option.rect.width()):
            painter.setFont(faces.fonts[face])
            painter.setPen(QColor(ink if face == "body" else soft))
            painter.drawText(QPointF(_LEFT, top + faces.metrics[face].ascent()), line)
            top += faces.line(face)
        painter.restore()

    def _lines(self, card: WayCard, width: int) -> list[tuple[Face, str]]:
        """The words of a card in lines, what is done in larger type."""
        name, *rest = texts(card.way, self._look.measure)
        room, set_in = width - _LEFT - SPACE, list[tuple[Face, str]]()
        said: list[tuple[Face, str]] = [("body", name), *(("small", line) for line in rest)]
        for face, text in said:
            set_in += [(face, line) for line in self._type().lines(text, face, room, _LINES)]
        return set_in

    def _type(self) -> Type:
        if self._faces.scale != self._look.scale:
            self._faces = Type(self._look.scale)
        return self._faces


def texts(way: Way, measure: Measure) -> tuple[str, ...]:
    """What a card says, line by line: what is done, the size, why it stands where it does, what changes."""
    name = way.name.text(measure)
    leaving = say("{n} blocks leave the wall") if way.leaving != 1 else say("1 block leaves the wall")
    size = measure.size(way.size.width, way.size.height)
    lines = [name[:1].upper() + name[1:], say("{size} finished").format(size=size), way.why.text(measure)]
    lines += _sewn(way)
    if way.leaving:
        lines.append(leaving.format(n=way.leaving))
    return tuple(lines)


def _sewn(way: Way) -> list[str]:
    """Strip sets and strips, so many more or fewer."""
    sets, strips = (sum(one.by for one in way.changes if one.part == part) for part in ("sets", "strips"))
    parts = (
        (sets, say("{by} strip set"), say("{by} strip sets")),
        (strips, say("{by} strip"), say("{by} strips")),
    )
    said = ", ".join(_signed(by, one, many) for by, one, many in parts if by)
    return [said] if said else []


def _signed(by: Fraction | int, one: str, many: str) -> str:
    return (one if abs(by) == 1 else many).format(by=f"{'+' if by > 0 else '−'}{abs(by)}")

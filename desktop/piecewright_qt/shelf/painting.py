"""What the cards of the shelf have in common: their ground, their type, lines that are cut short, a star."""

from collections.abc import Callable
from dataclasses import dataclass
from math import cos, pi, sin

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPainterPath, QPen, QPixmap, QPolygonF
from PySide6.QtWidgets import QAbstractItemView, QStyle, QStyleOptionViewItem
from shiboken6 import isValid

from piecewright_qt.shelf.pictures import EDGE
from piecewright_qt.theme.tokens import RADIUS, Scale, Theme

State = QStyle.StateFlag
STAR = 24
"""The side of the square in which a star is pressed."""


@dataclass(frozen=True)
class Type:
    """The type of a card at a text scale, from the list's own font."""

    name: QFont
    small: QFont

    @property
    def name_height(self) -> int:
        """Pixels of a line of the name."""
        return QFontMetrics(self.name).height()

    @property
    def small_height(self) -> int:
        """Pixels of a line under it."""
        return QFontMetrics(self.small).height()


def type_of(font: QFont, scale: Scale) -> Type:
    """The type of a card."""
    name, small = QFont(font), QFont(font)
    name.setPixelSize(scale.body)
    name.setWeight(QFont.Weight.Medium)
    small.setPixelSize(scale.small)
    return Type(name, small)


def paint_ground(painter: QPainter, option: QStyleOptionViewItem, theme: Theme) -> None:
    """The ground of a card: quiet, under the pointer, chosen; a ring where the keys go."""
    chosen = bool(option.state & State.State_Selected)
    focused = bool(option.state & State.State_HasFocus)
    if not chosen and not focused and not option.state & State.State_MouseOver:
        return
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setBrush(QColor(theme.accent_soft if chosen else theme.raised))
    painter.setPen(QPen(QColor(theme.accent), 2) if focused else Qt.PenStyle.NoPen)
    painter.drawRoundedRect(QRectF(option.rect).adjusted(1, 1, -1, -1), RADIUS, RADIUS)
    painter.restore()


def inks(option: QStyleOptionViewItem, theme: Theme) -> tuple[str, str]:
    """The colors of a card's name and of the lines under it."""
    if option.state & State.State_Selected:
        return theme.on_accent_soft, theme.on_accent_soft
    return theme.text, theme.text_soft


def paint_lines(painter: QPainter, rect: QRect, text: str, font: QFont, color: str, lines: int = 1) -> int:
    """Write a text in at most so many lines, the last cut short where it must be. The height used."""
    painter.setFont(font)
    painter.setPen(QColor(color))
    metrics, top = QFontMetrics(font), rect.top()
    for line in fitted(text, metrics, rect.width(), lines):
        painter.drawText(QPointF(rect.left(), top + metrics.ascent()), line)
        top += metrics.height()
    return top - rect.top()


def fitted(text: str, metrics: QFontMetrics, width: int, lines: int) -> list[str]:
    """A text as lines that fit; what is too long for the last ends in an ellipsis."""
    words, found, line = text.split(), list[str](), ""
    while words:
        longer = f"{line} {words[0]}" if line else words[0]
        if len(found) == lines - 1:
            line = " ".join([line, *words] if line else words)
            break
        if line and metrics.horizontalAdvance(longer) > width:
            found.append(line)
            line = ""
        else:
            line = longer
            words.pop(0)
    return [metrics.elidedText(one, Qt.TextElideMode.ElideRight, width) for one in [*found, line]]


def paint_cloth(painter: QPainter, rect: QRect, pixmap: QPixmap | None, color: str) -> QRect:
    """A picture in the middle of a place, or a plain piece of its color until there is one. Where it lies."""
    size = pixmap.deviceIndependentSize().toSize() if pixmap is not None else rect.size()
    at = QRect(rect.topLeft(), size)
    at.moveCenter(rect.center())
    if pixmap is None:
        painter.fillRect(at, QColor(color))
    else:
        painter.drawPixmap(at.topLeft(), pixmap)
    return at


def paint_shadow(painter: QPainter, rect: QRect) -> None:
    """The soft shadow that something flat throws on what it lies on."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(0, 0, 0, 16))
    for reach in (0.5, 1.5, 2.5):
        painter.drawRoundedRect(
            QRectF(rect).adjusted(-reach, -reach, reach, reach).translated(0, 1), reach, reach
        )
    painter.restore()


def repaint_when_there(
    view: QAbstractItemView, index: QModelIndex | QPersistentModelIndex
) -> Callable[[], None]:
    """What repaints one card once its picture is there, if list and card still are."""
    at = QPersistentModelIndex(index)

    def arrived() -> None:
        if isValid(view) and at.isValid():
            view.update(view.model().index(at.row(), 0))

    return arrived


def paint_edge(painter: QPainter, rect: QRect) -> None:
    """The hairline round a piece of cloth."""
    painter.setPen(QPen(EDGE, 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRect(QRectF(rect).adjusted(0.5, 0.5, -0.5, -0.5))


def paint_star(painter: QPainter, rect: QRect, filled: bool, color: str) -> None:
    """A star, filled for a favorite."""
    outline = QPainterPath()
    middle = QRectF(rect).center()
    points = [
        middle + QPointF(sin(n * pi / 5), -cos(n * pi / 5)) * (8.0 if n % 2 == 0 else 3.7) for n in range(10)
    ]
    outline.addPolygon(QPolygonF(points))
    outline.closeSubpath()
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    pen = QPen(QColor(color), 1.5)
    pen.setJoinStyle(Qt.PenJoinStyle.RoundJoin)
    painter.setPen(pen)
    painter.setBrush(QColor(color) if filled else Qt.BrushStyle.NoBrush)
    painter.drawPath(outline)
    painter.restore()

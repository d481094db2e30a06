"""Paints the rows of the Materials list: a printed list with hanging swatches, and a bar where something changed."""

from collections.abc import Mapping

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap, QPolygonF

from piecewright.model.fabric import Fabric
from piecewright_qt.materials.rows import Mark, Row
from piecewright_qt.materials.swatches import Swatches
from piecewright_qt.materials.typesetting import Piece, Setting, Type
from piecewright_qt.theme.icons import inked
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_HAIR, SPACE_TIGHT, SPACE_WIDE, Theme

BAR = 4
"""Pixels of the bar beside a row that changed."""


class RowPainter:
    """Paints with one theme and one size of type."""

    def __init__(self, theme: Theme, faces: Type, swatches: Swatches) -> None:
        self.theme = theme
        self.faces = faces
        self.swatches = swatches
        self.fabrics: Mapping[str, Fabric] = {}
        self._icons: dict[tuple[str, float], QPixmap] = {}

    def paint(self, painter: QPainter, rect: QRectF, row: Row, setting: Setting, mark: Mark | None) -> None:
        """Paint one row in its place."""
        painter.translate(rect.topLeft())
        if mark is not None:
            top = setting.base - self.faces.metrics["strong"].ascent() if row.kind == "heading" else 1
            painter.fillRect(QRectF(0, top, BAR, rect.height() - top - 1), QColor(self.theme.accent))
        if row.fabrics:
            self._swatch(painter, row, setting)
        if setting.why:
            self._why(painter, setting)
        self._words(painter, setting, mark)
        self._number(painter, row, setting, mark)
        painter.translate(-rect.topLeft())

    def ground(self, painter: QPainter, rect: QRectF, *, chosen: bool, hovered: bool, focused: bool) -> None:
        """What lies under a row that the keys or the pointer are at."""
        if not (hovered or (chosen and focused)):
            return
        painter.setPen(QPen(QColor(self.theme.accent), 2) if chosen and focused else Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self.theme.accent_soft if chosen and focused else self.theme.raised))
        painter.drawRoundedRect(rect.adjusted(BAR + 3, 1, -3, -1), RADIUS, RADIUS)

    def heading(self, painter: QPainter, rect: QRectF, setting: Setting, *, folded: bool) -> None:
        """The line under a heading, and the hand that shows whether its section is open."""
        painter.setPen(QPen(QColor(self.theme.line), 1))
        y = rect.bottom() - 0.5
        painter.drawLine(QPointF(SPACE_WIDE, y), QPointF(rect.width() - SPACE_WIDE, y))
        middle = rect.top() + setting.base - 0.36 * self.faces.scale.body
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(self.theme.text_soft))
        half = 3.2
        x = SPACE_WIDE - 2 * half - 0.5
        if folded:
            points = (
                QPointF(x - 1.6, middle - half),
                QPointF(x + 2.4, middle),
                QPointF(x - 1.6, middle + half),
            )
        else:
            points = (
                QPointF(x - half, middle - 1.6),
                QPointF(x + half, middle - 1.6),
                QPointF(x, middle + 2.4),
            )
        painter.drawPolygon(QPolygonF(points))

    def _words(self, painter: QPainter, setting: Setting, mark: Mark | None) -> None:
        room = setting.value_left - SPACE - self._delta_width(mark)
        changed = mark.notes if mark is not None else frozenset()
        for piece in setting.pieces:
            ink, text = piece.ink, piece.text
            if piece.note is None and piece.y == setting.base and mark is not None and mark.delta:
                text = self._shortened(piece, room - piece.x)
            elif piece.note in changed and ink == "text_soft":
                ink = "text"
            if piece.caution:
                self._caution(painter, piece)
            painter.setFont(self.faces.fonts[piece.face])
            painter.setPen(QColor(getattr(self.theme, ink)))
            painter.drawText(QPointF(piece.x, piece.y), text)

    def _number(self, painter: QPainter, row: Row, setting: Setting, mark: Mark | None) -> None:
        painter.setFont(self.faces.fonts["strong"])
        if row.value:
            painter.setPen(QColor(self.theme.text_soft if row.gone else self.theme.text))
            painter.drawText(QPointF(setting.value_left, setting.base), row.value)
        if mark is not None and mark.delta:
            painter.setPen(QColor(self.theme.accent))
            left = setting.value_left - (SPACE if row.value else 0) - self.faces.width(mark.delta, "strong")
            painter.drawText(QPointF(left, setting.base), mark.delta)

    def _delta_width(self, mark: Mark | None) -> float:
        return self.faces.width(mark.delta, "strong") + SPACE if mark is not None and mark.delta else 0.0

    def _shortened(self, piece: Piece, room: float) -> str:
        """Words that make way for what is more or less; the row keeps its height."""
        fits = self.faces.width(piece.text, piece.face) <= room
        return piece.text if fits else self.faces.elided(piece.text, piece.face, room)

    def _swatch(self, painter: QPainter, row: Row, setting: Setting) -> None:
        metrics = self.faces.metrics["body"]
        top = setting.pieces[0].y - metrics.ascent() + (metrics.height() - self.faces.swatch) / 2
        strips = tuple(self.fabrics.get(fabric) for fabric in row.fabrics)
        painter.setOpacity(0.45 if row.gone else 1.0)
        self.swatches.paint(
            painter, QPointF(SPACE_WIDE, round(top)), strips, self.faces.swatch, self.theme.raised
        )
        painter.setOpacity(1.0)

    def _caution(self, painter: QPainter, piece: Piece) -> None:
        side, ratio = self.faces.sign, painter.device().devicePixelRatioF()
        color = getattr(self.theme, piece.ink)
        found = self._icons.get((color, ratio))
        if found is None:
            found = self._icons[color, ratio] = inked("caution", color, side, ratio)
        gap = SPACE_TIGHT if piece.face == "body" else SPACE_HAIR
        painter.drawPixmap(QPointF(piece.x - gap - side, round(piece.y - 0.86 * side)), found)

    def _why(self, painter: QPainter, setting: Setting) -> None:
        small = self.faces.metrics["small"]
        first, last = setting.why[0], setting.why[-1]
        painter.fillRect(
            QRectF(first.x - SPACE, first.y - small.ascent(), 1, last.y - first.y + small.height()),
            QColor(self.theme.outline),
        )
        painter.setFont(self.faces.fonts["small"])
        painter.setPen(QColor(self.theme.text))
        for piece in setting.why:
            painter.drawText(QPointF(piece.x, piece.y), piece.text)

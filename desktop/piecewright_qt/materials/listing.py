"""The rows of the Materials panel as a Qt list, and how one row is drawn."""

from collections.abc import Mapping

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from piecewright_qt.look import Look
from piecewright_qt.materials.rows import Row
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

Index = QModelIndex | QPersistentModelIndex
ROW = Qt.ItemDataRole.UserRole
_SWATCH = 14
_MOST_SWATCHES = 6


class MaterialsModel(QAbstractListModel):
    """Rows; a change of values keeps the list where it is scrolled to."""

    def __init__(self) -> None:
        super().__init__()
        self.rows: tuple[Row, ...] = ()

    def show(self, rows: tuple[Row, ...]) -> None:
        """Show these rows."""
        if [row.key for row in rows] == [row.key for row in self.rows]:
            self.rows = rows
            self.dataChanged.emit(self.index(0), self.index(len(rows) - 1))
            return
        self.beginResetModel()
        self.rows = rows
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: N802, B008 - Qt's name and default
        """How many rows there are."""
        return 0 if parent.isValid() else len(self.rows)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """A row, its words, its reason."""
        row = self.rows[index.row()]
        if role == ROW:
            return row
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return row.spoken
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return row.why or row.label
        return None

    def flags(self, index: Index) -> Qt.ItemFlag:
        """Lines can be walked through by keyboard; headings are passed over."""
        enabled = Qt.ItemFlag.ItemIsEnabled
        return enabled if self.rows[index.row()].heading else enabled | Qt.ItemFlag.ItemIsSelectable


class MaterialsDelegate(QStyledItemDelegate):
    """Label and value on one line, the note under it, swatches before it, what changed behind it."""

    def __init__(self, look: Look, colors: Mapping[str, str]) -> None:
        super().__init__()
        self.look = look
        self.colors = colors

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802 - Qt's name
        """As high as its lines of text are."""
        row: Row = index.data(ROW)
        width = option.rect.width() or 280
        lead, body, small = (self._metrics(kind) for kind in ("lead", "body", "small"))
        if row.heading:
            return QSize(0, lead.height() + SPACE_WIDE + SPACE)
        room = max(80, width - 2 * SPACE_WIDE - self._indent(row))
        if row.tone and not row.value:
            return QSize(0, self._wrapped(row.label, body, width - 2 * SPACE_WIDE) + 2 * SPACE)
        note = self._wrapped(row.note, small, room) if row.note else 0
        label = self._wrapped(row.label, body, room - self._value_width(row)) if row.label else body.height()
        return QSize(0, label + note + 2 * SPACE_TIGHT + 2)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draw a row."""
        row: Row = index.data(ROW)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        rect: QRect = option.rect
        state: QStyle.StateFlag = option.state
        if state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, QColor(self.look.theme.accent_soft))
        if row.heading:
            self._heading(painter, row, rect)
        else:
            self._line(painter, row, rect)
        painter.restore()

    def _heading(self, painter: QPainter, row: Row, rect: QRect) -> None:
        theme = self.look.theme
        inside = rect.adjusted(SPACE_WIDE, SPACE_WIDE, -SPACE_WIDE, -SPACE_TIGHT)
        painter.setFont(self._font("body", QFont.Weight.DemiBold))
        painter.setPen(QColor(theme.text))
        painter.drawText(inside, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom), row.label)
        painter.drawText(inside, int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom), row.value)
        painter.setPen(QPen(QColor(theme.line), 1))
        painter.drawLine(inside.left(), rect.bottom(), inside.right(), rect.bottom())

    def _line(self, painter: QPainter, row: Row, rect: QRect) -> None:
        theme = self.look.theme
        if row.delta:
            painter.fillRect(QRect(rect.left(), rect.top(), 3, rect.height()), QColor(theme.accent))
        inside = rect.adjusted(SPACE_WIDE, SPACE_TIGHT, -SPACE_WIDE, -SPACE_TIGHT)
        left = inside.left() + self._swatches(painter, row, inside)
        words = QRect(left, inside.top(), inside.right() - left, inside.height())
        tone = getattr(theme, row.tone) if row.tone else theme.text
        painter.setFont(self._font("body"))
        painter.setPen(QColor(tone))
        wrap = int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop | Qt.TextFlag.TextWordWrap)
        value = self._value_width(row)
        painter.drawText(words.adjusted(0, 0, -value, 0), wrap, row.label)
        self._values(painter, row, words)
        if row.note:
            painter.setFont(self._font("small"))
            painter.setPen(QColor(theme.text_soft))
            top = self._wrapped(row.label, self._metrics("body"), words.width() - value)
            painter.drawText(words.adjusted(0, top, 0, 0), wrap, row.note)

    def _values(self, painter: QPainter, row: Row, words: QRect) -> None:
        theme = self.look.theme
        end = int(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop)
        bold = self._font("body", QFont.Weight.DemiBold)
        painter.setFont(bold)
        painter.drawText(words, end, row.value)
        if row.delta:
            painter.setPen(QColor(theme.accent))
            shift = QFontMetrics(bold).horizontalAdvance(row.value) + SPACE if row.value else 0
            painter.drawText(words.adjusted(0, 0, -shift, 0), end, row.delta)

    def _swatches(self, painter: QPainter, row: Row, inside: QRect) -> int:
        """Small squares of the cloth, overlapping where there are many; returns the room they take."""
        shown = row.fabrics[:_MOST_SWATCHES]
        step = _SWATCH if len(shown) <= 1 else _SWATCH - 4
        top = inside.top() + (self._metrics("body").height() - _SWATCH) / 2
        for number, fabric in enumerate(reversed(shown)):
            place = len(shown) - 1 - number
            box = QRectF(inside.left() + place * step + 0.5, top + 0.5, _SWATCH - 1, _SWATCH - 1)
            painter.setPen(QPen(QColor(self.look.theme.outline), 1))
            painter.setBrush(QColor(self.colors.get(fabric, self.look.theme.raised)))
            painter.drawRoundedRect(box, 2, 2)
        return self._indent(row)

    def _indent(self, row: Row) -> int:
        shown = min(len(row.fabrics), _MOST_SWATCHES)
        return 0 if not shown else _SWATCH + (shown - 1) * (_SWATCH - 4) + SPACE

    def _value_width(self, row: Row) -> int:
        metrics = QFontMetrics(self._font("body", QFont.Weight.DemiBold))
        texts = [text for text in (row.value, row.delta) if text]
        return sum(metrics.horizontalAdvance(text) + SPACE for text in texts)

    def _wrapped(self, text: str, metrics: QFontMetrics, width: int) -> int:
        return metrics.boundingRect(
            0, 0, max(40, width), 10_000, int(Qt.TextFlag.TextWordWrap), text
        ).height()

    def _font(self, kind: str, weight: QFont.Weight = QFont.Weight.Normal) -> QFont:
        font = QFont("Inter")
        font.setPixelSize(getattr(self.look.scale, kind))
        font.setWeight(weight)
        return font

    def _metrics(self, kind: str) -> QFontMetrics:
        return QFontMetrics(self._font(kind))

"""The steps as sentences, each with its picture in small; the one that breaks says why."""

from PySide6.QtCore import QAbstractListModel, QModelIndex, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPixmap
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from piecewright.making.run import Making
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.paper import paper
from piecewright_qt.sewing_table.sheet import Subject, small_sheet
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_TIGHT

Index = QModelIndex | QPersistentModelIndex
_PICTURE = QSize(128, 76)
_RIM = 8
_PAPER = 96.0
_MOST_ENLARGED = 1.3
_BESIDE = 1.3  # the largest text scale at which words stand beside the picture


class StepsModel(QAbstractListModel):
    """One row a step: its sentence, or what is wrong with it."""

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._pictures: dict[tuple[int, int], QPixmap] = {}
        bench.changed.connect(self.refresh)
        look.changed.connect(self.refresh)

    def refresh(self) -> None:
        """Show the steps as they are."""
        self.beginResetModel()
        self._pictures.clear()
        self.endResetModel()

    def rowCount(self, parent: Index = QModelIndex()) -> int:  # noqa: N802, B008 - Qt's name and default
        """How many steps there are."""
        draft = self._bench.draft
        return 0 if parent.isValid() or draft is None else len(draft.steps)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        """The sentence of a step."""
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.AccessibleTextRole):
            return f"{index.row() + 1}. {self.sentence(index.row())}"
        if role == Qt.ItemDataRole.ToolTipRole:
            return self.note(index.row())
        return None

    def sentence(self, row: int) -> str:
        """What a step does, or what it was meant to do."""
        making, measure = self._bench.making, self._look.measure
        if making is not None and row < len(making.outcomes):
            return making.outcomes[row].sentence.text(measure)
        draft = self._bench.draft
        step = draft.steps[row] if draft is not None else {}
        return ", ".join(
            f"{key} {value}" for key, value in step.items() if key != "note" and isinstance(value, str)
        )

    def fault(self, row: int) -> str:
        """What is wrong at a step; empty where nothing is."""
        fault = self._bench.fault
        if fault is None or self._bench.fault_step != row:
            return ""
        return words(fault, self._look.measure)

    def note(self, row: int) -> str:
        """The recipe's own note on a step."""
        draft = self._bench.draft
        return str(draft.steps[row].get("note", "")) if draft is not None else ""

    def is_done(self, row: int) -> bool:
        """Whether the making gets through this step."""
        making = self._bench.making
        return making is not None and row < len(making.outcomes)

    def picture(self, row: int, sharpness: float) -> QPixmap | None:
        """The step to scale, in small; drawn when first asked for."""
        making = self._bench.making
        if making is None or not self.is_done(row):
            return None
        key = (row, round(sharpness * 100))
        if key not in self._pictures:
            self._pictures[key] = _small(making, row, self._bench, self._look, sharpness)
        return self._pictures[key]


def _small(making: Making, row: int, bench: Bench, look: Look, sharpness: float) -> QPixmap:
    subject = Subject(making, row, bench.fabrics, look.measure)
    room = QSize(_PICTURE.width() - 2 * _RIM, _PICTURE.height() - 2 * _RIM)
    sheet = small_sheet(subject, (room.width() / _PAPER, room.height() / _PAPER))
    box = sheet.box.grown(0.01)
    pixels = min(room.width() / box.width, room.height() / box.height, _PAPER * _MOST_ENLARGED)
    pixmap = QPixmap(_PICTURE * sharpness)
    pixmap.setDevicePixelRatio(sharpness)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(paper(look.theme))
    painter.drawRoundedRect(QRect(0, 0, _PICTURE.width(), _PICTURE.height()), RADIUS, RADIUS)
    painter.translate(
        (_PICTURE.width() - box.width * pixels) / 2 - box.left * pixels,
        (_PICTURE.height() - box.height * pixels) / 2 - box.top * pixels,
    )
    sheet.draw(QtPen(painter, pixels, Brushes()))
    painter.end()
    return pixmap


class StepsDelegate(QStyledItemDelegate):
    """A number, a picture, a sentence; a fault under it with its sign."""

    def __init__(self, model: StepsModel, look: Look) -> None:
        super().__init__()
        self._model = model
        self._look = look

    def sizeHint(self, option: QStyleOptionViewItem, index: Index) -> QSize:  # noqa: N802 - Qt's name
        """As high as picture and words need."""
        width = self._words_width(option.rect.width() or 340)
        high = sum(self._height(text, width) for text in self._texts(index.row()))
        if self._is_stacked:
            return QSize(0, _PICTURE.height() + high + 3 * SPACE)
        return QSize(0, max(_PICTURE.height(), high) + 2 * SPACE)

    @property
    def _is_stacked(self) -> bool:
        """Large text stands under its picture, not beside it."""
        return self._look.scale.text > _BESIDE

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: Index) -> None:
        """Draw a step."""
        theme, rect = self._look.theme, option.rect
        painter.save()
        if option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(rect, QColor(theme.accent_soft))
            painter.fillRect(QRect(rect.left(), rect.top(), 3, rect.height()), QColor(theme.accent))
        picture = self._model.picture(index.row(), painter.device().devicePixelRatio())
        if picture is not None:
            painter.drawPixmap(rect.left() + SPACE * 2, rect.top() + SPACE, picture)
        self._write(painter, rect, index.row(), bool(option.state & QStyle.StateFlag.State_Selected))
        painter.restore()

    def _write(self, painter: QPainter, rect: QRect, row: int, chosen: bool) -> None:
        theme = self._look.theme
        beside = 0 if self._is_stacked else _PICTURE.width() + SPACE * 2
        left = rect.left() + SPACE * 2 + beside
        top, width = rect.top() + SPACE, self._words_width(rect.width())
        if self._is_stacked:
            top += _PICTURE.height() + SPACE
        tones = (
            theme.on_accent_soft if chosen else theme.text if self._model.is_done(row) else theme.text_soft,
            theme.error,
        )
        painter.setFont(self._font())
        for text, tone in zip(self._texts(row), tones, strict=False):
            painter.setPen(QColor(tone))
            high = self._height(text, width)
            painter.drawText(QRect(left, top, width, high), int(Qt.TextFlag.TextWordWrap), text)
            top += high

    def _texts(self, row: int) -> list[str]:
        fault = self._model.fault(row)
        return [f"{row + 1}. {self._model.sentence(row)}", *([f"⚠ {fault}"] if fault else [])]

    def _words_width(self, width: int) -> int:
        beside = 0 if self._is_stacked else _PICTURE.width() + SPACE * 2
        return max(120, width - beside - SPACE * 4)

    def _height(self, text: str, width: int) -> int:
        metrics = QFontMetrics(self._font())
        return (
            metrics.boundingRect(0, 0, width, 10_000, int(Qt.TextFlag.TextWordWrap), text).height()
            + SPACE_TIGHT
        )

    def _font(self) -> QFont:
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.body)
        return font

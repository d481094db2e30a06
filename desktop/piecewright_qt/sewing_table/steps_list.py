"""The steps as sentences, each with its picture in small; the one that breaks says why."""

from collections.abc import Sequence

from PySide6.QtCore import (
    QAbstractListModel,
    QMimeData,
    QModelIndex,
    QPersistentModelIndex,
    QPointF,
    QRect,
    QSize,
    Qt,
)
from PySide6.QtGui import (
    QColor,
    QFont,
    QFontMetricsF,
    QPainter,
    QPixmap,
    QTextCharFormat,
    QTextLayout,
    QTextOption,
)
from PySide6.QtWidgets import QStyle, QStyledItemDelegate, QStyleOptionViewItem

from piecewright.making.run import Making
from piecewright.making.table import Outcome
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.paper import paper
from piecewright_qt.sewing_table.sentence_numbers import numbers_in
from piecewright_qt.sewing_table.sheet import Subject, small_sheet
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_TIGHT

Index = QModelIndex | QPersistentModelIndex
STEP = "application/x-piecewright-step"
_PICTURE = QSize(104, 64)
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
        self._pictures: dict[int, tuple[Outcome, object, QPixmap]] = {}
        self._sentences: dict[int, str] = {}
        self._spans: dict[int, list[tuple[int, int]]] = {}
        bench.changed.connect(self.refresh)
        look.changed.connect(self._refresh_all)

    def refresh(self) -> None:
        """Show the steps as they are; those that did not run again keep their pictures."""
        self.beginResetModel()
        self._sentences.clear()
        self._spans.clear()
        self.endResetModel()

    def _refresh_all(self) -> None:
        self._pictures.clear()
        self.refresh()

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

    def flags(self, index: Index) -> Qt.ItemFlag:
        """A step can be dragged between two others."""
        return super().flags(index) | (
            Qt.ItemFlag.ItemIsDragEnabled if index.isValid() else Qt.ItemFlag.ItemIsDropEnabled
        )

    def supportedDropActions(self) -> Qt.DropAction:  # noqa: N802 - Qt's name
        """Steps are moved, not copied."""
        return Qt.DropAction.MoveAction

    def mimeTypes(self) -> list[str]:  # noqa: N802 - Qt's name
        """What a dragged step is carried as."""
        return [STEP]

    def mimeData(self, indexes: Sequence[QModelIndex]) -> QMimeData:  # noqa: N802 - Qt's name
        """A step on its way, by its row."""
        data = QMimeData()
        data.setData(STEP, str(indexes[0].row()).encode())
        return data

    def dropMimeData(  # noqa: N802 - Qt's name
        self, data: QMimeData, _action: Qt.DropAction, row: int, _column: int, parent: Index
    ) -> bool:
        """Put a step before the row it is let fall at; on a step, in that one's place."""
        if not data.hasFormat(STEP):
            return False
        came = int(bytes(data.data(STEP).data()).decode())
        count = self.rowCount()
        before = parent.row() if parent.isValid() else count if row < 0 else row
        to = before if parent.isValid() else before - (came < before)
        self._bench.move_to(came, to)
        return False  # the steps are as they should be: the view need not take the old one away

    def sentence(self, row: int) -> str:
        """What a step does, or what it was meant to do."""
        if row not in self._sentences:
            self._sentences[row] = self._sentence(row)
        return self._sentences[row]

    def _sentence(self, row: int) -> str:
        making, measure = self._bench.making, self._look.measure
        if making is not None and row < len(making.outcomes):
            return making.outcomes[row].sentence.text(measure)
        draft = self._bench.draft
        step = draft.steps[row] if draft is not None else {}
        return ", ".join(
            f"{key} {value}" for key, value in step.items() if key != "note" and isinstance(value, str)
        )

    def number_spans(self, row: int) -> list[tuple[int, int]]:
        """Where in the sentence numbers stand that can be typed over, and how long they are."""
        if row not in self._spans:
            found = numbers_in(self.sentence(row), self._bench, self._look, row)
            self._spans[row] = [(number.start, number.length) for number in found]
        return self._spans[row]

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
        outcome, seen = making.outcomes[row], (sharpness, self._bench.fabrics)
        kept = self._pictures.get(row)
        if kept is None or kept[0] is not outcome or kept[1] != seen:
            kept = (outcome, seen, _small(making, row, self._bench, self._look, sharpness))
            self._pictures[row] = kept
        return kept[2]


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
        high = sum(self._height(text, width) for text in self._texts(index.row()).values())
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
        tone = theme.on_accent_soft if chosen else theme.text if self._model.is_done(row) else theme.text_soft
        top = float(self._words_at(rect).y())
        tones = {"sentence": tone, "fault": theme.error, "note": tone if chosen else theme.text_soft}
        for kind, text in self._texts(row).items():
            numbered = row if kind == "sentence" else None
            laid = self._laid(text, numbered, self._words_width(rect.width()), chosen)
            painter.setPen(QColor(tones[kind]))
            laid.draw(painter, QPointF(self._words_at(rect).x(), top))
            top += laid.boundingRect().height() + SPACE_TIGHT

    def span_rect(self, rect: QRect, row: int, start: int, length: int) -> QRect:
        """Where some signs of a row's sentence stand, in a row that lies there."""
        text = self._texts(row)["sentence"]
        laid = self._laid(text, row, self._words_width(rect.width()), chosen=False)
        start += len(text) - len(self._model.sentence(row))
        line = laid.lineForTextPosition(start)
        metrics = QFontMetricsF(self._font())
        left = metrics.horizontalAdvance(text[line.textStart() : start])
        right = metrics.horizontalAdvance(text[line.textStart() : start + length])
        corner = self._words_at(rect)
        return QRect(
            round(corner.x() + left),
            round(corner.y() + line.y()),
            round(right - left) or 8,
            round(line.height()),
        )

    def _words_at(self, rect: QRect) -> QPointF:
        beside = 0 if self._is_stacked else _PICTURE.width() + SPACE * 2
        under = _PICTURE.height() + SPACE if self._is_stacked else 0
        return QPointF(rect.left() + SPACE * 2 + beside, rect.top() + SPACE + under)

    def _texts(self, row: int) -> dict[str, str]:
        """What a row says: its sentence, what is wrong with it, and the recipe's own note, such as how to press."""
        fault, note = self._model.fault(row), self._model.note(row)
        texts = {"sentence": f"{row + 1}. {self._model.sentence(row)}"}
        return texts | ({"fault": f"⚠ {fault}"} if fault else {}) | ({"note": note} if note else {})

    def _words_width(self, width: int) -> int:
        beside = 0 if self._is_stacked else _PICTURE.width() + SPACE * 2
        return max(120, width - beside - SPACE * 4)

    def _height(self, text: str, width: int) -> int:
        return round(self._laid(text, None, width, chosen=False).boundingRect().height()) + SPACE_TIGHT

    def _laid(self, text: str, row: int | None, width: int, chosen: bool) -> QTextLayout:
        """Words in lines; the numbers of a row's sentence that can be typed over are underlined."""
        laid = QTextLayout(text, self._font())
        option = QTextOption()
        option.setWrapMode(QTextOption.WrapMode.WordWrap)
        laid.setTextOption(option)
        if row is not None:
            laid.setFormats(self._formats(text, row, chosen))
        laid.beginLayout()
        high = 0.0
        while (line := laid.createLine()).isValid():
            line.setLineWidth(width)
            line.setPosition(QPointF(0, high))
            high += line.height()
        laid.endLayout()
        return laid

    def _formats(self, text: str, row: int, chosen: bool) -> list[QTextLayout.FormatRange]:
        ahead = len(text) - len(self._model.sentence(row))
        theme, formats = self._look.theme, []
        for start, length in self._model.number_spans(row):
            style = QTextCharFormat()
            style.setUnderlineStyle(QTextCharFormat.UnderlineStyle.DotLine)
            if not chosen:
                style.setForeground(QColor(theme.accent))
            found = QTextLayout.FormatRange()
            found.start, found.length, found.format = start + ahead, length, style
            formats.append(found)
        return formats

    def _font(self) -> QFont:
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.body)
        return font

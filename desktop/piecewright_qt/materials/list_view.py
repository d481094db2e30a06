"""The Materials list on the screen: rows of any height; those that changed are set anew, those in view painted."""

from bisect import bisect_right
from collections.abc import Hashable, Mapping
from itertools import accumulate
from typing import NamedTuple

from PySide6.QtCore import (
    QEvent,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPoint,
    QRect,
    QRectF,
    Qt,
    Signal,
)
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QRegion,
    QResizeEvent,
)
from PySide6.QtWidgets import QAbstractItemView, QFrame, QListView, QStyle, QToolTip

from piecewright.model.fabric import Fabric
from piecewright_qt.look import Look
from piecewright_qt.materials.list_model import Index, MaterialsModel
from piecewright_qt.materials.row_painter import RowPainter
from piecewright_qt.materials.rows import Comparison, Row
from piecewright_qt.materials.swatches import Swatches
from piecewright_qt.materials.typesetting import Setting, Type

_FOLD_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
_WHEEL = 20
_LEAST_WIDTH = 120
Move = QAbstractItemView.CursorAction


class _Set(NamedTuple):
    """A row set in type, and for what; the row is kept so that its identity stays its own."""

    row: Row
    width: int
    is_open: bool
    setting: Setting


class MaterialsList(QListView):
    """Shows a comparison of rows. Enter opens the sum behind a number in place, or folds a section.

    Its terms stand below it where `rows.terms` gives them; `pointed` tells what the one pressed is about.

    It is a QListView for keys, selection and screen readers; places and painting are its own, since heights differ
    and a preview changes few of them. `set_rows` counts rows set in type, for benches. `folding` tells which section is
    being folded away or unfolded.
    """

    pointed = Signal(object)
    folding = Signal(str)

    def __init__(self, look: Look, pictures: Mapping[str, bytes]) -> None:
        super().__init__()
        self._look = look
        self._swatches = Swatches(pictures, self)
        self._swatches.arrived.connect(self._repaint)
        self._faces = Type(look.scale)
        self._painter = RowPainter(look.theme, self._faces, self._swatches)
        self._settings: dict[int, _Set] = {}
        self._tops: list[int] = [0]
        self._wide = _LEAST_WIDTH
        """Pixels of a row: the same with and without a scroll bar, so that no line breaks anew when one comes."""
        self._hovered = -1
        self.set_rows = 0
        self.rows = MaterialsModel(look)
        self.setModel(self.rows)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setStyleSheet("QListView:focus { border: none; }")  # the row that the keys are at shows it
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.viewport().setMouseTracking(True)
        self.verticalScrollBar().setSingleStep(_WHEEL)
        look.changed.connect(self._dress)

    # What is shown -------------------------------------------------------------------------------------------------

    def show_rows(self, comparison: Comparison, fabrics: Mapping[str, Fabric]) -> None:
        """Show rows; where the list is scrolled to and which row the keys are at stays."""
        self._painter.fabrics = fabrics
        top, current = self._anchor(), self._current()
        is_other = self.rows.show(comparison)
        self._settle(top)
        if is_other and current is not None and (place := self.rows.place(current)) is not None:
            self.setCurrentIndex(self.rows.index(place))

    def toggle(self, index: Index) -> None:
        """Fold or unfold a section, open or close the reason of a line."""
        if not index.isValid():
            return
        row = self.rows.rows[index.row()]
        if row.kind == "heading":
            self.fold(row.section, away=row.section not in self.rows.folded)
        elif row.kind == "term" or row.why is not None:
            self._open(index, row)

    def _open(self, index: Index, row: Row) -> None:
        """Open a number to its sum and the terms of it, or close it; show on the wall what a term is about."""
        if row.kind == "line" or row.subject is not None:
            self.rows.opened ^= {row.key}
            QToolTip.hideText()
            self.show_rows(self.rows.comparison, self._painter.fabrics)
            self._settle(self._anchor())
            last = index.row()
            while last + 1 < len(self.rows.rows) and self.rows.rows[last + 1].level > row.level:
                last += 1
            self.scrollTo(self.rows.index(last))
            self.scrollTo(index)
        if row.refers is not None:
            self.pointed.emit(row.refers)

    def fold(self, section: str, *, away: bool) -> None:
        """Fold a section away, or unfold it."""
        if (section in self.rows.folded) == away:
            return
        self.rows.folded ^= {section}
        self.folding.emit(section)
        self.show_rows(self.rows.comparison, self._painter.fabrics)
        heading = self.rows.place(f"heading:{section}")
        if heading is not None:
            self.setCurrentIndex(self.rows.index(heading))

    def _dress(self) -> None:
        if self._faces.scale != self._look.scale:
            self._faces = Type(self._look.scale)
            self._settings.clear()
        fabrics = self._painter.fabrics
        self._painter = RowPainter(self._look.theme, self._faces, self._swatches)
        self._painter.fabrics = fabrics
        self._settle(self._anchor())

    def _repaint(self) -> None:
        self.viewport().update()

    # Where rows are --------------------------------------------------------------------------------------------------

    def _setting(self, row: Row) -> Setting:
        width, is_open = self._wide, row.key in self.rows.opened
        found = self._settings.get(id(row))
        if found is None or found.width != width or found.is_open != is_open:
            self.set_rows += 1
            setting = self._faces.set_row(row, width, self.rows.reason(row) if is_open else "")
            found = self._settings[id(row)] = _Set(row, width, is_open, setting)
        return found.setting

    def _anchor(self) -> tuple[Hashable, int] | None:
        """The topmost row in view and how far it is scrolled out; None at the very top."""
        value = self.verticalScrollBar().value()
        if not value or len(self._tops) < 2:
            return None
        place = min(bisect_right(self._tops, value) - 1, len(self.rows.rows) - 1, len(self._tops) - 2)
        return self.rows.rows[place].key, value - self._tops[place]

    def _settle(self, anchor: tuple[Hashable, int] | None) -> None:
        """Work out where rows are, and keep the anchor where it is seen."""
        if len(self._settings) > 4 * len(self.rows.rows) + 400:
            self._settings.clear()
        bar = self.style().pixelMetric(QStyle.PixelMetric.PM_ScrollBarExtent)
        self._wide = max(_LEAST_WIDTH, self.width() - bar)
        self._tops = list(accumulate((self._setting(row).height for row in self.rows.rows), initial=0))
        self.updateGeometries()
        place = self.rows.place(anchor[0]) if anchor is not None else None
        if anchor is not None and place is not None:
            self.verticalScrollBar().setValue(self._tops[place] + anchor[1])
        self.viewport().update()

    def _current(self) -> Hashable:
        index = self.currentIndex()
        return self.rows.rows[index.row()].key if index.isValid() else None

    # Qt's own calls: geometry ----------------------------------------------------------------------------------------

    def doItemsLayout(self) -> None:  # noqa: N802 - Qt's name
        """Places are worked out where rows are shown; Qt's own layout has nothing to do."""

    def updateGeometries(self) -> None:  # noqa: N802 - Qt's name
        """The range of the scroll bar."""
        bar, page = self.verticalScrollBar(), self.viewport().height()
        bar.setPageStep(page)
        bar.setRange(0, max(0, self._tops[-1] + _WHEEL - page))

    def verticalOffset(self) -> int:  # noqa: N802 - Qt's name
        """Pixels scrolled."""
        return self.verticalScrollBar().value()

    def visualRect(self, index: Index) -> QRect:  # noqa: N802 - Qt's name
        """Where a row is seen."""
        place = index.row()
        if not index.isValid() or place >= len(self._tops) - 1:
            return QRect()
        top = self._tops[place]
        return QRect(0, top - self.verticalOffset(), self._wide, self._tops[place + 1] - top)

    def indexAt(self, point: QPoint) -> QModelIndex:  # noqa: N802 - Qt's name
        """The row at a place."""
        place = bisect_right(self._tops, point.y() + self.verticalOffset()) - 1
        return self.rows.index(place) if 0 <= place < len(self._tops) - 1 else QModelIndex()

    def scrollTo(  # noqa: N802 - Qt's name
        self,
        index: Index,
        hint: QAbstractItemView.ScrollHint = QAbstractItemView.ScrollHint.EnsureVisible,  # noqa: ARG002 - as Qt has it
    ) -> None:
        """Bring a row into view."""
        rect, bar, page = self.visualRect(index), self.verticalScrollBar(), self.viewport().height()
        if rect.isNull():
            return
        if rect.top() < 0 or rect.height() > page:
            bar.setValue(bar.value() + rect.top())
        elif rect.bottom() >= page:
            bar.setValue(bar.value() + rect.bottom() - page + 1)

    def moveCursor(self, action: Move, modifiers: Qt.KeyboardModifier) -> QModelIndex:  # noqa: N802, ARG002 - Qt's name
        """The row that a key leads to."""
        last = len(self.rows.rows) - 1
        if last < 0:
            return QModelIndex()
        index = self.currentIndex()
        place = index.row() if index.isValid() else -1
        page = self.viewport().height()
        if action in (Move.MovePageDown, Move.MovePageUp):
            away = page if action == Move.MovePageDown else -page
            place = bisect_right(self._tops, self._tops[max(place, 0)] + away) - 1
        else:
            place = {Move.MoveHome: 0, Move.MoveEnd: last}.get(action, place + _STEPS.get(action, 0))
        return self.rows.index(min(max(place, 0), last))

    def setSelection(self, rect: QRect, command: QItemSelectionModel.SelectionFlag) -> None:  # noqa: N802 - Qt's name
        """Choose the row at a place."""
        index = self.indexAt(rect.center())
        self.selectionModel().select(QItemSelection(index, index), command)

    def visualRegionForSelection(self, selection: QItemSelection) -> QRegion:  # noqa: N802 - Qt's name
        """What to paint anew when another row is chosen."""
        region = QRegion()
        for index in selection.indexes():
            region |= QRegion(self.visualRect(index))
        return region

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Another width breaks lines anew."""
        anchor = self._anchor()
        super().resizeEvent(event)
        self._settle(anchor)

    def scrollContentsBy(self, dx: int, dy: int) -> None:  # noqa: N802, ARG002 - Qt's name
        """Paint what has come into view."""
        self.viewport().update()

    # Qt's own calls: painting, keys, mouse ---------------------------------------------------------------------------

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paint the rows in view."""
        painter = QPainter(self.viewport())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        offset, area = self.verticalOffset(), event.rect()
        first = max(0, bisect_right(self._tops, area.top() + offset) - 1)
        current, focused = self.currentIndex().row(), self.hasFocus()
        for place in range(first, len(self.rows.rows)):
            top = self._tops[place] - offset
            if top > area.bottom():
                break
            row = self.rows.rows[place]
            setting = self._setting(row)
            rect = QRectF(0, top, self._wide, setting.height)
            self._painter.ground(
                painter, rect, chosen=place == current, hovered=place == self._hovered, focused=focused
            )
            if row.kind == "heading":
                self._painter.heading(painter, rect, setting, folded=row.section in self.rows.folded)
            self._painter.paint(painter, rect, row, setting, self.rows.mark(row))
        if offset:  # what is scrolled away ends at a line
            painter.fillRect(QRectF(0, 0, self.viewport().width(), 1), QColor(self._look.theme.line))
        painter.end()

    def focusInEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """The keys are at a row from the first."""
        if not self.currentIndex().isValid() and self.rows.rows:
            self.setCurrentIndex(self.rows.index(0))
        super().focusInEvent(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter and Space open and fold; left folds the section that the row is in, right unfolds it."""
        index = self.currentIndex()
        key = event.key()
        if key in _FOLD_KEYS and index.isValid():
            self.toggle(index)
        elif key in (Qt.Key.Key_Left, Qt.Key.Key_Right) and index.isValid():
            self.fold(self.rows.rows[index.row()].section, away=key == Qt.Key.Key_Left)
        else:
            super().keyPressEvent(event)
            self._tell_reason()
            return
        event.accept()

    def _tell_reason(self) -> None:
        """The reason of the row that the keys have come to, as the pointer would show it."""
        index = self.currentIndex()
        row = self.rows.rows[index.row()] if index.isValid() else None
        if row is None or row.why is None or row.key in self.rows.opened:
            QToolTip.hideText()
            return
        rect = self.visualRect(index)
        place = self.viewport().mapToGlobal(rect.bottomLeft() + QPoint(self._faces.indent, 0))
        QToolTip.showText(place, str(index.data(Qt.ItemDataRole.ToolTipRole)), self.viewport(), rect)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """A press on a row opens or folds it."""
        super().mousePressEvent(event)
        if event.button() == Qt.MouseButton.LeftButton:
            self.toggle(self.indexAt(event.position().toPoint()))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Follow the pointer."""
        super().mouseMoveEvent(event)
        self._hover(self.indexAt(event.position().toPoint()).row())

    def viewportEvent(self, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Nothing is under a pointer that has left."""
        if event.type() == QEvent.Type.Leave:
            self._hover(-1)
        return super().viewportEvent(event)

    def _hover(self, place: int) -> None:
        if place != self._hovered:
            self._hovered = place
            self.viewport().update()


_STEPS = {Move.MoveDown: 1, Move.MoveNext: 1, Move.MoveUp: -1, Move.MovePrevious: -1}

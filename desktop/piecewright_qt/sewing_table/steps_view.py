"""The list of steps under hands: numbers in the sentences are fields in place, and steps are dragged elsewhere."""

from PySide6.QtCore import QEvent, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent
from PySide6.QtWidgets import QAbstractItemView, QFrame, QLineEdit, QListView

from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.sentence_numbers import Number, numbers_in, put_number, typed_text
from piecewright_qt.sewing_table.steps_list import StepsDelegate, StepsModel
from piecewright_qt.theme.tokens import SPACE

_WIDER = 26  # pixels that a field is wider than its number


class NumberField(QLineEdit):
    """A field over a number; Tab goes to the next number, Escape leaves it as it was."""

    def __init__(self, view: "StepsView", row: int, at: int, text: str) -> None:
        super().__init__(text, view.viewport())
        self._view = view
        self.row = row
        self.at = at
        self._begun = text
        self._done = False
        self.selectAll()

    def event(self, event: QEvent) -> bool:
        """Tab is ours, and so is Escape, whatever else it means in the window."""
        if isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
            if event.type() == QEvent.Type.ShortcutOverride:
                event.accept()
                return True
        elif isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            by = {Qt.Key.Key_Tab: 1, Qt.Key.Key_Backtab: -1}.get(Qt.Key(event.key()))
            if by is not None:
                self.finish(self.at + by)
                return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter sets the number, Escape leaves it."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.finish()
        elif event.key() == Qt.Key.Key_Escape:
            self.setText(self._begun)
            self.finish()
        else:
            super().keyPressEvent(event)

    def finish(self, then: int | None = None) -> None:
        """Set the number, once; then go to another number of the sentence, where there is one."""
        if self._done:
            return
        self._done = True
        changed = self.text() != self._begun
        self.hide()
        self.deleteLater()
        self._view.number_typed(self.row, self.at, self.text() if changed else "", then)


class StepsView(QListView):
    """One row a step."""

    def __init__(self, bench: Bench, model: StepsModel, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._steps = model
        self._pressed = QPoint()
        self.field: NumberField | None = None
        self.delegate = StepsDelegate(model, look)
        self.setModel(model)
        self.setItemDelegate(self.delegate)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.setDefaultDropAction(Qt.DropAction.MoveAction)
        self.setDropIndicatorShown(True)
        self.setAccessibleName(self.tr("Steps"))
        self.viewport().setMouseTracking(True)

    def numbers(self, row: int) -> tuple[Number, ...]:
        """The numbers of a step that can be typed over."""
        return numbers_in(self._steps.sentence(row), self._bench, self._look, row)

    def number_rect(self, row: int, at: int) -> QRect:
        """Where a number stands, in the viewport."""
        number = self.numbers(row)[at]
        rect = self.visualRect(self._steps.index(row))
        return self.delegate.span_rect(rect, row, number.start, number.length)

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """A number that is clicked becomes a field once the button is let go."""
        self._pressed = event.position().toPoint()
        super().mousePressEvent(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Open the field of the number that was clicked."""
        super().mouseReleaseEvent(event)
        at = event.position().toPoint()
        if event.button() == Qt.MouseButton.LeftButton and (at - self._pressed).manhattanLength() < SPACE:
            found = self._number_at(at)
            if found is not None:
                self.edit_number(*found)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """The pointer tells where a number can be typed over."""
        over = event.buttons() == Qt.MouseButton.NoButton and self._number_at(event.position().toPoint())
        self.viewport().setCursor(Qt.CursorShape.IBeamCursor if over else Qt.CursorShape.ArrowCursor)
        super().mouseMoveEvent(event)

    def _number_at(self, point: QPoint) -> tuple[int, int] | None:
        index = self.indexAt(point)
        if not index.isValid():
            return None
        row = index.row()
        return next(
            ((row, at) for at in range(len(self.numbers(row))) if self.number_rect(row, at).contains(point)),
            None,
        )

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Enter or F2 opens the first number of the step in view."""
        if event.key() in (Qt.Key.Key_F2, Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.numbers(
            self._bench.step
        ):
            self.edit_number(self._bench.step, 0)
        else:
            super().keyPressEvent(event)

    def edit_number(self, row: int, at: int) -> None:
        """Put a field over a number."""
        number = self.numbers(row)[at]
        text = typed_text(number, self._steps.sentence(row), self._look)
        self.field = field = NumberField(self, row, at, text)
        field.setAccessibleName(self.tr("Number in step {number}").format(number=row + 1))
        field.setStyleSheet(f"padding: 0 2px; font-size: {self._look.scale.body}px")
        rect = self.number_rect(row, at)
        size = QSize(rect.width() + _WIDER, max(rect.height() + 6, field.sizeHint().height() - 8))
        field.setGeometry(QRect(QPoint(rect.left() - 4, rect.center().y() - size.height() // 2), size))
        field.show()
        field.setFocus(Qt.FocusReason.OtherFocusReason)
        field.editingFinished.connect(field.finish)

    def number_typed(self, row: int, at: int, text: str, then: int | None) -> None:
        """Set a number of a step; nothing typed leaves it. Then open another, or give the keys back to the list."""
        self.field = None
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        found = self.numbers(row)
        if text and at < len(found):
            put_number(self._bench, self._look, found[at], text)
        if then is not None and 0 <= then < len(self.numbers(row)):
            self.edit_number(row, then)

"""The middle of the Sewing table: the step in view, large; what lies on the table, below it; the verbs at the edge."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLabel, QSplitter, QVBoxLayout, QWidget

from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.shelf_drop import ShelfDrop
from piecewright_qt.sewing_table.step_canvas import StepCanvas
from piecewright_qt.sewing_table.table_top import TableTop
from piecewright_qt.sewing_table.verbs_bar import VerbsBar
from piecewright_qt.theme.tokens import SPACE_WIDE

_ROOM_FOR_BOTH = 300  # pixels of height for the picture of the step and the table below it


class WorkPlace(QWidget):
    """Where hands work; one line says what they would do."""

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._look = look
        self.canvas = StepCanvas(bench, look)
        self.top = TableTop(bench, look)
        self.verbs = VerbsBar(look, self._do)
        self.line = QLabel()
        self.line.setTextFormat(Qt.TextFormat.PlainText)
        self.line.setWordWrap(True)
        self.line.setAlignment(Qt.AlignmentFlag.AlignTop | Qt.AlignmentFlag.AlignLeft)
        self.line.setContentsMargins(SPACE_WIDE, 0, SPACE_WIDE, 0)
        self.line.setAccessibleName(self.tr("What would be done"))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        both = QSplitter(Qt.Orientation.Vertical)
        both.setHandleWidth(1)
        both.setChildrenCollapsible(False)
        both.addWidget(self.canvas)
        both.addWidget(self.top)
        both.setStretchFactor(0, 1)
        both.setStretchFactor(1, 1)
        both.setSizes([600, 400])
        column.addWidget(both, 1)
        column.addWidget(self.line)
        column.addWidget(self.verbs)
        for source in (self.top, self.canvas):
            source.said.connect(self._say)
        self.top.warned.connect(self._warn)
        drop = ShelfDrop(bench, self.top, self.canvas)
        drop.hovered.connect(self.top.show_coming)
        look.changed.connect(self._dress)
        self._wrong = False
        self._dress()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Where both do not have room, the table stays: the step is pictured in the list too."""
        super().resizeEvent(event)
        self._make_room()

    def _make_room(self) -> None:
        taken = self.line.maximumHeight() + self.verbs.sizeHint().height()
        self.canvas.setVisible(self.height() - taken >= _ROOM_FOR_BOTH)

    def _do(self, word: str) -> None:
        self.top.do_verb(word)
        if self.top.hold is not None:
            self.top.setFocus()

    def _say(self, text: str) -> None:
        self._wrong = False
        self.line.setText(text)
        self.line.setToolTip(text)
        self._dress()

    def _warn(self, text: str) -> None:
        self._wrong = True
        self.line.setText(f"⚠ {text}")
        self.line.setToolTip(text)
        self._dress()

    def _dress(self) -> None:
        theme = self._look.theme
        color = theme.error if self._wrong else theme.text_soft
        self.line.setStyleSheet(f"color: {color}; font-size: {self._look.scale.small}px")
        self.line.setFixedHeight(round(self._look.scale.small * 2.9))
        self._make_room()

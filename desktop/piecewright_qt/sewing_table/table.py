"""The Sewing table: steps at the left, the step in view large, its fields beside it, what comes of it at the foot."""

from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QItemSelectionModel, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QMenu,
    QPushButton,
    QScrollArea,
    QSplitter,
    QStackedWidget,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from piecewright.making.verbs import VERBS
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.runner import Runner
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.facts_foot import FactsFoot
from piecewright_qt.sewing_table.numbers.block_face import BlockFace
from piecewright_qt.sewing_table.numbers.form_marks import FormMarks
from piecewright_qt.sewing_table.numbers.matters import FreeLengths
from piecewright_qt.sewing_table.numbers.panel import NumbersPanel
from piecewright_qt.sewing_table.step_form import StepForm
from piecewright_qt.sewing_table.steps_list import StepsModel
from piecewright_qt.sewing_table.steps_view import StepsView
from piecewright_qt.sewing_table.verbs import verb_name
from piecewright_qt.sewing_table.work_place import WorkPlace
from piecewright_qt.theme.icons import icon
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE

if TYPE_CHECKING:
    from piecewright_qt.sewing_table.draws_panel import DrawsPanel

_BESIDE = (276, 206)  # pixels of the columns beside the picture, at a text scale of 1
_LEAST_MIDDLE = 400
_ONE_ROW = 1.3  # the largest text scale at which all buttons stand in one row


class SewingTable(QWidget):
    """One block and its making. `left` asks to go back to the wall; long sums go to the runner, where there is one."""

    left = Signal()

    def __init__(self, document: Document, look: Look, runner: Runner | None = None) -> None:
        super().__init__()
        self._document = document
        self._look = look
        self.bench = Bench(document)
        self.work = WorkPlace(self.bench, look)
        self.canvas = self.work.canvas
        self.model = StepsModel(self.bench, look)
        self.form = StepForm(self.bench, look)
        self.free = FreeLengths(self.bench)
        self.numbers = NumbersPanel(self.bench, look, self.free, runner)
        FormMarks(self.bench, self.numbers.matters, self.form)
        self.face = BlockFace(self.bench, look)
        self.foot = FactsFoot(self.bench, look, self.free)
        self.draws: DrawsPanel | None = None
        self.setAccessibleName(self.tr("Sewing table"))
        self._lay_out()
        self.bench.changed.connect(self._refresh)
        self.bench.stepped.connect(self._mark_step)
        self.list.selectionModel().currentChanged.connect(
            lambda now, _before: self.bench.show_step(now.row())
        )
        look.changed.connect(self._refresh)
        look.changed.connect(self._share_room)
        self.numbers.overlay_asked.connect(self._show_overlay)
        self.bench.stepped.connect(self.numbers.drop_overlay)
        self.bench.stepped.connect(self._leave_draws)
        for keys, act in (("Alt+Up", lambda: self.bench.move(-1)), ("Alt+Down", lambda: self.bench.move(1))):
            QShortcut(QKeySequence(keys), self, act)
        QShortcut(
            QKeySequence("Del"), self.list, self.bench.remove, context=Qt.ShortcutContext.WidgetShortcut
        )

    def open_block(self, block_id: str) -> None:
        """Take a block in hand."""
        self.bench.open(block_id)
        self._leave_draws()
        self._mark_step()
        self.list.setFocus()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._head())
        splitter = self._columns = QSplitter(Qt.Orientation.Horizontal)
        splitter.setHandleWidth(1)
        splitter.addWidget(self._steps())
        self.middle = QStackedWidget()
        self.middle.addWidget(self.work)
        self.middle.addWidget(self.face)
        splitter.addWidget(self.middle)
        self.edge = self._edge()
        splitter.addWidget(self.edge)
        splitter.setStretchFactor(1, 1)
        self._share_room()
        column.addWidget(splitter, 1)
        column.addWidget(self.foot)

    def _share_room(self) -> None:
        """Steps and fields as wide as their words need, all else for the picture."""
        text = self._look.scale.text
        steps, fields = (round(wide * (1 + text) / 2) for wide in _BESIDE)
        self._columns.setSizes([steps, max(self.width() - steps - fields, _LEAST_MIDDLE), fields])

    def _edge(self) -> QWidget:
        """The fields of the step, and under them the numbers of the block."""
        edge = QSplitter(Qt.Orientation.Vertical)
        edge.setHandleWidth(1)
        edge.addWidget(self._fields())
        edge.addWidget(self.numbers)
        edge.setSizes([280, 320])
        return edge

    def _show_overlay(self, overlay: str) -> None:
        """The finished block with something over it in the place of the step, or the step again."""
        self.middle.setCurrentWidget(self.face if overlay else self.work)
        self.face.show_overlay(overlay)

    def show_draws(self) -> None:
        """Different blocks of a recipe that leaves something to chance, in the place of the step."""
        from piecewright_qt.sewing_table.draws_panel import DrawsPanel

        if self.draws is None:
            self.draws = DrawsPanel(self.bench, self._look)
            self.draws.left.connect(self._leave_draws)
            self.middle.addWidget(self.draws)
        self.middle.setCurrentWidget(self.draws)
        self.edge.hide()  # fields and numbers are of a step and a block; here are many blocks
        self.draws.begin()

    def _leave_draws(self) -> None:
        """Back to the step."""
        if self.draws is not None and self.middle.currentWidget() is self.draws:
            self.middle.setCurrentWidget(self.work)
            self.edge.show()
            self.list.setFocus()

    def _head(self) -> QWidget:
        head = QWidget()
        head.setProperty("place", "bar")
        head.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        row = self.head_row = QHBoxLayout(head)
        row.setContentsMargins(SPACE_WIDE, SPACE, SPACE, SPACE)
        self.title = QLabel()
        self.title.setProperty("type", "lead")
        self.title.setTextFormat(Qt.TextFormat.PlainText)
        row.addWidget(self.title, 1)
        self.varied = QPushButton(self.tr("Different blocks…"))
        self.varied.setToolTip(
            self.tr("Draw what this recipe leaves to chance, and keep the blocks you like")
        )
        self.varied.clicked.connect(self.show_draws)
        row.addWidget(self.varied)
        back = QPushButton(self.tr("Back to the wall"))
        back.clicked.connect(self.left)
        row.addWidget(back)
        return head

    def _steps(self) -> QWidget:
        holder = QWidget()
        holder.setProperty("place", "panel")
        holder.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(holder)
        column.setContentsMargins(0, 0, 0, SPACE)
        self.list = StepsView(self.bench, self.model, self._look)
        column.addWidget(self.list, 1)
        column.addLayout(self._step_buttons())
        return holder

    def _step_buttons(self) -> QGridLayout:
        self._buttons = row = QGridLayout()
        row.setContentsMargins(SPACE, 0, SPACE, 0)
        self.add = QPushButton(self.tr("Add a step"))
        menu = QMenu(self.add)
        for word in VERBS:
            menu.addAction(verb_name(word), partial(self.bench.insert, word)).setData(word)
        self.add.setMenu(menu)
        self._icons: list[tuple[QToolButton, str]] = []
        for name, text, act in (
            ("up", self.tr("Earlier (Alt+Up)"), lambda: self.bench.move(-1)),
            ("down", self.tr("Later (Alt+Down)"), lambda: self.bench.move(1)),
            ("delete", self.tr("Take this step out (Del)"), self.bench.remove),
        ):
            button = QToolButton()
            button.setToolTip(text)
            button.setAccessibleName(text)
            button.clicked.connect(lambda _checked=False, act=act: act())
            self._icons.append((button, name))
        self._place_buttons()
        return row

    def _place_buttons(self) -> None:
        """In one row; with large text the first has a row of its own."""
        large = self._look.scale.text > _ONE_ROW
        self._buttons.addWidget(self.add, 0, 0, 1, len(self._icons) if large else 1)
        for at, (button, _) in enumerate(self._icons):
            self._buttons.addWidget(button, 1 if large else 0, at if large else at + 1)

    def _fields(self) -> QWidget:
        area = QScrollArea()
        area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        area.setWidgetResizable(True)
        area.setFrameShape(QFrame.Shape.NoFrame)
        self.form.setProperty("place", "panel")
        self.form.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        area.setWidget(self.form)
        area.setMinimumWidth(190)
        area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        return area

    def _refresh(self) -> None:
        block = self.bench.block
        self.title.setText("" if block is None else block.name)
        standing = self.bench.standing
        varies = standing is not None and standing.sound is not None and bool(standing.sound.vary)
        self.varied.setVisible(varies)
        if not varies:
            self._leave_draws()
        for button, name in self._icons:
            button.setIcon(icon(name, self._look.theme))
        self._place_buttons()
        self._mark_step()

    def _mark_step(self) -> None:
        index = self.model.index(self.bench.step)
        self.list.selectionModel().setCurrentIndex(index, QItemSelectionModel.SelectionFlag.ClearAndSelect)
        self.list.scrollTo(index)

"""The place of the sewing plan: the steps at the left, the one in hand as a picture, back and next by keys."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QHideEvent, QKeyEvent, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QScrollArea,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from piecewright.errors import Finding
from piecewright.plan.pressing_of_block import joins_summary
from piecewright.render.sewing_page import step_words
from piecewright.render.sewing_picture import SewingPicture
from piecewright.units.measure import Measure
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.runner import Job, Runner
from piecewright_qt.sewing_plan.canvas import StepCanvas
from piecewright_qt.theme.tokens import SPACE, SPACE_TIGHT, SPACE_WIDE

_KEY = "sewing-plan"
_NEXT = (Qt.Key.Key_Right, Qt.Key.Key_PageDown, Qt.Key.Key_Space)
_LINES = 3  # of words that are always in view
_BACK = (Qt.Key.Key_Left, Qt.Key.Key_PageUp, Qt.Key.Key_Backspace)


class SewingPlan(QWidget):
    """All steps of the top in view. `left` asks to go back to the wall, `picture_asked` to save every step drawn."""

    left = Signal()
    picture_asked = Signal()

    def __init__(self, document: Document, look: Look, runner: Runner) -> None:
        super().__init__()
        self._document, self._look, self._runner = document, look, runner
        self.picture: SewingPicture | None = None
        self.canvas = StepCanvas(look, runner)
        self.steps = QListWidget()
        self.setAccessibleName(self.tr("Sewing plan"))
        self._lay_out()
        document.changed.connect(lambda _before, _after: self._follow())
        document.previewed.connect(lambda _design: self._follow())
        look.changed.connect(self._tell)
        self.steps.currentRowChanged.connect(self._show_step)
        self.steps.installEventFilter(self)

    @property
    def index(self) -> int:
        """The step in hand, from 0; -1 where there is none."""
        return self.steps.currentRow()

    def begin(self) -> None:
        """Stepped up to: the keys go through the steps."""
        self._follow()
        self.steps.setFocus()

    def go(self, by: int) -> None:
        """To the next step, or back."""
        if self.steps.count():
            self.steps.setCurrentRow(min(max(self.index + by, 0), self.steps.count() - 1))

    # Qt's own calls -----------------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """What changed meanwhile."""
        super().showEvent(event)
        self._follow()

    def hideEvent(self, event: QHideEvent) -> None:  # noqa: N802 - Qt's name
        """Nobody looks: nothing is planned."""
        super().hideEvent(event)
        self._runner.give_up(_KEY)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Escape goes back to the wall."""
        if not self._key(event.key()):
            super().keyPressEvent(event)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Keys of the steps before those of a list."""
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and self._key(event.key()):
            return True
        return super().eventFilter(watched, event)

    def _key(self, key: int) -> bool:
        if key == Qt.Key.Key_Escape:
            self.left.emit()
        elif key in _NEXT:
            self.go(1)
        elif key in _BACK:
            self.go(-1)
        else:
            return False
        return True

    # Following ----------------------------------------------------------------------------------------------------

    def _follow(self) -> None:
        """Plan what is shown, off the window's thread."""
        design = self._document.shown
        if not self.isVisible() or (self.picture is not None and self.picture.design is design):
            return

        def work(_job: Job) -> SewingPicture:
            picture = SewingPicture(design)
            _ = picture.pressing, picture.laid
            return picture

        if self.picture is None:
            self.summary.setText(self.tr("Working out how the top is sewn…"))
            for button in (self.save, self.back, self.next):
                button.setEnabled(False)
        self._runner.run(_KEY, work, self._take)

    def _take(self, picture: SewingPicture) -> None:
        before = max(self.index, 0)
        self.picture = picture
        self._tell()
        if picture.order.steps:
            self.steps.setCurrentRow(min(before, len(picture.order.steps) - 1))
        self._show_step(self.index)

    def _tell(self) -> None:
        """All words, in the measure of the look."""
        picture = self.picture
        if picture is None:
            return
        row, measure = self.index, self._look.measure
        self._scroll.setMinimumHeight(_LINES * self.words.fontMetrics().lineSpacing() + SPACE)
        self.steps.blockSignals(True)  # noqa: FBT003 - Qt's own signature
        self.steps.clear()
        for number, step in enumerate(picture.order.steps, 1):
            name = step.name.text(measure)
            item = QListWidgetItem(f"{number}  {name[:1].upper()}{name[1:]}")
            item.setData(Qt.ItemDataRole.AccessibleDescriptionRole, step.sentence.text(measure))
            self.steps.addItem(item)
        self.steps.setCurrentRow(row if row < self.steps.count() else -1)
        self.steps.blockSignals(False)  # noqa: FBT003 - Qt's own signature
        pressing = picture.pressing
        self.summary.setText(
            f"{picture.order.summary.text(measure)} {joins_summary(pressing).text(measure)}"
            if picture.order.steps
            else self.tr("No blocks hang yet: there is nothing to sew. Hang blocks on the wall first.")
        )
        findings = (*picture.order.findings, *pressing.findings)
        self.findings.setText("\n".join(_said(finding, measure) for finding in findings))
        self.findings.setVisible(bool(findings))
        self.save.setEnabled(bool(picture.order.steps))
        self._say_step()

    def _show_step(self, index: int) -> None:
        self._say_step()
        if self.picture is None or index < 0:
            self.canvas.show_nothing()
        else:
            self.canvas.show_step(self.picture, index)

    def _say_step(self) -> None:
        picture, index, count = self.picture, self.index, self.steps.count()
        self.back.setEnabled(index > 0)
        self.next.setEnabled(0 <= index < count - 1)
        if picture is None or index < 0:
            self.title.setText("")
            self.words.setText("")
            return
        step, measure = picture.order.steps[index], self._look.measure
        self.title.setText(
            self.tr("Step {n} of {all}: {name}").format(n=index + 1, all=count, name=step.name.text(measure))
        )
        said = "\n".join(words.text(measure) for words in step_words(picture, step))
        self.words.setText(said)
        self.canvas.setAccessibleDescription(said)

    # Arranging ----------------------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self._head())
        across = QSplitter(Qt.Orientation.Horizontal)
        across.setHandleWidth(1)
        across.setChildrenCollapsible(False)
        self.steps.setFrameShape(QFrame.Shape.NoFrame)
        self.steps.setWordWrap(True)
        self.steps.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.steps.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.steps.setAccessibleName(self.tr("Steps of the sewing plan"))
        self.steps.setMinimumWidth(150)
        across.addWidget(self.steps)
        across.addWidget(self._step())
        across.setStretchFactor(1, 1)
        across.setSizes([180, 640])
        column.addWidget(across, 1)

    def _head(self) -> QWidget:
        head = QWidget()
        head.setProperty("place", "bar")
        head.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(head)
        column.setContentsMargins(SPACE_WIDE, SPACE_TIGHT, SPACE, SPACE)
        column.setSpacing(SPACE_TIGHT)
        row = self.head_row = QHBoxLayout()
        title = QLabel(self.tr("Sewing plan"))
        title.setProperty("type", "lead")
        row.addWidget(title, 1)
        self.save = QPushButton(self.tr("Save the steps…"))
        self.save.setToolTip(self.tr("Save every step, drawn and in words, as one picture (SVG)"))
        self.save.clicked.connect(self.picture_asked)
        row.addWidget(self.save)
        wall = QPushButton(self.tr("Back to the wall"))
        wall.setToolTip(self.tr("Back to the wall (Esc)"))
        wall.clicked.connect(self.left)
        row.addWidget(wall)
        column.addLayout(row)
        self.summary = _text("soft")
        self.findings = _text("small")
        self.findings.setProperty("tone", "warn")
        column.addWidget(self.summary)
        column.addWidget(self.findings)
        return head

    def _step(self) -> QWidget:
        """The picture over the words; these scroll where they are long, and may be given more room."""
        down = QSplitter(Qt.Orientation.Vertical)
        down.setProperty("place", "flannel")
        down.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        down.setHandleWidth(1)
        down.setChildrenCollapsible(False)
        down.addWidget(self.canvas)
        down.addWidget(self._foot())
        down.setStretchFactor(0, 1)
        down.setSizes([560, 130])
        return down

    def _foot(self) -> QWidget:
        foot = QWidget()
        foot.setProperty("place", "foot")
        foot.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        column = QVBoxLayout(foot)
        column.setContentsMargins(SPACE_WIDE, SPACE, SPACE_WIDE, 0)
        column.setSpacing(SPACE_TIGHT)
        self.title = _text("strong")
        row = QHBoxLayout()
        row.addWidget(self.title, 1)
        self.back = self._button(self.tr("Back"), self.tr("To the step before (Left)"), -1)
        self.next = self._button(self.tr("Next"), self.tr("To the next step (Right)"), 1)
        row.addWidget(self.back)
        row.addWidget(self.next)
        column.addLayout(row)
        self.words = _text("")
        self.words.setAlignment(Qt.AlignmentFlag.AlignTop)
        scroll = QScrollArea()
        scroll.setWidgetResizable(True)
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        scroll.setAccessibleName(self.tr("What to do in this step"))
        self._scroll = scroll
        inside = QWidget()
        inside.setProperty("place", "panel")
        inside.setAttribute(Qt.WidgetAttribute.WA_StyledBackground)
        around = QVBoxLayout(inside)
        around.setContentsMargins(0, 0, 0, SPACE)
        around.addWidget(self.words)
        scroll.setWidget(inside)
        column.addWidget(scroll, 1)
        return foot

    def _button(self, text: str, tip: str, by: int) -> QPushButton:
        button = QPushButton(text)
        button.setToolTip(tip)
        button.clicked.connect(lambda _on=False: self.go(by))
        return button


def _said(finding: Finding, measure: Measure) -> str:
    """What is found and what to do; where goes without saying."""
    said = (finding.message, *((finding.hint,) if finding.hint is not None else ()))
    return " ".join(words.text(measure) for words in said)


def _text(kind: str) -> QLabel:
    label = QLabel()
    if kind:
        label.setProperty("type", kind)
    label.setWordWrap(True)
    label.setTextFormat(Qt.TextFormat.PlainText)
    return label

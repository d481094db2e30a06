"""The finished block of the recipe in hand, large, with what is asked to lie over it."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPaintEvent, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from piecewright.errors import PiecewrightError
from piecewright.making.facts import Kind
from piecewright.making.open_edges import WaitingEdge, waiting_edges
from piecewright.making.pressing_plan import PressedBlock, PressingPlan
from piecewright.making.run import run
from piecewright.render.block_overlays import draw_layers, draw_plan, draw_waits
from piecewright.render.block_picture import draw_block
from piecewright.render.cloth import fabric_of
from piecewright.render.pen import Pen
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.numbers.plans import plan_for
from piecewright_qt.sewing_table.numbers.reckoner import Question, question_of
from piecewright_qt.sewing_table.paper import WORDS, lay_paper
from piecewright_qt.theme.tokens import SPACE_PAGE, SPACE_WIDE

_PAPER = 120.0  # pixels of the picture's own inch, at a text scale of 1


class BlockFace(QWidget):
    """One block of each kind can be chosen; `overlay` is "pressing", "stretch" or nothing."""

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench, self._look = bench, look
        self._brushes = Brushes()
        self.overlay = ""
        self._kinds: tuple[Kind, ...] = ()
        self._plan: PressingPlan | None = None
        self._waiting: tuple[WaitingEdge, ...] = ()
        self._size = (1.0, 1.0)
        self._stack = 1
        self.chooser = ChoiceField(self.tr("Which block"))
        self.chooser.edited.connect(self._choose)
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE_PAGE, SPACE_PAGE, SPACE_PAGE, SPACE_PAGE)
        column.addWidget(self.chooser)
        column.addStretch(1)
        self.setMinimumSize(260, 220)
        self.setAccessibleName(self.tr("The finished block"))
        bench.changed.connect(self.refresh)
        look.changed.connect(self.refresh)

    @property
    def kind(self) -> Kind | None:
        """The kind of block in view."""
        if not self._kinds:
            return None
        chosen = self.chooser.value
        return self._kinds[chosen if isinstance(chosen, int) and chosen < len(self._kinds) else 0]

    def show_overlay(self, overlay: str) -> None:
        """Lay something over the block."""
        self.overlay = overlay
        self.refresh()

    def refresh(self) -> None:
        """Look at the block anew, where it is to be seen."""
        if not self.overlay or not self.isVisible():
            return
        question = question_of(self._bench)
        facts = self._bench.facts
        self._kinds, self._plan = (), None
        if question is not None and facts is not None:
            self._kinds, self._stack = facts.kinds, facts.stack
            self._size = (float(facts.finished.width), float(facts.finished.height))
            self._plan = _plan(question)
        self._offer_kinds()
        self._choose()

    def showEvent(self, event: QShowEvent) -> None:  # noqa: N802 - Qt's name
        """What changed meanwhile is made up for."""
        super().showEvent(event)
        self.refresh()

    def _offer_kinds(self) -> None:
        names = [(number, ", ".join(kind.blocks)) for number, kind in enumerate(self._kinds)]
        chosen = self.chooser.value
        self.chooser.show_choices(list(names), chosen if chosen in range(len(names)) else 0)
        self.chooser.setVisible(len(names) > 1)

    def _choose(self) -> None:
        kind, question = self.kind, question_of(self._bench)
        self._waiting = ()
        if kind is not None and question is not None and self.overlay == "stretch":
            self._waiting = waiting_edges(run(question.recipe, question.given), kind)
        said = [each.sentence.text(self._look.measure) for each in self._waiting]
        self.setAccessibleDescription(" ".join(said))
        self.update()

    def _pressed(self) -> PressedBlock | None:
        kind = self.kind
        return (
            None if kind is None or self._plan is None else self._plan.block(kind.blocks[0], kind.layers[0])
        )

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The sheet, the block in the middle, and what lies over it; or why there is none."""
        painter = QPainter(self)
        sheet = QRectF(self.rect()).adjusted(SPACE_WIDE, SPACE_WIDE, -SPACE_WIDE, -SPACE_WIDE)
        lay_paper(painter, self._look.theme, self.rect(), sheet)
        kind = self.kind
        if kind is None:
            painter.setPen(WORDS)
            flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
            painter.drawText(sheet, flags, self.tr("The block is not whole yet."))
        else:
            self._draw(painter, kind, self._room(sheet))
        painter.end()

    def _room(self, sheet: QRectF) -> QRectF:
        top = self.chooser.height() + SPACE_PAGE if self.chooser.isVisible() else SPACE_PAGE
        return sheet.adjusted(SPACE_PAGE, top, -SPACE_PAGE, -SPACE_PAGE)

    def _draw(self, painter: QPainter, kind: Kind, room: QRectF) -> None:
        pixels = _PAPER * self._look.scale.text
        wide, high = self._size
        scale = min(room.width() / wide, room.height() / high) / pixels
        if scale <= 0:
            return
        corner = room.center() - QPointF(wide, high) * scale * pixels / 2
        painter.translate(corner)
        pen = QtPen(painter, pixels, self._brushes)
        layer = kind.layers[0]
        fabrics = [
            fabric_of(self._bench.fabrics, patch.fabric, (layer + patch.layer) % self._stack)
            for patch in kind.patches
        ]
        with pen.framed(scale):
            draw_block(kind, fabrics, pen)
        self._draw_over(pen, scale)

    def _draw_over(self, pen: Pen, scale: float) -> None:
        block = self._pressed()
        if block is None or self._plan is None:
            return
        if self.overlay == "pressing":
            draw_plan(pen, self._plan, block, scale)
        else:
            draw_waits(pen, self._waiting, scale)
            draw_layers(pen, self._plan, block, scale)


def _plan(question: Question) -> PressingPlan | None:
    try:
        return plan_for(question)
    except PiecewrightError:
        return None

"""The step in view, large and to scale; what may be dragged has a handle, and snaps to the eighth."""

from dataclasses import dataclass
from fractions import Fraction
from math import hypot

from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QFont, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from piecewright.making.cloth import Cloth, Pile
from piecewright.making.reading import verb_word
from piecewright.making.table import Outcome
from piecewright.making.verbs import VERBS
from piecewright.making.verbs.verb import Handle
from piecewright.render.layout import largest, room
from piecewright.render.piece_picture import Look as PieceLook
from piecewright.render.piece_picture import draw_pile
from piecewright.render.step_figures import Scene, step_figure
from piecewright.units.measure import Measure
from piecewright.units.rounding import nearest
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.lengths import set_length, try_length, value_at

_PAPER = 96.0  # pixels of the picture's own inch
_MARGIN = 56
_REACH = 12
_SNAP, _FINE = nearest(Fraction(1, 8)), nearest(Fraction(1, 64))
_NUDGE = Fraction(1, 8)


@dataclass(frozen=True, slots=True)
class Grip:
    """A handle on the screen: where its line runs, and how many pixels an inch of it is."""

    handle: Handle
    start: QPointF
    end: QPointF
    pixels: float

    @property
    def middle(self) -> QPointF:
        """Where it is taken hold of."""
        return (self.start + self.end) / 2

    def distance(self, point: QPointF) -> float:
        """How far a point is from the line, pixels."""
        along, off = self.end - self.start, point - self.start
        length = hypot(along.x(), along.y())
        if length < 1:
            return hypot(off.x(), off.y())
        share = min(max((off.x() * along.x() + off.y() * along.y()) / length**2, 0.0), 1.0)
        there = self.start + along * share - point
        return hypot(there.x(), there.y())


class StepCanvas(QWidget):
    """Draws the step in view. Drag a handle, or Tab to it and use the arrow keys; Alt lets go of the snap."""

    said = Signal(str)

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._brushes = Brushes()
        self._grips: tuple[Grip, ...] = ()
        self._chosen = 0
        self._dragged: tuple[Grip, QPointF, Fraction] | None = None
        self._value: Fraction | None = None
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(360, 260)
        self.setAccessibleName(self.tr("The step, to scale"))
        for signal in (bench.changed, bench.stepped, look.changed):
            signal.connect(self.update)

    @property
    def grips(self) -> tuple[Grip, ...]:
        """The handles as they were drawn last."""
        return self._grips

    # Drawing --------------------------------------------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The picture, its handles, or in words why there is none."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor("#fdfcf9"))
        outcome = self._outcome()
        if outcome is None:
            self._grips = ()
            self._say_nothing(painter)
        else:
            self._draw(painter, outcome)
        painter.end()

    def _outcome(self) -> Outcome | None:
        making = self._bench.making
        if making is None or self._bench.step >= len(making.outcomes):
            return None
        return making.outcomes[self._bench.step]

    def _draw(self, painter: QPainter, outcome: Outcome) -> None:
        making = self._bench.making
        assert making is not None  # noqa: S101 - an outcome has its making
        step = making.recipe.steps[outcome.step_index]
        handles = VERBS[verb_word(step)].handles(step, outcome)
        if handles:
            self._draw_piece(painter, outcome, handles)
        else:
            self._grips = ()
            self._draw_figure(painter, outcome)

    def _draw_piece(self, painter: QPainter, outcome: Outcome, handles: tuple[Handle, ...]) -> None:
        """The piece the step works on, with its handles."""
        pile = self._pile(outcome, handles[0].piece)
        cloth = pile[0]
        width, height = float(cloth.box.width), float(cloth.box.height)
        scale = min((self.width() - 2 * _MARGIN) / width, (self.height() - 2 * _MARGIN) / height) / _PAPER
        look = self._piece_look(max(scale, 0.01))
        size = look.size(cloth)
        left = (self.width() - size[0] * _PAPER) / 2
        top = (self.height() - size[1] * _PAPER) / 2
        painter.save()
        painter.translate(left, top)
        draw_pile(QtPen(painter, _PAPER, self._brushes), pile, look)
        painter.restore()
        self._grips = tuple(self._grip(handle, cloth, look, QPointF(left, top)) for handle in handles)
        for number, grip in enumerate(self._grips):
            self._draw_grip(painter, grip, number == self._chosen and self.hasFocus())

    def _grip(self, handle: Handle, cloth: Cloth, look: PieceLook, origin: QPointF) -> Grip:
        start, end = (
            origin + QPointF(*look.on_paper(cloth, point)) * _PAPER
            for point in (handle.line.start, handle.line.end)
        )
        return Grip(handle, start, end, look.scale * _PAPER)

    def _draw_grip(self, painter: QPainter, grip: Grip, chosen: bool) -> None:
        accent = QColor("#27566d")
        painter.setPen(QPen(QColor("#ffffff"), 4))
        painter.drawLine(grip.start, grip.end)
        painter.setPen(QPen(accent, 2, Qt.PenStyle.DashLine))
        painter.drawLine(grip.start, grip.end)
        painter.setPen(QPen(QColor("#ffffff"), 2))
        painter.setBrush(accent)
        painter.drawEllipse(grip.middle, 9 if chosen else 7, 9 if chosen else 7)
        value = value_at(self._bench, grip.handle.place) if self._dragged is None else self._value
        held = self._dragged is None or self._dragged[0].handle.place == grip.handle.place
        if value is not None and held:
            self._label(painter, grip, self._look.measure.length(value))

    def _label(self, painter: QPainter, grip: Grip, text: str) -> None:
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.body)
        font.setWeight(QFont.Weight.DemiBold)
        painter.setFont(font)
        box = QRectF(painter.fontMetrics().boundingRect(text)).adjusted(-8, -4, 8, 4)
        across = grip.handle.toward[0] != 0
        place = (
            QPointF(grip.middle.x(), grip.start.y() - 22)
            if across
            else QPointF(grip.end.x() + 40, grip.middle.y())
        )
        box.moveCenter(place)
        box.moveRight(min(box.right(), self.width() - 4.0))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor("#27566d"))
        painter.drawRoundedRect(box, 6, 6)
        painter.setPen(QColor("#ffffff"))
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), text)

    def _draw_figure(self, painter: QPainter, outcome: Outcome) -> None:
        """The figure of the step's page, as large as there is room."""
        making = self._bench.making
        assert making is not None  # noqa: S101 - an outcome has its making
        piles: dict[str, Pile] = {}
        for done in making.outcomes[: outcome.step_index + 1]:
            piles.update(done.made)

        def build(scale: float):  # type: ignore[no-untyped-def]
            return step_figure(Scene(outcome, piles, self._piece_look(scale), self._look.measure))

        wide, high = (self.width() - _MARGIN) / _PAPER, (self.height() - _MARGIN) / _PAPER
        figure, _ = largest(build, wide, high)
        box = room(figure)
        painter.translate((self.width() - box.width * _PAPER) / 2, (self.height() - box.height * _PAPER) / 2)
        painter.translate(-box.left * _PAPER, -box.top * _PAPER)
        figure(QtPen(painter, _PAPER, self._brushes))

    def _piece_look(self, scale: float) -> PieceLook:
        making = self._bench.making
        assert making is not None  # noqa: S101 - only called with one
        return PieceLook(self._bench.fabrics, making.recipe.stack, float(making.names["seam"]), scale)

    def _pile(self, outcome: Outcome, name: str) -> Pile:
        return outcome.taken[name] if name in outcome.taken else outcome.made[name]

    def _say_nothing(self, painter: QPainter) -> None:
        painter.setPen(QColor("#5a544b"))
        text = self.tr("This step can not be done yet: what is wrong is said beside it.")
        painter.drawText(
            self.rect().adjusted(40, 40, -40, -40),
            int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap),
            text,
        )

    # Dragging -------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take hold of the nearest handle."""
        near = self._near(event.position())
        if near is not None and event.button() == Qt.MouseButton.LeftButton:
            value = value_at(self._bench, near.handle.place)
            if value is not None:
                self._chosen = self._grips.index(near)
                self._dragged = (near, event.position(), value)
                self._value = value

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Show what the handle's new place gives."""
        if self._dragged is None:
            near = self._near(event.position())
            across = near is not None and near.handle.toward[0] != 0
            shape = Qt.CursorShape.SplitHCursor if across else Qt.CursorShape.SplitVCursor
            self.setCursor(shape if near is not None else Qt.CursorShape.ArrowCursor)
            return
        grip, begun, value = self._dragged
        moved = event.position() - begun
        inches = (moved.x() * grip.handle.toward[0] + moved.y() * grip.handle.toward[1]) / grip.pixels
        snap = _FINE if event.modifiers() & Qt.KeyboardModifier.AltModifier else _SNAP
        self._value = max(snap(value + Fraction(inches).limit_denominator(1024)), Fraction(1, 8))
        try_length(self._bench, grip.handle.place, self._value)

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Set it down as one step."""
        if self._dragged is not None and self._value is not None:
            (grip, _, value), new = self._dragged, self._value
            self._dragged = None
            self._bench.drop_preview()
            if new != value:
                set_length(self._bench, grip.handle.place, new)
        self._dragged = self._value = None
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Arrow keys move the chosen handle by an eighth; Escape drops a drag."""
        if event.key() == Qt.Key.Key_Escape and self._dragged is not None:
            self._dragged = None
            self._bench.drop_preview()
            return
        step = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}.get(
            Qt.Key(event.key())
        )
        if step is None or not self._grips:
            super().keyPressEvent(event)
            return
        place = self._grips[self._chosen % len(self._grips)].handle.place
        value = value_at(self._bench, place)
        if value is not None and value + step * _NUDGE > 0:
            set_length(self._bench, place, value + step * _NUDGE, gesture=("nudge", place))

    def choose_next(self) -> None:
        """The next handle for the arrow keys."""
        if self._grips:
            self._chosen = (self._chosen + 1) % len(self._grips)
            self.said.emit(
                Measure().length(value_at(self._bench, self._grips[self._chosen].handle.place) or Fraction(0))
            )
            self.update()

    def _near(self, point: QPointF) -> Grip | None:
        close = [grip for grip in self._grips if grip.distance(point) <= _REACH]
        return min(close, key=lambda grip: grip.distance(point), default=None)

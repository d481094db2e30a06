"""The step in view, large and to scale; what may be dragged has a handle, and snaps to the eighth."""

from fractions import Fraction

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
)
from PySide6.QtWidgets import QWidget

from piecewright.geometry.shapes import Segment
from piecewright.making.lean_handles import lean_handle
from piecewright.making.reading import verb_word
from piecewright.making.verbs import VERBS
from piecewright.making.verbs.verb import Handle
from piecewright.render.path import Spot
from piecewright.units.rounding import nearest
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.grip import Grip
from piecewright_qt.sewing_table.lean_grip import LeanGrip
from piecewright_qt.sewing_table.lengths import set_length, try_length, value_at
from piecewright_qt.sewing_table.paper import MARK, ON_MARK, WORDS, lay_paper
from piecewright_qt.sewing_table.sheet import Part, Sheet, Subject, sheet_of_figure, sheet_with_handles
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_PAGE, SPACE_TIGHT, SPACE_WIDE

_PAPER = 120.0  # pixels of the picture's own inch, at a text scale of 1
_LEAST_INCHES = (3.6, 1.7)  # of paper in the width and height of the sheet, however large the text
_MOST_ENLARGED = 1.6  # of a picture that leaves room at the largest usual scale below it
_REACH = 12
_SNAP, _FINE = nearest(Fraction(1, 8)), nearest(Fraction(1, 64))
_NUDGE = Fraction(1, 8)
_LEAST = Fraction(1, 8)
_TURN = 90


class StepCanvas(QWidget):
    """Draws the step in view.

    Drag a handle, or choose one with Space and use the arrow keys; Alt lets go of the snap. Click a part to turn it.
    """

    said = Signal(str)

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self._brushes = Brushes()
        self._sheet: Sheet | None = None
        self._grips: tuple[Grip, ...] = ()
        self._lean: LeanGrip | None = None
        self._held: LeanGrip | None = None  # as it was when it was taken hold of
        self._leaning: float | None = None  # the lean that is tried, while its handle is held
        self._chosen = 0
        self._over: Part | None = None
        self._pressed: Part | None = None
        self._dragged: tuple[Grip, QPointF, Fraction] | None = None
        self._value: Fraction | None = None
        self._pixels = _PAPER  # to an inch of paper
        self._nudges = 0  # how many gestures of nudging there were
        self._kept: tuple[float, QPointF] | None = None  # scale and origin, while a handle is held
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(200, 150)
        self.setAccessibleName(self.tr("The step, to scale"))
        for signal in (bench.changed, bench.stepped, look.changed):
            signal.connect(self._lay_out)
        bench.stepped.connect(self._choose_first)

    @property
    def grips(self) -> tuple[Grip, ...]:
        """The handles as they are drawn."""
        return self._grips

    @property
    def lean(self) -> LeanGrip | None:
        """The handle of a leaning cut as it is drawn."""
        return self._lean

    @property
    def sheet(self) -> Sheet | None:
        """What lies on the sheet; None where the step can not be done."""
        return self._sheet

    def middle_of(self, part: Part) -> QPointF:
        """Where a part lies on the screen."""
        box = part.box
        return self._origin + QPointF(box.left + box.right, box.top + box.bottom) / 2 * self._pixels

    # Drawing --------------------------------------------------------------------------------------------------

    @property
    def _field(self) -> QRectF:
        """Where the picture may lie: the sheet without its rim."""
        rim = SPACE_WIDE + SPACE_PAGE
        return QRectF(self.rect()).adjusted(rim, rim, -rim, -rim)

    @property
    def _origin(self) -> QPointF:
        """Where the paper's 0, 0 lies: so that the picture stands in the middle."""
        if self._kept is not None:
            return self._kept[1]
        if self._sheet is None:
            return QPointF()
        box = self._sheet.box
        middle = QPointF(box.left + box.right, box.top + box.bottom) / 2
        return QRectF(self.rect()).center() - middle * self._pixels

    def _lay_out(self) -> None:
        """Lay the step in view on the sheet anew."""
        making, index = self._bench.making, self._bench.step
        self._sheet, self._grips, self._lean, self._over = None, (), None, None
        if self._kept is None:
            wide, high = _LEAST_INCHES
            most = min(self._field.width() / wide, self._field.height() / high)
            self._pixels = max(1.0, min(_PAPER * self._look.scale.text, most))
        if making is not None and index < len(making.outcomes) and self._field.width() > 1:
            subject = Subject(making, index, self._bench.fabrics, self._look.measure)
            step, outcome = making.recipe.steps[index], making.outcomes[index]
            handles = VERBS[verb_word(step)].handles(step, outcome)
            room = (self._field.width() / self._pixels, self._field.height() / self._pixels)
            if handles:
                kept = None if self._kept is None else self._kept[0]
                self._sheet = sheet_with_handles(subject, handles[0].piece, room, kept)
                self._fill()
                self._grips = tuple(self._grip(handle, subject) for handle in handles)
                leaning = lean_handle(step, outcome)
                if leaning is not None:
                    ends = self._on_screen(leaning.piece, leaning.line, subject)
                    self._lean = LeanGrip(leaning, *ends)
            else:
                self._sheet = sheet_of_figure(subject, room)
                self._fill()
        self.setAccessibleDescription(self._described())
        self.update()

    def _fill(self) -> None:
        """Enlarge a picture that leaves room, but not while a handle is held."""
        if self._kept is None and self._sheet is not None:
            wide = self._field.width() / max(self._sheet.box.width * self._pixels, 1.0)
            high = self._field.height() / max(self._sheet.box.height * self._pixels, 1.0)
            self._pixels *= max(1.0, min(wide, high, _MOST_ENLARGED))

    def _grip(self, handle: Handle, subject: Subject) -> Grip:
        assert self._sheet is not None  # noqa: S101 - handles lie on a sheet
        start, end = self._on_screen(handle.piece, handle.line, subject)
        return Grip(handle, start, end, self._sheet.look.scale * self._pixels)

    def _on_screen(self, piece: str, line: Segment, subject: Subject) -> tuple[QPointF, QPointF]:
        """Where the ends of a line of a piece lie on the screen."""
        assert self._sheet is not None  # noqa: S101 - lines lie on a sheet
        look, cloth = self._sheet.look, subject.pile(piece)[0]
        start, end = (QPointF(*look.on_paper(cloth, point)) for point in (line.start, line.end))
        return self._origin + start * self._pixels, self._origin + end * self._pixels

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """As large as there is room."""
        super().resizeEvent(event)
        self._lay_out()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The sheet, the picture, its handles; or in words why there is none."""
        painter = QPainter(self)
        rim = SPACE_WIDE
        sheet = QRectF(self.rect()).adjusted(rim, rim, -rim, -rim)
        lay_paper(painter, self._look.theme, self.rect(), sheet)
        if self._sheet is None:
            self._say_nothing(painter)
        else:
            painter.save()
            painter.translate(self._origin)
            self._sheet.draw(QtPen(painter, self._pixels, self._brushes))
            painter.restore()
            self._draw_over(painter)
            for number, grip in enumerate(self._grips):
                self._draw_grip(painter, grip, number == self._chosen and self.hasFocus())
            self._draw_lean(painter)
        painter.end()

    def _draw_over(self, painter: QPainter) -> None:
        """A ring round the part that a click would turn."""
        if self._over is not None:
            box, at = self._over.box, self._origin
            corner = at + QPointF(box.left, box.top) * self._pixels
            rect = QRectF(corner, at + QPointF(box.right, box.bottom) * self._pixels)
            painter.setPen(QPen(MARK, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRoundedRect(rect.adjusted(-4, -4, 4, 4), 4, 4)

    def _draw_grip(self, painter: QPainter, grip: Grip, chosen: bool) -> None:
        held = self._dragged is not None and self._dragged[0].handle.place == grip.handle.place
        if held:
            painter.setPen(QPen(ON_MARK, 4))
            painter.drawLine(grip.start, grip.end)
            painter.setPen(QPen(MARK, 2))
            painter.drawLine(grip.start, grip.end)
        radius = 9 if chosen or held else 7
        if chosen:
            painter.setPen(QPen(MARK, 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawEllipse(grip.middle, radius + 4, radius + 4)
        painter.setPen(QPen(ON_MARK, 2))
        painter.setBrush(MARK)
        painter.drawEllipse(grip.middle, radius, radius)
        self._draw_chevrons(painter, grip)
        value = self._value if held else value_at(self._bench, grip.handle.place)
        if value is not None and (held or (chosen and self._dragged is None)):
            self._label(painter, grip.middle, self._look.measure.length(value))

    @property
    def _lean_is_chosen(self) -> bool:
        return self._lean is not None and self._chosen == len(self._grips)

    def _draw_lean(self, painter: QPainter) -> None:
        if self._lean is None:
            return
        chosen, held = self._lean_is_chosen and self.hasFocus(), self._leaning is not None
        self._lean.paint(painter, chosen=chosen, held=held)
        if chosen or held:
            self._label(painter, self._lean.end, self._look.measure.degrees(self._lean.handle.lean))

    def _draw_chevrons(self, painter: QPainter, grip: Grip) -> None:
        """The two ways in which it may be dragged."""
        along = QPointF(*grip.handle.toward)
        aside = QPointF(along.y(), along.x())
        painter.setPen(QPen(ON_MARK, 1.5))
        for way in (along, -along):
            tip = grip.middle + way * 4.5
            painter.drawPolyline([tip - way * 2.5 + aside * 2.5, tip, tip - way * 2.5 - aside * 2.5])

    def _label(self, painter: QPainter, at: QPointF, text: str) -> None:
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.lead)
        font.setWeight(QFont.Weight.DemiBold)
        painter.setFont(font)
        box = QFontMetricsF(font).boundingRect(text).adjusted(-SPACE, -SPACE_TIGHT, SPACE, SPACE_TIGHT)
        away = QPointF(0, box.height() / 2 + SPACE_WIDE)
        box.moveCenter(at + away)
        inside = QRectF(self.rect()).adjusted(SPACE, SPACE, -SPACE, -SPACE)
        box.moveLeft(min(max(box.left(), inside.left()), inside.right() - box.width()))
        if box.bottom() > inside.bottom():
            box.moveCenter(QPointF(box.center().x(), at.y() - away.y()))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(MARK)
        painter.drawRoundedRect(box, RADIUS, RADIUS)
        painter.setPen(ON_MARK)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), text)

    def _say_nothing(self, painter: QPainter) -> None:
        if self._bench.draft is None:
            text = self.tr("This block is no longer in the design. Undo brings it back.")
        else:
            text = self.tr("This step can not be done yet. What is wrong is said at its step, on the left.")
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.body)
        painter.setFont(font)
        painter.setPen(WORDS)
        flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
        painter.drawText(self._field, flags, text)

    def _described(self) -> str:
        """What the picture shows, for those who hear it."""
        making, index = self._bench.making, self._bench.step
        if self._sheet is None or making is None:
            return self.tr("This step can not be done yet.")
        return making.outcomes[index].sentence.text(self._look.measure)

    # Dragging -------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take hold of the nearest handle, or of a part."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self._nudges += 1
        if self._lean is not None and self._sheet is not None and self._lean.is_near(event.position()):
            self._chosen, self._leaning = len(self._grips), self._lean.handle.lean
            self._held = self._lean
            self._kept = (self._sheet.look.scale, self._origin)
            self.update()
            return
        near = self._near(event.position())
        self._pressed = None if near is not None else self._part_at(event.position())
        value = None if near is None else value_at(self._bench, near.handle.place)
        if near is not None and value is not None and self._sheet is not None:
            self._chosen = self._grips.index(near)
            self._kept = (self._sheet.look.scale, self._origin)
            self._dragged = (near, event.position(), value)
            self._value = value
            self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Show what the handle's new place gives."""
        if self._held is not None:
            free = bool(event.modifiers() & Qt.KeyboardModifier.AltModifier)
            self._leaning = self._held.lean_of(event.position(), free=free)
            self._bench.try_out(self._held.changed(self._bench, self._leaning))
            return
        if self._dragged is None:
            self._point_at(event.position())
            return
        grip, begun, value = self._dragged
        moved = event.position() - begun
        inches = (moved.x() * grip.handle.toward[0] + moved.y() * grip.handle.toward[1]) / grip.pixels
        snap = _FINE if event.modifiers() & Qt.KeyboardModifier.AltModifier else _SNAP
        self._value = max(snap(value + Fraction(inches).limit_denominator(1024)), _LEAST)
        try_length(self._bench, grip.handle.place, self._value)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Set a handle down as one step; turn a part that was clicked."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        if self._held is not None:
            self._set_lean_down()
            return
        held, new, pressed = self._dragged, self._value, self._pressed
        self._let_go()
        if held is not None and new is not None:
            grip, _, value = held
            self._bench.drop_preview()
            if new != value:
                set_length(self._bench, grip.handle.place, new)
        elif pressed is not None and pressed.holds(self._on_paper(event.position())):
            self._bench.turn_part(pressed.name, _TURN)

    def _set_lean_down(self) -> None:
        """Set the end of a leaning cut down, as one step."""
        held, lean = self._held, self._leaning
        self._let_go()
        self._bench.drop_preview()
        if held is not None and lean is not None and lean != held.handle.lean:
            self._bench.change(held.changed(self._bench, lean))

    def _let_go(self) -> None:
        self._held = self._leaning = None
        self._dragged = self._value = self._kept = self._pressed = None
        self._lay_out()

    def _point_at(self, point: QPointF) -> None:
        if self._lean is not None and self._lean.is_near(point):
            self.setCursor(Qt.CursorShape.SizeAllCursor)
            return
        near = self._near(point)
        over = None if near is not None else self._part_at(point)
        shape = Qt.CursorShape.ArrowCursor if over is None else Qt.CursorShape.PointingHandCursor
        if near is not None:
            across = near.handle.toward[0] != 0
            shape = Qt.CursorShape.SplitHCursor if across else Qt.CursorShape.SplitVCursor
        self.setCursor(shape)
        if over != self._over:
            self._over = over
            self.setToolTip("" if over is None else self.tr("Click to turn {part}").format(part=over.name))
            self.update()

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """Nothing is pointed at any more."""
        self._over = None
        self.update()
        super().leaveEvent(event)

    def event(self, event: QEvent) -> bool:
        """Escape is ours while a handle is held, whatever else it means in the window."""
        ours = isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape and self._is_holding
        if ours and event.type() == QEvent.Type.ShortcutOverride:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Arrow keys move the chosen handle by an eighth, Space chooses the next; Escape drops a drag."""
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape and self._is_holding:
            self._let_go()
            self._bench.drop_preview()
        elif key == Qt.Key.Key_Space and self._grips:
            self.choose_next()
        elif key in _ARROWS and self._grips and not self._is_holding:
            self._nudge(_ARROWS[key])
        else:
            super().keyPressEvent(event)

    @property
    def _is_holding(self) -> bool:
        return self._dragged is not None or self._held is not None

    def _nudge(self, by: int) -> None:
        if self._lean is not None and self._lean_is_chosen:
            lean = self._lean.stepped(by)
            self._bench.change(self._lean.changed(self._bench, lean), ("lean", id(self), self._nudges))
            self.said.emit(self._look.measure.degrees(lean))
            return
        place = self._grips[self._chosen % len(self._grips)].handle.place
        value = value_at(self._bench, place)
        if value is not None and value + by * _NUDGE > 0:
            set_length(self._bench, place, value + by * _NUDGE, ("nudge", id(self), place, self._nudges))
            self.said.emit(self._look.measure.length(value + by * _NUDGE))

    def choose_next(self) -> None:
        """The next handle for the arrow keys."""
        self._nudges += 1
        if self._grips:
            self._chosen = (self._chosen + 1) % (len(self._grips) + (self._lean is not None))
            if self._lean is not None and self._lean_is_chosen:
                self.said.emit(self._look.measure.degrees(self._lean.handle.lean))
                self.update()
                return
            value = value_at(self._bench, self._grips[self._chosen].handle.place)
            self.said.emit("" if value is None else self._look.measure.length(value))
            self.update()

    def _choose_first(self) -> None:
        self._chosen = 0
        self._nudges += 1

    def focusOutEvent(self, event: QFocusEvent) -> None:  # noqa: N802 - Qt's name
        """What is nudged when the keys come back is another step of undo."""
        self._nudges += 1
        super().focusOutEvent(event)

    def _near(self, point: QPointF) -> Grip | None:
        close = [grip for grip in self._grips if grip.distance(point) <= _REACH]
        return min(close, key=lambda grip: grip.distance(point), default=None)

    def _part_at(self, point: QPointF) -> Part | None:
        spot = self._on_paper(point)
        parts = () if self._sheet is None else self._sheet.parts
        return next((part for part in parts if part.holds(spot)), None)

    def _on_paper(self, point: QPointF) -> Spot:
        away = (point - self._origin) / self._pixels
        return (away.x(), away.y())


_ARROWS = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}

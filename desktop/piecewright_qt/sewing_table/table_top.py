"""The table itself: what is made and not used lies on it as cloth, and hands sew, cut, turn, trim and shuffle it."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QContextMenuEvent,
    QFont,
    QFontMetricsF,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QMenu, QWidget

from piecewright.making import by_hand
from piecewright.making.steps import Side
from piecewright_qt.look import Look
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.carrying import Carry
from piecewright_qt.sewing_table.holding import Ground, Hold
from piecewright_qt.sewing_table.lying import Layout, Lying, label_of
from piecewright_qt.sewing_table.paper import MARK, WORDS, lay_paper
from piecewright_qt.sewing_table.piece_voice import PieceVoices
from piecewright_qt.sewing_table.ruler import Ruler
from piecewright_qt.sewing_table.touching import Touch, touched
from piecewright_qt.sewing_table.trimming import CORNERS, Pull, Square
from piecewright_qt.sewing_table.verbs import VERB_OF_KEY, VERB_ROWS
from piecewright_qt.theme.tokens import SPACE_WIDE

_BEGUN = 5.0  # pixels that a pointer moves before it drags
_RIM = SPACE_WIDE
_CURSORS = {
    "left": Qt.CursorShape.SplitHCursor,
    "right": Qt.CursorShape.SplitHCursor,
    "top": Qt.CursorShape.SplitVCursor,
    "bottom": Qt.CursorShape.SplitVCursor,
    "corner": Qt.CursorShape.SizeAllCursor,
    "fan": Qt.CursorShape.SizeVerCursor,
    "cloth": Qt.CursorShape.OpenHandCursor,
    "seam": Qt.CursorShape.PointingHandCursor,
}


class TableTop(QWidget):
    """Pieces at hand, one of them in hand, some marked.

    `said` tells what the pointer or the keys would do, `warned` why that can not be.
    """

    said = Signal(str)
    warned = Signal(str)

    def __init__(self, bench: Bench, look: Look) -> None:
        super().__init__()
        self._bench = bench
        self._look = look
        self.ground = Ground(bench, look, (), QRectF())
        self.hold: Hold | None = None
        self.marked: list[str] = []
        self._over: Touch | None = None
        self._pressed: tuple[Touch, QPointF] | None = None
        self._coming = ""
        self._wheel = 0
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(self.tr("Pieces on the table"))
        self._voices = PieceVoices(self)
        bench.changed.connect(self.refresh)
        bench.stepped.connect(self.refresh)
        look.changed.connect(self.refresh)

    # What lies there --------------------------------------------------------------------------------------------

    @property
    def pieces(self) -> tuple[Lying, ...]:
        """The pieces as they lie."""
        return self.ground.pieces

    @property
    def in_hand(self) -> Lying | None:
        """The piece that keys work on: the one marked last."""
        return self.piece(self.marked[-1]) if self.marked else None

    def piece(self, name: str) -> Lying | None:
        """A piece by its name."""
        return next((one for one in self.pieces if one.name == name), None)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Room for a strip set and what is cut from it."""
        return QSize(480, 260)

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """Room for one row."""
        return QSize(200, 120)

    def refresh(self) -> None:
        """Lay the pieces anew; what was made last comes to hand."""
        before = {one.name for one in self.pieces}
        self._lay_out()
        names = [one.name for one in self.pieces]
        self.marked = [name for name in self.marked if name in names]
        new = [name for name in names if name not in before]
        if new or (not self.marked and names):
            self.marked = [new[-1] if new else names[-1]]
        self._tell()

    def _lay_out(self) -> None:
        font = self._font()
        area = QRectF(self.rect()).adjusted(_RIM * 2, _RIM * 1.5, -_RIM * 2, -_RIM * 1.5)
        ground = Ground(self._bench, self._look, (), area, self.ground.brushes)
        piles = self._bench.lying
        fanned = ground.piece_look(1.0).fanned * ground.paper
        layout = Layout(piles, area, fanned, QFontMetricsF(font), self._look.scale.text)
        ground.pieces = layout.pieces
        self.ground = ground
        self.hold = self._pressed = self._over = None
        self._voices.follow()
        self.update()

    def _font(self, weight: QFont.Weight = QFont.Weight.Medium) -> QFont:
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.small)
        font.setWeight(weight)
        return font

    def describe(self, piece: Lying) -> str:
        """A piece in words: number, name, size."""
        box, sewn = piece.cloth.box, bool(piece.cloth.seams)
        size = self._look.measure.size(box.width, box.height)
        kind = self.tr("{size} unfinished") if sewn else self.tr("{size} cut")
        return f"{piece.number}, {piece.name}: {kind.format(size=size)}"

    # Drawing ----------------------------------------------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Paper, pieces, labels, and what is held over them."""
        painter = QPainter(self)
        sheet = QRectF(self.rect()).adjusted(_RIM, _RIM / 2, -_RIM, -_RIM / 2)
        edge = QPen(MARK, 3) if self._coming else None
        lay_paper(painter, self._look.theme, self.rect(), sheet, edge)
        if not self.pieces:
            self._say_empty(painter)
        carried = self.hold.piece.name if isinstance(self.hold, Carry) else ""
        for piece in self.pieces:
            opacity = 0.3 if piece.name == carried else 1.0
            self.ground.draw(painter, piece.pile, piece.rect.topLeft(), piece.inch, opacity)
            self._draw_label(painter, piece)
        for piece in self.pieces:
            self._draw_ring(painter, piece)
        self._draw_touch(painter)
        if self.hold is not None:
            self.hold.paint(painter)
        painter.end()

    def _draw_label(self, painter: QPainter, piece: Lying) -> None:
        held = piece.name in self.marked
        painter.setFont(self._font(QFont.Weight.DemiBold if held else QFont.Weight.Medium))
        painter.setPen(MARK if held else WORDS)
        words = label_of(piece.number, piece.name)
        room = QFontMetricsF(painter.font()).elidedText(
            words, Qt.TextElideMode.ElideRight, piece.label.width()
        )
        painter.drawText(piece.label, int(Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop), room)

    def _draw_ring(self, painter: QPainter, piece: Lying) -> None:
        if piece.name not in self.marked or self.hold is not None:
            return
        last = piece.name == self.marked[-1]
        painter.setBrush(Qt.BrushStyle.NoBrush)
        pen = QPen(MARK, 2.5 if last and self.hasFocus() else 1.5)
        if not last:
            pen.setStyle(Qt.PenStyle.DashLine)
        painter.setPen(pen)
        painter.drawRoundedRect(piece.whole.adjusted(-5, -5, 5, 5), 4, 4)

    def _draw_touch(self, painter: QPainter) -> None:
        """The edge or the corner that the pointer could take."""
        touch = self._over
        if touch is None or self.hold is not None:
            return
        painter.setPen(QPen(MARK, 3))
        if touch.kind in ("left", "right", "top", "bottom"):
            painter.drawLine(*touch.piece.edge(touch.kind))
        elif touch.corner is not None:
            spot = touch.at_corner
            painter.setBrush(MARK)
            painter.drawRect(QRectF(spot.x() - 4, spot.y() - 4, 8, 8))

    def _say_empty(self, painter: QPainter) -> None:
        painter.setFont(self._font())
        painter.setPen(WORDS)
        flags = int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
        painter.drawText(
            self.ground.area, flags, self.tr("Drop a fabric of the shelf here to lay a strip of it.")
        )

    # Mouse ------------------------------------------------------------------------------------------------------

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Mark a piece, and be ready to take hold of what was touched."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        self.drop_hold()
        touch = touched(self.pieces, event.position())
        self._pressed = None if touch is None else (touch, event.position())
        if touch is not None:
            self.mark(touch.piece.name, more=bool(event.modifiers() & _MORE))

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Begin a hold once the pointer has moved, and carry it on."""
        at, keys = event.position(), event.modifiers()
        if self._pressed is None and self.hold is None:
            self._point_at(at)
            return
        if self.hold is None and self._pressed is not None:
            touch, begun = self._pressed
            if (at - begun).manhattanLength() < _BEGUN:
                return
            self.hold = self._take(touch, begun)
            self.setCursor(Qt.CursorShape.ClosedHandCursor)
        if self.hold is not None:
            self.hold.move(at, keys)
            self._tell()
            self.update()

    def _take(self, touch: Touch, at: QPointF) -> Hold:
        piece = touch.piece
        if touch.corner is not None:
            return Square(self.ground, piece, touch.corner)
        if touch.kind == "fan":
            return Pull(self.ground, piece, at)
        if touch.kind in ("left", "right", "top", "bottom"):
            return Ruler(self.ground, piece, touch.kind, at)
        return Carry(self.ground, piece, at)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Set down what is held; a click turns a piece, or opens a tube at the seam."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        hold, pressed = self.hold, self._pressed
        self._pressed = None
        if hold is not None:
            self.set_down(event.modifiers())
        elif pressed is not None and not event.modifiers() & _MORE:
            self._click(pressed[0])

    def _click(self, touch: Touch) -> None:
        if touch.seam and self._bench.draft is not None:
            plain, at = self._bench.draft.plain, self._bench.step
            self._bench.do(
                by_hand.unpicked(plain, at, touch.piece.name, touch.seam, self._bench.before(at + 1))
            )
        elif touch.piece.cloth.state == "faced":
            self.do_verb("open")
        elif touch.piece.cloth.state is None:
            self.turn(90)

    def wheelEvent(self, event: QWheelEvent) -> None:  # noqa: N802 - Qt's name
        """Lean the ruler."""
        if isinstance(self.hold, Ruler):
            self._wheel += event.angleDelta().y()
            steps, self._wheel = int(self._wheel / 120), self._wheel % 120 if self._wheel > 0 else 0
            self.hold.tilt(steps)
            self._tell()
            self.update()
        else:
            super().wheelEvent(event)

    def _point_at(self, at: QPointF) -> None:
        touch = touched(self.pieces, at)
        if touch != self._over:
            self._over = touch
            self.setCursor(Qt.CursorShape.ArrowCursor if touch is None else _CURSORS[touch.shape])
            self._tell()
            self.update()

    def leaveEvent(self, event: QEvent) -> None:  # noqa: N802 - Qt's name
        """Nothing is pointed at any more."""
        self._over = None
        self._tell()
        self.update()
        super().leaveEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:  # noqa: N802 - Qt's name
        """All verbs for the piece there, and the other turns."""
        touch = touched(self.pieces, QPointF(event.pos()))
        if touch is not None:
            self.mark(touch.piece.name)
        at = event.globalPos()
        piece = self.in_hand
        if event.reason() != QContextMenuEvent.Reason.Mouse and piece is not None:
            at = self.mapToGlobal(piece.rect.center().toPoint())
        self.menu().popup(at)

    def menu(self) -> QMenu:
        """The verbs, as a menu over the piece in hand."""
        menu = QMenu(self)
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        for word, row in VERB_ROWS.items():
            action = menu.addAction(f"{row.name}\t{row.letter}", partial(self.do_verb, word))
            action.setData(word)
            if word == "turn":
                self._add_turns(menu)
            elif word == "sew":
                menu.addAction(self.tr("Sew, one end left open\tShift+S"), self.sew_in_part)
        return menu

    def _add_turns(self, menu: QMenu) -> None:
        turns: tuple[tuple[str, Callable[[], None]], ...] = (
            (self.tr("Turn end for end"), lambda: self.turn(180)),
            (self.tr("Turn back\tShift+R"), lambda: self.turn(270)),
            (self.tr("Turn its slanted edge level"), self.level),
        )
        for text, act in turns:
            menu.addAction(text, act)

    # Keys -------------------------------------------------------------------------------------------------------

    def event(self, event: QEvent) -> bool:
        """Letters and Escape are ours here, whatever else they mean in the window."""
        if (
            isinstance(event, QKeyEvent)
            and event.type() == QEvent.Type.ShortcutOverride
            and self._is_ours(event)
        ):
            event.accept()
            return True
        return super().event(event)

    def _is_ours(self, event: QKeyEvent) -> bool:
        plain = not event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
        key = Qt.Key(event.key())
        return plain and (self.hold is not None or key in VERB_OF_KEY or key == Qt.Key.Key_Space)

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Move what is held, or choose a piece and what to do with it."""
        key, keys = Qt.Key(event.key()), event.modifiers()
        if self.hold is not None:
            if key == Qt.Key.Key_Escape:
                self.drop_hold()
            elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
                self.set_down(keys)
            elif not self.hold.key(key, event.text(), keys):
                super().keyPressEvent(event)
            self._tell()
            self.update()
        elif key in _STEPS:
            self._go(_STEPS[key], more=bool(keys & _MORE))
        elif key == Qt.Key.Key_Space and self.in_hand is not None:
            self.mark(self.in_hand.name, more=True)
        elif key in VERB_OF_KEY and not keys & ~Qt.KeyboardModifier.ShiftModifier:
            back = bool(keys & Qt.KeyboardModifier.ShiftModifier)
            shifted: dict[Qt.Key, Callable[[], None]] = {
                Qt.Key.Key_R: partial(self.turn, 270),
                Qt.Key.Key_S: self.sew_in_part,
            }
            shifted[key]() if back and key in shifted else self.do_verb(VERB_OF_KEY[key])
        else:
            super().keyPressEvent(event)

    def _go(self, by: int, *, more: bool) -> None:
        names = [one.name for one in self.pieces]
        if names:
            now = names.index(self.marked[-1]) if self.marked else -1
            self.mark(names[(now + by) % len(names)], more=more)

    def mark(self, name: str, *, more: bool = False) -> None:
        """Take a piece in hand; with `more` beside those marked, or out of them where it is in hand already."""
        if not more:
            self.marked = [name]
        elif name in self.marked and len(self.marked) > 1 and self.marked[-1] == name:
            self.marked.remove(name)
        else:
            self.marked = [*(one for one in self.marked if one != name), name]
        self._voices.chosen()
        self._tell()
        self.update()

    # Doing ------------------------------------------------------------------------------------------------------

    def do_verb(self, word: str) -> None:
        """Do a verb to the pieces marked: at once, or by taking hold of what it needs."""
        piece = self.in_hand
        takes: dict[str, Callable[[Lying], Hold]] = {
            "cut": lambda one: Ruler(self.ground, one, _long_side(one)),
            "square": lambda one: Square(self.ground, one, CORNERS[0]),
            "sew": lambda one: Carry(self.ground, one),
        }
        if word == "turn" and piece is not None:
            self.turn(90)
        elif word == "sew" and len(self.marked) > 1:
            self._sew_marked()
        elif word in takes and piece is not None and piece.cloth.state is None:
            self.setFocus()
            self.hold = takes[word](piece)
            self._tell()
            self.update()
        else:
            self._bench.insert(word, self.marked)

    def sew_in_part(self) -> None:
        """Take the piece in hand to an edge of another, to be sewn there with one end left open."""
        piece = self.in_hand
        if piece is not None and piece.cloth.state is None and len(self.pieces) > 1:
            self.setFocus()
            self.hold = Carry(self.ground, piece, in_part=True)
            self._tell()
            self.update()

    def turn(self, by: int) -> None:
        """Turn the piece in hand by degrees, clockwise."""
        piece = self.in_hand
        if piece is not None and self._bench.draft is not None:
            plain, at = self._bench.draft.plain, self._bench.step
            self._bench.do(by_hand.turned_by(plain, at, piece.name, by, self._bench.before(at + 1)))

    def level(self) -> None:
        """Turn the piece in hand until the edge cut last lies level on top."""
        piece = self.in_hand
        if piece is not None and self._bench.draft is not None:
            plain, at = self._bench.draft.plain, self._bench.step
            self._bench.do(by_hand.leveled(plain, at, piece.name, self._bench.before(at + 1)))

    def _sew_marked(self) -> None:
        if self._bench.draft is not None:
            plain, at = self._bench.draft.plain, self._bench.step
            axis = by_hand.even_axis([self._bench.lying[name] for name in self.marked])
            self._bench.do(by_hand.sewn_in_row(plain, at, self.marked, axis))

    def set_down(self, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        """Do what is held; where it can not be done, say why and drop it."""
        hold, self.hold = self.hold, None
        self.unsetCursor()
        if hold is None:
            return
        changed = hold.changed(keys)
        if changed is not None:
            self._bench.do(changed)
        elif hold.is_wrong:
            self.warned.emit(hold.hint)
        self.update()

    def drop_hold(self) -> None:
        """Let go; nothing is done."""
        self.hold = self._pressed = None
        self.unsetCursor()
        self._tell()
        self.update()

    def show_coming(self, what: str) -> None:
        """Something of the shelf is over the table, and what letting go would do; or nothing any more."""
        self._coming = what
        if what:
            self.said.emit(what)
        else:
            self._tell()
        self.update()

    def _tell(self) -> None:
        """Say what is pointed at, held, or in hand."""
        if self.hold is not None:
            (self.warned if self.hold.is_wrong else self.said).emit(self.hold.hint)
        elif self._over is not None:
            self.said.emit(f"{self.describe(self._over.piece)}. {self._over.hint}")
        elif self.in_hand is not None:
            self.said.emit(self.describe(self.in_hand))
        else:
            self.said.emit("")

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """As large as there is room."""
        super().resizeEvent(event)
        self._lay_out()


def _long_side(piece: Lying) -> Side:
    """Where a ruler is laid first: across the longer way."""
    return "left" if piece.rect.width() >= piece.rect.height() else "top"


_MORE = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier
_STEPS = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}

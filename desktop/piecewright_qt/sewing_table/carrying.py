"""A piece carried to another: an edge lights up, and a ghost shows what sewing it there gives."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen

from piecewright.errors import PiecewrightError
from piecewright.making import by_hand
from piecewright.making.by_hand import Align, Changed, Corner, axis_of
from piecewright.making.cloth import Pile
from piecewright.making.steps import Side
from piecewright.making.table import Outcome
from piecewright_qt.sewing_table.holding import ARROWS, WRONG, Ground, Hold, draw_line, is_free, tr
from piecewright_qt.sewing_table.leaving_open import LeftOpen
from piecewright_qt.sewing_table.lying import Lying
from piecewright_qt.sewing_table.paper import MARK

_NEAR = 34.0  # pixels from another piece at which it is meant
_CORNER = 18.0
_SIDE_OF: dict[tuple[int, int], Side] = {
    (-1, 0): "left",
    (1, 0): "right",
    (0, -1): "top",
    (0, 1): "bottom",
}


class Carry(Hold):
    """A piece in hand; with Ctrl it is laid face down on the other, with Shift one end of the seam stays open."""

    def __init__(
        self, ground: Ground, piece: Lying, at: QPointF | None = None, *, in_part: bool = False
    ) -> None:
        self._ground = ground
        self.piece = piece
        self._grab = QPointF() if at is None else at - piece.rect.topLeft()
        self._at = piece.rect.topLeft()
        self.target: Lying | None = None
        self.side: Side = "bottom"
        self._corner: Corner | None = None
        self._face = False
        self._tried: tuple[object, Changed, Outcome | PiecewrightError | None] | None = None
        self._along = 0.5
        if at is None:
            others = [one for one in ground.pieces if one.name != piece.name]
            self.target = others[-1] if others else None
        self._open: LeftOpen | None = None
        if in_part and self.target is not None:
            self._open = LeftOpen(piece, self.target, self.side)

    @property
    def hint(self) -> str:
        """What would be sewn where; or why it can not be."""
        if self.target is None:
            return tr("Drag {piece} to an edge of another piece to sew it there.").format(
                piece=self.piece.name
            )
        _, outcome = self._trial()
        if isinstance(outcome, PiecewrightError):
            return self._ground.said(outcome)
        if outcome is None:
            return ""
        said = outcome.sentence.text(self._ground.look.measure)
        if self._open is not None:
            return f"{said} {tr('[ ] or a number: how much.')}"
        return said

    @property
    def is_wrong(self) -> bool:
        """Whether the pieces can not be sewn so."""
        return self.target is not None and not isinstance(self._trial()[1], Outcome)

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the pointer; the piece nearest to it is meant."""
        self._at = at - self._grab
        self._face = bool(keys & Qt.KeyboardModifier.ControlModifier)
        others = [one for one in self._ground.pieces if one.name != self.piece.name]
        close = [one for one in others if _grown(one.rect, _NEAR).contains(at)]
        self.target = min(close, key=lambda one: _apart(one.rect, at), default=None)
        if self.target is not None:
            self.side = self.target.nearest_side(at)
            self._along = _share(self.target, self.side, at)
            self._leave(self.target, at, keys)
            plain = not self._face and self._open is None
            self._corner = self._corner_at(self.target, at) if plain else None

    def _leave(self, target: Lying, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """With Shift the stitches stop where the pointer is."""
        self._open = None
        if keys & Qt.KeyboardModifier.ShiftModifier and not self._face:
            self._open = LeftOpen(self.piece, target, self.side)
            self._open.follow(at, is_free(keys))

    def _corner_at(self, target: Lying, at: QPointF) -> Corner | None:
        """The corner of a larger piece that a square is held at."""
        mine, other = self.piece.cloth.box, target.cloth.box
        if mine.width != mine.height or mine.width > min(other.width, other.height):
            return None
        across = "left" if target.off("left", at) < target.off("right", at) else "right"
        down = "top" if target.off("top", at) < target.off("bottom", at) else "bottom"
        inside = [target.off(side, at) for side in (across, down)]  # type: ignore[arg-type]
        return f"{down} {across}" if all(0 <= off <= _CORNER for off in inside) else None  # type: ignore[return-value]

    def key(self, key: int, text: str, keys: Qt.KeyboardModifier) -> bool:
        """Arrows choose the side, Space the next piece to sew to; where an end stays open, how much and which."""
        del keys
        others = [one for one in self._ground.pieces if one.name != self.piece.name]
        if key in ARROWS:
            side = _SIDE_OF[ARROWS[key]]
            if self._open is not None and side == self.side:
                self._open.change_ends()
                return True
            self.side, self._along = side, 0.5
        elif key == Qt.Key.Key_Space and others and not self._typed(text):
            now = others.index(self.target) if self.target in others else -1
            self.target = others[(now + 1) % len(others)]
        else:
            return self._open is not None and self._open.key(key, text)
        if self._open is not None and self.target is not None:
            self._open = LeftOpen(self.piece, self.target, self.side)
        return True

    def _typed(self, text: str) -> bool:
        """Whether a space belongs to the number that is being typed."""
        return self._open is not None and self._open.is_typing and text == " "

    def paint(self, painter: QPainter) -> None:
        """The edge, lit, and the ghost of what comes of it; the piece itself where nothing would."""
        target, piece = self.target, self.piece
        if target is None:
            self._ground.draw(painter, piece.pile, self._at, piece.inch, 0.85)
            return
        _, outcome = self._trial()
        made = _made(outcome) if isinstance(outcome, Outcome) else None
        if made is None:
            self._ground.draw(painter, piece.pile, self._at, piece.inch, 0.6)
            draw_line(painter, target.edge(self.side), WRONG, 5)
            return
        rect = self._ghost(target, made)
        self._ground.draw(painter, made, rect.topLeft(), piece.inch, 0.92)
        painter.setPen(QPen(MARK, 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(rect.adjusted(-4, -4, 4, 4), 4, 4)
        if self._open is not None:
            stitched = self._open.stitched()
            draw_line(painter, stitched, MARK, 4)
            said = tr("{length} open").format(length=self._ground.text(self._open.length))
            self._ground.label(painter, stitched[1], said)
        elif not self._face and self._corner is None:
            draw_line(painter, self._seam(target, rect), MARK, 4)

    def _ghost(self, target: Lying, made: Pile) -> QRectF:
        """Where what comes of it lies, so that the piece it is sewn to stays where it is."""
        box = made[0].box
        rect = QRectF(0, 0, float(box.width) * target.inch, float(box.height) * target.inch)
        rect.moveCenter(target.rect.center())
        if not self._face and self._corner is None:
            if self.side == "left":
                rect.moveRight(target.rect.right())
            elif self.side == "right":
                rect.moveLeft(target.rect.left())
            elif self.side == "top":
                rect.moveBottom(target.rect.bottom())
            else:
                rect.moveTop(target.rect.top())
        if self._open is not None:
            self._open.lay_even(rect)
        return rect

    def _seam(self, target: Lying, rect: QRectF) -> tuple[QPointF, QPointF]:
        """The lit edge, as long as what is sewn there."""
        start, end = target.edge(self.side)
        if axis_of(self.side) == "across":
            return QPointF(start.x(), rect.top()), QPointF(end.x(), rect.bottom())
        return QPointF(rect.left(), start.y()), QPointF(rect.right(), end.y())

    def changed(self, keys: Qt.KeyboardModifier) -> Changed | None:
        """The pieces sewn; None where they can not be."""
        del keys
        if self.target is None:
            return None
        changed, outcome = self._trial()
        return changed if isinstance(outcome, Outcome) else None

    def _trial(self) -> tuple[Changed | None, Outcome | PiecewrightError | None]:
        """What setting it down gives: ends even where edges are unlike and the pointer is near an end."""
        bench, target = self._ground.bench, self.target
        if bench.draft is None or target is None:
            return None, None
        third: Align = "start" if self._along < 1 / 3 else "end" if self._along > 2 / 3 else "centre"
        left = None if self._open is None else self._open.pair
        key = (target.name, self.side, self._corner, self._face, third, left)
        if self._tried is None or self._tried[0] != key:
            changed = self._change(target, None)
            outcome = bench.trial(changed)
            plain = not self._face and self._corner is None and left is None
            if not isinstance(outcome, Outcome) and plain:
                other = self._change(target, third)
                again = bench.trial(other)
                if isinstance(again, Outcome):
                    changed, outcome = other, again
            self._tried = (key, changed, outcome)
        return self._tried[1], self._tried[2]

    def _change(self, target: Lying, align: Align | None) -> Changed:
        bench, piece = self._ground.bench, self.piece.name
        plain = bench.draft.plain if bench.draft is not None else {}
        if self._face:
            return by_hand.faced(plain, bench.step, piece, target.name)
        if self._open is not None:
            return by_hand.sewn_in_part(plain, bench.step, piece, target.name, self.side, self._open.pair)
        if self._corner is not None:
            return by_hand.cornered(plain, bench.step, target.name, piece, self._corner)
        return by_hand.sewn_on(plain, bench.step, piece, target.name, self.side, align)


def _made(outcome: Outcome) -> Pile | None:
    return next(iter(outcome.made.values()), None)


def _grown(rect: QRectF, by: float) -> QRectF:
    return rect.adjusted(-by, -by, by, by)


def _apart(rect: QRectF, at: QPointF) -> float:
    """How far a point is outside a rectangle; nothing inside."""
    x = max(rect.left() - at.x(), at.x() - rect.right(), 0.0)
    y = max(rect.top() - at.y(), at.y() - rect.bottom(), 0.0)
    return x + y


def _share(piece: Lying, side: Side, at: QPointF) -> float:
    """How far along a side a point is, 0 to 1 from the top or the left."""
    rect = piece.rect
    if axis_of(side) == "across":
        return (at.y() - rect.top()) / max(rect.height(), 1.0)
    return (at.x() - rect.left()) / max(rect.width(), 1.0)

"""The ruler: laid along an edge of a piece and moved over it, it shows where the blade runs."""

from fractions import Fraction
from math import radians, tan

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter

from piecewright.geometry.motion import Number
from piecewright.making import by_hand
from piecewright.making.by_hand import Changed, axis_of
from piecewright.making.steps import Side
from piecewright_qt.sewing_table.holding import ARROWS, Ground, Hold, Typing, draw_line, is_free, snapped, tr
from piecewright_qt.sewing_table.lying import SIDES, Lying
from piecewright_qt.sewing_table.paper import MARK

_STEP, _LEAN_STEP, _MOST_LEAN = Fraction(1, 8), 15, 75
_OVER = 10.0  # pixels that the line runs on over both edges
_OPPOSITE: dict[Side, Side] = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
_MOST_LINES = 200


class Ruler(Hold):
    """A cut a distance from a side: of two parts, or with Shift of as many as there are.

    A line from edge to edge while Ctrl is held. The wheel, or the brackets, make it lean.
    """

    def __init__(self, ground: Ground, piece: Lying, side: Side, at: QPointF | None = None) -> None:
        self._ground = ground
        self._piece = piece
        self.side: Side = side
        self._pressed = at
        self._end: tuple[Side, Fraction] | None = None
        self._typing = Typing()
        self._many = False
        self.lean = 0
        self.distance = snapped(float(self._extent) / 2, piece.inch, free=False)
        if at is not None:
            self.distance = Fraction(0)

    @property
    def _extent(self) -> Number:
        box = self._piece.cloth.box
        return box.width if axis_of(self.side) == "across" else box.height

    @property
    def _place(self) -> Fraction:
        typed = self._typing.length if self._typing.text else None
        return self.distance if typed is None else typed

    @property
    def _fits(self) -> bool:
        return 0 < self._place < self._extent

    @property
    def hint(self) -> str:
        """Where the cut runs, and what the keys held would change."""
        if self._end is not None:
            return tr("Slice from edge to edge. Esc drops the ruler.")
        if not self._fits:
            return tr("Drag the ruler over the cloth, or type how far from the edge.")
        return tr(
            "Enter or let go: cut. Shift: as often as it fits. Ctrl: a slanted line. [ ]: a leaning cut. Alt: no snap."
        )

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the pointer; with Ctrl its line runs from where it was pressed to the side it is at."""
        free = is_free(keys)
        self._many = bool(keys & Qt.KeyboardModifier.ShiftModifier)
        self._typing.text = ""
        self.distance = snapped(self._piece.off(self.side, at) / self._piece.inch, self._piece.inch, free)
        slanted = bool(keys & Qt.KeyboardModifier.ControlModifier) and self._pressed is not None
        self._end = self._far_end(at, free) if slanted else None

    def _far_end(self, at: QPointF, free: bool) -> tuple[Side, Fraction]:
        others = [side for side in SIDES if side != self.side]
        side = min(others, key=lambda one: abs(self._piece.off(one, at)))
        return side, self._along(side, at, free)

    def _along(self, side: Side, at: QPointF, free: bool) -> Fraction:
        x, y = self._piece.inches(at)
        box = self._piece.cloth.box
        most, where = (box.height, y) if axis_of(side) == "across" else (box.width, x)
        return min(max(snapped(where, self._piece.inch, free), _STEP), Fraction(most) - _STEP)

    def key(self, key: int, text: str, keys: Qt.KeyboardModifier) -> bool:
        """Arrows move it, Space lays it to the next side, brackets lean it, numbers place it."""
        self._many = bool(keys & Qt.KeyboardModifier.ShiftModifier)
        if key in ARROWS:
            x, y = ARROWS[key]
            by = x if axis_of(self.side) == "across" else y
            if self.side in ("right", "bottom"):
                by = -by
            moved = self._place + by * _STEP
            self._typing.text = ""
            self.distance = min(max(moved, _STEP), Fraction(self._extent) - _STEP)
            return True
        if key == Qt.Key.Key_Space and not self._typing.text:
            self.side = SIDES[(SIDES.index(self.side) + 1) % len(SIDES)]
            self.distance = snapped(float(self._extent) / 2, self._piece.inch, free=False)
            return True
        if text in ("[", "]"):
            return self.tilt(1 if text == "]" else -1)
        return self._typing.take(key, text)

    def tilt(self, by: int) -> bool:
        """Let it lean more to one side."""
        self.lean = min(max(self.lean + by * _LEAN_STEP, -_MOST_LEAN), _MOST_LEAN)
        return True

    def paint(self, painter: QPainter) -> None:
        """The line and how far it is; with Shift every line that follows."""
        if self._end is not None and self._pressed is not None:
            self._paint_slant(painter, self._end)
            return
        if not self._fits:
            draw_line(painter, self._piece.edge(self.side), MARK, 3)
            if self._typing.text:
                self._ground.label(painter, self._piece.rect.center(), f"{self._typing.text} ?")
            return
        many = self._many or self.lean
        count = min(int(self._extent / self._place), _MOST_LINES) if many else 1
        for number in range(1, count + 1):
            draw_line(painter, self._line(self._place * number), MARK)
        one = self._ground.text(self._place)
        if self.lean:
            words = tr("{length} apart, leaning {degrees}°").format(length=one, degrees=abs(self.lean))
        elif self._many:
            words = tr("{count} of {length}").format(count=count, length=one)
        else:
            rest = self._ground.text(self._extent - self._place)
            words = tr("{length}, and {rest} left").format(length=one, rest=rest)
        start, _ = self._line(self._place)
        above = QPointF(0, -self._ground.look.scale.body * 1.4)
        self._ground.label(painter, start + above, words)

    def _line(self, distance: Fraction) -> tuple[QPointF, QPointF]:
        """A line so far from the side, running on a little over both edges."""
        rect, away = self._piece.rect, float(distance) * self._piece.inch
        slope = tan(radians(self.lean))
        if axis_of(self.side) == "across":
            x = rect.left() + away if self.side == "left" else rect.right() - away
            aside = slope * rect.height() / 2
            return QPointF(x + aside, rect.top() - _OVER), QPointF(x - aside, rect.bottom() + _OVER)
        y = rect.top() + away if self.side == "top" else rect.bottom() - away
        aside = slope * rect.width() / 2
        return QPointF(rect.left() - _OVER, y - aside), QPointF(rect.right() + _OVER, y + aside)

    def _paint_slant(self, painter: QPainter, end: tuple[Side, Fraction]) -> None:
        ends = [self._spot(*one) for one in (self._start(), end)]
        draw_line(painter, ends, MARK)
        for spot, (_, distance) in zip(ends, (self._start(), end), strict=True):
            self._ground.label(painter, spot + QPointF(0, -18), self._ground.text(distance))

    def _start(self) -> tuple[Side, Fraction]:
        return self.side, self._along(self.side, self._pressed or QPointF(), free=False)

    def _spot(self, side: Side, distance: Fraction) -> QPointF:
        start, end = self._piece.edge(side)
        along = QPointF(0, 1) if axis_of(side) == "across" else QPointF(1, 0)
        del end
        return start + along * float(distance) * self._piece.inch

    def changed(self, keys: Qt.KeyboardModifier) -> Changed | None:
        """The piece cut there."""
        bench = self._ground.bench
        if bench.draft is None:
            return None
        plain, at, name = bench.draft.plain, bench.step, self._piece.name
        if self._end is not None:
            return by_hand.sliced(plain, at, name, self._start(), self._end)
        if not self._fits:
            return None
        if self.lean or keys & Qt.KeyboardModifier.ShiftModifier:
            angle = float(self.lean)
            return by_hand.cut_every(plain, at, name, self.side, self._place, self._extent, angle)
        return by_hand.cut_from(plain, at, name, self.side, self._place, self._extent)

"""A shape drawn by hand: corners are set, dragged and taken away on squared paper; by keys as well."""

from fractions import Fraction

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from piecewright.model.shape import Corner
from piecewright_qt.look import Look

_STEP = Fraction(1, 2)
"""Inches that corners are set to."""
_SIDE = 12.0
_NEAR = 9.0
_MARGIN = 14.0
_LEAST_PAPER = 12
_KEYS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}


class OutlineField(QWidget):
    """`edited` follows every change by hand; the corners may be no shape yet.

    A press on a side sets a corner there, a drag moves one, Delete takes the chosen one away; arrows move it by half
    an inch, Page up and Page down choose the one before and after, Insert sets one after it.
    """

    edited = Signal()

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self.corners: list[tuple[Fraction, Fraction]] = []
        self.chosen = 0
        self._held = False
        self._paper = Fraction(_LEAST_PAPER), Fraction(_LEAST_PAPER)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setToolTip(
            self.tr("Press on a side to set a corner, drag to move it (arrows, Page up, Insert, Delete)")
        )
        self._name()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As high as wide."""
        return QSize(220, 220)

    def show_corners(self, corners: tuple[Corner, ...]) -> None:
        """Show these, silently."""
        self.corners = [(corner.x, corner.y) for corner in corners]
        self.chosen = min(self.chosen, max(len(self.corners) - 1, 0))
        self._fit()
        self._name()
        self.update()

    def home(self) -> tuple[Corner, ...]:
        """The corners with their box at 0, 0."""
        if not self.corners:
            return ()
        left, top = (min(corner[along] for corner in self.corners) for along in (0, 1))
        return tuple(Corner(x - left, y - top) for x, y in self.corners)

    # Qt's own calls -------------------------------------------------------------------------------------------

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Squared paper, an inch a square, and the outline on it."""
        painter, theme = QPainter(self), self._look.theme
        painter.fillRect(self.rect(), QColor(theme.raised))
        painter.setPen(QPen(QColor(theme.line), 1))
        for x in range(int(self._paper[0]) + 1):
            painter.drawLine(self._at(Fraction(x), Fraction(0)), self._at(Fraction(x), self._paper[1]))
        for y in range(int(self._paper[1]) + 1):
            painter.drawLine(self._at(Fraction(0), Fraction(y)), self._at(self._paper[0], Fraction(y)))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inside = QColor(theme.accent)
        inside.setAlphaF(0.15)
        painter.setBrush(inside)
        painter.setPen(QPen(QColor(theme.text), 2))
        painter.drawPolygon(QPolygonF([self._at(*corner) for corner in self.corners]))
        for number, corner in enumerate(self.corners):
            spot = self._at(*corner)
            is_chosen = number == self.chosen
            side = _SIDE if is_chosen and self.hasFocus() else _SIDE * 0.75
            painter.setBrush(QColor(theme.accent if is_chosen else theme.surface))
            painter.drawRect(QRectF(spot.x() - side / 2, spot.y() - side / 2, side, side))
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Take hold of a corner, or set one on the nearest side."""
        found = self._corner_at(event.position())
        if found is None:
            found = self._side_at(event.position()) + 1
            self.corners.insert(found, self._inches(event.position()))
            self._tell()
        self.chosen, self._held = found, True
        self._name()
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Drag the corner."""
        if self._held:
            self._move_to(*self._inches(event.position()))

    def mouseReleaseEvent(self, _event: QMouseEvent) -> None:  # noqa: N802 - Qt's name
        """Let go; the paper grows where it has become small."""
        self._held = False
        self._fit()
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:  # noqa: N802 - Qt's name
        """Choose, move, add and take away corners."""
        key = Qt.Key(event.key())
        if not self.corners:
            super().keyPressEvent(event)
        elif key in _KEYS:
            x, y = self.corners[self.chosen]
            across, down = _KEYS[key]
            self._move_to(x + across * _STEP, y + down * _STEP)
            self._fit()
        elif key in (Qt.Key.Key_PageUp, Qt.Key.Key_PageDown):
            by = 1 if key == Qt.Key.Key_PageDown else -1
            self.chosen = (self.chosen + by) % len(self.corners)
        elif key == Qt.Key.Key_Insert:
            self._insert_after()
        elif key == Qt.Key.Key_Delete and len(self.corners) > 3:
            del self.corners[self.chosen]
            self.chosen %= len(self.corners)
            self._tell()
        else:
            super().keyPressEvent(event)
            return
        self._name()
        self.update()

    # Inside ---------------------------------------------------------------------------------------------------

    def _insert_after(self) -> None:
        (x, y), (x1, y1) = self.corners[self.chosen], self.corners[(self.chosen + 1) % len(self.corners)]
        self.chosen += 1
        self.corners.insert(self.chosen, (_snapped((x + x1) / 2), _snapped((y + y1) / 2)))
        self._tell()

    def _move_to(self, x: Fraction, y: Fraction) -> None:
        if (x, y) != self.corners[self.chosen]:
            self.corners[self.chosen] = (x, y)
            self._tell()
            self._name()
            self.update()

    def _tell(self) -> None:
        self.edited.emit()

    def _name(self) -> None:
        if not self.corners:
            self.setAccessibleName(self.tr("Outline, no corners yet"))
            return
        x, y = self.corners[self.chosen]
        measure = self._look.measure
        said = self.tr("Outline, corner {n} of {all}: {x} across, {y} down")
        self.setAccessibleName(
            said.format(n=self.chosen + 1, all=len(self.corners), x=measure.length(x), y=measure.length(y))
        )

    def _fit(self) -> None:
        """Paper somewhat larger than the shape, which begins an inch inside it."""
        if self.corners and not self._held:
            left, top = (min(corner[along] for corner in self.corners) for along in (0, 1))
            self.corners = [(x - left + 1, y - top + 1) for x, y in self.corners]
            wide, high = (max(corner[along] for corner in self.corners) for along in (0, 1))
            self._paper = (
                Fraction(max(_LEAST_PAPER, int(wide) + 3)),
                Fraction(max(_LEAST_PAPER, int(high) + 3)),
            )

    @property
    def _scale(self) -> float:
        room = min(
            (self.width() - 2 * _MARGIN) / float(self._paper[0]),
            (self.height() - 2 * _MARGIN) / float(self._paper[1]),
        )
        return max(room, 0.1)

    def _at(self, x: Fraction, y: Fraction) -> QPointF:
        return QPointF(_MARGIN + float(x) * self._scale, _MARGIN + float(y) * self._scale)

    def _inches(self, place: QPointF) -> tuple[Fraction, Fraction]:
        x, y = (place.x() - _MARGIN) / self._scale, (place.y() - _MARGIN) / self._scale
        return _snapped(Fraction(x)), _snapped(Fraction(y))

    def _corner_at(self, place: QPointF) -> int | None:
        spots = [self._at(*corner) for corner in self.corners]
        near = [(_apart(spot, place), number) for number, spot in enumerate(spots)]
        return next((number for apart, number in sorted(near) if apart <= _NEAR), None)

    def _side_at(self, place: QPointF) -> int:
        """The number of the side, from corner to corner, that lies nearest."""
        spots = [self._at(*corner) for corner in self.corners]
        ends = zip(spots, (*spots[1:], spots[0]), strict=True) if spots else ()
        near = [(_from_side(place, *end), number) for number, end in enumerate(ends)]
        return min(near)[1] if near else -1


def _snapped(inches: Fraction) -> Fraction:
    return Fraction(round(inches / _STEP)) * _STEP


def _apart(one: QPointF, other: QPointF) -> float:
    return float(((one.x() - other.x()) ** 2 + (one.y() - other.y()) ** 2) ** 0.5)


def _from_side(place: QPointF, start: QPointF, end: QPointF) -> float:
    along = end - start
    length = along.x() ** 2 + along.y() ** 2
    share = 0.0 if not length else QPointF.dotProduct(place - start, along) / length
    return _apart(place, start + along * min(max(share, 0.0), 1.0))

"""Measuring on the wall: from point to point, by mouse or keys; the points snap to corners of what is sewn."""

from dataclasses import dataclass
from fractions import Fraction
from math import hypot
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QKeyEvent, QPolygonF

from piecewright.geometry.motion import Number
from piecewright.plan.rects import corners
from piecewright.units.rounding import Rounding, nearest
from piecewright.units.scale import MM
from piecewright.words.message import Message, message
from piecewright_qt.wall.gestures import Gesture
from piecewright_qt.wall.overlay import Marks
from piecewright_qt.wall.scene import Scene

if TYPE_CHECKING:
    from piecewright_qt.wall.view import WallView

Place = tuple[Number, Number]
"""Finished inches from the quilt's top left: exact where it is a corner that is."""
Keys = Qt.KeyboardModifier
_NEAR = 12.0
"""Device-independent pixels within which a point snaps to a corner."""
_FINE = Fraction(1, 8)
_ASIDE = 3
"""How much more a corner off the arrow's own line counts as one along it."""
_WAYS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_SAME = 1e-6


@dataclass(frozen=True)
class Measured:
    """Two points and what lies between them, finished."""

    start: Place
    end: Place

    @property
    def width(self) -> Number:
        """How far apart across."""
        return _apart(self.start[0], self.end[0])

    @property
    def height(self) -> Number:
        """How far apart down."""
        return _apart(self.start[1], self.end[1])

    @property
    def distance(self) -> Number:
        """As the crow flies: exact along an edge, else a float."""
        if not self.width or not self.height:
            return self.width + self.height
        return hypot(self.width, self.height)

    @property
    def said(self) -> Message:
        """The three in words."""
        sizes = {"width": self.width, "height": self.height, "distance": self.distance}
        return message("wall.measured", **sizes)


class Measuring:
    """Measures on one wall while it `is_on`: a press and a drag, or arrows and Enter; Escape clears, then ends it."""

    def __init__(self, wall: "WallView") -> None:
        self._wall = wall
        self.is_on = False
        self.at: Place | None = None
        self.start: Place | None = None
        self._known: tuple[Scene, tuple[Place, ...], NDArray[np.float64]] | None = None

    @property
    def measured(self) -> Measured | None:
        """What is measured now."""
        return None if self.start is None or self.at is None else Measured(self.start, self.at)

    def toggle(self) -> None:
        """Begin to measure, or be done."""
        self.is_on = not self.is_on
        self.start = self.at = None
        self._wall.measuring_changed()
        if self.is_on:
            self._wall.setFocus()
            self._wall.say(message("wall.measure"))

    def escape(self) -> None:
        """Clear what is measured; where nothing is, be done."""
        if self.start is None:
            self.toggle()
        else:
            self.start = None
            self._wall.viewport().update()

    def press(self, point: QPointF, keys: Keys) -> Gesture:
        """Measure from here on."""
        self.start = self.at = self.snapped(point, keys)
        self._show()
        return _Span(self._wall, self)

    def aim(self, point: QPointF, keys: Keys) -> None:
        """The pointer is here, pressed or not."""
        self.at = self.snapped(point, keys)
        self._show()

    def hover(self, point: QPointF, keys: Keys) -> None:
        """Show where a press would begin; what is measured stays until then."""
        if self.start is None:
            self.aim(point, keys)

    def snapped(self, point: QPointF, keys: Keys) -> Place:
        """The corner near a point of the view; else, and while Alt is held, the nearest 1/8 in or millimeter."""
        camera = self._wall.camera
        x, y = camera.inches(point)
        exact, places = self._corners()
        if not keys & Keys.AltModifier:
            away = np.hypot(places[:, 0] - x, places[:, 1] - y)
            closest = int(away.argmin())
            if away[closest] * camera.pixels / camera.ratio <= _NEAR:
                return exact[closest]
        fine = self._rounding
        return fine(Fraction(x)), fine(Fraction(y))

    def key(self, event: QKeyEvent) -> bool:
        """Arrows go from corner to corner, with Shift by the smallest step; Enter sets a point; Escape clears."""
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape:
            self.escape()
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.start = self.at = self._here()
            self._show()
        elif key in _WAYS:
            self._step(*_WAYS[key], fine=bool(event.modifiers() & Keys.ShiftModifier))
        else:
            return False
        return True

    def paint(self, marks: Marks) -> None:
        """The line, the rectangle it is the diagonal of, and how long it is; or the point alone."""
        if not self.is_on or self.at is None:
            return
        camera, found = self._wall.camera, self.measured
        end = camera.point((float(self.at[0]), float(self.at[1])))
        marks.cursor(QRectF(end.x() - 7, end.y() - 7, 14, 14))
        if found is None or not found.distance:
            return
        start = camera.point((float(found.start[0]), float(found.start[1])))
        if found.width and found.height:
            marks.dashed(QRectF(start, end).normalized())
        marks.outline(QPolygonF([start, end]))
        said = self._wall.look.measure.length(found.distance)
        middle = QRectF((start + end) / 2, (start + end) / 2)
        within = QRectF(self._wall.viewport().rect())
        marks.tag(said, marks.tag_rect(said, middle, within), is_refusal=False)

    @property
    def _rounding(self) -> Rounding:
        return nearest(_FINE if self._wall.look.measure.unit == "in" else MM)

    def _show(self) -> None:
        found = self.measured
        if found is not None:
            self._wall.say(found.said)
        elif self.at is not None:
            self._wall.say(message("wall.measure-at", across=self.at[0], down=self.at[1]))
        self._wall.viewport().update()

    def _here(self) -> Place:
        """Where the keys are: at first the top left of the cell under the cursor."""
        if self.at is None:
            cell, layout = self._wall.cursor_cell, self._wall.scene.layout
            rect = layout.rect(cell.column, cell.row)
            self.at = layout.motion.apply((rect.x, rect.y))
        return self.at

    def _step(self, across: int, down: int, fine: bool) -> None:
        x, y = self._here()
        if fine:
            small = _FINE if self._wall.look.measure.unit == "in" else MM
            self.at = (x + across * small, y + down * small)
        else:
            self.at = self._next_corner(across, down) or (x, y)
        self._wall.reveal(self._rect(self.at))
        self._show()

    def _next_corner(self, across: int, down: int) -> Place | None:
        """The corner nearest to the present point on the side of an arrow."""
        exact, places = self._corners()
        x, y = (float(way) for way in self._here())
        dx, dy = places[:, 0] - x, places[:, 1] - y
        ahead, aside = (dx * across, np.abs(dy)) if across else (dy * down, np.abs(dx))
        weight = np.where(ahead > _SAME, ahead + _ASIDE * aside, np.inf)
        best = int(weight.argmin())
        return exact[best] if np.isfinite(weight[best]) else None

    def _rect(self, place: Place) -> QRectF:
        point = self._wall.camera.point((float(place[0]), float(place[1])))
        return QRectF(point.x() - 8, point.y() - 8, 16, 16)

    def _corners(self) -> tuple[tuple[Place, ...], NDArray[np.float64]]:
        """Every corner of blocks, center, borders and quilt, each once: exact, and as floats (n x 2)."""
        scene = self._wall.scene
        if self._known is None or self._known[0] is not scene:
            found = tuple(_all_corners(scene))
            self._known = (scene, found, np.array(found, np.float64))
        return self._known[1:]


class _Span(Gesture):
    """A drag from the first point to the second."""

    def __init__(self, wall: "WallView", measuring: Measuring) -> None:
        super().__init__(wall)
        self._measuring = measuring

    def move(self, point: QPointF, keys: Keys) -> None:
        """The second point follows."""
        self._measuring.aim(point, keys)

    def release(self, point: QPointF, keys: Keys) -> None:
        """What is measured stays."""
        self._measuring.aim(point, keys)

    def give_up(self) -> None:
        """Nothing is measured."""
        self._measuring.escape()


def _apart(one: Number, other: Number) -> Number:
    return other - one if other >= one else one - other


def _all_corners(scene: Scene) -> dict[Place, None]:
    layout = scene.layout
    found: dict[Place, None] = {}
    size = layout.size.finished
    for x in (Fraction(0), size.width):
        for y in (Fraction(0), size.height):
            found[x, y] = None
    found |= dict.fromkeys(corners(layout.center))
    for border in layout.rounds:
        for rect in border.sides:
            found |= dict.fromkeys(corners(rect))
    for placed in layout.blocks:
        found |= dict.fromkeys(layout.motion.apply(corner) for corner in corners(placed.rect))
    return found

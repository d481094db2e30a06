"""Where pieces lie on the table: all at one scale, in rows, each with its number and its name below it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QFontMetricsF

from piecewright.making.cloth import Cloth, Pile
from piecewright.making.steps import Side
from piecewright_qt.theme.tokens import SPACE, SPACE_PAGE

_MOST = 30.0  # pixels to the inch of cloth at a text scale of 1
_LEAST = 0.5
_CLOSER = 0.94  # from one scale that is tried to the next
_LEAST_LABEL = 26.0
SIDES: tuple[Side, ...] = ("left", "top", "right", "bottom")


@dataclass(frozen=True)
class Lying:
    """A piece on the table: `number` from 1, and the rectangle of its cloth, `inch` pixels to the inch."""

    number: int
    name: str
    pile: Pile
    rect: QRectF
    inch: float
    fanned: float
    label: QRectF

    @property
    def cloth(self) -> Cloth:
        """Its top layer."""
        return self.pile[0]

    @property
    def whole(self) -> QRectF:
        """With the layers that peep out."""
        return self.rect.adjusted(0, 0, self.fanned, self.fanned)

    def point(self, x: float, y: float) -> QPointF:
        """Where a point lies that is so many inches from its top left."""
        return self.rect.topLeft() + QPointF(x, y) * self.inch

    def inches(self, point: QPointF) -> tuple[float, float]:
        """How far a point is from its top left."""
        away = (point - self.rect.topLeft()) / self.inch
        return away.x(), away.y()

    def edge(self, side: Side) -> tuple[QPointF, QPointF]:
        """A side, from the top down or from left to right."""
        rect = self.rect
        return {
            "left": (rect.topLeft(), rect.bottomLeft()),
            "right": (rect.topRight(), rect.bottomRight()),
            "top": (rect.topLeft(), rect.topRight()),
            "bottom": (rect.bottomLeft(), rect.bottomRight()),
        }[side]

    def off(self, side: Side, point: QPointF) -> float:
        """How far inside a side a point is, pixels; less than nothing outside."""
        rect = self.rect
        return {
            "left": point.x() - rect.left(),
            "right": rect.right() - point.x(),
            "top": point.y() - rect.top(),
            "bottom": rect.bottom() - point.y(),
        }[side]

    def nearest_side(self, point: QPointF) -> Side:
        """The side that a point is nearest to, or furthest beyond."""
        return min(SIDES, key=lambda side: self.off(side, point))


@dataclass(frozen=True)
class Row:
    """Pieces side by side: their names, and where each begins from the left."""

    names: tuple[str, ...]
    starts: tuple[float, ...]
    high: float


@dataclass(frozen=True)
class Layout:
    """How pieces are to be laid: room for them, how far layers fan out, and the type of their labels."""

    piles: Mapping[str, Pile]
    area: QRectF
    fanned: float
    metrics: QFontMetricsF
    text: float

    @cached_property
    def pieces(self) -> tuple[Lying, ...]:
        """As large as there is room, oldest first; named where names have room."""
        if not self.piles or self.area.width() <= 0 or self.area.height() <= 0:
            return ()
        inch = _MOST * max(1.0, self.text)
        rows = self._rows(inch)
        while inch > _LEAST and not self._fits(rows, inch):
            inch *= _CLOSER
            rows = self._rows(inch)
        return self._placed(rows, inch)

    @property
    def label_high(self) -> float:
        """What a label takes below a piece."""
        return self.metrics.height() + SPACE

    def _slot(self, name: str, number: int, inch: float) -> float:
        wide = float(self.piles[name][0].box.width) * inch + self.fanned
        return max(wide, self.metrics.horizontalAdvance(label_of(number, name)) + SPACE, _LEAST_LABEL)

    def _rows(self, inch: float) -> list[Row]:
        rows: list[Row] = []
        names: list[str] = []
        starts: list[float] = []
        reach = high = 0.0
        for number, (name, pile) in enumerate(self.piles.items(), start=1):
            wide = self._slot(name, number, inch)
            if names and reach + wide > self.area.width():
                rows.append(Row(tuple(names), tuple(starts), high))
                names, starts, reach, high = [], [], 0.0, 0.0
            names.append(name)
            starts.append(reach)
            reach += wide + SPACE_PAGE
            high = max(high, float(pile[0].box.height) * inch + self.fanned)
        return [*rows, Row(tuple(names), tuple(starts), high)]

    def _high(self, rows: Sequence[Row]) -> float:
        return sum(row.high + self.label_high + SPACE_PAGE for row in rows) - SPACE_PAGE

    def _fits(self, rows: Sequence[Row], inch: float) -> bool:
        """Whether all rows have room, a piece that is alone in its row too."""
        widest = max(float(pile[0].box.width) for pile in self.piles.values()) * inch + self.fanned
        return self._high(rows) <= self.area.height() and widest <= self.area.width()

    def _placed(self, rows: Sequence[Row], inch: float) -> tuple[Lying, ...]:
        found: list[Lying] = []
        top = self.area.top() + max(0.0, (self.area.height() - self._high(rows)) / 2)
        for row in rows:
            for name, start in zip(row.names, row.starts, strict=True):
                box, number = self.piles[name][0].box, len(found) + 1
                size = float(box.width) * inch, float(box.height) * inch
                rect = QRectF(self.area.left() + start, top, *size)
                below = QRectF(
                    rect.left(),
                    rect.bottom() + self.fanned + SPACE,
                    self._slot(name, number, inch),
                    self.metrics.height(),
                )
                found.append(Lying(number, name, self.piles[name], rect, inch, self.fanned, below))
            top += row.high + self.label_high + SPACE_PAGE
        return tuple(found)


def label_of(number: int, name: str) -> str:
    """The words below a piece."""
    return f"{number}  {name}"

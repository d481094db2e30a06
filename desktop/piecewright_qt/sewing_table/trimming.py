"""A corner dragged inward squares a piece up; layers pulled out of a pile go to its bottom."""

from fractions import Fraction

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from piecewright.making import by_hand
from piecewright.making.by_hand import Changed, Corner
from piecewright_qt.sewing_table.holding import ARROWS, Ground, Hold, is_free, snapped, tr
from piecewright_qt.sewing_table.lying import Lying
from piecewright_qt.sewing_table.paper import MARK, ON_MARK

_STEP = Fraction(1, 8)
_LAYER = 22.0  # pixels that a layer is pulled by
CORNERS: tuple[Corner, ...] = ("bottom right", "bottom left", "top left", "top right")
_OPPOSITE: dict[Corner, Corner] = {
    "top left": "bottom right",
    "top right": "bottom left",
    "bottom left": "top right",
    "bottom right": "top left",
}


class Square(Hold):
    """A corner in hand: the piece is trimmed to the rectangle from the corner across to it."""

    def __init__(self, ground: Ground, piece: Lying, corner: Corner) -> None:
        self._ground = ground
        self._piece = piece
        self.corner: Corner = corner
        box = piece.cloth.box
        self._most = (Fraction(box.width), Fraction(box.height))
        self.size = self._most

    @property
    def hint(self) -> str:
        """What is kept."""
        return tr(
            "Let go, or Enter: trim to this size. Arrows move the corner, Space takes the next. Alt: no snap."
        )

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the pointer."""
        x, y = self._piece.inches(at)
        wide, high = float(self._most[0]), float(self._most[1])
        wanted = (wide - x if "left" in self.corner else x, high - y if "top" in self.corner else y)
        self._let_be([snapped(one, self._piece.inch, is_free(keys)) for one in wanted])

    def _let_be(self, wanted: list[Fraction]) -> None:
        width, height = (min(max(one, _STEP), most) for one, most in zip(wanted, self._most, strict=True))
        self.size = (width, height)

    def key(self, key: int, text: str, keys: Qt.KeyboardModifier) -> bool:
        """Arrows move the corner by an eighth, Space takes the next."""
        del text, keys
        if key in ARROWS:
            x, y = ARROWS[key]
            x, y = (-x if "left" in self.corner else x), (-y if "top" in self.corner else y)
            self._let_be([self.size[0] + x * _STEP, self.size[1] + y * _STEP])
        elif key == Qt.Key.Key_Space:
            self.corner = CORNERS[(CORNERS.index(self.corner) + 1) % len(CORNERS)]
        else:
            return False
        return True

    def paint(self, painter: QPainter) -> None:
        """What is kept, outlined; what falls off, veiled; the size."""
        kept, whole = self._kept, self._piece.rect
        painter.setPen(Qt.PenStyle.NoPen)
        veil = QColor(ON_MARK)
        veil.setAlphaF(0.65)
        painter.setBrush(veil)
        for off in _around(whole, kept):
            painter.drawRect(off)
        painter.setPen(QPen(MARK, 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRect(kept)
        words = self._ground.look.measure.size(*self.size)
        self._ground.label(painter, QPointF(kept.center().x(), kept.top() - 18), words)

    @property
    def _kept(self) -> QRectF:
        whole, inch = self._piece.rect, self._piece.inch
        kept = QRectF(whole.topLeft(), whole.size())
        kept.setSize(type(whole.size())(float(self.size[0]) * inch, float(self.size[1]) * inch))
        if "left" in self.corner:
            kept.moveRight(whole.right())
        if "top" in self.corner:
            kept.moveBottom(whole.bottom())
        return kept

    def changed(self, keys: Qt.KeyboardModifier) -> Changed | None:
        """The piece trimmed; nothing where the corner is where it was."""
        del keys
        bench = self._ground.bench
        if bench.draft is None or self.size == self._most:
            return None
        before = bench.before(bench.step + 1)
        return by_hand.squared(
            bench.draft.plain, bench.step, self._piece.name, self.size, _OPPOSITE[self.corner], before
        )


def _around(whole: QRectF, kept: QRectF) -> list[QRectF]:
    """What lies in a rectangle beside another that lies at one of its corners."""
    left, right = QRectF(whole), QRectF(whole)
    left.setRight(kept.left())
    right.setLeft(kept.right())
    above, under = QRectF(kept), QRectF(kept)
    above.setTop(whole.top())
    above.setBottom(kept.top())
    under.setTop(kept.bottom())
    under.setBottom(whole.bottom())
    return [one for one in (left, right, above, under) if one.width() > 0 and one.height() > 0]


class Pull(Hold):
    """The top layers of a pile in hand, on their way to its bottom."""

    def __init__(self, ground: Ground, piece: Lying, at: QPointF | None = None) -> None:
        self._ground = ground
        self._piece = piece
        self._begun = at
        self.layers = 1 if at is None else 0
        making = ground.bench.making
        self._most = (making.recipe.stack if making is not None else 1) - 1

    @property
    def hint(self) -> str:
        """How many layers go."""
        return tr("Let go, or Enter: the layers in hand go to the bottom. Arrows take more or fewer.")

    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """The further it is pulled, the more layers come along."""
        del keys
        if self._begun is not None:
            away = at - self._begun
            self.layers = min(self._most, int(max(abs(away.x()), abs(away.y())) / _LAYER))

    def key(self, key: int, text: str, keys: Qt.KeyboardModifier) -> bool:
        """Arrows take more layers or fewer."""
        del text, keys
        if key not in ARROWS:
            return False
        self.layers = min(max(self.layers + sum(ARROWS[key]), 1), self._most)
        return True

    def paint(self, painter: QPainter) -> None:
        """The pile as it would be, and how many layers moved."""
        ground, piece = self._ground, self._piece
        changed = self.changed(Qt.KeyboardModifier.NoModifier)
        outcome = None if changed is None else ground.bench.trial(changed)
        made = getattr(outcome, "made", None)
        if made:
            ground.draw(painter, next(iter(made.values())), piece.rect.topLeft(), piece.inch)
        painter.setPen(QPen(MARK, 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRoundedRect(piece.whole.adjusted(-4, -4, 4, 4), 4, 4)
        words = tr("top layers to the bottom: {count}").format(count=self.layers)
        ground.label(painter, QPointF(piece.rect.center().x(), piece.rect.top() - 18), words)

    def changed(self, keys: Qt.KeyboardModifier) -> Changed | None:
        """The pile shuffled; nothing where no layer moves."""
        del keys
        bench = self._ground.bench
        if bench.draft is None or not self.layers:
            return None
        before = bench.before(bench.step + 1)
        return by_hand.shuffled(bench.draft.plain, bench.step, self._piece.name, self.layers, before)

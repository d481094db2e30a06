"""What all holds share: the ground they work on, marks over cloth, and typed lengths. A hold is a gesture under way."""

from abc import ABC, abstractmethod
from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen

from piecewright.errors import LengthError, PiecewrightError
from piecewright.geometry.motion import Number
from piecewright.making.by_hand import Changed
from piecewright.making.cloth import Pile
from piecewright.render.piece_picture import Look as PieceLook
from piecewright.render.piece_picture import draw_pile
from piecewright.units.length import parse_length
from piecewright.units.rounding import nearest
from piecewright_qt.drawing.brushes import Brushes
from piecewright_qt.drawing.qt_pen import QtPen
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.sewing_table.lying import Lying
from piecewright_qt.sewing_table.paper import MARK, ON_MARK
from piecewright_qt.theme.tokens import LIGHT, RADIUS, SPACE, SPACE_TIGHT

PAPER = 96.0  # pixels to the inch of paper at a text scale of 1
_EIGHTH, _QUARTER, _FREE = Fraction(1, 8), Fraction(1, 4), Fraction(1, 64)
_LEAST_STEP = 3.0  # pixels that a snap step should be at least
WRONG = QColor(LIGHT.error)
TYPED = frozenset("0123456789 /.,")
ARROWS: dict[int, tuple[int, int]] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}


def tr(text: str) -> str:
    """A text of a hold in the user's language."""
    return QCoreApplication.translate("holds", text)


@dataclass
class Ground:
    """The table as a hold meets it: pieces where they lie, and how cloth is drawn."""

    bench: Bench
    look: Look
    pieces: tuple[Lying, ...]
    area: QRectF
    brushes: Brushes = field(default_factory=Brushes)

    @property
    def paper(self) -> float:
        """Pixels to the inch of paper."""
        return PAPER * self.look.scale.text

    def piece_look(self, inch: float) -> PieceLook:
        """How cloth is drawn at so many pixels to its inch."""
        making = self.bench.making
        stack = making.recipe.stack if making is not None else 1
        depth = float(making.names["seam"]) if making is not None else 0.25
        return PieceLook(self.bench.fabrics, stack, depth, inch / self.paper)

    def draw(self, painter: QPainter, pile: Pile, corner: QPointF, inch: float, opacity: float = 1.0) -> None:
        """Draw a pile with its top left at a corner."""
        painter.save()
        painter.setOpacity(opacity)
        painter.translate(corner)
        draw_pile(QtPen(painter, self.paper, self.brushes), pile, self.piece_look(inch))
        painter.restore()

    def text(self, value: Number) -> str:
        """A length in the user's measure."""
        return self.look.measure.length(value)

    def said(self, fault: PiecewrightError) -> str:
        """A fault in words."""
        return words(fault, self.look.measure)

    def label(self, painter: QPainter, middle: QPointF, text: str, ground: QColor = MARK) -> QRectF:
        """Words on a pill, kept within the table."""
        font = QFont("Inter")
        font.setPixelSize(self.look.scale.body)
        font.setWeight(QFont.Weight.DemiBold)
        box = QFontMetricsF(font).boundingRect(text).adjusted(-SPACE, -SPACE_TIGHT, SPACE, SPACE_TIGHT)
        box.moveCenter(middle)
        box.moveLeft(min(max(box.left(), self.area.left()), self.area.right() - box.width()))
        box.moveTop(min(max(box.top(), self.area.top()), self.area.bottom() - box.height()))
        painter.setFont(font)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ground)
        painter.drawRoundedRect(box, RADIUS, RADIUS)
        painter.setPen(ON_MARK)
        painter.drawText(box, int(Qt.AlignmentFlag.AlignCenter), text)
        return box


def snapped(inches: float, inch: float, free: bool) -> Fraction:
    """A length on the eighth, on the quarter where an eighth can not be aimed at; to 1/64 where it is let go of."""
    step = _FREE if free else _EIGHTH if inch * float(_EIGHTH) >= _LEAST_STEP else _QUARTER
    return Fraction(nearest(step)(Fraction(inches).limit_denominator(4096)))


def is_free(keys: Qt.KeyboardModifier) -> bool:
    """Whether the snap is let go of."""
    return bool(keys & Qt.KeyboardModifier.AltModifier)


def draw_line(painter: QPainter, ends: Sequence[QPointF], color: QColor, width: float = 2.0) -> None:
    """A line that is seen on any cloth."""
    for pen in (QPen(ON_MARK, width + 3), QPen(color, width)):
        pen.setCapStyle(Qt.PenCapStyle.RoundCap)
        painter.setPen(pen)
        painter.drawPolyline(list(ends))


class Typing:
    """A length typed while something is held."""

    def __init__(self) -> None:
        self.text = ""

    def take(self, key: int, text: str) -> bool:
        """Take a key where it belongs to a length."""
        if key == Qt.Key.Key_Backspace and self.text:
            self.text = self.text[:-1]
        elif text and set(text) <= TYPED and (self.text or text.strip()):
            self.text += text
        else:
            return False
        return True

    @property
    def length(self) -> Fraction | None:
        """What is typed, as a length; None where it is none yet."""
        try:
            return parse_length(self.text)
        except LengthError:
            return None


class Hold(ABC):
    """Something taken hold of, by the mouse or by a key, until it is set down or dropped."""

    @property
    @abstractmethod
    def hint(self) -> str:
        """What happens if it is set down now, in words."""

    @abstractmethod
    def move(self, at: QPointF, keys: Qt.KeyboardModifier) -> None:
        """Follow the pointer."""

    @abstractmethod
    def key(self, key: int, text: str, keys: Qt.KeyboardModifier) -> bool:
        """Take a key; False where it means nothing here."""

    @abstractmethod
    def paint(self, painter: QPainter) -> None:
        """Show what would happen."""

    @abstractmethod
    def changed(self, keys: Qt.KeyboardModifier) -> Changed | None:
        """The recipe if it is set down now; None where it can not be, or changes nothing."""

    @property
    def is_wrong(self) -> bool:
        """Whether it can not be set down here."""
        return False

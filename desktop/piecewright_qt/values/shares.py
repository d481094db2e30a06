"""How much of a quilt is light, medium and dark, as one bar with its numbers below."""

from collections.abc import Mapping

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from piecewright.colour.value import Value
from piecewright.plan.values import VALUES
from piecewright_qt.look import Look

_HEIGHT = 18
_TONES: Mapping[Value, str] = {"light": "#e6e6e6", "medium": "#8c8c8c", "dark": "#303030"}


class ShareBar(QWidget):
    """Three grays side by side, as wide as each value's share; the numbers stand beside it in words."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._shares: Mapping[Value, float] = dict.fromkeys(VALUES, 0.0)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """A line's height."""
        return QSize(120, _HEIGHT)

    def show_shares(self, shares: Mapping[Value, float], spoken: str) -> None:
        """Show these shares, 1 being all; `spoken` tells them to screen readers."""
        self._shares = shares
        self.setAccessibleName(spoken)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """Light, medium, dark from the left."""
        painter = QPainter(self)
        left, whole = 0.5, QRectF(self.rect()).adjusted(0.5, 0.5, -0.5, -0.5)
        for value in VALUES:
            width = whole.width() * self._shares[value]
            painter.fillRect(QRectF(left, whole.top(), width, whole.height()), QColor(_TONES[value]))
            left += width
        painter.setPen(QPen(QColor(self._look.theme.line), 1))
        painter.drawRect(whole)
        painter.end()

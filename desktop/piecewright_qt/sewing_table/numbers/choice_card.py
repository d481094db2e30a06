"""A card that is pressed to choose it: a strong line and quiet ones under it, all of which wrap."""

from collections.abc import Sequence

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from piecewright_qt.look import Look
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_TIGHT

_NARROWEST = 120


class ChoiceCard(QAbstractButton):
    """Checked where it is what stands now."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._lines: tuple[str, ...] = ()
        self.setCheckable(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_Hover)
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_lines(self, lines: Sequence[str], *, standing: bool) -> None:
        """Say these; `standing`: it is what stands now."""
        self._lines = tuple(lines)
        self.setChecked(standing)
        self.setText(lines[0])
        self.setAccessibleName(". ".join(lines))
        self.updateGeometry()
        self.update()

    @property
    def lines(self) -> tuple[str, ...]:
        """What it says."""
        return self._lines

    def nextCheckState(self) -> None:  # noqa: N802 - Qt's name
        """What stands is told by whoever shows it, not by the press."""

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As high as its words at the width it has."""
        width = max(self.width(), _NARROWEST)
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As `sizeHint`."""
        return QSize(_NARROWEST, self.heightForWidth(max(self.width(), _NARROWEST)))

    def hasHeightForWidth(self) -> bool:  # noqa: N802 - Qt's name
        """Its words wrap."""
        return True

    def heightForWidth(self, width: int) -> int:  # noqa: N802 - Qt's name
        """The height its words take."""
        inner = max(width - 2 * SPACE - SPACE_TIGHT, 40)
        words = sum(self._high(number, inner) for number in range(len(self._lines)))
        return max(words + 2 * SPACE, self._look.scale.target)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """A card with its words; a bar at its side where it stands, a ring where it has the keys."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        theme, rect = self._look.theme, self.rect().adjusted(1, 1, -1, -1)
        lit = self.isChecked() or self.underMouse()
        ring = QPen(QColor(theme.accent if self.hasFocus() else theme.line), 2 if self.hasFocus() else 1)
        painter.setPen(ring)
        painter.setBrush(QColor(theme.accent_soft if lit else theme.raised))
        painter.drawRoundedRect(rect, RADIUS, RADIUS)
        if self.isChecked():
            painter.fillRect(
                QRect(rect.left(), rect.top() + RADIUS, 3, rect.height() - 2 * RADIUS), theme.accent
            )
        top, inner = SPACE, rect.width() - 2 * SPACE - SPACE_TIGHT
        for number, line in enumerate(self._lines):
            soft = theme.on_accent_soft if lit else theme.text_soft
            strong = theme.on_accent_soft if lit else theme.text
            painter.setPen(QColor(soft if number else strong))
            painter.setFont(self._font(number))
            high = self._high(number, inner)
            painter.drawText(
                QRect(SPACE + SPACE_TIGHT, top, inner, high), int(Qt.TextFlag.TextWordWrap), line
            )
            top += high
        painter.end()

    def _font(self, number: int) -> QFont:
        font = QFont("Inter")
        font.setPixelSize(self._look.scale.small if number else self._look.scale.body)
        font.setWeight(QFont.Weight.Normal if number else QFont.Weight.DemiBold)
        return font

    def _high(self, number: int, width: int) -> int:
        metrics = QFontMetrics(self._font(number))
        wrapped = metrics.boundingRect(
            0, 0, width, 10_000, int(Qt.TextFlag.TextWordWrap), self._lines[number]
        )
        return wrapped.height() + SPACE_TIGHT // 2

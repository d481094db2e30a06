"""What is wrong enough to be said loudly: errors of the plan, above the list and always in sight."""

from PySide6.QtCore import QPointF, QRectF, QSize
from PySide6.QtGui import QAccessible, QAccessibleEvent, QColor, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from piecewright_qt.look import Look
from piecewright_qt.materials.typesetting import Type
from piecewright_qt.theme.icons import inked
from piecewright_qt.theme.tokens import RADIUS, SPACE, SPACE_WIDE

_MOST = 2
_LINES = 8


class Alerts(QWidget):
    """A framed block with the first sentences and how many more there are; gone while there are none."""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self._look = look
        self._faces = Type(look.scale)
        self.sentences: tuple[str, ...] = ()
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(policy)
        self.hide()

    @property
    def said(self) -> tuple[str, ...]:
        """What is shown, sentence by sentence."""
        more = len(self.sentences) - _MOST
        if more <= 0:
            return self.sentences
        tail = (
            self.tr("And 1 more error, listed below.")
            if more == 1
            else self.tr("And {n} more errors, listed below.")
        )
        return (*self.sentences[:_MOST], tail.format(n=more))

    def say(self, sentences: tuple[str, ...]) -> None:
        """Show sentences, or nothing."""
        if sentences == self.sentences:
            return
        self.sentences = sentences
        self.setAccessibleName(self.tr("Errors: {said}").format(said=" ".join(self.said)))
        self.setToolTip("\n".join(sentences))
        self.setVisible(bool(sentences))
        self._fit()
        if sentences:
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.Alert))

    def dress(self) -> None:
        """Follow the theme and the size of type."""
        self._faces = Type(self._look.scale)
        self._fit()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """As high as what it says."""
        return QSize(0, self._height())

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """Another width breaks lines anew."""
        super().resizeEvent(event)
        self._fit()

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802, ARG002 - Qt's name
        """Paint the frame, the sign and the sentences."""
        theme, faces = self._look.theme, self._faces
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QColor(theme.error))
        painter.setBrush(QColor(theme.raised))
        frame = QRectF(self.rect()).adjusted(SPACE_WIDE - SPACE, 0.5, -SPACE_WIDE + SPACE, -SPACE - 0.5)
        painter.drawRoundedRect(frame, RADIUS, RADIUS)
        side = faces.scale.lead
        painter.drawPixmap(
            int(frame.left()) + SPACE, SPACE, inked("caution", theme.error, side, self.devicePixelRatioF())
        )
        painter.setFont(faces.fonts["strong"])
        y = SPACE + faces.metrics["strong"].ascent()
        for lines in self._paragraphs():
            for line in lines:
                painter.drawText(QPointF(self._left(), y), line)
                y += faces.line("strong")
            y += SPACE
        painter.end()

    def _left(self) -> float:
        return SPACE_WIDE + self._faces.scale.lead + SPACE

    def _paragraphs(self) -> list[list[str]]:
        room = max(60.0, self.width() - self._left() - SPACE_WIDE)
        return [self._faces.lines(said, "strong", room, _LINES) for said in self.said]

    def _height(self) -> int:
        paragraphs = self._paragraphs()
        lines = sum(map(len, paragraphs))
        return round(lines * self._faces.line("strong")) + (len(paragraphs) + 2) * SPACE

    def _fit(self) -> None:
        if self.sentences and self.minimumHeight() != self._height():
            self.setFixedHeight(self._height())
        self.update()

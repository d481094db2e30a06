"""The paper that steps are drawn on: light in both themes, as what is printed needs it, and dimmed in the dark one."""

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from piecewright_qt.theme.tokens import LIGHT, RADIUS, Theme

MARK = QColor(LIGHT.accent)  # handles and what is held; the paper is light, so the light theme's
ON_MARK = QColor(LIGHT.on_accent)
WORDS = QColor(LIGHT.text_soft)


def lay_paper(
    painter: QPainter, theme: Theme, widget: QRect, sheet: QRectF, edge: QPen | None = None
) -> None:
    """The ground of a widget, and a sheet of paper on it, with an edge where it is asked for."""
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.fillRect(widget, QColor(theme.ground))
    painter.setPen(Qt.PenStyle.NoPen if edge is None else edge)
    painter.setBrush(paper(theme))
    painter.drawRoundedRect(sheet, RADIUS, RADIUS)


def paper(theme: Theme) -> QColor:
    """The sheet's own color."""
    return QColor(LIGHT.raised if theme.name == "light" else LIGHT.flannel)

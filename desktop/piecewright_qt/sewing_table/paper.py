"""The paper that steps are drawn on: light in both themes, as what is printed needs it, and dimmed in the dark one."""

from PySide6.QtGui import QColor

from piecewright_qt.theme.tokens import LIGHT, Theme

MARK = QColor(LIGHT.accent)  # handles and what is held; the paper is light, so the light theme's
ON_MARK = QColor(LIGHT.on_accent)
WORDS = QColor(LIGHT.text_soft)


def paper(theme: Theme) -> QColor:
    """The sheet's own color."""
    return QColor(LIGHT.raised if theme.name == "light" else LIGHT.flannel)

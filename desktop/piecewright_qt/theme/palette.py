"""A Qt palette from our tokens: dark off-screen and on screens whose own scheme is light, and the reverse."""

from PySide6.QtGui import QColor, QPalette

from piecewright_qt.theme.tokens import Theme

_ROLES: tuple[tuple[QPalette.ColorRole, str], ...] = (
    (QPalette.ColorRole.Window, "ground"),
    (QPalette.ColorRole.WindowText, "text"),
    (QPalette.ColorRole.Base, "raised"),
    (QPalette.ColorRole.AlternateBase, "surface"),
    (QPalette.ColorRole.Text, "text"),
    (QPalette.ColorRole.PlaceholderText, "text_soft"),
    (QPalette.ColorRole.Button, "raised"),
    (QPalette.ColorRole.ButtonText, "text"),
    (QPalette.ColorRole.ToolTipBase, "text"),
    (QPalette.ColorRole.ToolTipText, "surface"),
    (QPalette.ColorRole.BrightText, "error"),
    (QPalette.ColorRole.Highlight, "accent"),
    (QPalette.ColorRole.HighlightedText, "on_accent"),
    (QPalette.ColorRole.Accent, "accent"),
    (QPalette.ColorRole.Link, "accent"),
    (QPalette.ColorRole.LinkVisited, "accent"),
    (QPalette.ColorRole.Light, "raised"),
    (QPalette.ColorRole.Midlight, "surface"),
    (QPalette.ColorRole.Mid, "line"),
    (QPalette.ColorRole.Dark, "outline"),
    (QPalette.ColorRole.Shadow, "outline"),
)

_DISABLED = (QPalette.ColorRole.WindowText, QPalette.ColorRole.Text, QPalette.ColorRole.ButtonText)


def palette(theme: Theme) -> QPalette:
    """The whole palette of a theme, disabled text softened to the outline color."""
    made = QPalette()
    for role, token in _ROLES:
        made.setColor(role, QColor(getattr(theme, token)))
    for role in _DISABLED:
        made.setColor(QPalette.ColorGroup.Disabled, role, QColor(theme.outline))
    return made

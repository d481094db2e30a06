"""How the window looks and writes numbers, from the user's preferences; everything that shows hears of changes."""

from typing import Literal

import msgspec
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QApplication

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.units.measure import Measure
from piecewright_qt.theme.palette import palette
from piecewright_qt.theme.style import style_sheet
from piecewright_qt.theme.tokens import THEMES, Scale, Theme, ThemeName


class Look(QObject):
    """The theme, the text scale and the measure in force.

    `changed` follows each change that is seen; `noted` follows every change of the preferences.
    """

    changed = Signal()
    noted = Signal()

    def __init__(self, loaded: LoadedPreferences) -> None:
        super().__init__()
        self.loaded = loaded
        hints = QApplication.styleHints()
        if hints is not None:
            hints.colorSchemeChanged.connect(self._follow_system)

    @property
    def preferences(self) -> Preferences:
        """What the user likes."""
        return self.loaded.preferences

    @property
    def theme(self) -> Theme:
        """The palette in force: the user's choice, or what the system prefers."""
        chosen = self.preferences.theme
        return THEMES[_system_theme() if chosen == "system" else chosen]

    @property
    def scale(self) -> Scale:
        """Type and target sizes at the user's text size."""
        return Scale(self.preferences.text_percent / 100)

    @property
    def measure(self) -> Measure:
        """The one formatter for numbers shown."""
        return self.preferences.measure

    def prefer(self, **fields: object) -> None:
        """Change preferences and dress the program anew."""
        before = (self.theme, self.scale)
        self.note(**fields)
        if (self.theme, self.scale) != before:
            self.dress()
        self.changed.emit()

    def note(self, **fields: object) -> None:
        """Change preferences that nothing shows."""
        preferences = msgspec.structs.replace(self.preferences, **fields)
        self.loaded = LoadedPreferences(preferences, self.loaded.notes, self.loaded.unknown)
        self.noted.emit()

    def dress(self) -> None:
        """Put palette and style sheet on the application; not again, since Qt would go over every widget."""
        application, sheet = QApplication.instance(), style_sheet(self.theme, self.scale)
        if isinstance(application, QApplication) and application.styleSheet() != sheet:
            application.setPalette(palette(self.theme))
            application.setStyleSheet(sheet)

    def _follow_system(self) -> None:
        if self.preferences.theme == "system":
            self.dress()
            self.changed.emit()


def _system_theme() -> ThemeName:
    dark: Literal["dark"] = "dark"
    hints = QApplication.styleHints()
    return dark if hints is not None and hints.colorScheme() == Qt.ColorScheme.Dark else "light"

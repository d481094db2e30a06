"""The shipped typeface, registered with Qt so that no font of the system is needed."""

from functools import cache

from PySide6.QtGui import QFontDatabase

from piecewright.render.typeface import font_bytes


@cache
def register_fonts() -> None:
    """Make the typeface known; needs a QGuiApplication, does its work once."""
    for data in font_bytes():
        if QFontDatabase.addApplicationFontFromData(data) < 0:
            raise RuntimeError("A font file of the program is damaged. Install the program again.")

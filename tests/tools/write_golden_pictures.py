"""Writes the pictures that tests compare with: look at every one before keeping it."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtGui import QGuiApplication

from piecewright_qt.drawing.png import painted
from tests.desktop.drawing.golden import GOLDEN, pictures

if __name__ == "__main__":
    application = QGuiApplication([])
    for name, (draw, per_inch) in pictures().items():
        painted(draw, per_inch, 0.1).save(str(GOLDEN / f"{name}.png"))

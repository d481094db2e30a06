"""A drag off the shelf: what it carries and the picture that goes with the pointer."""

from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtGui import QDrag, QPainter, QPixmap
from PySide6.QtWidgets import QWidget

_BESIDE = QPoint(-14, -14)
"""The picture hangs below the pointer, so that the aim stays in sight."""
_OPACITY = 0.85


def drag_with(source: QWidget, carried: QMimeData, pixmap: QPixmap) -> QDrag:
    """A drag that has not begun yet."""
    drag = QDrag(source)
    drag.setMimeData(carried)
    drag.setPixmap(_lighter(pixmap))
    drag.setHotSpot(_BESIDE)
    return drag


def _lighter(pixmap: QPixmap) -> QPixmap:
    """What lies under the picture shines through."""
    made = QPixmap(pixmap.size())
    made.setDevicePixelRatio(pixmap.devicePixelRatio())
    made.fill(Qt.GlobalColor.transparent)
    painter = QPainter(made)
    painter.setOpacity(_OPACITY)
    painter.drawPixmap(0, 0, pixmap)
    painter.end()
    return made

"""A large live swatch at true size."""

from PySide6.QtCore import QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from piecewright.model.fabric import Fabric
from piecewright_qt.shelf.pictures import Pictures

TRUE_SIZE = 96.0
"""Device-independent pixels to the inch of screen, as Qt counts them."""
_HEIGHT = 132


class Swatch(QWidget):
    """A piece of cloth as wide as there is room, an inch of cloth an inch of screen."""

    def __init__(self, pictures: Pictures) -> None:
        super().__init__()
        self._pictures = pictures
        self._fabric: Fabric | None = None
        self._photo: bytes | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_cloth(self, fabric: Fabric, photo: bytes | None, spoken: str) -> None:
        """Show this cloth."""
        self._fabric, self._photo = fabric, photo
        self.setAccessibleName(spoken)
        self.update()

    def sizeHint(self) -> QSize:  # noqa: N802 - Qt's name
        """A hand's breadth."""
        return QSize(200, _HEIGHT)

    def paintEvent(self, event: QPaintEvent) -> None:  # noqa: N802, ARG002 - Qt's name
        """Paint the cloth."""
        if self._fabric is None:
            return
        painter = QPainter(self)
        ratio = self.devicePixelRatioF()
        painter.drawPixmap(
            0, 0, self._pictures.cloth(self._fabric, self._photo, self.size(), ratio, TRUE_SIZE)
        )
        painter.end()

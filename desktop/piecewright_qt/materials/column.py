"""The right column: Materials, and under it the sliders that resize the quilt, folded away until they are asked for."""

from PySide6.QtWidgets import QVBoxLayout, QWidget

from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.panel import MaterialsPanel
from piecewright_qt.materials.resize import ResizePanel
from piecewright_qt.replan import Replan


class MaterialsColumn(QWidget):
    """Holds the panel and the resizer, one above the other, so that numbers and sliders are seen together."""

    def __init__(self, document: Document, replan: Replan, look: Look) -> None:
        super().__init__()
        self.panel = MaterialsPanel(document, replan, look)
        self.resizer = ResizePanel(document, look)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.panel, 1)
        column.addWidget(self.resizer)
        self.resizer.hide()
        self.panel.resize_asked.connect(self.show_resize)
        self.resizer.finished.connect(self.resizer.hide)

    def show_resize(self) -> None:
        """Unfold the sliders, or fold them again."""
        if self.resizer.isVisible():
            self.resizer.cancel()
        else:
            self.resizer.begin()
            self.resizer.show()

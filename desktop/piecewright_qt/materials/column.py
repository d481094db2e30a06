"""The right column: Materials, and under it what resizes the quilt, folded away until it is asked for."""

from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QVBoxLayout, QWidget

from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.materials.panel import MaterialsPanel
from piecewright_qt.materials.resize import ResizePanel
from piecewright_qt.replan import Replan
from piecewright_qt.runner import Runner

_LEAST_LIST = 110
_LEAST_FOOT = 240
"""Pixels that list and sliders keep at least."""


class MaterialsColumn(QWidget):
    """Holds the panel and the resizer, one above the other, so that numbers and sliders are seen together."""

    def __init__(self, document: Document, replan: Replan, look: Look, runner: Runner | None = None) -> None:
        """`runner` works the ways of a resize out; one of its own where none is given."""
        super().__init__()
        self.panel = MaterialsPanel(document, replan, look)
        self.resizer = ResizePanel(document, replan, look, runner)
        # else the height that a list likes best would push the resizer out of sight
        self.panel.list.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Ignored)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.panel, 1)
        column.addWidget(self.resizer)
        self.resizer.hide()
        self.panel.resize_asked.connect(self.show_resize)
        self.resizer.finished.connect(self._fold)
        self.resizer.resized.connect(self._fit)
        look.changed.connect(self._fit)
        replan.planned.connect(self._follow)

    def show_resize(self) -> None:
        """Unfold the resizer, or fold them again and leave the quilt as it was."""
        if self.resizer.isVisible():
            self.resizer.cancel()
            return
        self.resizer.begin()
        self.resizer.show()
        self._fit()
        self.resizer.ways.wish.focus()

    def resizeEvent(self, event: QResizeEvent) -> None:  # noqa: N802 - Qt's name
        """What the sliders take never pushes the head out of sight."""
        super().resizeEvent(event)
        self._fit()

    def _follow(self) -> None:
        """Numbers and errors above may take more lines while something is tried out."""
        if self.resizer.isVisible():
            self._fit()

    def _fold(self) -> None:
        self.resizer.hide()
        self.panel.head.resize_button.setFocus()

    def _fit(self) -> None:
        panel, alerts = self.panel, self.panel.alerts
        said = 0 if alerts.isHidden() else alerts.sizeHint().height()
        free = self.height() - panel.head.heightForWidth(self.width()) - said - _LEAST_LIST
        self.resizer.setFixedHeight(min(self.resizer.wanted_height(), max(free, _LEAST_FOOT)))

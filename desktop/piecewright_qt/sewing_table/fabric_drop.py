"""A fabric of the shelf let fall on the Sewing table lays a strip of it."""

from typing import cast

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QWidget

from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.wall.mime import carried_fabric

_COMING = (QEvent.Type.DragEnter, QEvent.Type.DragMove)


class FabricDrop(QObject):
    """Takes fabrics for any widget it watches; `hovered` names the fabric over it, or nothing."""

    hovered = Signal(str)

    def __init__(self, bench: Bench, *watched: QWidget) -> None:
        super().__init__(watched[0])
        self._bench = bench
        for widget in watched:
            widget.setAcceptDrops(True)
            widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:  # noqa: N802 - Qt's name
        """Follow a drag, and lay a strip where it ends."""
        if event.type() in _COMING:
            self._come(cast(QDragEnterEvent | QDragMoveEvent, event))
            return True
        if event.type() == QEvent.Type.DragLeave:
            self.hovered.emit("")
            return True
        if event.type() == QEvent.Type.Drop:
            self._fall(cast(QDropEvent, event))
            return True
        return False

    def _come(self, event: QDragEnterEvent | QDragMoveEvent) -> None:
        fabric = carried_fabric(event.mimeData())
        known = self._bench.document.design.shelf.fabrics
        if fabric is not None and fabric in known and self._bench.draft is not None:
            event.acceptProposedAction()
            self.hovered.emit(known[fabric].name)
        else:
            event.ignore()

    def _fall(self, event: QDropEvent) -> None:
        self.hovered.emit("")
        fabric = carried_fabric(event.mimeData())
        if fabric is not None:
            event.acceptProposedAction()
            self._bench.lay(fabric)

"""What of the shelf is let fall on the Sewing table: a fabric lays a strip of it, a block is made as a piece."""

from typing import cast

from PySide6.QtCore import QEvent, QMimeData, QObject, Signal
from PySide6.QtGui import QDragEnterEvent, QDragMoveEvent, QDropEvent
from PySide6.QtWidgets import QWidget

from piecewright_qt.sewing_table.bench import Bench
from piecewright_qt.wall.mime import carried_block, carried_fabric

_COMING = (QEvent.Type.DragEnter, QEvent.Type.DragMove)


class ShelfDrop(QObject):
    """Takes fabrics and blocks for any widget it watches; `hovered` says what would be done, or nothing."""

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
        said = self._coming(event.mimeData()) if self._bench.draft is not None else ""
        if said:
            event.acceptProposedAction()
            self.hovered.emit(said)
        else:
            event.ignore()

    def _coming(self, data: QMimeData) -> str:
        """What letting go would do; empty of what the table has no use for."""
        shelf, fabric, block = self._bench.document.design.shelf, carried_fabric(data), carried_block(data)
        if fabric is not None and fabric in shelf.fabrics:
            name = shelf.fabrics[fabric].name
            return self.tr("Let go to lay a strip of {fabric}.").format(fabric=name)
        if block is not None and block.block in shelf.blocks and block.block != self._bench.block_id:
            name = shelf.blocks[block.block].name
            return self.tr("Let go to make {block} as a piece of this block.").format(block=name)
        return ""

    def _fall(self, event: QDropEvent) -> None:
        self.hovered.emit("")
        fabric, block = carried_fabric(event.mimeData()), carried_block(event.mimeData())
        if fabric is not None:
            event.acceptProposedAction()
            self._bench.lay(fabric)
        elif block is not None:
            event.acceptProposedAction()
            self._bench.use(block.block)

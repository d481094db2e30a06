"""Two arrangements beside each other, each with its picture, size and what it takes, and what the second costs more."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QComboBox, QDialog, QGridLayout, QLabel, QListWidget, QVBoxLayout, QWidget

from piecewright.model.design import Design
from piecewright.plan.difference import difference
from piecewright.plan.materials import Materials, materials
from piecewright.words.message import message
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.pictures import small_picture
from piecewright_qt.theme.tokens import SPACE_PAGE, SPACE_WIDE

_PICTURE = 420


class SideBySide(QDialog):
    """Choose two; pictures, sizes, totals, and the difference line by line."""

    def __init__(self, document: Document, look: Look, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._design = document.design
        self._look = look
        self.setWindowTitle(self.tr("Two arrangements side by side"))
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE_PAGE, SPACE_PAGE, SPACE_PAGE, SPACE_PAGE)
        grid = QGridLayout()
        grid.setHorizontalSpacing(SPACE_PAGE)
        self.choices = (
            self._choice(self.tr("First arrangement")),
            self._choice(self.tr("Second arrangement")),
        )
        self._pictures, self._totals = (QLabel(), QLabel()), (QLabel(), QLabel())
        for side in (0, 1):
            self._pictures[side].setAlignment(Qt.AlignmentFlag.AlignCenter)
            self._pictures[side].setMinimumSize(_PICTURE, _PICTURE)
            self._totals[side].setTextFormat(Qt.TextFormat.PlainText)
            for row, widget in enumerate((self.choices[side], self._pictures[side], self._totals[side])):
                grid.addWidget(widget, row, side)
        column.addLayout(grid)
        heading = QLabel(self.tr("What the second takes more or less"))
        heading.setProperty("type", "lead")
        self.changes = QListWidget()
        self.changes.setAccessibleName(heading.text())
        column.addSpacing(SPACE_WIDE)
        column.addWidget(heading)
        column.addWidget(self.changes)
        self.choices[0].setCurrentIndex(self._design.current)
        self.choices[1].setCurrentIndex((self._design.current + 1) % len(self._design.arrangements))
        for choice in self.choices:
            choice.currentIndexChanged.connect(lambda _index: self.refresh())
        self.refresh()

    def refresh(self) -> None:
        """Show the two that are chosen."""
        plans = []
        for side, choice in enumerate(self.choices):
            design: Design = self._design.changed(current=choice.currentIndex())
            plan = materials(design)
            plans.append(plan)
            pixmap = QPixmap()
            pixmap.loadFromData(small_picture(design, _PICTURE * 2))
            pixmap.setDevicePixelRatio(2)
            self._pictures[side].setPixmap(pixmap)
            self._totals[side].setText(self._total(plan))
        self.changes.clear()
        changes = difference(plans[0], plans[1])
        for change in changes:
            self.changes.addItem(change.said.text(self._look.measure))
        if not changes:
            self.changes.addItem(self.tr("Nothing: both take the same."))

    def _choice(self, name: str) -> QComboBox:
        choice = QComboBox()
        choice.setAccessibleName(name)
        choice.addItems([quilt.name for quilt in self._design.arrangements])
        return choice

    def _total(self, plan: Materials) -> str:
        size = message("plan.size", size=plan.size.finished).text(self._look.measure)
        words = self.tr("{blocks} blocks, {sets} strip sets to sew, {strips} strips to cut")
        return f"{size}\n" + words.format(
            blocks=plan.block_count, sets=plan.set_count, strips=plan.strip_count
        )

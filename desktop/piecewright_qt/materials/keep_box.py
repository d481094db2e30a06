"""Keeping at or under what is on hand: a box to tick, what goes over while it is ticked, and which edit did it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from piecewright.plan.keeping import Over, goes_over, on_hand_of, over
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.messages import words
from piecewright_qt.replan import Replan
from piecewright_qt.shelf.fields import CheckField
from piecewright_qt.theme.tokens import SPACE, SPACE_WIDE

_MOST = 3


class KeepBox(QWidget):
    """There while a fabric says what is on hand of it. `went_over` follows an edit that goes over, in words."""

    went_over = Signal(str)

    def __init__(self, document: Document, replan: Replan, look: Look) -> None:
        super().__init__()
        self._document = document
        self._replan = replan
        self._look = look
        self._before = replan.standing
        self.field = CheckField(
            self.tr("Keep at or under what is on hand"),
            self.tr("Say when an edit takes more of a fabric than its forms on the shelf say is there"),
        )
        self.said = QLabel()
        self.said.setProperty("type", "small")
        self.said.setProperty("tone", "warn")
        self.said.setWordWrap(True)
        self.said.hide()
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE_WIDE, 0, SPACE_WIDE, SPACE)
        column.setSpacing(0)
        column.addWidget(self.field)
        column.addWidget(self.said)
        self.field.box.toggled.connect(self.refresh)

    def refresh(self) -> None:
        """What goes over now, or would by what is tried out; an edit that brought it about is told."""
        have = on_hand_of(self._document.shown)
        self.setVisible(bool(have.cloth))
        before, self._before = self._before, self._replan.standing
        if not have.cloth or not self.field.box.isChecked():
            self._say(())
            return
        self._say(over(self._replan.shown, have))
        if before is not self._replan.standing and not self._replan.is_preview:
            brought = goes_over(before, self._replan.standing, have)
            if brought:
                self.went_over.emit(" ".join(self._words(each) for each in brought[:_MOST]))

    def _say(self, found: tuple[Over, ...]) -> None:
        lines = [self._words(each) for each in found[:_MOST]]
        if len(found) > _MOST:
            lines.append(self.tr("And {n} more fabrics.").format(n=len(found) - _MOST))
        self.said.setText("\n".join(lines))
        self.said.setVisible(bool(lines))

    def _words(self, each: Over) -> str:
        return words(each.finding, self._look.measure)

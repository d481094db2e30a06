"""The pieces on the table for screen readers: each is a child with a name, and the one in hand is told of."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent, QPaintEvent
from PySide6.QtWidgets import QAbstractButton

if TYPE_CHECKING:
    from piecewright_qt.sewing_table.table_top import TableTop


class PieceVoice(QAbstractButton):
    """One piece: it paints nothing and lets the mouse through to the table."""

    def __init__(self, top: "TableTop") -> None:
        super().__init__(top)
        self._top = top
        self.piece = ""
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setCheckable(True)

    def paintEvent(self, _event: QPaintEvent) -> None:  # noqa: N802 - Qt's name
        """The table paints it."""


class PieceVoices:
    """As many children as pieces lie there."""

    def __init__(self, top: "TableTop") -> None:
        self._top = top
        self._voices: list[PieceVoice] = []

    def follow(self) -> None:
        """Name them and put them where the pieces lie."""
        pieces = self._top.pieces
        while len(self._voices) < len(pieces):
            self._voices.append(PieceVoice(self._top))
        for number, voice in enumerate(self._voices):
            if number < len(pieces):
                piece = pieces[number]
                voice.piece = piece.name
                voice.setGeometry(piece.whole.toAlignedRect())
                voice.setAccessibleName(self._top.describe(piece))
                voice.show()
            else:
                voice.hide()

    def chosen(self) -> None:
        """Another piece is in hand: those who hear the table are told."""
        for voice in self._voices:
            voice.setChecked(voice.piece in self._top.marked)
            if self._top.marked and voice.piece == self._top.marked[-1] and voice.isVisible():
                self._tell(voice)

    def _tell(self, voice: PieceVoice) -> None:
        if QAccessible.isActive() and self._top.hasFocus():
            QAccessible.updateAccessibility(QAccessibleEvent(voice, QAccessible.Event.Focus))

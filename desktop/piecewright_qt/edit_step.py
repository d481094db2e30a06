"""The one undo command of the program: a named edit with the designs before and after it."""

from collections.abc import Callable

from piecewright.edit.registry import EditCall, merges_with
from piecewright.model.design import Design
from PySide6.QtGui import QUndoCommand

_MERGING = 1


class EditStep(QUndoCommand):
    """Undo and redo hand the design before or after to `show`; nudges of one thing merge into one step."""

    def __init__(self, call: EditCall, before: Design, after: Design, show: Callable[[Design], None], text: str) -> None:
        super().__init__(text)
        self.call = call
        self.before = before
        self.after = after
        self._show = show

    def redo(self) -> None:
        """Show the design as the edit left it."""
        self._show(self.after)

    def undo(self) -> None:
        """Show the design as it was."""
        self._show(self.before)

    def id(self) -> int:
        """One id for all steps: whether two merge is for the edits to say."""
        return _MERGING

    def mergeWith(self, other: QUndoCommand) -> bool:  # noqa: N802 - Qt's name
        """Take a later nudge of the same thing into this step."""
        if not isinstance(other, EditStep):
            return False
        merged = merges_with(self.call, other.call)
        if merged is None:
            return False
        self.call, self.after = merged, other.after
        self.setObsolete(self.after == self.before)
        return True

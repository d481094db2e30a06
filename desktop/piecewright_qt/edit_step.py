"""The one undo command of the program: a named edit with the designs before and after it."""

from collections.abc import Callable
from weakref import WeakMethod

from PySide6.QtGui import QUndoCommand

from piecewright.edit.registry import EditCall, merges_with
from piecewright.model.design import Design

_MERGING = 1


class EditStep(QUndoCommand):
    """Undo and redo hand the design before or after to `show`; steps of one gesture merge where their edits can.

    `show` is a method of the document, held weakly: a step must not keep alive what holds its own stack.
    """

    def __init__(
        self,
        call: EditCall,
        before: Design,
        after: Design,
        show: Callable[[Design], None],
        gesture: object | None = None,
    ) -> None:
        super().__init__()
        self.call = call
        self.before = before
        self.after = after
        self._show = WeakMethod(show)
        self.gesture = gesture

    def redo(self) -> None:
        """Show the design as the edit left it."""
        self._show_now(self.after)

    def undo(self) -> None:
        """Show the design as it was."""
        self._show_now(self.before)

    def _show_now(self, design: Design) -> None:
        show = self._show()
        if show is not None:
            show(design)

    def id(self) -> int:
        """One id for all steps: whether two merge is for the gesture and the edits to say."""
        return _MERGING

    def mergeWith(self, other: QUndoCommand) -> bool:  # noqa: N802 - Qt's name
        """Take a later step of the same gesture into this one."""
        if not isinstance(other, EditStep) or self.gesture is None or other.gesture != self.gesture:
            return False
        merged = merges_with(self.call, other.call)
        if merged is None:
            return False
        self.call, self.after = merged, other.after
        self.setText(other.text())
        return True

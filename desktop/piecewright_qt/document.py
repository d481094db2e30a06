"""The open design: what it is, how it came to be, what is only being tried out, and where it is kept."""

from collections.abc import Callable, Mapping
from pathlib import Path

from piecewright.edit.registry import EditCall, apply, undo_text
from piecewright.errors import EditError
from piecewright.model.design import Design
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from piecewright_qt.edit_step import EditStep

Recorder = Callable[[EditCall], None]


class Document(QObject):
    """One design with its undo stack. Every change is an edit call; a preview is the same call, not pushed.

    `changed(before, after)` follows every real change, undo and redo; `previewed(design)` a preview, or None when it
    is dropped; `refused(error)` an edit that was not possible, in words; `filed()` a new path or a saved state.
    """

    changed = Signal(object, object)
    previewed = Signal(object)
    refused = Signal(object)
    filed = Signal()

    def __init__(self, design: Design, path: Path | None = None, pictures: Mapping[str, bytes] | None = None) -> None:
        super().__init__()
        self._design = design
        self._preview: Design | None = None
        self.preview_refusal: EditError | None = None
        self.path = path
        self.pictures: dict[str, bytes] = dict(pictures or {})
        self.undo_stack = QUndoStack(self)
        self.record: Recorder = lambda call: None

    @property
    def design(self) -> Design:
        """The design as it stands."""
        return self._design

    @property
    def shown(self) -> Design:
        """What the window shows: the preview while there is one."""
        return self._design if self._preview is None else self._preview

    @property
    def is_changed(self) -> bool:
        """Whether there is something to save."""
        return not self.undo_stack.isClean()

    def perform(self, call: EditCall) -> bool:
        """Do an edit as one undo step, journal first. False when it was refused (and said so) or changed nothing."""
        self.drop_preview()
        try:
            after = apply(self._design, call)
        except EditError as error:
            self.refused.emit(error)
            return False
        if after == self._design:
            return False
        self.record(call)
        self.undo_stack.push(EditStep(call, self._design, after, self._show, str(undo_text(call))))
        return True

    def preview(self, call: EditCall) -> bool:
        """Show what an edit would do. A refused one leaves the design in view and its reason in `preview_refusal`."""
        try:
            shown, self.preview_refusal = apply(self._design, call), None
        except EditError as error:
            shown, self.preview_refusal = self._design, error
        self._set_preview(None if shown is self._design else shown)
        return self.preview_refusal is None

    def drop_preview(self) -> None:
        """Back to the design as it stands."""
        self.preview_refusal = None
        self._set_preview(None)

    def kept(self, path: Path) -> None:
        """Note that the design as it stands is saved at `path`."""
        self.path = path
        self.undo_stack.setClean()
        self.filed.emit()

    def _set_preview(self, design: Design | None) -> None:
        if design is not self._preview:
            self._preview = design
            self.previewed.emit(design)

    def _show(self, design: Design) -> None:
        before, self._design = self._design, design
        if before != design:
            self.changed.emit(before, design)

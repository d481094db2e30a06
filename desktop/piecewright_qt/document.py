"""The open design: what it is, how it came to be, and what is only being tried out."""

from collections.abc import Callable, Iterable, Mapping
from typing import Protocol

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from piecewright.edit.registry import EditCall, apply, undo_text
from piecewright.errors import EditError, FileError
from piecewright.files.journal import DraftRecord
from piecewright.model.design import Design
from piecewright_qt.edit_step import EditStep


class Recorder(Protocol):
    """What writes edits down before the next frame: the journal of a design on disk. Raises FileError."""

    def append(self, call: EditCall, after: Design | None = None) -> int:
        """Write down an edit and the design it gives."""

    def return_to(self, design: Design) -> None:
        """Write down that undo or redo led to a design seen before."""

    def add_picture(self, name: str, data: bytes) -> None:
        """Write down a picture before the edit that shows it."""

    def note_draft(self, draft: DraftRecord) -> None:
        """Write down the draft of a recipe that stands now."""


class Document(QObject):
    """One design with its undo stack. Every change is an edit call; a preview is the same call, not pushed.

    `changed(before, after)` follows every real change, undo and redo included; `previewed(design)` a preview, or None
    when it is dropped; `refused(error)` tells of an edit that was not possible; `record_failed(error)` that the journal
    could not be written. `recorder` writes each change down before it is shown. `drafts` are the recipes that stand on
    the Sewing table otherwise than in the design, which holds only what can be made.
    """

    changed = Signal(object, object)
    previewed = Signal(object)
    refused = Signal(object)
    record_failed = Signal(object)

    def __init__(
        self,
        design: Design,
        pictures: Mapping[str, bytes] | None = None,
        drafts: Iterable[DraftRecord] = (),
    ) -> None:
        super().__init__()
        self._design = design
        self._preview: Design | None = None
        self._passing = False
        self.preview_refusal: EditError | None = None
        self.pictures: dict[str, bytes] = dict(pictures or {})
        self.drafts: dict[str, DraftRecord] = {draft.recipe: draft for draft in drafts}
        self.undo_stack = QUndoStack(self)
        self.recorder: Recorder | None = None

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

    @property
    def first(self) -> Design:
        """The design that the undo stack leads back to."""
        steps = self._steps()
        return steps[0].before if steps else self._design

    @property
    def history(self) -> tuple[tuple[EditCall, Design], ...]:
        """Every step of the undo stack, those taken back too, each with the design it gives."""
        return tuple((step.call, step.after) for step in self._steps())

    def perform(self, call: EditCall, gesture: object | None = None) -> bool:
        """Do an edit as one undo step, written down first. False when it was refused (and said so) or changed nothing.

        Edits that share a `gesture` (one slider, nudges in a row) become one step where their edits can merge.
        """
        self.drop_preview()
        try:
            after = apply(self._design, call)
        except EditError as error:
            self.refused.emit(error)
            return False
        if after == self._design:
            return False
        self._write_down(call, after)
        step = EditStep(call, self._design, after, self._show, gesture)
        step.setText(str(undo_text(call)))
        self.undo_stack.push(step)
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

    def undo(self) -> None:
        """Take back the last step; the journal hears of it."""
        self.drop_preview()
        self.undo_stack.undo()
        self._write_return()

    def redo(self) -> None:
        """Do the step again that was taken back last; the journal hears of it."""
        self.drop_preview()
        self.undo_stack.redo()
        self._write_return()

    def go_to(self, step: int) -> None:
        """Take back or do again all steps that lead to where so many are done; one change, and the journal hears of it.

        Raises ValueError for a number that the history has not.
        """
        if not 0 <= step <= self.undo_stack.count():
            raise ValueError(f"the history has steps 0 to {self.undo_stack.count()}, not {step}")
        self.drop_preview()
        before, self._passing = self._design, True
        try:
            self.undo_stack.setIndex(step)
        finally:
            self._passing = False
        self._write_return()
        if before != self._design:
            self.changed.emit(before, self._design)

    def add_picture(self, name: str, data: bytes) -> None:
        """Bring a picture that a following edit shows."""
        self.pictures[name] = data
        if self.recorder is not None:
            self._guarded(lambda recorder: recorder.add_picture(name, data))

    def note_draft(self, draft: DraftRecord) -> None:
        """A draft stands now; one without text: none does any more. The journal hears of what is new."""
        if draft == self.drafts.get(draft.recipe, DraftRecord(draft.recipe)):
            return
        self.drafts[draft.recipe] = draft
        if self.recorder is not None:
            self._guarded(lambda recorder: recorder.note_draft(draft))

    def note_drafts_again(self) -> None:
        """A new journal hears of every draft that stands."""
        for draft in self.drafts.values():
            self._guarded(lambda recorder, draft=draft: recorder.note_draft(draft))  # type: ignore[misc]

    def _steps(self) -> list[EditStep]:
        commands = (self.undo_stack.command(index) for index in range(self.undo_stack.count()))
        return [command for command in commands if isinstance(command, EditStep)]

    def _write_down(self, call: EditCall, after: Design) -> None:
        self._guarded(lambda recorder: recorder.append(call, after))

    def _write_return(self) -> None:
        self._guarded(lambda recorder: recorder.return_to(self._design))

    def _guarded(self, write: Callable[[Recorder], object]) -> None:
        """Write to the journal; a failure is told but never stops the work."""
        if self.recorder is None:
            return
        try:
            write(self.recorder)
        except FileError as error:
            self.record_failed.emit(error)

    def _set_preview(self, design: Design | None) -> None:
        if design is not self._preview:
            self._preview = design
            self.previewed.emit(design)

    def _show(self, design: Design) -> None:
        before, self._design = self._design, design
        if before != design and not self._passing:
            self.changed.emit(before, design)

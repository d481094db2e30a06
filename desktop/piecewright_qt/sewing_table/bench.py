"""The block in hand: its recipe while it is changed, the cloth of what still works, and the step in view."""

from collections.abc import Mapping, Sequence
from typing import Any

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand

from piecewright.edit.facts_of import given_of
from piecewright.edit.registry import call
from piecewright.errors import PiecewrightError
from piecewright.making.draft import Draft, insert_step, loose_pieces, move_step, remove_step, suggested_step
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.run import Making, facts_of
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright_qt.document import Document

Plain = Mapping[str, Any]


class Bench(QObject):
    """What the Sewing table shows of one block; every change is one undo step.

    A change that leaves the recipe sound is an edit of the design. One that does not is kept as a draft on the same
    undo stack, until it is mended: nothing is lost, and the design never holds a recipe that can not be read.
    `changed` follows each change of the draft, `stepped` a change of the step in view.
    """

    changed = Signal()
    stepped = Signal()

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.document = document
        self.block_id: str | None = None
        self.draft: Draft | None = None
        self.standing: Draft | None = None
        self.making: Making | None = None
        self.trouble: PiecewrightError | None = None
        self.step = 0
        document.changed.connect(self._follow)

    # What is in view ------------------------------------------------------------------------------------------

    @property
    def block(self) -> Block | None:
        """The block in hand; None where none is, or it is gone."""
        return self.document.design.shelf.blocks.get(self.block_id or "")

    @property
    def given(self) -> Given:
        """What the making is given."""
        block = self.block
        return Given() if block is None else given_of(self.document.design, block)

    @property
    def facts(self) -> Facts | None:
        """What comes out, where the making goes through to the end."""
        if (
            self.draft is None
            or self.draft.sound is None
            or self.making is None
            or self.making.fault is not None
        ):
            return None
        try:
            return facts_of(self.making)
        except PiecewrightError as error:
            self.trouble = error
            return None

    @property
    def fault(self) -> PiecewrightError | None:
        """What does not work: a step that does not hold together, or cloth that does not allow it."""
        if self.draft is not None and self.draft.fault is not None:
            return self.draft.fault
        return self.trouble or (self.making.fault if self.making is not None else None)

    @property
    def fault_step(self) -> int | None:
        """The step at which it does not work, from 0."""
        if self.draft is not None and self.draft.fault is not None:
            return self.draft.fault_step
        stopped = self.making is not None and self.making.fault is not None
        return len(self.making.outcomes) if stopped and self.making is not None else None

    @property
    def fabrics(self) -> dict[str, Sequence[Fabric]]:
        """The fabrics of the recipe's letters, by layer, as the block on the shelf has them."""
        block, shelf = self.block, self.document.design.shelf
        if block is None:
            return {}
        return {letter: [shelf.fabrics[key] for key in ids] for letter, ids in block.fabrics.items()}

    def open(self, block_id: str) -> None:
        """Take a block in hand."""
        self.block_id = block_id
        self.step = 0
        self._read()

    def show_step(self, step: int) -> None:
        """Bring a step into view."""
        if self.draft is not None:
            step = min(max(step, 0), max(len(self.draft.steps) - 1, 0))
            if step != self.step:
                self.step = step
                self.stepped.emit()

    # Changing ---------------------------------------------------------------------------------------------------

    def change(self, plain: Plain, gesture: object | None = None) -> None:
        """Put the recipe as it is now in the place of the one before, as one undo step."""
        before, after = self.standing, Draft.of(plain)
        if before is None or self.block is None or after == before:
            return
        if after.sound is None:
            self.document.undo_stack.push(DraftStep(self, before, after, self.tr("Change a step")))
            return
        if before.sound is not None or after.sound != self._recipe():
            kept = self.document.perform(
                call("change-recipe", recipe=self.block.recipe, to=after.sound), gesture
            )
            if not kept:
                self.set_draft(before)
            return
        self.document.undo_stack.push(DraftStep(self, before, after, self.tr("Change a step")))

    def try_out(self, plain: Plain) -> None:
        """Show what a change would give, on the table and on the wall; nothing is changed yet."""
        if self.block is None:
            return
        draft = Draft.of(plain)
        if draft.sound is not None:
            self.document.preview(call("change-recipe", recipe=self.block.recipe, to=draft.sound))
        self._show(draft, self.given)

    def look_at_preview(self) -> None:
        """Show the block as the design's preview has it, when only its sizes are tried out."""
        block = self.document.shown.shelf.blocks.get(self.block_id or "")
        if block is not None and self.standing is not None:
            self._show(self.standing, given_of(self.document.shown, block))

    def drop_preview(self) -> None:
        """Back to the recipe as it stands."""
        self.document.drop_preview()
        if self.standing is not None:
            self.set_draft(self.standing)

    def insert(self, verb: str) -> None:
        """A step of a verb after the one in view, likely to work on what lies on the table there."""
        if self.draft is None:
            return
        at = min(self.step + 1, len(self.draft.steps))
        upto = Draft.of({**self.draft.plain, "steps": self.draft.steps[:at]})
        pieces = loose_pieces(upto.making(self.given))
        changed = insert_step(self.draft.plain, at, suggested_step(self.draft.plain, verb, pieces))
        self.step = at
        self.change(changed)

    def remove(self) -> None:
        """Take the step in view out."""
        if self.draft is not None and len(self.draft.steps) > 1:
            at = self.step
            self.step = max(0, at - 1)
            self.change(remove_step(self.draft.plain, at))

    def move(self, by: int) -> None:
        """Let the step in view come earlier or later."""
        if self.draft is None or not 0 <= self.step + by < len(self.draft.steps):
            return
        at, self.step = self.step, self.step + by
        self.change(move_step(self.draft.plain, at, at + by))

    def set_draft(self, draft: Draft) -> None:
        """Let a draft stand: after a change, undo or redo."""
        self.standing = draft
        self._show(draft, self.given)

    def _show(self, draft: Draft, given: Given) -> None:
        self.draft, self.trouble = draft, None
        try:
            self.making = draft.making(given)
        except PiecewrightError as error:
            self.making, self.trouble = None, error
        self.changed.emit()

    def _recipe(self) -> object:
        block = self.block
        return None if block is None else self.document.design.shelf.recipes[block.recipe]

    def _read(self) -> None:
        block = self.block
        if block is not None:
            self.set_draft(Draft.of(self.document.design.shelf.recipes[block.recipe].plain))
        else:
            self.draft = self.standing = self.making = None
            self.changed.emit()

    def _follow(self, _before: Design, _after: Design) -> None:
        if self.block_id is not None:
            self._read()


class DraftStep(QUndoCommand):
    """A change that leaves a recipe unsound for now: undone and redone on the table alone."""

    def __init__(self, bench: Bench, before: Draft, after: Draft, text: str) -> None:
        super().__init__(text)
        self._bench = bench
        self._before = before
        self._after = after

    def redo(self) -> None:
        """Show the draft after the change."""
        self._bench.set_draft(self._after)

    def undo(self) -> None:
        """Show the draft before it."""
        self._bench.set_draft(self._before)

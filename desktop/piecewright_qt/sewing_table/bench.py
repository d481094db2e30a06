"""The block in hand: its recipe while it is changed, the cloth of what still works, and the step in view."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any
from weakref import ref

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoCommand

from piecewright.edit.facts_of import given_of
from piecewright.edit.registry import call
from piecewright.errors import PiecewrightError
from piecewright.making.draft import (
    Draft,
    insert_step,
    loose_pieces,
    move_step,
    remove_step,
    suggested_step,
    turned_further,
)
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright_qt.document import Document

Plain = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class Drafted:
    """A draft of a recipe, as one step of the undo stack left it."""

    recipe: str
    draft: Draft


class Bench(QObject):
    """What the Sewing table shows of one block; every change is one undo step.

    A change that leaves the recipe sound and its block made is an edit of the design. One that does not is kept as a
    draft on the same undo stack, until it is mended: nothing is lost, and the design never comes to hold a recipe that
    can not be made. Which draft stands follows from the steps done, which are noted as they are told of.
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
        self.facts: Facts | None = None
        self.trouble: PiecewrightError | None = None
        self.step = 0
        self._done: dict[int, Drafted | tuple[Design, Design]] = {}
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
    def fault(self) -> PiecewrightError | None:
        """What does not work: a step that does not hold together, or cloth that does not allow it."""
        if self.draft is not None and self.draft.fault is not None:
            return self.draft.fault
        stopped = self.making.fault if self.making is not None else None
        return stopped or self.trouble

    @property
    def fault_step(self) -> int | None:
        """The step at which it does not work, from 0; None where nothing is wrong, or it is wrong of the whole."""
        making, draft = self.making, self.draft
        stopped = making is not None and making.fault is not None
        at = len(making.outcomes) if stopped and making is not None else None
        if draft is None or draft.fault_step is None:
            return at
        return draft.fault_step if at is None else min(at, draft.fault_step)

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

    def change(self, plain: Plain) -> bool:
        """Put the recipe as it is now in the place of the one before, as one undo step. False when it was refused."""
        block, before = self.block, self.standing
        if before is None or block is None:
            return False
        after = self._unclaimed(Draft.of(plain))
        if after == before:
            return True
        if after.sound is not None and after.sound != self._recipe() and self._facts(after)[0] is not None:
            done = self.document.perform(call("change-recipe", recipe=block.recipe, to=after.sound))
            if not done:
                self._read()
            return done
        self.document.drop_preview()
        self.document.undo_stack.push(DraftStep(self, block.recipe, after, self.tr("Change a step")))
        return True

    def try_out(self, plain: Plain) -> None:
        """Show what a change would give, on the table and on the wall; nothing is changed yet."""
        if self.block is None:
            return
        draft = self._unclaimed(Draft.of(plain))
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
        self._read()

    def insert(self, verb: str) -> None:
        """A step of a verb after the one in view, likely to work on what lies on the table there."""
        if self.draft is None:
            return
        at = min(self.step + 1, len(self.draft.steps))
        plain = self.draft.plain
        making = Draft.of({**plain, "steps": self.draft.steps[:at]}).making(self.given)
        step = suggested_step(plain, verb, loose_pieces(making), making)
        self._change_at(at, insert_step(plain, at, step, making))

    def turn_part(self, piece: str, by: int = 90) -> None:
        """Turn a piece that the step in view makes; turned again by the step that turns it already."""
        if self.draft is None or self.making is None or self.step >= len(self.making.outcomes):
            return
        plain, at = self.draft.plain, self.step + 1
        turning = next((n for n, step in enumerate(plain["steps"]) if step.get("turn") == piece), None)
        if turning is None:
            upto = Draft.of({**plain, "steps": plain["steps"][:at]}).making(self.given)
            step = {**suggested_step(plain, "turn", (piece,), upto), "by": by}
            self._change_at(at, insert_step(plain, at, step, upto))
            return
        self._change_at(turning, turned_further(plain, turning, by))

    def remove(self) -> None:
        """Take the step in view out."""
        if self.draft is not None and len(self.draft.steps) > 1:
            self._change_at(max(0, self.step - 1), remove_step(self.draft.plain, self.step))

    def move(self, by: int) -> None:
        """Let the step in view come earlier or later."""
        if self.draft is not None and 0 <= self.step + by < len(self.draft.steps):
            self._change_at(self.step + by, move_step(self.draft.plain, self.step, self.step + by))

    def _change_at(self, step: int, plain: Plain) -> None:
        """Change the recipe and look at a step of what comes of it."""
        before, self.step = self.step, step
        if not self.change(plain):
            self.step = before
            self.changed.emit()

    def _unclaimed(self, draft: Draft) -> Draft:
        """The draft without the finished size it claims, where its making now gives another and all else is well."""
        if draft.sound is None or self._facts(draft)[0] is not None:
            return draft
        without = Draft.of({key: value for key, value in draft.plain.items() if key != "finished"})
        return draft if self._facts(without)[0] is None else without

    def _facts(self, draft: Draft) -> tuple[Facts | None, PiecewrightError | None]:
        return _facts(draft, self.given)

    def _recipe(self) -> Recipe | None:
        block = self.block
        return None if block is None else self.document.design.shelf.recipes[block.recipe]

    def _follow(self, before: Design, after: Design) -> None:
        """Follow an edit done or taken back, which the stack counts only after it has told of it."""
        block, stack = self.block, self.document.undo_stack
        last = self._done.get(stack.index() - 1)
        if isinstance(last, tuple) and last[0] is after:
            self._read(stack.index() - 1)
            return
        self._done[stack.index()] = (before, after)
        if block is not None and not _same_recipe(block.recipe, before, after):
            self._read(0)
        else:
            self._read()

    def follow_draft(self, step: "DraftStep", *, done: bool) -> None:
        """Note a draft laid on the undo stack, or taken back; and show what stands where its recipe is in hand."""
        index, block = self.document.undo_stack.index(), self.block
        if done:
            self._done[index] = Drafted(step.recipe, step.draft)
        if block is not None and block.recipe == step.recipe:
            self._read(index + 1 if done else index - 1)

    def _read(self, count: int | None = None) -> None:
        """Look up which draft stands, among so many steps of the undo stack (None: all that are done), and show it."""
        if self.block_id is not None:
            self._let_stand(self._newest(self.document.undo_stack.index() if count is None else count))

    def _let_stand(self, draft: Draft | None) -> None:
        self.standing = draft
        if self.standing is not None:
            self._show(self.standing, self.given)
        else:
            self.draft = self.making = self.facts = self.trouble = None
            self.changed.emit()

    def _newest(self, count: int) -> Draft | None:
        """The newest draft of the recipe that no edit has come after; else the recipe as the design has it."""
        block, recipe = self.block, self._recipe()
        if block is None or recipe is None:
            return None
        for number in reversed(range(count)):
            done = self._done.get(number)
            if isinstance(done, Drafted) and done.recipe == block.recipe:
                return done.draft
            if isinstance(done, tuple) and not _same_recipe(block.recipe, *done):
                break
        return Draft.of(recipe.plain)

    def _show(self, draft: Draft, given: Given) -> None:
        self.draft, self.making = draft, None
        self.step = min(self.step, max(len(draft.steps) - 1, 0))
        try:
            self.making = draft.making(given)
        except PiecewrightError as error:
            self.facts, self.trouble = None, error.with_traceback(None)
        else:
            self.facts, self.trouble = _facts(draft, given)
        self.changed.emit()


def _same_recipe(recipe: str, one: Design, other: Design) -> bool:
    return one.shelf.recipes.get(recipe) == other.shelf.recipes.get(recipe)


def _facts(draft: Draft, given: Given) -> tuple[Facts | None, PiecewrightError | None]:
    """What comes out where all of a draft works, else what does not."""
    if draft.sound is None:
        return None, draft.fault
    try:
        return facts(draft.sound, given), None
    except PiecewrightError as error:
        return None, error.with_traceback(None)


class DraftStep(QUndoCommand):
    """A change that leaves a recipe unsound for now: it lies on the undo stack, and the bench finds it there."""

    def __init__(self, bench: Bench, recipe: str, draft: Draft, text: str) -> None:
        super().__init__(text)
        self._bench = ref(bench)  # the stack may outlive the table, and must not keep it
        self.recipe = recipe
        self.draft = draft

    def redo(self) -> None:
        """Show the draft, where its recipe is in hand."""
        self._tell(done=True)

    def undo(self) -> None:
        """Show what stood before it."""
        self._tell(done=False)

    def _tell(self, *, done: bool) -> None:
        bench = self._bench()
        if bench is not None:
            bench.follow_draft(self, done=done)

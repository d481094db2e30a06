"""The block in hand: its recipe while it is changed, the cloth of what still works, and the step in view."""

from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import Any

import msgspec
from PySide6.QtCore import QObject, Signal

from piecewright.edit.facts_of import given_of
from piecewright.edit.registry import call
from piecewright.errors import PiecewrightError
from piecewright.files.journal import DraftRecord
from piecewright.making import by_hand
from piecewright.making.by_hand import Changed, lying_after
from piecewright.making.cloth import Pile
from piecewright.making.draft import (
    Draft,
    letters_in,
    move_step,
    remove_step,
    turned_further,
)
from piecewright.making.facts import Facts
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, facts
from piecewright.making.table import Outcome
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.value import Letters
from piecewright_qt.document import Document
from piecewright_qt.sewing_table.draft_step import Drafted, DraftStep

Plain = Mapping[str, Any]
NOTHING: Mapping[str, str] = MappingProxyType({})
_LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


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
        self._lent: Mapping[str, str] = NOTHING
        document.changed.connect(self._follow)
        for record in [record for record in document.drafts.values() if record.text]:
            self._take_up(record)

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
        lent = {letter: (fabric,) for letter, fabric in self._lent.items()}
        return {
            letter: [shelf.fabrics[key] for key in ids if key in shelf.fabrics]
            for letter, ids in {**lent, **block.fabrics}.items()
        }

    @property
    def lying(self) -> dict[str, Pile]:
        """What is made by the step in view and not used yet, by name, latest last."""
        return {} if self.making is None else lying_after(self.making, self.step)

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

    def change(
        self, plain: Plain, gesture: object | None = None, fabrics: Mapping[str, str] = NOTHING
    ) -> bool:
        """Put the recipe as it is now in the place of the one before, as one undo step. False when it was refused.

        Changes that share a `gesture` become one step; `fabrics` are those of letters that are new in the recipe.
        """
        block, before = self.block, self.standing
        if before is None or block is None:
            return False
        after = self._unclaimed(Draft.of(plain))
        if after == before:
            return True
        fabrics = {**self._lent, **fabrics}
        if after.sound is not None and after.sound != self._recipe() and self._facts(after)[0] is not None:
            letters = Letters({letter: (fabric,) for letter, fabric in fabrics.items()})
            to = call("change-recipe", recipe=block.recipe, to=after.sound, fabrics=letters)
            done = self.document.perform(to, gesture)
            if not done:
                self._read()
            return done
        self.document.drop_preview()
        drafted = Drafted(block.recipe, after, fabrics)
        self.document.undo_stack.push(DraftStep(self, drafted, self.tr("Change a step"), gesture))
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

    def trial(self, changed: Changed) -> Outcome | PiecewrightError | None:
        """What a change would do at its step, or why it can not be done; nothing is changed or shown."""
        steps = changed.plain["steps"][: changed.at + 1]
        draft = Draft.of({**changed.plain, "steps": steps})
        try:
            making = draft.making(self.given)
        except PiecewrightError as error:
            return error.with_traceback(None)
        if making is not None and len(making.outcomes) > changed.at:
            return making.outcomes[changed.at]
        return draft.fault if draft.fault_step is not None or making is None else making.fault

    def do(self, changed: Changed, gesture: object | None = None) -> None:
        """Do a change by hand, and look at its step."""
        self._change_at(changed.at, changed.plain, gesture)

    def insert(self, verb: str, pieces: Sequence[str] = ()) -> None:
        """A step of a verb after the one in view, likely to work on pieces that lie there: these, else the latest."""
        if self.draft is not None:
            at = min(self.step, len(self.draft.steps) - 1)
            chosen = [*(name for name in self.lying if name not in pieces), *pieces]
            self.do(by_hand.done_to(self.draft.plain, at, verb, chosen, self.before(at + 1)))

    def lay(self, fabric: str) -> None:
        """Lay a strip of a fabric of the shelf after the step in view, by a letter that stands for it."""
        if self.draft is None or fabric not in self.document.design.shelf.fabrics:
            return
        letter = self._letter_of(fabric)
        changed = by_hand.laid(self.draft.plain, min(self.step, len(self.draft.steps) - 1), letter)
        self._change_at(changed.at, changed.plain, None, {letter: fabric})

    def use(self, block_id: str) -> None:
        """Make another block of the shelf as a piece after the step in view, in the fabrics it has there."""
        shelf = self.document.design.shelf
        block = shelf.blocks.get(block_id)
        if self.draft is None or block is None or block_id == self.block_id:
            return
        recipe = shelf.recipes[block.recipe]
        lent: dict[str, str] = {}
        letters: dict[str, str] = {}
        for letter in recipe.letters:
            shown = block.fabrics.get(letter, ())
            letters[letter] = self._letter_of(shown[0], lent) if shown else letter
            if shown:
                lent[letters[letter]] = shown[0]
        at = min(self.step, len(self.draft.steps) - 1)
        changed = by_hand.used(self.draft.plain, at, recipe.plain, block.sizes, letters)
        self._change_at(changed.at, changed.plain, None, lent)

    def before(self, step: int) -> Making | None:
        """The making of the steps before one."""
        if self.draft is None:
            return None
        plain = self.draft.plain
        return Draft.of({**plain, "steps": plain["steps"][:step]}).making(self.given)

    def turn_part(self, piece: str, by: int = 90) -> None:
        """Turn a piece that the step in view makes; turned again by the step that turns it already."""
        if self.draft is None or self.making is None or self.step >= len(self.making.outcomes):
            return
        plain = self.draft.plain
        turning = next((n for n, step in enumerate(plain["steps"]) if step.get("turn") == piece), None)
        if turning is None:
            self.do(by_hand.turned_by(plain, self.step, piece, by, self.before(self.step + 1)))
        else:
            self._change_at(turning, turned_further(plain, turning, by))

    def _letter_of(self, fabric: str, lent: Mapping[str, str] = NOTHING) -> str:
        """The letter of a recipe that shows a fabric in every layer, else one that is free; `lent` are given away."""
        for letter, fabrics in self.fabrics.items():
            if letter not in lent and fabrics and all(one.id == fabric for one in fabrics):
                return letter
        for letter, given in lent.items():
            if given == fabric:
                return letter
        used = {*letters_in(self._steps), *lent}
        return next((letter for letter in _LETTERS if letter not in used), "A")

    @property
    def _steps(self) -> list[dict[str, Any]]:
        return [] if self.draft is None else self.draft.steps

    def remove(self) -> None:
        """Take the step in view out."""
        if self.draft is not None and len(self.draft.steps) > 1:
            self._change_at(max(0, self.step - 1), remove_step(self.draft.plain, self.step))

    def move(self, by: int) -> None:
        """Let the step in view come earlier or later."""
        self.move_to(self.step, self.step + by)

    def move_to(self, step: int, to: int) -> None:
        """Give a step another place."""
        count = len(self._steps)
        if self.draft is not None and 0 <= step < count and 0 <= to < count and step != to:
            self._change_at(to, move_step(self.draft.plain, step, to))

    def _change_at(
        self, step: int, plain: Plain, gesture: object | None = None, fabrics: Mapping[str, str] = NOTHING
    ) -> None:
        """Change the recipe and look at a step of what comes of it."""
        before, self.step = self.step, step
        if not self.change(plain, gesture, fabrics):
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
            self._note_drafts(stack.index() - 1)
            self._read(stack.index() - 1)
            return
        self._done[stack.index()] = (before, after)
        self._note_drafts(stack.index() + 1)
        if block is not None and not _same_recipe(block.recipe, before, after):
            self._read(0)
        else:
            self._read()

    def follow_draft(self, drafted: Drafted, *, done: bool) -> None:
        """Note a draft laid on the undo stack, or taken back; and show what stands where its recipe is in hand."""
        index, block = self.document.undo_stack.index(), self.block
        if done:
            self._done[index] = drafted
        self._note_drafts(index + 1 if done else index - 1, drafted.recipe)
        if block is not None and block.recipe == drafted.recipe:
            self._read(index + 1 if done else index - 1)

    def note_merged(self, drafted: Drafted) -> None:
        """The draft last laid on the undo stack went into the one before it."""
        self._done[self.document.undo_stack.index() - 1] = drafted

    def _take_up(self, record: DraftRecord) -> None:
        """Lay a draft that a crash left on the undo stack, above the recipe as the design has it."""
        try:
            plain = msgspec.json.decode(record.text, type=dict[str, Any])
            draft = Draft.of(plain)
        except (msgspec.MsgspecError, LookupError, TypeError, AttributeError):
            return
        drafted = Drafted(record.recipe, draft, record.fabrics)
        self.document.undo_stack.push(DraftStep(self, drafted, self.tr("Change a step")))

    def _note_drafts(self, count: int, *recipes: str) -> None:
        """Tell the document which drafts stand, among so many steps of the undo stack."""
        for recipe in {*recipes, *self.document.drafts}:
            drafted = self._drafted(recipe, count)
            self.document.note_draft(DraftRecord(recipe) if drafted is None else drafted.record)

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
        drafted = self._drafted(block.recipe, count)
        self._lent = NOTHING if drafted is None else drafted.fabrics
        return Draft.of(recipe.plain) if drafted is None else drafted.draft

    def _drafted(self, recipe: str, count: int) -> Drafted | None:
        """The newest draft of a recipe, among so many steps, that no edit of the recipe has come after."""
        for number in reversed(range(count)):
            done = self._done.get(number)
            if isinstance(done, Drafted) and done.recipe == recipe:
                return done
            if isinstance(done, tuple) and not _same_recipe(recipe, *done):
                return None
        return None

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

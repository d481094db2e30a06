"""Drafts that can not be made: one gesture is one step, and the journal holds what stands."""

import json

from piecewright.edit.registry import call
from piecewright.files.journal import DraftRecord
from piecewright.making.draft import Draft
from piecewright_qt.document import Document
from piecewright_qt.sewing_table.bench import Bench
from tests.desktop.sewing_table.conftest import SetUp
from tests.desktop.sewing_table.test_by_hand import plain_cut


class Notes:
    """Takes down what a journal would."""

    def __init__(self) -> None:
        self.drafts: list[DraftRecord] = []

    def append(self, *_what: object) -> int:
        return 0

    def return_to(self, *_what: object) -> None: ...

    def add_picture(self, *_what: object) -> None: ...

    def note_draft(self, draft: DraftRecord) -> None:
        self.drafts.append(draft)


def test_the_journal_hears_which_draft_stands_through_undo_and_redo(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.document.recorder = notes = Notes()
    work.show(3)
    for text in ("30", "31", "7"):
        work.type_in("Every (cut)", text)
    work.document.undo()
    work.document.undo()
    work.document.undo()
    work.document.redo()
    texts = [Draft.of(json.loads(note.text)).steps[3]["every"] if note.text else "" for note in notes.drafts]
    assert texts == ["30", "31", "", "31", "30", "", "30"]


def test_a_draft_left_by_a_crash_lies_on_the_table_and_undo_leads_to_what_can_be_made(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "30")
    (record,) = work.document.drafts.values()
    again = Document(work.document.design, drafts=[record])
    bench = Bench(again)
    bench.open(again.design.blocks[0].id)
    assert bench.draft is not None
    assert bench.draft.steps[3]["every"] == "30"
    assert bench.fault_step == 3
    again.undo()
    assert bench.draft.steps[3]["every"] == "6 1/2"
    assert again.drafts[record.recipe].text == ""
    again.undo_stack.clear()


def test_drafts_of_one_gesture_are_one_step(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    bench, gesture = work.bench, object()
    assert bench.draft is not None
    for every in ("30", "31", "32"):
        plain = bench.draft.plain
        plain["steps"][3]["every"] = every
        bench.change(plain, gesture)
    assert work.document.undo_stack.count() == 1
    assert work.steps[3]["every"] == "32"
    work.document.perform(call("set-name", name="Another"))
    assert work.steps[3]["every"] == "32"
    work.document.undo()
    work.document.undo()
    assert work.steps[3]["every"] == "6 1/2"
    work.document.redo()
    assert work.steps[3]["every"] == "32"


def test_changes_of_one_gesture_are_one_step(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    bench, gesture = work.bench, object()
    assert bench.draft is not None
    for every in ("7", "7 1/8", "7 1/4"):
        plain = bench.draft.plain
        plain["steps"][3]["every"] = every
        bench.change(plain, gesture)
    assert work.document.undo_stack.count() == 1
    work.document.undo()
    assert work.in_design == plain_cut()
    work.document.redo()
    assert work.steps[3]["every"] == "7 1/4"


def test_a_fabric_laid_while_the_draft_can_not_be_made_comes_along(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "30")
    fabric = work.document.design.fabrics[4]
    work.show(1)
    work.bench.lay(fabric.id)
    assert work.bench.fabrics["C"] == [fabric]
    assert work.steps[2]["lay"]["fabric"] == "C"
    work.show(4)
    work.type_in("Every (cut)", "6 1/2")
    assert work.bench.block is not None
    assert work.bench.block.fabrics["C"] == (fabric.id,)

"""A block changed by hand: handles, fields, steps in and out, and the way back through all of it."""

from fractions import Fraction
from typing import Any

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget

from piecewright.edit.registry import call
from piecewright.making.draft import Draft
from piecewright.making.given import Given
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.making.verbs import VERBS
from piecewright.model.value import Letters
from tests.desktop.sewing_table.conftest import ALT, Key, SetUp

PLAIN_CUT: dict[str, Any] = {
    "recipe": 1,
    "name": "Plain numbers",
    "steps": [
        {"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "27"}},
        {"make": "b", "lay": {"fabric": "B", "width": "2 1/2", "length": "27"}},
        {"make": "set", "sew": ["a", "b"], "axis": "down"},
        {"make": "part", "cut": "set", "axis": "across", "every": "6 1/2", "count": 3},
        {"make": "mid", "turn": "part.2", "by": 180},
        {"make": "block", "sew": ["part.1", "mid", "part.3"], "axis": "down"},
    ],
    "block": ["block"],
    "finished": ["6", "12"],
}


def plain_cut() -> Recipe:
    draft = Draft.of(PLAIN_CUT)
    assert draft.sound is not None, draft.fault
    return draft.sound


@pytest.mark.parametrize("name", sorted(shipped_recipes()))
def test_every_step_of_every_block_is_shown_and_listed(set_up: SetUp, name: str) -> None:
    work = set_up(name)
    assert work.table.title.text() == "In hand"
    for step in range(len(work.steps)):
        work.show(step)
        assert work.table.canvas.sheet is not None
        assert work.table.canvas.accessibleDescription() in work.table.model.index(step, 0).data()
    assert work.bench.facts == facts(work.in_design, work.bench.given)


def test_a_cut_dragged_snaps_to_the_eighth_and_all_that_follows_follows(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.drag(work.grip("every"), 1.06)
    assert work.steps[3]["every"] == "7 1/2"
    assert work.document.undo_stack.count() == 1
    made = facts(work.in_design, Given())
    # Six strips of 2 in finished, 7 1/2 in cut: 7 x 12 finished (common practice, no source).
    assert (made.finished.width, made.finished.height) == (7, 12)
    work.document.undo()
    assert work.in_design == plain_cut()
    assert work.steps[3]["every"] == "6 1/2"


def test_alt_lets_go_of_the_snap(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.drag(work.grip("every"), 0.4, ALT)
    value = Fraction(6.5) + Fraction(work.steps[3]["every"].replace("6 ", "")) - Fraction(1, 2)
    assert value.denominator in (32, 64)
    assert abs(value - Fraction("6.9")) < Fraction(1, 20)


def test_a_worked_out_cut_is_dragged_by_the_size_it_hangs_on(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    work.show(work.index_of("cut"))
    recipe = work.in_design
    work.drag(work.grip("every"), 1.5)
    assert work.in_design == recipe
    assert work.bench.block is not None
    assert work.bench.block.sizes["F"] == Fraction("13.5")
    assert work.bench.facts is not None
    assert work.bench.facts.finished.width == Fraction("13.5")
    assert work.document.undo_stack.count() == 1


def test_the_line_follows_the_hand_while_it_is_dragged(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    grip = work.grip("every")
    end = work.pull(grip, 1.0)
    assert abs(work.grip("every").middle.x() - end.x()) < 2
    assert work.grip("every").pixels == grip.pixels
    assert work.in_design == plain_cut()
    assert work.document.shown != work.document.design


def test_escape_drops_what_is_tried_out(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    end = work.pull(work.grip("every"), 1.0)
    assert work.steps[3]["every"] == "7 1/2"
    work.key(Key.Key_Escape, on=work.table.canvas)
    assert work.steps[3]["every"] == "6 1/2"
    assert work.document.shown == work.document.design
    QTest.mouseRelease(work.table.canvas, Qt.MouseButton.LeftButton, pos=end)
    assert work.document.undo_stack.count() == 0


def test_both_ends_of_a_slant_are_dragged(set_up: SetUp) -> None:
    work = set_up("slanted-exchange")
    at = work.index_of("slice")
    work.show(at)
    old = [str(work.steps[at][key]) for key in ("from", "to")]
    work.drag(work.grip("from", 1), 0.5)
    work.show(at)
    work.drag(work.grip("to", 1), -0.5)
    new = [str(work.steps[at][key]) for key in ("from", "to")]
    assert all(one != other for one, other in zip(old, new, strict=True))
    assert work.document.undo_stack.count() == 2
    work.document.undo()
    work.document.undo()
    assert [str(work.steps[at][key]) for key in ("from", "to")] == old


def test_arrow_keys_move_the_chosen_handle_by_an_eighth(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(0)
    canvas = work.table.canvas
    canvas.setFocus()
    work.key(Key.Key_Right, on=canvas)
    assert work.steps[0]["lay"]["length"] == "27 1/8"
    work.key(Key.Key_Space, on=canvas)
    work.key(Key.Key_Up, on=canvas)
    assert work.steps[0]["lay"]["width"] == "2 3/8"


def test_a_claimed_size_that_no_longer_holds_is_let_go_with_the_change_that_broke_it(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "8")
    assert "finished" not in work.in_design.plain
    work.document.undo()
    assert work.in_design.plain["finished"] == ["6", "12"]


def test_a_field_is_typed_and_is_one_undo_step(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "7 1/4")
    assert work.steps[3]["every"] == "7 1/4"
    assert work.document.undo_stack.count() == 1
    assert "7 1/4" in work.table.model.index(3, 0).data()


def test_nonsense_typed_is_said_in_place_and_undone_in_one_step(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "seven")
    assert work.in_design == plain_cut()
    assert work.bench.fault_step == 3
    assert "seven" in work.table.model.fault(3)
    assert "seven" in work.table.form.fault_beside("every")
    assert work.table.model.is_done(2)
    assert work.table.canvas.sheet is None
    work.type_in("Every (cut)", "7")
    assert work.bench.fault is None
    assert work.in_design.plain["steps"][3]["every"] == "7"
    work.document.undo()
    assert work.steps[3]["every"] == "seven"
    work.document.undo()
    assert work.steps[3]["every"] == "6 1/2"
    work.document.redo()
    assert work.steps[3]["every"] == "seven"
    work.document.redo()
    assert work.steps[3]["every"] == "7"


def test_cloth_that_does_not_suffice_stops_at_its_step_and_the_design_keeps_what_can_be_made(
    set_up: SetUp,
) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "30")
    assert work.bench.fault_step == 3
    assert work.bench.facts is None
    assert work.in_design == plain_cut()
    assert "30" in work.table.model.fault(3)
    assert [work.table.model.is_done(step) for step in (0, 2, 3)] == [True, True, False]


def test_an_edit_elsewhere_leaves_a_broken_draft_on_the_table(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    work.type_in("Every (cut)", "30")
    work.document.perform(call("set-name", name="Another"))
    assert work.steps[3]["every"] == "30"
    work.document.undo()
    assert work.steps[3]["every"] == "30"


@pytest.mark.parametrize("verb", sorted(VERBS))
def test_every_verb_goes_in_as_one_step_that_leaves_a_block_or_a_named_broken_step(
    set_up: SetUp, verb: str
) -> None:
    work = set_up(plain_cut())
    count = len(work.steps)
    work.show(2)
    work.add(verb)
    assert len(work.steps) == count + 1
    assert work.bench.step == 3
    assert verb in work.steps[3]
    assert work.document.undo_stack.count() == 1
    assert (work.bench.facts is not None) != (work.bench.fault is not None)
    work.document.undo()
    assert work.in_design == plain_cut()
    assert len(work.steps) == count


@pytest.mark.parametrize("verb", ["lay", "slice", "cut", "turn", "square", "press"])
def test_the_default_of_a_verb_works_where_it_is_put(set_up: SetUp, verb: str) -> None:
    work = set_up("rail-fence-of-three")
    work.show(work.index_of("sew"))
    work.add(verb)
    at = work.bench.step
    assert work.table.model.is_done(at), work.table.model.fault(at)


def test_a_step_put_between_hands_its_piece_on(set_up: SetUp) -> None:
    work = set_up("rail-fence-of-three")
    work.show(work.index_of("sew"))
    work.add("turn")
    work.type_in("By (degrees)", "180")
    assert work.bench.fault is None
    assert work.bench.facts is not None
    assert work.bench.facts.finished.width == work.bench.facts.finished.height


def test_steps_are_moved_and_taken_out_by_keys(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(1)
    work.key(Key.Key_Up, ALT)
    assert [step.get("make") for step in work.steps[:2]] == ["b", "a"]
    assert work.bench.step == 0
    assert work.bench.fault is None
    work.key(Key.Key_Down, ALT)
    assert work.steps == PLAIN_CUT["steps"]
    work.key(Key.Key_Delete)
    assert len(work.steps) == len(PLAIN_CUT["steps"]) - 1
    assert work.bench.fault_step == 1
    assert work.table.model.is_done(0)
    assert not work.table.model.is_done(1)
    for _ in range(3):
        work.document.undo()
    assert work.in_design == plain_cut()
    assert work.steps == PLAIN_CUT["steps"]


def test_undo_and_redo_lead_over_sound_and_broken_drafts_the_same_way(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    seen = [work.steps]
    for step, text in ((3, "30"), (3, "7"), (3, "x"), (3, "y"), (3, "6")):
        work.show(step)
        work.type_in("Every (cut)", text)
        seen.append(work.steps)
    assert work.document.undo_stack.count() == 5
    for steps in reversed(seen[:-1]):
        work.document.undo()
        assert work.steps == steps
    assert work.in_design == plain_cut()
    for steps in seen[1:]:
        work.document.redo()
        assert work.steps == steps


def test_a_draft_left_behind_by_edits_does_not_come_back_when_the_recipe_does(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    for text in ("30", "7", "6 1/2"):
        work.type_in("Every (cut)", text)
        assert work.steps[3]["every"] == text
    work.document.perform(call("set-name", name="Another"))
    assert work.steps[3]["every"] == "6 1/2"
    work.document.undo()
    assert work.steps[3]["every"] == "6 1/2"


def test_a_recipe_of_two_blocks_changes_for_both_and_its_draft_is_shared(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    design = work.document.design
    first = design.blocks[0]
    ids = tuple(fabric.id for fabric in design.fabrics)
    letters = Letters({"A": (ids[3],), "B": (ids[4],)})
    work.document.perform(call("add-block", name="Twin", recipe=first.recipe, fabrics=letters))
    twin = work.document.design.blocks[1]
    work.show(3)
    work.type_in("Every (cut)", "7")
    work.type_in("Every (cut)", "x")
    work.table.open_block(twin.id)
    assert work.table.title.text() == "Twin"
    assert work.steps[3]["every"] == "x"
    work.document.undo()
    assert work.steps[3]["every"] == "7"
    assert work.table.title.text() == "Twin"


def test_a_block_removed_while_open_is_said_and_comes_back_with_undo(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    block = work.document.design.blocks[0].id
    work.document.perform(call("remove-block", block=block))
    QApplication.processEvents()
    assert work.table.model.rowCount() == 0
    assert work.table.title.text() == ""
    assert not work.table.grab().isNull()
    work.document.undo()
    assert work.table.model.rowCount() == len(PLAIN_CUT["steps"])
    assert work.table.title.text() == "In hand"


def test_a_change_that_placed_blocks_do_not_allow_is_refused_in_words_and_nothing_moves(
    set_up: SetUp,
) -> None:
    work = set_up(plain_cut())
    work.document.perform(
        call("place-block", block=work.document.design.blocks[0].id, cell={"column": 0, "row": 0})
    )
    count = work.document.undo_stack.count()
    work.show(3)
    work.type_in("Every (cut)", "7 1/4")
    assert work.refusals
    assert work.document.undo_stack.count() == count
    assert work.steps[3]["every"] == "6 1/2"
    assert work.line("Every (cut)").text() == "6 1/2"


def test_a_part_that_is_clicked_turns_and_what_follows_uses_it_turned(set_up: SetUp) -> None:
    work = set_up(plain_cut())
    work.show(3)
    canvas = work.table.canvas
    assert canvas.sheet is not None
    last = next(part for part in canvas.sheet.parts if part.name == "part.3")
    at = canvas.middle_of(last).toPoint()
    QTest.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=at)
    assert work.steps[4] == {"make": "turned", "turn": "part.3", "by": 90}
    assert work.steps[-1]["sew"] == ["part.1", "mid", "turned"]
    assert work.bench.fault_step == len(work.steps) - 1
    QTest.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=canvas.rect().center())
    assert work.steps[4]["by"] == 180
    assert work.bench.fault is None
    assert work.in_design.plain["steps"] == work.steps
    for _ in range(2):
        QTest.mouseClick(canvas, Qt.MouseButton.LeftButton, pos=canvas.rect().center())
    assert work.steps == PLAIN_CUT["steps"]


def test_everything_to_press_or_type_in_has_a_name(set_up: SetUp) -> None:
    work = set_up("slanted-exchange")
    for step in range(len(work.steps)):
        work.show(step)
        for one in work.table.findChildren(QWidget):
            if one.focusPolicy() & Qt.FocusPolicy.TabFocus and one.isVisibleTo(work.table):
                if one.objectName().startswith("qt_"):
                    continue
                assert one.accessibleName() or getattr(one, "text", str)(), (step, one)

"""The numbers at the table's edge: folded until asked, true to the engine, and each change one undo step."""

from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QFileDialog, QLabel

from piecewright.edit.registry import Cell, call
from piecewright.making.given import Given
from piecewright.making.matters import folds, matters
from piecewright.making.nudging import Named, places
from piecewright.making.pressing_plan import plan_of
from piecewright.making.recipe import Recipe
from piecewright.making.run import facts
from piecewright.making.shipped import shipped_recipes
from piecewright.making.verbs.verb import Place
from piecewright.model.block import Block
from piecewright.model.value import Sizes
from piecewright.plan.sizes_table import sizes_table
from piecewright.plan.sizes_text import sizes_csv, sizes_text
from piecewright_qt.sewing_table.numbers.section import Section
from piecewright_qt.sewing_table.numbers.wrap_button import WrapButton
from tests.desktop.sewing_table.conftest import NONE, Key, SetUp, Work

LEFT = Qt.MouseButton.LeftButton


def unfold(work: Work, section: Section) -> None:
    QTest.mouseClick(section.head, LEFT)
    QApplication.processEvents()
    assert section.is_open
    assert not work.table.numbers.is_behind


def size_of(work: Work) -> tuple[object, object]:
    assert work.bench.facts is not None
    return work.bench.facts.finished.width, work.bench.facts.finished.height


def slanted_pair() -> Recipe:
    return shipped_recipes()["slanted-exchange"]


def clashing() -> Recipe:
    """Two rows of two, both pressed one way, sewn so that their seams meet on one side."""
    steps: list[dict[str, object]] = [
        {"lay": {"fabric": letter, "width": "2 1/2", "length": "10"}, "make": letter.lower()}
        for letter in "AB"
    ]
    steps += [
        {"sew": ["a", "b"], "axis": "down", "make": "set"},
        {"press": {"seam": "set", "toward": "down"}},
        {"cut": "set", "axis": "across", "every": "2 1/2", "count": 2, "make": "row"},
        {"sew": ["row.1", "row.2"], "axis": "across", "make": "block"},
    ]
    return Recipe.from_plain({"recipe": 1, "name": "Clash", "steps": steps, "block": ["block"]})


def test_all_sections_are_folded_and_hold_nothing_until_they_are_asked(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    for section in work.table.numbers.sections:
        assert not section.is_open
        assert section.body.isHidden()
        assert section.inside.findChildren(WrapButton) == []
        assert section.head.accessibleDescription() == "folded"


def test_a_section_unfolds_by_key(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    section = work.table.numbers.bias
    section.head.setFocus()
    QTest.keyClick(section.head, Key.Key_Space)
    assert section.is_open
    assert section.head.accessibleDescription() == "unfolded"
    assert section.edges.texts == ["✓ All edges run with the thread."]


def test_rows_of_the_sizes_table_are_what_each_making_gives(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    unfold(work, work.table.numbers.sizes)
    sizes = work.table.numbers.sizes
    expected = sizes_table(work.in_design, Given(), Fraction(5, 2))
    assert sizes.table == expected
    shown = [card for card in sizes.cards if card.isVisibleTo(sizes)]
    assert len(shown) == len(expected.rows) > 1
    for card, row in zip(shown, expected.rows, strict=True):
        made = facts(row.recipe, row.given).finished
        assert card.lines[0].startswith(f"{made.width} x {made.height} in finished")
    standing = [card for card in shown if card.isChecked()]
    assert [card.lines[0] for card in standing] == [
        "12 x 12 in finished, as the strips give it · this one"
    ] or [card.lines[0] for card in standing] == ["12 x 12 in finished · this one"]


def test_pressing_a_row_makes_the_block_that_size_in_one_undo_step(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    unfold(work, work.table.numbers.sizes)
    card = next(card for card in work.table.numbers.sizes.cards if card.lines[0].startswith("9 x 9"))
    QTest.mouseClick(card, LEFT)
    QApplication.processEvents()
    assert size_of(work) == (9, 9)
    assert card.isChecked()
    assert work.document.undo_stack.count() == 1
    work.document.undo()
    QApplication.processEvents()
    assert size_of(work) == (12, 12)
    assert not card.isChecked()
    card.setFocus()
    QTest.keyClick(card, Key.Key_Space)
    assert size_of(work) == (9, 9)


def test_the_table_is_copied_and_saved_as_the_engine_writes_it(
    set_up: SetUp, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    work = set_up("middle-end-for-end")
    sizes = work.table.numbers.sizes
    unfold(work, sizes)
    line = sizes.width_field.box.lineEdit()
    assert line is not None
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "2")
    QApplication.processEvents()
    expected = sizes_table(work.in_design, Given(), Fraction(2))
    QTest.mouseClick(sizes.copy, LEFT)
    assert QGuiApplication.clipboard().text() == sizes_text(expected)
    assert sizes.said_done.texts == ["The table is on the clipboard."]

    def choose(dialog: QFileDialog) -> int:
        dialog.selectFile(str(tmp_path / "sizes.csv"))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", choose)
    QTest.mouseClick(sizes.save, LEFT)
    assert (tmp_path / "sizes.csv").read_bytes().decode("utf-8-sig") == sizes_csv(expected)
    assert sizes.said_done.texts == ["Saved: sizes.csv"]


def test_every_length_has_its_mark_as_a_sign_and_a_word(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    section = work.table.numbers.matters
    unfold(work, section)
    texts = [row.label.text() for row in section._rows]
    found = matters(work.in_design, Given())
    signs = {"exact": "=", "at least": "≥", "at most": "≤", "as you like": "~"}
    assert texts[0] == "Size F: 12 in"
    assert len(texts) == 1 + len(found)
    for text, matter in zip(texts[1:], found, strict=True):
        assert isinstance(matter.length.place, Place)
        assert text == f"{matter.length.place.step + 1}. {signs[matter.mark]}  {matter.sentence}"
    without_ruler = folds(work.in_design, Given())
    assert section.folds.texts == [str(fold.sentence) for fold in without_ruler]


def test_marks_stand_beside_the_fields_of_the_step_while_they_are_asked_for(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")

    def names() -> list[str]:
        labels = work.table.form.findChildren(QLabel)
        return [label.text() for label in labels if "(cut)" in label.text() and label.isVisibleTo(work.table)]

    assert names() == ["Width (cut)", "Length (cut)"]
    unfold(work, work.table.numbers.matters)
    assert names() == ["Width (cut) · = exact", "Length (cut) · ≥ at least"]
    work.show(work.index_of("cut"))
    assert names() == ["Every (cut) · = exact"]
    QTest.mouseClick(work.table.numbers.matters.head, LEFT)
    assert names() == ["Every (cut)"]


def test_parts_squared_up_later_need_no_ruler(set_up: SetUp) -> None:
    strips = [
        {"lay": {"fabric": letter, "width": "2 1/2", "length": "19 1/2"}, "make": letter.lower()}
        for letter in "AB"
    ]
    sewing = [
        {"sew": ["a", "b"], "axis": "down", "make": "set"},
        {"cut": "set", "axis": "across", "into": 3, "make": "third"},
        {"square": "third.*", "width": "6", "height": "4", "make": "trued"},
        {"sew": ["trued.1", "trued.2", "trued.3"], "axis": "down", "make": "block"},
    ]
    plain = {"recipe": 1, "name": "Thirds", "steps": [*strips, *sewing], "block": ["block"]}
    work = set_up(Recipe.from_plain(plain))
    section = work.table.numbers.matters
    unfold(work, section)
    assert section.folds.texts == ["No ruler needed: fold set in 3 equal parts and cut on the folds."]


def test_only_the_lengths_ticked_move_for_a_size_asked_for(set_up: SetUp) -> None:
    work = set_up(clashing())
    section = work.table.numbers.matters
    unfold(work, section)
    for row in section._rows:
        if "the width of the strip" in row.label.text():
            QTest.mouseClick(row.box, LEFT, NONE, row.box.rect().center())
    assert len(work.table.free.spots) == 2
    assert work.table.foot.wish.held.text().endswith(": 2")
    line = work.table.foot.wish.line
    line.setFocus()
    QTest.keyClicks(line, "4 x 6")
    QTest.keyClick(line, Key.Key_Return)
    assert size_of(work) == (4, 6), work.table.foot.wish.said.text()
    assert [step["lay"]["width"] for step in work.steps[:2]] == ["3 1/2", "3 1/2"]
    assert work.steps[4]["every"] == "2 1/2"
    assert work.document.undo_stack.count() == 1


def test_sizes_near_are_offered_where_a_size_has_no_answer(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    wish = work.table.foot.wish
    wish.line.setFocus()
    QTest.keyClicks(wish.line, "9 x 12")
    QTest.keyClick(wish.line, Key.Key_Return)
    offered = [button for button in wish.near if button.isVisibleTo(wish)]
    assert offered, wish.said.text()
    words = offered[0].text()
    QTest.mouseClick(offered[0], LEFT)
    width, height = size_of(work)
    assert words == f"{width} x {height} in"
    assert not any(button.isVisibleTo(wish) for button in wish.near)


@pytest.mark.parametrize(
    ("wish", "typed", "longest"), [("use-up", "30", Fraction(30)), ("fill", "3 x 36", Fraction(36))]
)
def test_strips_are_used_up_or_filled(set_up: SetUp, wish: str, typed: str, longest: Fraction) -> None:
    work = set_up("rail-fence-of-three")
    field = work.table.foot.wish
    field.wishes.setCurrentIndex(field.wishes.findData(wish))
    field.line.setFocus()
    QTest.keyClicks(field.line, typed)
    QTest.keyClick(field.line, Key.Key_Return)
    assert work.bench.facts is not None
    lengths = [strip.length for strip in work.bench.facts.strips]
    assert max(lengths) <= longest, field.said.text()
    assert work.document.undo_stack.count() == 1, field.said.text()


def test_my_seam_is_kept_in_the_design_and_told_step_by_step(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    section = work.table.numbers.my_seam
    unfold(work, section)
    assert section.messages.texts == ["Your seam is true: sizes are as the recipe says."]
    line = section.field.box.lineEdit()
    assert line is not None
    line.setFocus()
    line.selectAll()
    QTest.keyClicks(line, "6 3/8")
    QApplication.processEvents()
    assert work.document.design.settings.lost_per_seam == Fraction(1, 16)
    assert any("sew a scant seam" in text for text in section.messages.texts)
    assert any("with your seam" in text and "unfinished" in text for text in section.steps.texts)
    assert work.document.undo_stack.count() == 1
    work.document.undo()
    QApplication.processEvents()
    assert section.steps.texts == []


def test_a_clash_is_counted_and_pressed_open_in_one_undo_step(set_up: SetUp) -> None:
    work = set_up(clashing())
    section = work.table.numbers.pressing
    unfold(work, section)
    assert len(plan_of(work.in_design, Given()).clashes) == 1
    assert section.plan_lines.texts[0].startswith("⚠ 1 of 1 crossing can not nest")
    (way_out,) = section.ways_out.buttons
    QTest.mouseClick(way_out, LEFT)
    QApplication.processEvents()
    assert work.document.undo_stack.count() == 1
    assert not plan_of(work.in_design, Given()).clashes
    assert {"press": {"seam": "set", "toward": "open"}} in work.steps
    work.document.undo()
    assert work.in_design == clashing()


def test_the_plan_is_written_into_the_steps_once(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    section = work.table.numbers.pressing
    unfold(work, section)
    plan = plan_of(work.in_design, Given())
    QTest.mouseClick(section.write, LEFT)
    QApplication.processEvents()
    after = plan_of(work.in_design, Given())
    assert [seam.toward for seam in after.seams] == [seam.toward for seam in plan.seams]
    assert not section.write.isVisibleTo(section)
    assert work.document.undo_stack.count() == 1


def test_arrows_lie_over_the_finished_block_until_a_step_is_looked_at(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    unfold(work, work.table.numbers.pressing)
    unfold(work, work.table.numbers.stretch)
    pressing, stretch = work.table.numbers.pressing.switch.box, work.table.numbers.stretch.switch.box
    pressing.click()
    assert work.table.middle.currentWidget() is work.table.face
    assert work.table.face.overlay == "pressing"
    stretch.click()
    assert (pressing.isChecked(), stretch.isChecked(), work.table.face.overlay) == (False, True, "stretch")
    work.show(2)
    assert work.table.middle.currentWidget() is not work.table.face
    assert work.table.canvas.isVisibleTo(work.table)
    assert not stretch.isChecked()


def test_the_thread_of_a_strip_is_an_edit_and_its_edges_follow_at_once(set_up: SetUp) -> None:
    work = set_up("rail-fence-of-two")
    section = work.table.numbers.bias
    unfold(work, section)
    field = section.grains[0]
    field.box.setFocus()
    QTest.keyClick(field.box, Key.Key_End)
    field.box.activated.emit(field.box.currentIndex())
    QApplication.processEvents()
    assert work.steps[0]["lay"]["grain"] == "bias"
    assert section.edges.texts[0].startswith("⚠ 3 outer edges of fabric A, 45° off the thread")
    assert work.document.undo_stack.count() == 1


def test_every_wait_and_lump_is_told(set_up: SetUp) -> None:
    work = set_up(slanted_pair())
    section = work.table.numbers.stretch
    unfold(work, section)
    assert any("lie open for 1 step" in text for text in section.edges.texts)
    assert any("layers lie on each other" in text for text in section.lumps.texts)
    section.switch.box.click()
    assert "open for 1 step" in work.table.face.accessibleDescription()


def test_an_unsound_draft_says_what_to_do_and_the_numbers_come_back(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    sections = work.table.numbers.sections
    for section in sections:
        unfold(work, section)
    work.show(work.index_of("sew"))
    work.key(Key.Key_Delete)
    QApplication.processEvents()
    assert work.bench.facts is None
    for section in sections:
        assert section.inside.isHidden()
        assert section.trouble.texts == [
            "Mend the step that does not work first; then the numbers are here again."
        ]
    work.document.undo()
    QApplication.processEvents()
    for section in sections:
        assert not section.inside.isHidden()
        assert section.trouble.texts == []


def test_a_size_that_the_wall_has_no_room_for_is_refused_where_it_was_asked(set_up: SetUp) -> None:
    work = set_up("rail-fence-of-three")
    block = work.document.design.blocks[0].id
    for cell in (Cell(0, 0), Cell(6, 0)):
        assert work.document.perform(call("place-block", block=block, cell=cell))
    count = work.document.undo_stack.count()
    unfold(work, work.table.numbers.sizes)
    card = next(card for card in work.table.numbers.sizes.cards if card.lines[0].startswith("9 x 9"))
    QTest.mouseClick(card, LEFT)
    QApplication.processEvents()
    assert size_of(work) == (6, 6)
    assert work.document.undo_stack.count() == count
    (said,) = work.table.numbers.sizes.said_done.texts
    assert said.startswith("⚠ ")
    wish = work.table.foot.wish
    wish.line.setFocus()
    QTest.keyClicks(wish.line, "9")
    QTest.keyClick(wish.line, Key.Key_Return)
    assert wish.said.text() == said.removeprefix("⚠ ")


def chosen_size(work: Work, size: Fraction) -> Block:
    block = work.bench.block
    assert block is not None
    return block.changed(sizes=Sizes(dict.fromkeys(work.in_design.sizes, size)))


def test_sizes_and_steps_that_move_together_are_one_undo_step(set_up: SetUp) -> None:
    work = set_up("rail-fence-of-three")
    work.document.perform(call("change-block", block=chosen_size(work, Fraction(6))))
    unfold(work, work.table.numbers.matters)
    free = work.table.free
    before, count = work.in_design, work.document.undo_stack.count()
    for length in places(work.in_design, Given()):
        free.let(length.place, move=True)
    wish = work.table.foot.wish
    QTest.keyClicks(wish.line, "7 x 9")
    QTest.keyClick(wish.line, Key.Key_Return)
    assert size_of(work) == (7, 9), wish.said.text()
    assert work.document.undo_stack.count() == count + 1
    work.document.undo()
    assert work.in_design == before
    assert size_of(work) == (6, 6)


def test_with_the_block_gone_the_numbers_say_so(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    for section in work.table.numbers.sections:
        unfold(work, section)
    assert work.document.perform(call("remove-block", block=work.document.design.blocks[0].id))
    QApplication.processEvents()
    for section in work.table.numbers.sections:
        assert section.trouble.texts == ["No block is in hand."]
    assert work.table.face.kind is None


def test_lengths_are_told_in_the_measure_of_the_user(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end", unit="cm")
    for section in (work.table.numbers.sizes, work.table.numbers.my_seam):
        unfold(work, section)
    assert work.table.numbers.sizes.width_field.box.currentText() == "6.35 cm"
    assert work.table.numbers.my_seam.field.box.currentText() == "16.51 cm"
    assert any(card.lines[0].startswith("30.48 x 30.48 cm") for card in work.table.numbers.sizes.cards)


def test_what_is_unfolded_comes_into_view(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end", size=(1180, 620))
    panel = work.table.numbers
    panel.verticalScrollBar().setValue(panel.verticalScrollBar().maximum())
    unfold(work, panel.sizes)
    QApplication.processEvents()
    top = panel.sizes.head.mapTo(panel.viewport(), panel.sizes.head.rect().topLeft()).y()
    assert 0 <= top < panel.viewport().height() - panel.sizes.head.height()


def test_what_may_move_is_forgotten_with_another_block_in_hand(set_up: SetUp) -> None:
    work = set_up("rail-fence-of-three")
    recipe = work.document.design.blocks[0].recipe
    assert work.document.perform(call("add-block", name="Other", recipe=recipe))
    section = work.table.numbers.matters
    unfold(work, section)
    QTest.mouseClick(section._rows[0].box, LEFT, NONE, section._rows[0].box.rect().center())
    assert work.table.free.spots
    work.table.open_block(work.document.design.blocks[1].id)
    QApplication.processEvents()
    assert work.table.free.spots == ()
    assert not any(row.box.isChecked() for row in section._rows)
    assert not work.table.foot.wish.held.isVisibleTo(work.table)


def test_seams_pressed_toward_the_darker_have_their_arrows(set_up: SetUp) -> None:
    plain = shipped_recipes()["rail-fence-of-two"].plain
    sewing = next(step["make"] for step in plain["steps"] if "sew" in step)
    at = next(number for number, step in enumerate(plain["steps"]) if "sew" in step) + 1
    plain["steps"].insert(at, {"press": {"seam": sewing, "toward": "darker"}})
    work = set_up(Recipe.from_plain(plain))
    unfold(work, work.table.numbers.pressing)
    work.table.numbers.pressing.switch.box.click()
    assert work.table.face._plan is not None
    (seam,) = work.table.face._plan.seams
    assert seam.toward in ("up", "down", "left", "right")


def test_what_may_move_is_forgotten_once_the_steps_are_others(set_up: SetUp) -> None:
    work = set_up("rail-fence-of-three")
    for length in places(work.in_design, Given()):
        work.table.free.let(length.place, move=True)
    sizes = [spot for spot in work.table.free.spots if isinstance(spot, Named) and spot.table == "sizes"]
    work.add("turn")
    kept = work.table.free.spots
    assert not any(isinstance(spot, Place) for spot in kept)
    assert set(sizes) <= set(kept)


def test_what_is_not_seen_is_not_worked_out_until_it_is(set_up: SetUp) -> None:
    work = set_up("middle-end-for-end")
    unfold(work, work.table.numbers.sizes)
    before = work.table.numbers.sizes.table
    work.table.hide()
    block = work.bench.block
    assert block is not None
    work.document.perform(call("change-block", block=block.changed(sizes=Sizes({"F": Fraction(9)}))))
    QApplication.processEvents()
    assert work.table.numbers.sizes.table is before
    work.table.show()
    QApplication.processEvents()
    standing = [card.lines[0] for card in work.table.numbers.sizes.cards if card.isChecked()]
    assert [line[:5] for line in standing] == ["9 x 9"]

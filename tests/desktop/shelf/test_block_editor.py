"""Adding and changing blocks: by mouse, by keys, with fabrics dropped in; what can not be is said in place."""

import json
from pathlib import Path

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QWidget

from piecewright.edit.registry import Cell, call
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright_qt.shelf.block_editor import BlockEditor
from piecewright_qt.shelf.recipe_column import RecipeColumn
from piecewright_qt.wall.mime import fabric_mime
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import block_named, fabric_named, small_design, with_placed
from tests.desktop.shelf.hands import Button, Key, click, press, retype


def adding(place: Place) -> BlockEditor:
    place.shelf.blocks.add.click()
    return opened(place)


def column(editor: BlockEditor) -> RecipeColumn:
    assert editor.column is not None
    return editor.column


def changing(place: Place, name: str) -> BlockEditor:
    page = place.shelf.blocks
    page.list.choose(page.model.index_of(block_named(place.document.design, name)))
    page.edit()
    return opened(place)


def opened(place: Place) -> BlockEditor:
    editor = place.shelf.blocks.editor
    assert editor is not None
    QApplication.processEvents()
    return editor


def choose_recipe(editor: BlockEditor, name: str) -> None:
    key = next(card.id for card in column(editor).model.recipes if card.recipe.name == name)
    column(editor).list.choose(column(editor).model.index_of(key))


def drop(widget: QWidget, mime: QMimeData) -> QDropEvent:
    event = QDropEvent(QPointF(3, 3), Qt.DropAction.CopyAction, mime, Button, Qt.KeyboardModifier.NoModifier)
    widget.dropEvent(event)
    return event


def test_add_works_at_once(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    click(editor.save)
    design = place.document.design
    added = design.blocks[-1]
    assert place.document.undo_stack.count() == 1
    assert added.fabrics.keys() == set(design.shelf.letters(added.id))
    assert place.shelf.blocks.chosen is not None
    assert place.shelf.blocks.chosen.id == added.id
    place.document.undo()
    assert place.document.design == small_design()


def test_add_by_keys_alone(set_up: SetUp) -> None:
    """Insert, arrows to a recipe, Tab on to name and size, Enter."""
    place = set_up(small_design())
    place.shelf.blocks.list.setFocus()
    press(place.shelf.blocks.list, Key.Key_Insert)
    editor = opened(place)
    assert column(editor).list.hasFocus()
    press(column(editor).list, Key.Key_Down)
    recipe = column(editor).model.recipes[1].recipe
    retype(editor.name.line, "Mine")
    line = editor.sizes["F"].box.lineEdit()
    assert line is not None
    retype(line, "7 1/2")
    press(line, Key.Key_Return)
    added = place.document.design.blocks[-1]
    assert added.name == "Mine"
    assert place.document.design.shelf.recipes[added.recipe] == recipe
    assert str(added.sizes["F"]) == "15/2"
    assert place.shelf.blocks.editor is None


@pytest.mark.parametrize(
    ("typed", "inches"), [("6 1/2", "6 1/2"), ("6½", "6 1/2"), ("16,5 cm", "6 63/127"), ("0.5 ft", "6")]
)
def test_sizes_are_typed_any_way(set_up: SetUp, typed: str, inches: str) -> None:
    place = set_up(small_design())
    editor = adding(place)
    choose_recipe(editor, "Rail fence of two")
    editor.sizes["F"].box.setEditText(typed)
    assert editor.sizes["F"].fault == ""
    assert editor.view._size.text() == f"{inches} x {inches} in finished"


@pytest.mark.parametrize("typed", ["six", "", "6 fathoms", "-3", "0", "6 1-2"])
def test_a_bad_size_is_told_beside_the_field_and_nothing_is_added(set_up: SetUp, typed: str) -> None:
    place = set_up(small_design())
    editor = adding(place)
    field = editor.sizes["F"]
    field.box.setEditText(typed)
    assert field._fault.isVisible()
    assert field.fault.endswith(".")
    assert not editor.save.isEnabled()
    editor.accept()
    assert place.document.design == small_design()
    field.box.setEditText("9")
    assert not field._fault.isVisible()
    assert editor.save.isEnabled()


def test_a_size_that_can_not_be_made_is_told(set_up: SetUp) -> None:
    editor = adding(set_up(small_design()))
    editor.sizes["F"].box.setEditText("9999")
    assert editor.view.notes.isVisible()
    assert editor.view.notes.property("tone") == "error"
    assert not editor.save.isEnabled()


def test_a_block_without_a_name_is_told(set_up: SetUp) -> None:
    editor = adding(set_up(small_design()))
    editor.name.line.selectAll()
    press(editor.name.line, Key.Key_Delete)
    assert "name" in editor.view.notes.text()
    assert not editor.save.isEnabled()


def test_what_to_cut_is_what_the_engine_says(set_up: SetUp) -> None:
    """Eighteen patches from two strips: 2 1/2 in wide, three times 13 1/2, at least 40 1/2 long; worked by hand."""
    editor = adding(set_up(small_design()))
    choose_recipe(editor, "Middle end for end")
    assert editor.view._size.text() == "12 x 12 in finished"
    assert "12 1/2 x 12 1/2 in unfinished" in editor.view._more.text()
    assert editor.view._cut.text().splitlines() == [
        "Cut first",
        "A: 1 strip 2 1/2 in x at least 40 1/2 in cut",
        "B: 1 strip 2 1/2 in x at least 40 1/2 in cut",
    ]


def test_cloth_too_narrow_and_a_size_off_the_grid_are_told_before(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    choose_recipe(editor, "Middle end for end")
    assert "40 1/2 from 40 usable: no block" in editor.view.notes.text()
    choose_recipe(editor, "Rail fence of two")
    assert not editor.view.notes.isVisible()
    editor.sizes["F"].box.setEditText("5")
    assert "no whole number of cells of 2 in" in editor.view.notes.text()
    assert editor.save.isEnabled()


def test_fabrics_are_put_one_after_the_other(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    choose_recipe(editor, "Rail fence of two")
    for name in ("Clay", "Reed"):
        index = editor.offered.model.index_of(fabric_named(place.document.design, name))
        rect = editor.offered.list.visualRect(index)
        click(editor.offered.list.viewport(), rect.center())
    editor.accept()
    letters = place.document.design.blocks[-1].fabrics
    shown = [place.document.design.shelf.fabrics[letters[letter][0]].name for letter in ("A", "B")]
    assert shown == ["Clay", "Reed"]


def test_a_fabric_of_the_shelf_is_dropped_on_a_layer(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    choose_recipe(editor, "Framed four-patch from a stack")
    assert len(editor.slots.slots) == 5
    clay = fabric_named(place.document.design, "Clay")
    for slot in editor.slots.slots[:3]:
        assert drop(slot, fabric_mime(clay)).isAccepted()
    drop(editor.slots.slots[4], fabric_mime("f999"))
    assert editor.slots.slots[2].accessibleName() == "A, layer 3: Clay"
    editor.accept()
    assert place.document.design.blocks[-1].fabrics["A"][:3] == (clay,) * 3


def test_a_design_without_fabrics_can_have_blocks(set_up: SetUp) -> None:
    place = set_up(Design("Empty"))
    editor = adding(place)
    assert editor.offered.without.isVisible()
    click(editor.save)
    assert len(place.document.design.blocks) == 1


def test_a_change_is_one_step_and_shows_on_the_wall_before(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0)))
    editor = changing(place, "Rails")
    clay = fabric_named(place.document.design, "Clay")
    editor.put_fabric("A", 0, clay)
    block = block_named(place.document.design, "Rails")
    assert place.document.shown.shelf.blocks[block].fabrics["A"] == (clay,)
    assert place.document.undo_stack.count() == 0
    editor.accept()
    assert place.document.design.shelf.blocks[block].fabrics["A"] == (clay,)
    assert place.document.undo_stack.count() == 1


def test_a_change_given_up_leaves_no_trace(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0)))
    before = place.document.design
    editor = changing(place, "Rails")
    editor.put_fabric("A", 0, fabric_named(before, "Clay"))
    press(editor, Key.Key_Escape)
    assert place.document.shown is before
    assert place.document.undo_stack.count() == 0


def test_a_size_for_which_there_is_no_room_is_told_while_typing(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0), (3, 0)))
    editor = changing(place, "Rails")
    editor.sizes["F"].box.setEditText("12")
    assert "no longer fit" in editor.view.notes.text()
    assert not editor.save.isEnabled()


def test_saving_without_a_change_closes_and_is_no_step(set_up: SetUp) -> None:
    place = set_up(small_design())
    changing(place, "Rails").accept()
    assert place.shelf.blocks.editor is None
    assert place.document.undo_stack.count() == 0


def test_a_recipe_file_is_read_chosen_and_added(
    set_up: SetUp, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    plain = shipped_recipes()["rail-fence-of-two"].plain
    plain["name"] = "Two rails of my own"
    plain["sizes"] = {"F": ["4 1/2"]}
    place = set_up(small_design())
    file = tmp_path / "mine.recipe.json"
    file.write_text(json.dumps(plain))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    editor = adding(place)
    column(editor).from_file.click()
    assert editor.name.line.text() == "Two rails of my own"
    editor.accept()
    assert place.document.design.recipes[-1].recipe.name == "Two rails of my own"


@pytest.mark.parametrize(
    "text", ["", "{", '{"recipe": 1}', '{"recipe": 99, "name": "x", "steps": [], "block": []}']
)
def test_a_bad_recipe_file_is_told_and_nothing_else_happens(set_up: SetUp, tmp_path: Path, text: str) -> None:
    file = tmp_path / "bad.recipe.json"
    file.write_text(text)
    editor = adding(set_up(small_design()))
    chosen = editor.name.line.text()
    mime = QMimeData()
    mime.setUrls([QUrl.fromLocalFile(str(file))])
    drop(editor, mime)
    assert column(editor).fault.isVisible()
    assert "bad.recipe.json" in column(editor).fault.text()
    assert editor.name.line.text() == chosen


def test_the_editor_follows_what_happens_behind_it(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    place.document.perform(call("add-fabric", name="Fresh", color="#00aa00"))
    assert editor.offered.model.cards[-1].fabric.name == "Fresh"
    editor.put_fabric("A", 0, place.document.design.fabrics[-1].id)
    place.document.undo()
    editor.accept()
    assert len(place.document.design.blocks) == 4
    other = changing(place, "Windows")
    place.document.perform(call("remove-block", block=block_named(place.document.design, "Windows")))
    assert not other.isVisible()


def test_a_block_placed_meanwhile_leaves_the_editor_open(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place, "Rails")
    block = block_named(place.document.design, "Rails")
    place.document.perform(call("place-block", block=block, cell=Cell(0, 0)))
    editor.name.line.setText("Rails renamed")
    editor.accept()
    assert place.document.design.shelf.blocks[block].name == "Rails renamed"
    assert len(place.document.design.quilt.rows) == 1


def test_sizes_follow_the_measure_while_the_editor_is_open(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    choose_recipe(editor, "Rail fence of two")
    place.look.prefer(unit="cm")
    assert editor.sizes["F"].box.currentText() == "10.16 cm"
    assert editor.view._size.text() == "10.16 x 10.16 cm finished"
    editor.sizes["F"].box.setEditText("15.24")
    editor.accept()
    assert str(place.document.design.blocks[-1].sizes["F"]) == "6"


def test_how_many_are_made_can_be_typed(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place, "Rails")
    editor.made.box.setFocus()
    editor.made.box.selectAll()
    for digit in "48":
        press(editor.made.box, getattr(Key, f"Key_{digit}"))
    click(editor.save)
    rails = block_named(place.document.design, "Rails")
    assert place.document.design.shelf.blocks[rails].made == 48
    editor = changing(place, "Rails")
    assert editor.made.box.value() == 48
    editor.reject()

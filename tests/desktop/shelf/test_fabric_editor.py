"""Making and changing a fabric in the shelf's own place."""

from fractions import Fraction
from pathlib import Path

import pytest
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QApplication, QColorDialog, QFileDialog

from piecewright.edit.registry import call
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric, Print
from piecewright_qt.shelf.fabric_editor import FabricEditor
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import fabric_named, small_design, with_placed
from tests.desktop.shelf.hands import Key, click, press, retype, type_in
from tests.desktop.shelf.test_photos import picture


def changing(place: Place, name: str) -> FabricEditor:
    place.shelf.show_fabrics()
    page = place.shelf.fabrics
    page.list.choose(page.model.index_of(fabric_named(place.document.design, name)))
    page.edit()
    return place.shelf.fabric_editor


def adding(place: Place) -> FabricEditor:
    place.shelf.show_fabrics()
    place.shelf.fabrics.add.click()
    return place.shelf.fabric_editor


def pick(editor: FabricEditor, kind: str | None) -> None:
    index = editor.form.kind.findData(kind)
    editor.form.kind.setCurrentIndex(index)
    editor.form.kind.activated.emit(index)


def fabric(design: Design, name: str) -> Fabric:
    return design.shelf.fabrics[fabric_named(design, name)]


def test_a_solid_is_added_by_keys_alone(set_up: SetUp) -> None:
    place = set_up(small_design())
    place.shelf.show_fabrics()
    place.shelf.fabrics.list.setFocus()
    press(place.shelf.fabrics.list, Key.Key_Insert)
    editor = place.shelf.fabric_editor
    assert editor.form.name.line.hasFocus()
    type_in(editor.form.name.line, "Moss")
    retype(editor.form.ground.line, "6d7d52")
    press(editor.form.ground.line, Key.Key_Return)
    assert place.document.design.fabrics[-1] == Fabric("f13", "Moss", "#6d7d52").changed(
        id=place.document.design.fabrics[-1].id
    )
    assert place.document.undo_stack.count() == 1
    assert place.shelf.fabrics.list.hasFocus()


def test_a_new_fabric_can_be_added_as_it_is(set_up: SetUp) -> None:
    place = set_up(small_design())
    colors = {one.color for one in place.document.design.fabrics}
    click(adding(place).save)
    added = place.document.design.fabrics[-1]
    assert added.color not in colors
    adding(place).finish()
    assert len({one.name for one in place.document.design.fabrics}) == 7


def test_every_field_reaches_the_fabric(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = adding(place)
    retype(editor.form.name.line, "Deck chairs")
    retype(editor.form.ground.line, "#ABC")
    pick(editor, "stripes")
    click(editor.form.more_inks)
    for field, ink in zip(editor.form.inks, ("#102030", "#405060", "#708090"), strict=True):
        retype(field.line, ink)
    editor.form.scale.box.setEditText("3,81 cm")
    editor.form.turn.setValue(90)
    click(editor.form.one_way.label)
    retype(editor.form.price.line, "12,50")
    editor.form.width_of_cloth.box.setEditText("1 yd")
    retype(editor.form.note.line, "from the market")
    editor.finish()
    added = place.document.design.fabrics[-1]
    inks = ("#102030", "#405060", "#708090")
    assert added.print == Print("stripes", inks, Fraction(3, 2), 90, one_way=True)
    assert (added.name, added.color, added.note) == ("Deck chairs", "#aabbcc", "from the market")
    assert (added.price, added.width) == (Fraction(25, 2), Fraction(36))
    again = changing(place, "Deck chairs")
    assert again.form.price.line.text() == "12.50"
    again.finish()
    assert place.document.design.fabrics[-1] == added
    assert place.document.undo_stack.count() == 1


def test_a_change_shows_on_the_wall_as_it_is_made_and_is_one_step(set_up: SetUp) -> None:
    place = set_up(with_placed(small_design(), "Rails", (0, 0)))
    editor = changing(place, "Clay")
    retype(editor.form.ground.line, "#00ff00")
    retype(editor.form.name.line, "Leaf")
    assert place.document.shown.shelf.fabrics[fabric_named(place.document.design, "Clay")].color == "#00ff00"
    assert place.document.undo_stack.count() == 0
    editor.finish()
    assert fabric(place.document.design, "Leaf").color == "#00ff00"
    assert place.document.undo_stack.count() == 1
    place.document.undo()
    assert place.document.design == with_placed(small_design(), "Rails", (0, 0))


@pytest.mark.parametrize("how", ["escape", "cancel"])
def test_a_change_given_up_leaves_no_trace(set_up: SetUp, how: str) -> None:
    place = set_up(small_design())
    before = place.document.design
    editor = changing(place, "Clay")
    retype(editor.form.ground.line, "#00ff00")
    assert place.document.shown is not before
    if how == "escape":
        press(editor.form.ground.line, Key.Key_Escape)
    else:
        click(editor.cancel)
    assert place.document.shown is before
    assert place.document.undo_stack.count() == 0
    assert place.shelf.fabrics.isVisible()


@pytest.mark.parametrize(
    ("field", "typed"),
    [
        ("ground", "reddish"),
        ("ground", "#12345"),
        ("price", "cheap"),
        ("price", "-3"),
        ("price", "1.2.3"),
        ("width_of_cloth", "wide"),
        ("width_of_cloth", "-2"),
        ("scale", "0"),
        ("scale", ""),
    ],
)
def test_what_can_not_be_is_told_at_its_field(set_up: SetUp, field: str, typed: str) -> None:
    place = set_up(small_design())
    editor = changing(place, "Clay")
    part = getattr(editor.form, field)
    if hasattr(part, "line"):
        retype(part.line, typed)
    else:
        part.box.setEditText(typed)
    assert part.fault.endswith(".")
    assert not part._fault.isHidden()
    assert not editor.save.isEnabled()
    editor.finish()
    assert place.document.design == small_design()
    assert editor.isVisible()


def test_a_fabric_without_a_name_is_told(set_up: SetUp) -> None:
    editor = changing(set_up(small_design()), "Clay")
    retype(editor.form.name.line, " ")
    assert "no name" in editor._said.text()
    assert not editor.save.isEnabled()


def test_a_wrong_repeat_does_not_hold_up_a_solid(set_up: SetUp) -> None:
    editor = changing(set_up(small_design()), "Clay")
    editor.form.scale.box.setEditText("wrong")
    assert not editor.save.isEnabled()
    pick(editor, None)
    assert editor.save.isEnabled()


def test_a_color_is_chosen_in_the_system_s_dialog(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place, "Clay")
    click(editor.form.ground.chip)
    dialog = editor.form.ground.findChild(QColorDialog)
    assert dialog is not None
    dialog.setCurrentColor(QColor("#13579b"))
    dialog.accept()
    editor.finish()
    assert fabric(place.document.design, "Clay").color == "#13579b"


def test_inks_come_and_go_between_one_and_eight(set_up: SetUp) -> None:
    editor = changing(set_up(small_design()), "Clay")
    assert not editor.form.fewer_inks.isEnabled()
    for _ in range(9):
        click(editor.form.more_inks)
    assert len(editor.form.inks) == 8
    assert not editor.form.more_inks.isEnabled()
    click(editor.form.fewer_inks)
    assert len(editor.form.inks) == 7


def test_a_photo_takes_the_place_of_a_print_and_gives_it_back(
    set_up: SetUp, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = set_up(small_design())
    file = tmp_path / "cloth.jpg"
    file.write_bytes(picture("JPEG", (1600, 1200), (200, 40, 40)))
    monkeypatch.setattr(QFileDialog, "getOpenFileName", lambda *_: (str(file), ""))
    editor = changing(place, "Clay")
    editor.form.with_photo.click()
    assert editor.form.photo_note.isVisible()
    assert not editor.form.kind_field.isVisible()
    editor.finish()
    clay = fabric(place.document.design, "Clay")
    assert clay.picture is not None
    assert clay.print is None
    assert place.document.pictures.keys() == {clay.picture}
    again = changing(place, "Clay")
    again.form.without_photo.click()
    assert again.form.kind_field.isVisible()
    again.finish()
    assert fabric(place.document.design, "Clay").picture is None


def test_pasting_without_a_photo_says_so(set_up: SetUp) -> None:
    editor = adding(set_up(small_design()))
    QApplication.clipboard().setText("words")
    editor.form.paste_photo.click()
    assert "clipboard" in editor._said.text()


def test_undo_behind_the_editor_is_followed(set_up: SetUp) -> None:
    place = set_up(small_design())
    place.document.perform(call("add-fabric", name="Fresh", color="#00aa00"))
    editor = changing(place, "Fresh")
    fresh = fabric(place.document.design, "Fresh")
    place.document.perform(call("change-fabric", fabric=fresh.changed(color="#aa0000")))
    assert editor.form.ground.color == "#aa0000"
    place.document.undo()
    assert editor.form.ground.color == "#00aa00"
    place.document.undo()
    assert not editor.isVisible()
    assert place.shelf.fabrics.isVisible()


def test_lengths_follow_the_measure_while_the_editor_is_open(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place, "Clay")
    place.look.prefer(unit="cm")
    assert editor.form.scale.box.currentText() == "1.27 cm"
    editor.form.scale.box.setEditText("2.54")
    editor.finish()
    printed = fabric(place.document.design, "Clay").print
    assert printed is not None
    assert printed.scale == 1

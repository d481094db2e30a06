"""What a fabric is had in, said on the shelf: bought as it takes, and what is on hand."""

from fractions import Fraction

import pytest
from PySide6.QtWidgets import QApplication

from piecewright.edit.registry import call
from piecewright.model.forms import Form
from piecewright_qt.shelf.fabric_editor import FabricEditor
from piecewright_qt.shelf.forms_field import BOUGHT, KINDS, HeldForm
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import small_design
from tests.desktop.shelf.hands import Key, press, retype

STRIPS = Form("strip", 3, Fraction(5, 2), Fraction(20), Fraction(42))
FORMS = (Form("fat quarter"), STRIPS, Form("bolt", 2, length=Fraction(18)))


def changing(place: Place, forms: tuple[Form, ...] = ()) -> FabricEditor:
    """The editor of the first fabric, which is had in these forms."""
    fabric = place.document.design.fabrics[0]
    if forms:
        place.document.perform(call("set-forms", fabric=fabric.id, forms=forms))
    place.shelf.show_fabrics()
    place.shelf.fabrics.wanted.emit(place.document.design.fabrics[0], None)
    return place.shelf.fabric_editor


def forms_of(place: Place) -> tuple[Form, ...]:
    return place.document.design.fabrics[0].forms


def choose(held: HeldForm, kind: str) -> None:
    """Choose what a piece on hand is, as a user does."""
    held.kind.setCurrentIndex(KINDS.index(kind))
    held.kind.activated.emit(held.kind.currentIndex())


def test_forms_are_shown_and_an_untouched_fabric_stays_as_it_was(set_up: SetUp) -> None:
    place = set_up(small_design())
    before = changing(place, FORMS)._before
    editor = place.shelf.fabric_editor
    assert editor.form.forms.forms() == FORMS
    editor.finish()
    assert place.document.design.fabrics[0] == before


def test_a_fabric_of_no_forms_stays_of_none(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place)
    assert editor.form.forms.forms() == ()
    editor.finish()
    assert forms_of(place) == ()


def test_every_form_can_be_bought(set_up: SetUp) -> None:
    place = set_up(small_design())
    for kind in BOUGHT:
        editor = changing(place)
        box = editor.form.forms.bought
        box.setCurrentIndex(BOUGHT.index(kind))
        box.activated.emit(box.currentIndex())
        editor.finish()
        assert forms_of(place) == (() if kind == "bolt" else (Form(kind),))


def test_strips_on_hand_with_their_range_are_said_by_keys(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place)
    press(editor.form.forms.add, Key.Key_Space)
    (held,) = editor.form.forms.held
    assert not held.longest_field.isVisible()
    choose(held, "strip")
    held.count.setValue(3)
    for field, typed in zip(held.lengths, ("2 1/2", "20", "42"), strict=True):
        retype(field.box.lineEdit(), typed)
    editor.finish()
    assert forms_of(place) == (Form("bolt"), STRIPS)


def test_what_can_not_be_is_said_and_not_saved(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place)
    editor.form.forms.add.click()
    (held,) = editor.form.forms.held
    choose(held, "strip")  # without its sizes
    assert editor._said.isVisible()
    assert not editor.save.isEnabled()
    retype(held.width_field.box.lineEdit(), "wide")
    assert held.width_field.fault
    editor.finish()
    assert forms_of(place) == ()


def test_what_is_taken_off_the_list_is_gone_and_the_keys_stay(set_up: SetUp) -> None:
    place = set_up(small_design())
    editor = changing(place, FORMS)
    editor.form.forms.held[0].away.click()
    assert editor.form.forms.add.hasFocus()
    editor.finish()
    assert forms_of(place) == (FORMS[0], FORMS[2])


def test_the_value_said_by_hand_is_not_lost_by_editing(set_up: SetUp) -> None:
    place = set_up(small_design())
    fabric = place.document.design.fabrics[0]
    place.document.perform(call("change-fabric", fabric=fabric.changed(value="dark")))
    editor = changing(place)
    retype(editor.form.name.line, "Another name")
    editor.finish()
    assert place.document.design.fabrics[0].value == "dark"


@pytest.mark.parametrize("percent", [100, 200])
def test_nothing_is_wider_than_the_shelf(set_up: SetUp, percent: int) -> None:
    place = set_up(small_design(), text_percent=percent)
    editor = changing(place, FORMS)
    QApplication.processEvents()
    assert editor.form.minimumSizeHint().width() <= editor.width()
    for held in editor.form.forms.held:
        for widget in (held.count, held.kind, held.away):
            assert widget.accessibleName()

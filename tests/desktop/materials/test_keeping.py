"""Keeping to what is on hand, and what the last step changed: said in Materials as the engine says it."""

from fractions import Fraction

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from piecewright.edit.registry import apply, call
from piecewright.model.design import Design
from piecewright.model.forms import Form
from piecewright.plan.difference import difference
from piecewright.plan.keeping import on_hand_of
from piecewright.plan.materials import materials
from piecewright.plan.stash_first import StripOnHand
from tests.desktop.materials.conftest import SetUp
from tests.desktop.materials.plans import sample, two_colorings, without_first

HEADING = "heading:changes"


def with_cloth(inches: int, *more: Form) -> Design:
    """The large sample with so many inches of its first fabric on hand."""
    design = sample("tideline")
    held = Form("bolt", 1, length=Fraction(inches))
    return apply(design, call("set-forms", fabric=design.fabrics[0].id, forms=(Form("bolt"), held, *more)))


def test_what_is_on_hand_is_told_by_the_forms() -> None:
    strip = Form("strip", 4, Fraction(5, 2), Fraction(20), Fraction(42))
    design = with_cloth(36, strip)
    (fabric, *_others) = design.fabrics
    have = on_hand_of(design)
    assert dict(have.cloth) == {fabric.id: 36}
    assert have.strips == (StripOnHand(fabric=fabric.id, width=Fraction(5, 2), length=Fraction(20), count=4),)


def test_quarters_and_lengthwise_strips_are_not_kept_to() -> None:
    for form in (Form("fat quarter", 2), Form("strip", 1, Fraction(3), Fraction(50), lengthwise=True)):
        assert not on_hand_of(with_cloth(36, form)).cloth


def test_the_box_is_there_only_while_something_is_on_hand(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    keep = place.column.panel.keep
    assert not keep.isVisible()
    fabric = place.document.design.fabrics[0].id
    place.document.perform(
        call("set-forms", fabric=fabric, forms=(Form("bolt"), Form("bolt", 1, length=Fraction(9))))
    )
    assert keep.isVisible()
    place.document.undo()
    assert not keep.isVisible()


def test_an_edit_that_goes_over_is_named_with_fabric_and_amount(set_up: SetUp) -> None:
    place = set_up(with_cloth(43))
    keep = place.column.panel.keep
    told: list[str] = []
    keep.went_over.connect(told.append)
    QTest.mouseClick(keep.field.box, Qt.MouseButton.LeftButton)
    assert not keep.said.isVisible()
    design = place.document.design
    less = call("change-settings", settings=design.settings.changed(usable=Fraction(30)))
    assert place.document.preview(less)
    assert "too much" in keep.said.text()  # it would
    assert not told
    place.document.drop_preview()
    assert not keep.said.isVisible()
    place.document.perform(less)
    assert told == [keep.said.text()]
    assert told[0].startswith(design.fabrics[0].name)
    place.document.undo()
    assert not keep.said.isVisible()
    assert len(told) == 1


def test_nothing_is_said_while_the_box_is_not_ticked(set_up: SetUp) -> None:
    place = set_up(with_cloth(1))
    keep = place.column.panel.keep
    assert not keep.said.isVisible()
    keep.field.box.click()
    assert keep.said.isVisible()
    keep.field.box.click()
    assert not keep.said.isVisible()


def test_the_last_step_tells_every_change_when_it_is_unfolded(set_up: SetUp) -> None:
    place = set_up(two_colorings())
    heading = next(row for row in place.rows if row.key == HEADING)
    assert (heading.label, heading.value) == ("The last step changed", "nothing")
    before = place.document.design
    place.document.preview(without_first())
    assert next(row for row in place.rows if row.key == HEADING).label == "This would change"
    place.document.perform(without_first())
    place.put_at(next(row for row in place.rows if row.key == HEADING))
    QTest.keyClick(place.list, Qt.Key.Key_Return)
    found = difference(materials(before), materials(place.document.design))
    told = [row.label for row in place.rows if row.section == "changes"][1:]
    assert told == [change.said.text() for change in found]
    assert told

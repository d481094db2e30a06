"""Why a number is what it is: its terms stand below it, each a link to its blocks, some opening in turn."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from piecewright.edit.registry import call
from piecewright.plan.materials import materials
from piecewright.plan.why import Refers, Subject, subjects, why
from piecewright_qt.materials.rows import Row
from tests.desktop.materials.conftest import Place, SetUp
from tests.desktop.materials.plans import sample

Key = Qt.Key


def press(place: Place, row: Row) -> None:
    """Enter on a row."""
    place.put_at(row)
    QTest.keyClick(place.list, Key.Key_Return)


def test_every_number_that_opens_has_a_row_and_its_terms_are_the_engines(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    design = place.document.design
    by_subject = {row.subject: row for row in place.rows if row.subject is not None}
    assert set(by_subject) == {one for one in subjects(materials(design)) if one != Subject("size")}
    for subject, row in by_subject.items():
        told = why(design, subject)
        press(place, row)
        at = place.rows.index(row)
        shown = place.rows[at + 1 : at + 1 + len(told.terms)]
        assert [(one.kind, one.label, one.refers) for one in shown] == [
            ("term", term.said.text(), term.refers) for term in told.terms
        ]
        press(place, row)
        assert not [one for one in place.rows if one.kind == "term"]


def test_a_term_points_at_its_blocks_and_opens_in_turn(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    pointed: list[Refers] = []
    place.column.panel.pointed.connect(pointed.append)
    cloth = next(row for row in place.rows if row.section == "cloth" and row.kind == "line")
    press(place, cloth)
    term = next(row for row in place.rows if row.kind == "term" and row.subject is not None)
    press(place, term)
    assert pointed == [term.refers]
    deeper = [row for row in place.rows if row.kind == "term" and row.level == 2]
    assert deeper
    assert place.rows.index(deeper[0]) == place.rows.index(term) + 1


def test_a_click_on_a_term_is_as_good_as_enter(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    pointed: list[Refers] = []
    place.column.panel.pointed.connect(pointed.append)
    row = next(row for row in place.rows if row.section == "sets" and row.kind == "line")
    press(place, row)
    term = next(one for one in place.rows if one.kind == "term")
    place.put_at(term)
    rect = place.list.visualRect(place.list.currentIndex())
    QTest.mouseClick(place.list.viewport(), Qt.MouseButton.LeftButton, pos=rect.center())
    assert pointed == [term.refers]


def test_open_sums_follow_the_design_and_vanish_with_their_number(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    design = place.document.design
    row = next(row for row in place.rows if row.section == "cloth" and row.kind == "line")
    press(place, row)
    settings = design.settings.changed(usable=design.settings.usable / 2)
    assert place.document.perform(call("change-settings", settings=settings))
    now = next(one for one in place.rows if one.key == row.key)
    terms = [one.label for one in place.rows if one.kind == "term"]
    assert now.subject is not None
    assert terms == [term.said.text() for term in why(place.document.design, now.subject).terms]


def test_terms_are_heard_as_links(set_up: SetUp) -> None:
    place = set_up(sample("tideline"))
    press(place, next(row for row in place.rows if row.section == "sets" and row.kind == "line"))
    term = next(one for one in place.rows if one.kind == "term")
    index = place.list.rows.index(place.rows.index(term))
    assert "wall" in str(index.data(Qt.ItemDataRole.AccessibleTextRole))


@pytest.mark.parametrize("percent", [100, 200])
def test_terms_stay_inside_the_list(set_up: SetUp, percent: int) -> None:
    place = set_up(sample("tideline"), width=300, text_percent=percent)
    for row in [row for row in place.rows if row.subject is not None][:12]:
        press(place, row)
    for row in place.rows:
        if row.kind == "term":
            setting = place.list._setting(row)
            for piece in setting.pieces:
                assert piece.x + place.list._faces.width(piece.text, piece.face) <= place.list._wide

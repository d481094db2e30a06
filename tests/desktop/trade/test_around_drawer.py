"""Borders of every kind, binding, backing and batting in the window: each an edit, with what comes of it in place."""

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.quilt import Backing, Border
from piecewright.model.setting import Pieced
from piecewright.plan.materials import materials
from piecewright_qt.around import AroundDrawer
from piecewright_qt.border_row import BorderRow
from piecewright_qt.document import Document
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import CheckField
from piecewright_qt.trade_fields import SETTINGS
from tests.core.plan.samples import BLOCK, BOLT, rails
from tests.desktop.trade.conftest import Choosing, Typing

LEFT = Qt.MouseButton.LeftButton


@pytest.fixture
def drawer(qtbot: QtBot) -> AroundDrawer:
    """The drawer over 10 x 2 rails of 6 in, with one border 2 in wide."""
    design = rails(20, BOLT, borders=(Border("f5", Fraction(2)),))
    made = AroundDrawer(Document(design), Look(LoadedPreferences(Preferences())))
    qtbot.addWidget(made)
    made.resize(300, 1200)
    made.show()
    made.begin()
    return made


def border(drawer: AroundDrawer, index: int = 0) -> Border:
    """A border of the design."""
    return drawer.document.design.quilt.borders[index]


def test_every_setting_of_binding_backing_and_batting_is_there(drawer: AroundDrawer) -> None:
    own = {key for key in SETTINGS if not key.startswith("settings.")} - {"backing.sleeve", "backing.label"}
    assert own <= set(drawer.settings_shown)
    assert drawer.sleeve.label.text()
    assert drawer.label_box.label.text()


def test_a_border_is_mitered_by_the_keys_and_its_spare_is_asked_for(
    drawer: AroundDrawer, choose: Choosing, type_into: Typing
) -> None:
    row = drawer.rows[0]
    assert not row.spare.isVisible()
    choose(row.corners, "Mitered")
    assert border(drawer).corners == "mitered"
    assert row.spare.isVisible()
    assert not row.first.isVisible()
    type_into(row.spare, "0")
    assert border(drawer).spare == 0
    assert "does not reach the corners" in row.note.text()
    drawer.document.undo()
    assert border(drawer).spare == 1
    drawer.document.undo()
    assert border(drawer).corners == "butted"
    assert not row.spare.isVisible()


def test_corner_squares_are_of_the_borders_own_cloth_until_another_is_chosen(
    drawer: AroundDrawer, choose: Choosing
) -> None:
    row = drawer.rows[0]
    choose(row.corners, "Corner squares")
    assert border(drawer).corner is None
    assert row.corner.box.currentText() == "The border's own"
    choose(row.corner, "Cloth 2")
    assert border(drawer).corner == "f2"
    assert drawer.plan_of(0).parts[0].fabric == "f2"


def test_a_pieced_border_says_what_makes_it_come_out_and_does_it(
    drawer: AroundDrawer, choose: Choosing, type_into: Typing
) -> None:
    """60 x 12 in, corner squares, pieces of 5 in: 12 needs 3 more all round to be 15, and 60 + 3 is no such."""
    row = drawer.rows[0]
    choose(row.corners, "Corner squares")
    choose(row.made, "Pieces of cloth, in turn")
    assert border(drawer).pieced == Pieced(Fraction(2), ("f5", "f1"))
    assert "Whole pieces fill all four sides." in row.note.text()
    assert not row.inside.isVisible()
    type_into(row.length, "8")
    # 12 = 8 + 4 and 60 = 7 x 8 + 4: 2 in at both ends, or 2 in more on every side
    assert "coping strips of 2 in" in row.note.text().replace("\N{NO-BREAK SPACE}", " ")
    assert row.inside.isVisible()
    row.inside.setFocus()
    QTest.keyClick(row.inside, Qt.Key.Key_Space)
    assert [one.width for one in drawer.document.design.quilt.borders] == [2, 2]
    assert border(drawer, 1).pieced == Pieced(Fraction(8), ("f5", "f1"))
    pieced = materials(drawer.document.design).borders[1]
    assert pieced.side_run is not None
    assert pieced.end_run is not None
    assert pieced.side_run.coping == pieced.end_run.coping == 0
    assert "Whole pieces fill all four sides." in drawer.rows[1].note.text()


def test_pieces_go_through_as_many_fabrics_as_wanted(drawer: AroundDrawer, choose: Choosing) -> None:
    row = drawer.rows[0]
    choose(row.made, "Pieces of cloth, in turn")
    QTest.mouseClick(row.fabrics.more, LEFT)
    choose(row.fabrics.fields[2], "Cloth 3")
    pieced = border(drawer).pieced
    assert pieced is not None
    assert pieced.fabrics == ("f5", "f1", "f3")
    QTest.mouseClick(row.fabrics.removers[0], LEFT)
    QTest.mouseClick(row.fabrics.removers[0], LEFT)
    assert border(drawer).pieced == Pieced(Fraction(2), ("f3",))
    assert not row.fabrics.removers[0].isEnabled()
    for _ in range(5):
        drawer.document.undo()
    assert border(drawer).pieced is None


def test_a_border_of_blocks_is_as_wide_as_its_block(drawer: AroundDrawer, choose: Choosing) -> None:
    row = drawer.rows[0]
    choose(row.made, "Blocks")
    assert border(drawer).block == BLOCK
    assert border(drawer).width == 6
    assert not row.width_field.isEnabled()
    choose(row.turn, "90°")
    pieced = border(drawer).pieced
    assert pieced is not None
    assert pieced.turn == 90
    choose(row.made, "One cloth")
    assert border(drawer).pieced is None
    assert row.width_field.isEnabled()


def test_what_a_border_can_not_be_is_said_in_its_place(drawer: AroundDrawer, choose: Choosing) -> None:
    row = drawer.rows[0]
    choose(row.corners, "Mitered")
    before = border(drawer)
    row.made.box.setCurrentIndex(1)
    row.made.box.activated.emit(1)
    assert row.made.fault
    assert row.made.box.currentText() == "One cloth"
    assert border(drawer) == before


def test_binding_backing_and_batting_tell_at_once_what_they_take(
    drawer: AroundDrawer, choose: Choosing, type_into: Typing
) -> None:
    design, said = drawer.document.design, drawer.binding_takes.text()
    bind, back = drawer.settings_shown["binding.cut"], drawer.settings_shown["backing.lie"]
    choose(bind, "On the bias")
    assert drawer.document.design.quilt.binding.cut == "bias"
    assert drawer.binding_takes.text() != said
    choose(back, "Across the quilt")
    assert materials(drawer.document.design).backing.panels.lie == "across"
    pieced = drawer.settings_shown["backing.pieced"]
    assert isinstance(pieced, CheckField)
    pieced.box.setFocus()
    QTest.keyClick(pieced.box, Qt.Key.Key_Space)
    assert drawer.document.design.quilt.backing.pieced
    country = drawer.settings_shown["settings.country"]
    assert isinstance(country, ChoiceField)
    before = drawer.batting_takes.text()
    choose(country, "Europe")
    assert drawer.document.design.settings.country == "europe"
    assert drawer.batting_takes.text() != before
    type_into(drawer.settings_shown["batting.overage"], "20")
    assert drawer.document.design.quilt.batting.overage == 20
    while drawer.document.undo_stack.canUndo():
        drawer.document.undo()
    assert drawer.document.design == design
    assert drawer.binding_takes.text() == said


def test_a_sleeve_and_a_label_are_ticked_and_measured(drawer: AroundDrawer, type_into: Typing) -> None:
    QTest.mouseClick(drawer.folds["sleeve"], LEFT)
    depth = drawer.lengths["sleeve.depth"]
    assert not depth.isVisible()
    drawer.sleeve.box.setFocus()
    QTest.keyClick(drawer.sleeve.box, Qt.Key.Key_Space)
    assert depth.isVisible()
    type_into(depth, "5")
    backing = drawer.document.design.quilt.backing
    assert backing.sleeve is not None
    assert backing.sleeve.depth == 5
    assert [piece.part for piece in materials(drawer.document.design).back_pieces] == ["sleeve"]
    QTest.mouseClick(drawer.label_box.box, LEFT)
    assert drawer.document.design.quilt.backing.label is not None
    QTest.keyClick(drawer.sleeve.box, Qt.Key.Key_Space)
    assert drawer.document.design.quilt.backing.sleeve is None


def test_rows_follow_borders_that_come_and_go(drawer: AroundDrawer) -> None:
    QTest.mouseClick(drawer.add, LEFT)
    assert len(drawer.rows) == 2
    assert all(isinstance(row, BorderRow) for row in drawer.rows)
    drawer.document.undo()
    assert len(drawer.rows) == 1
    drawer.look.prefer(theme="dark")
    assert len(drawer.rows) == 1


def test_a_wide_backing_is_taken_in_one_step(qtbot: QtBot) -> None:
    """60 x 60 in and 8 in of overage are more than two widths of 42 in; of 108 in one piece does."""
    design = rails(100, BOLT, backing=Backing("f5"))
    made = AroundDrawer(Document(design), Look(LoadedPreferences(Preferences())))
    qtbot.addWidget(made)
    made.show()
    made.begin()
    assert made.wide.isVisible()
    made.wide.setFocus()
    QTest.keyClick(made.wide, Qt.Key.Key_Space)
    after = made.document.design
    cloth = after.shelf.fabrics[after.quilt.backing.fabric or ""]
    assert (cloth.name, cloth.width, cloth.color) == ("Cloth 5, wide", Fraction(108), "#808080")
    plan = materials(after).backing
    assert (plan.panels.count, plan.panels.seams) == (1, "none")
    assert not made.wide.isVisible()
    assert made.backing.value == cloth.id
    made.document.undo()
    assert made.document.design == design

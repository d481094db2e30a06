"""A quilter sets her own seam, cloth and borders, watches the materials, and begins the next quilt as she likes it."""

from fractions import Fraction

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from piecewright_qt.around import AroundDrawer
from piecewright_qt.design_settings import SettingsDrawer
from piecewright_qt.drawer import ChoiceField
from piecewright_qt.shelf.fields import LengthField
from piecewright_qt.workroom import Workroom
from tests.journeys.user import User, new_design

LEFT = Qt.MouseButton.LeftButton


def type_into(field: QWidget, text: str) -> None:
    """Click into a length field and type in the place of what it shows."""
    assert isinstance(field, LengthField)
    line = field.box.lineEdit()
    assert line is not None
    QTest.mouseClick(line, LEFT)
    line.selectAll()
    QTest.keyClicks(line, text)
    QApplication.processEvents()


def drawer_of(user: User, action: str, kind: type[QWidget]) -> QWidget:
    """What the keys of an action pull out."""
    user.keys(action)
    found = next(one for one in user.window.findChildren(kind) if one.isVisible())
    QApplication.processEvents()
    return found


def lines(user: User) -> dict[str, str]:
    """What the head of Materials says."""
    head = user.window.materials.panel.head
    return {
        "top": head.top_label.text().replace("\N{NO-BREAK SPACE}", " "),
        "real": head.real_label.text().replace("\N{NO-BREAK SPACE}", " "),
    }


def test_own_seam_and_cloth_are_set_once_and_the_next_quilt_begins_with_them(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    assert user.design.settings.usable == 40
    user.drop_ten()
    drawer = drawer_of(user, "settings", SettingsDrawer)
    assert isinstance(drawer, SettingsDrawer)
    top = lines(user)["top"]
    type_into(drawer.settings_shown["settings.three_strips"], "6 3/8")
    assert "with your seam" in lines(user)["real"]
    assert lines(user)["top"] == top
    type_into(drawer.settings_shown["settings.usable"], "41 1/2")
    QTest.mouseClick(drawer.folds["washing"], LEFT)
    type_into(drawer.settings_shown["settings.shrinkage.cloth"], "3")
    drawer.keep.setFocus()
    QTest.keyClick(drawer.keep, Qt.Key.Key_Space)
    assert user.window.document.undo_stack.count() == 10 + 3
    QTest.keyClick(drawer, Qt.Key.Key_Escape)
    assert not drawer.isVisible()
    workroom.new_design()
    second = User(workroom.windows[-1], qtbot)
    assert second.design.settings == user.design.settings
    assert second.design.settings.usable == Fraction(83, 2)


def test_a_border_of_blocks_and_a_bias_binding_show_in_the_materials_at_once(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    drawer = drawer_of(user, "around", AroundDrawer)
    assert isinstance(drawer, AroundDrawer)
    user.press("Add a border", drawer)
    row = drawer.rows[0]
    row.made.box.setFocus()
    QTest.keyClick(row.made.box, Qt.Key.Key_End)
    assert user.design.quilt.borders[0].block is not None
    QTest.keyClick(row.made.box, Qt.Key.Key_Home)
    QTest.keyClick(row.made.box, Qt.Key.Key_Down)
    pieced = user.design.quilt.borders[0].pieced
    assert pieced is not None
    assert len(pieced.fabrics) == 2
    shown = {row.key: row for row in user.window.materials.panel.list.rows.rows}
    assert shown["border", 1].value.endswith("pieces")
    before = user.design.quilt.binding
    cut = drawer.settings_shown["binding.cut"]
    assert isinstance(cut, ChoiceField)
    cut.box.setFocus()
    QTest.keyClick(cut.box, Qt.Key.Key_End)
    assert user.design.quilt.binding == before.changed(cut="bias")
    user.keys("undo")
    assert user.design.quilt.binding == before

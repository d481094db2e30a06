"""Settings of the trade in the window: each is offered, told, one undo step, refused in place, and handed on."""

from fractions import Fraction

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel
from pytestqt.qtbot import QtBot

from piecewright.files.beginning import load_beginning
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright_qt.design_settings import SettingsDrawer
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.shelf.fields import Field, LengthField
from piecewright_qt.trade_fields import SETTINGS
from tests.core.plan.samples import BOLT, rails
from tests.desktop.trade.conftest import Typing

LEFT = Qt.MouseButton.LeftButton
OF_SETTINGS = [key for key in SETTINGS if key.startswith("settings.")]


@pytest.fixture
def drawer(qtbot: QtBot) -> SettingsDrawer:
    """The drawer, pulled out over a wall of rails."""
    made = SettingsDrawer(Document(rails(12, BOLT)), Look(LoadedPreferences(Preferences())))
    qtbot.addWidget(made)
    made.resize(300, 900)
    made.show()
    made.begin()
    return made


def unfold(drawer: SettingsDrawer) -> None:
    """Open every heading, by the keys."""
    for head in drawer.folds.values():
        if not head.isChecked():
            head.setFocus()
            QTest.keyClick(head, Qt.Key.Key_Space)
        assert head.isChecked()


def test_every_setting_of_the_design_is_there_with_what_it_changes(drawer: SettingsDrawer) -> None:
    unfold(drawer)
    assert set(drawer.settings_shown) == set(OF_SETTINGS)
    said = {label.text().replace("\N{NO-BREAK SPACE}", " ") for label in drawer.findChildren(QLabel)}
    for key, field in drawer.settings_shown.items():
        assert field.isVisible()
        assert str(SETTINGS[key].changes) in said


def test_the_widths_in_use_are_offered_and_an_own_one_is_taken(
    drawer: SettingsDrawer, type_into: Typing
) -> None:
    field = drawer.settings_shown["settings.usable"]
    assert isinstance(field, LengthField)
    assert [field.box.itemText(n) for n in range(field.box.count())] == [
        "40 in",
        "41 1/2 in",
        "42 in",
        "44 in",
    ]
    assert all(field.box.itemData(n, Qt.ItemDataRole.ToolTipRole) for n in range(4))
    type_into(field, "43 1/4")
    assert drawer.document.design.settings.usable == Fraction(173, 4)
    assert drawer.document.undo_stack.count() == 1
    drawer.document.undo()
    assert drawer.document.design.settings.usable == 42
    assert field.value == 42


def test_what_can_not_be_is_said_under_its_field_and_changes_nothing(
    drawer: SettingsDrawer, type_into: Typing
) -> None:
    before = drawer.document.design
    for key, text in (
        ("settings.usable", "wide"),
        ("settings.three_strips", "12"),
        ("settings.seam", "0"),
        ("settings.shrinkage.cloth", "a little"),
        ("settings.shrinkage.take_up", "60"),
    ):
        field = drawer.settings_shown[key]
        type_into(field, text)
        assert isinstance(field, Field)
        assert field.fault, key
    assert drawer.document.design.settings.usable == before.settings.usable
    assert drawer.document.design.settings.shrinkage.cloth == 0


def test_percentages_are_read_as_people_write_them(drawer: SettingsDrawer, type_into: Typing) -> None:
    field = drawer.settings_shown["settings.shrinkage.cloth"]
    for text, value in (("3", 3), ("2,5 %", Fraction(5, 2)), ("2 1/2", Fraction(5, 2)), ("0", 0)):
        type_into(field, text)
        assert drawer.document.design.settings.shrinkage.cloth == value


def test_headings_fold_with_the_mouse_and_stay_so_when_the_measure_changes(drawer: SettingsDrawer) -> None:
    assert drawer.folds["seam"].isChecked()
    assert not drawer.folds["washing"].isChecked()
    assert not drawer.settings_shown["settings.drop"].isVisible()
    QTest.mouseClick(drawer.folds["bed"], LEFT)
    assert drawer.settings_shown["settings.drop"].isVisible()
    drawer.look.prefer(unit="cm")
    assert drawer.settings_shown["settings.drop"].isVisible()
    assert drawer.folds["bed"].isChecked()


def test_new_designs_begin_as_this_one_once_that_is_kept(drawer: SettingsDrawer, type_into: Typing) -> None:
    type_into(drawer.settings_shown["settings.usable"], "41 1/2")
    assert drawer.keep.isEnabled()
    QTest.mouseClick(drawer.keep, LEFT)
    beginning, notes = load_beginning(drawer.look.preferences)
    assert not notes
    assert beginning.settings.usable == Fraction(83, 2)
    assert not drawer.keep.isEnabled()
    assert drawer.kept.text().startswith("New designs begin")
    type_into(drawer.settings_shown["settings.usable"], "42")
    assert drawer.keep.isEnabled()


def test_left_handed_is_of_the_user_and_no_edit_of_the_design(drawer: SettingsDrawer) -> None:
    unfold(drawer)
    drawer.left_handed.box.setFocus()
    QTest.keyClick(drawer.left_handed.box, Qt.Key.Key_Space)
    assert drawer.look.preferences.left_handed
    assert drawer.document.undo_stack.count() == 0

"""Arrangements by mouse and keys: switched, copied, named in place, taken away; each tab with its picture."""

import pytest
from PySide6.QtCore import QPoint, QSize, Qt
from PySide6.QtGui import QAccessible, QColor, QImage, QPixmap
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.edit.registry import Cell, apply, call
from piecewright.files.settings import LoadedPreferences, Preferences
from piecewright.model.design import Design
from piecewright_qt.arrangements.quilt_pictures import SETTLED, QuiltPictures
from piecewright_qt.arrangements.strip import ArrangementStrip
from piecewright_qt.document import Document
from piecewright_qt.look import Look
from piecewright_qt.theme.tokens import DARK, LIGHT
from tests.desktop.arrangements.conftest import Place, SetUp
from tests.desktop.wall.quilts import empty, rails, unmade

Keys = Qt.Key
LEFT, NONE = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier


def several(count: int = 3) -> Design:
    """Rails in so many arrangements, the first in view; each later one has a column less."""
    first = rails(5, 6)
    quilts = [first.quilt.changed(name=f"Number {number + 1}") for number in range(count)]
    design = first.changed(arrangements=tuple(quilts))
    for number in range(1, count):
        design = apply(design.changed(current=number), call("set-columns", columns=5 - number))
    return design.changed(current=0)


def middle(place: Place, index: int) -> QPoint:
    """The middle of a tab."""
    return place.strip.tabs.tabRect(index).center()


def painted(place: Place, qtbot: QtBot) -> None:
    """Wait until every picture is there."""
    qtbot.waitUntil(lambda: place.strip.pictures.is_idle, timeout=10_000)


def image_of(place: Place, index: int) -> QImage:
    """The picture on a tab."""
    return place.strip.tabs.tabIcon(index).pixmap(QSize(54, 54)).toImage()


def test_a_click_switches_and_undo_switches_back(set_up: SetUp) -> None:
    place = set_up(several())
    QTest.mouseClick(place.strip.tabs, LEFT, NONE, middle(place, 2))
    assert place.document.design.current == 2
    place.document.undo()
    assert place.document.design.current == 0
    assert place.strip.tabs.currentIndex() == 0


def test_arrow_keys_walk_through_them_as_one_step(set_up: SetUp) -> None:
    place = set_up(several())
    place.strip.tabs.setFocus()
    for current in (1, 2, 2):
        QTest.keyClick(place.strip.tabs, Keys.Key_Right)
        assert place.document.design.current == current
    assert place.document.undo_stack.count() == 1
    place.document.undo()
    assert place.document.design.current == 0


def test_a_copy_stands_behind_and_is_looked_at(set_up: SetUp) -> None:
    place = set_up(several(2))
    place.strip.duplicate()
    assert place.names == ["Number 1", "Number 1, copy 2", "Number 2"]
    assert place.document.design.current == 1
    place.strip.duplicate()
    place.document.perform(call("switch-arrangement", index=0))
    place.strip.duplicate()
    assert len(set(place.names)) == len(place.names)  # no two of one name
    assert place.document.design.arrangements[1].rows == place.document.design.arrangements[0].rows


@pytest.mark.parametrize("how", ["double click", "key", "menu"])
def test_a_name_is_written_in_its_place(set_up: SetUp, how: str) -> None:
    place = set_up(several())
    field = place.strip.field
    if how == "double click":
        QTest.mouseDClick(place.strip.tabs, LEFT, NONE, middle(place, 1))
    elif how == "key":
        place.document.perform(call("switch-arrangement", index=1))
        place.strip.tabs.setFocus()
        QTest.keyClick(place.strip.tabs, Keys.Key_F2)
    else:
        next(
            action for action in place.strip.menu(1).actions() if action.text().startswith("Rename")
        ).trigger()
    assert field.isVisible()
    assert field.hasFocus()
    assert field.selectedText() == "Number 2"
    tab = place.strip.tabs.tabRect(1).translated(place.strip.tabs.pos())
    assert tab.intersects(field.geometry())
    QTest.keyClicks(field, "Barn raising & rails")
    QTest.keyClick(field, Keys.Key_Return)
    assert not field.isVisible()
    assert place.document.design.arrangements[1].name == "Barn raising & rails"
    assert place.names[1] == "Barn raising && rails"  # one is a key's mark to Qt
    assert place.strip.tabs.hasFocus()


def test_escape_leaves_the_name_as_it_was(set_up: SetUp) -> None:
    place = set_up(several())
    start = place.document.design
    place.strip.rename(0)
    QTest.keyClicks(place.strip.field, "Something else")
    QTest.keyClick(place.strip.field, Keys.Key_Escape)
    assert not place.strip.field.isVisible()
    assert place.document.design is start


def test_a_blank_name_changes_nothing(set_up: SetUp) -> None:
    place = set_up(several())
    start = place.document.design
    place.strip.rename(0)
    place.strip.field.setText("   ")
    QTest.keyClick(place.strip.field, Keys.Key_Return)
    assert place.document.design is start
    assert not place.refusals


def test_looking_away_keeps_the_name_once(set_up: SetUp) -> None:
    place = set_up(several())
    place.strip.rename(0)
    place.strip.field.setText("Kept")
    place.strip.tabs.setFocus()
    assert place.document.design.arrangements[0].name == "Kept"
    assert place.document.undo_stack.count() == 1


def test_one_is_taken_away_by_key_and_comes_back_with_undo(set_up: SetUp) -> None:
    place = set_up(several())
    place.strip.tabs.setFocus()
    QTest.keyClick(place.strip.tabs, Keys.Key_Delete)
    assert place.names == ["Number 2", "Number 3"]
    place.document.undo()
    assert place.names == ["Number 1", "Number 2", "Number 3"]
    assert place.document.design.current == 0


def test_the_only_one_stays_and_that_is_said(set_up: SetUp) -> None:
    place = set_up(rails(2, 2))
    place.strip.tabs.setFocus()
    QTest.keyClick(place.strip.tabs, Keys.Key_Delete)
    assert len(place.refusals) == 1
    removing = next(action for action in place.strip.menu(0).actions() if action.text().startswith("Remove"))
    assert not removing.isEnabled()
    assert not place.strip._buttons["compare"].isEnabled()


def test_each_tab_shows_its_own_quilt(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(several())
    painted(place, qtbot)
    pictures = [image_of(place, number) for number in range(3)]
    assert len({bytes(image.constBits()) for image in pictures}) == 3
    widths = [_cloth_columns(image) for image in pictures]
    assert widths == sorted(widths, reverse=True)  # a column of blocks less each


def _cloth_columns(image: QImage) -> int:
    """How many pixels of the middle line are painted at all."""
    line = image.height() // 2
    return sum(1 for x in range(image.width()) if image.pixelColor(x, line).alpha() > 0)


def test_a_picture_follows_once_the_edits_have_settled(set_up: SetUp, qtbot: QtBot) -> None:
    place = set_up(several(2))
    painted(place, qtbot)
    before, count = image_of(place, 0), place.strip.pictures.painted
    for column in range(5):
        place.document.perform(call("turn-blocks", cells=(Cell(column, 0),), by=90))
        assert image_of(place, 0) == before  # what was there stays until the new one is
    painted(place, qtbot)
    assert image_of(place, 0) != before
    assert place.strip.pictures.painted == count + 1  # five edits, one picture, and none of the other tab
    for _ in range(5):
        place.document.undo()
    assert image_of(place, 0) == before  # it was kept
    assert place.strip.pictures.painted == count + 1


def test_painting_waits_until_edits_have_settled(qtbot: QtBot, qapp: QApplication) -> None:
    pictures = QuiltPictures(settled=3_600_000)
    pictures.picture("one", rails(3, 4), QSize(54, 54), LIGHT, 1.0)
    for _ in range(50):
        qapp.processEvents()
    assert pictures.painted == 0
    pictures._waiting.timeout.emit()  # the hour is over
    qtbot.waitUntil(lambda: pictures.is_idle)
    assert pictures.painted == 1
    strip = ArrangementStrip(Document(rails(2, 2)), Look(LoadedPreferences(Preferences())))
    qtbot.addWidget(strip)
    assert strip.pictures._waiting.interval() == SETTLED


def test_a_newer_wish_replaces_one_that_is_being_painted(qtbot: QtBot, qapp: object) -> None:
    pictures = QuiltPictures(settled=0)
    arrived: list[object] = []
    pictures.arrived.connect(arrived.append)
    size = QSize(54, 54)
    for design in (rails(8, 8), rails(9, 9), rails(3, 4)):
        assert pictures.picture("one", design, size, LIGHT, 1.0) is None
    qtbot.waitUntil(lambda: pictures.is_idle)
    assert pictures.painted == 1
    assert arrived == ["one"]
    found = pictures.picture("one", rails(3, 4), size, LIGHT, 1.0)
    assert isinstance(found, QPixmap)


def test_pictures_are_sharp_and_of_their_theme(qtbot: QtBot, qapp: object) -> None:
    pictures = QuiltPictures(settled=0)
    wishes = {(theme.name, ratio): (theme, ratio) for theme in (LIGHT, DARK) for ratio in (1.0, 2.0)}
    for slot, (theme, ratio) in wishes.items():
        pictures.picture(slot, empty(), QSize(60, 60), theme, ratio)
    qtbot.waitUntil(lambda: pictures.is_idle)
    for slot, (theme, ratio) in wishes.items():
        found = pictures.picture(slot, empty(), QSize(60, 60), theme, ratio)
        assert found is not None
        assert found.deviceIndependentSize().toSize() == QSize(60, 60)
        assert found.size() == QSize(60, 60) * ratio
        middle = found.toImage().pixelColor(found.width() // 2, found.height() // 2)
        assert middle in (QColor(theme.flannel), QColor(theme.flannel_line))


def test_an_empty_wall_and_a_block_that_can_not_be_made_have_pictures_too(qtbot: QtBot, qapp: object) -> None:
    pictures = QuiltPictures(settled=0)
    for slot, design in enumerate((empty(), unmade())):
        pictures.picture(slot, design, QSize(54, 54), LIGHT, 1.0)
    qtbot.waitUntil(lambda: pictures.is_idle)
    assert pictures.painted == 2


def test_tabs_have_names_and_keys_for_a_screen_reader(set_up: SetUp) -> None:
    place = set_up(several())
    tree = QAccessible.queryAccessibleInterface(place.strip.tabs)
    names = [tree.child(number).text(QAccessible.Text.Name) for number in range(tree.childCount())]
    for name in ("Number 1", "Number 2", "Number 3"):
        assert name in names
    assert "F2" in place.strip.tabs.tabToolTip(0)
    for button in place.strip._buttons.values():
        assert button.accessibleName()
        assert button.toolTip()
        assert min(button.width(), button.height()) >= 24


@pytest.mark.parametrize("percent", [100, 200])
def test_many_long_names_neither_widen_the_window_nor_hide_the_buttons(set_up: SetUp, percent: int) -> None:
    design = several()
    quilts = tuple(
        design.quilt.changed(name=f"{number} of a long row of trials with wide borders in many colors")
        for number in range(12)
    )
    place = set_up(design.changed(arrangements=quilts), text_percent=percent)
    assert place.strip.minimumSizeHint().width() < 500
    right = place.strip.rect().right()
    for button in place.strip._buttons.values():
        assert button.geometry().right() <= right
    place.strip.rename(0)
    assert place.strip.rect().contains(place.strip.field.geometry())


def test_the_strip_wears_the_theme(set_up: SetUp) -> None:
    place = set_up(several(), theme="light")
    light = place.strip.grab().toImage().pixelColor(880, 4)
    place.look.prefer(theme="dark")
    assert place.strip.grab().toImage().pixelColor(880, 4) != light

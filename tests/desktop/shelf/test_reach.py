"""Everything on the shelf can be reached, heard, hit and read: names, keys, sizes, large text."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSpinBox,
    QTabBar,
    QWidget,
)

from piecewright_qt.shelf.fabric_chooser import FabricChooser
from tests.desktop.shelf.conftest import Place, SetUp
from tests.desktop.shelf.designs import full_design, small_design
from tests.desktop.shelf.hands import Key, press

LEAST = 24  # device-independent pixels of a target (WCAG 2.2, 2.5.8)
CONTROLS = (QAbstractButton, QAbstractItemView, QComboBox, QLineEdit, QSpinBox, QTabBar)


def screens(place: Place) -> Iterator[tuple[str, QWidget]]:
    """Every place of the shelf, opened one after the other."""
    shelf = place.shelf
    yield "blocks", shelf
    shelf.blocks.add_one()
    editor = shelf.blocks.editor
    assert editor is not None
    yield "block editor", editor
    editor.reject()
    shelf.show_fabrics()
    yield "fabrics", shelf
    shelf.fabrics.list.choose(shelf.fabrics.model.index(3, 0))
    shelf.fabrics.replace()
    chooser = shelf.fabrics.findChild(FabricChooser)
    assert chooser is not None
    yield "chooser", chooser
    chooser.reject()
    shelf.fabrics.edit()
    yield "fabric editor", shelf


def controls(screen: QWidget) -> Iterator[QWidget]:
    """What is seen there and can be used."""
    for widget in screen.findChildren(QWidget):
        inner = isinstance(widget.parent(), QComboBox | QSpinBox)
        if (
            isinstance(widget, CONTROLS)
            and widget.isVisible()
            and not inner
            and widget.objectName() != "qt_toolbar"
        ):
            yield widget


def test_every_control_has_a_name_to_hear(set_up: SetUp) -> None:
    for where, screen in screens(set_up(small_design())):
        QApplication.processEvents()
        for control in controls(screen):
            told = QAccessible.queryAccessibleInterface(control)
            assert told.text(QAccessible.Text.Name).strip(), f"{where}: {control!r}"


def test_every_control_has_a_tooltip_or_says_what_it_is(set_up: SetUp) -> None:
    for where, screen in screens(set_up(small_design())):
        for control in controls(screen):
            if not isinstance(control, QAbstractItemView | QTabBar):
                assert control.toolTip() or control.accessibleName() or control.property("text"), (
                    where,
                    control,
                )


def test_every_control_is_large_enough_to_hit(set_up: SetUp) -> None:
    for where, screen in screens(set_up(small_design())):
        QApplication.processEvents()
        for control in controls(screen):
            if control.parent() and isinstance(control.parent(), QLineEdit):
                continue  # the signs inside a field; the field takes the press
            assert control.height() >= LEAST, f"{where}: {control!r} {control.size()}"
            assert control.width() >= LEAST or control.text() == "", f"{where}: {control!r} {control.size()}"  # type: ignore[attr-defined]


def test_tab_reaches_every_control(set_up: SetUp) -> None:
    place = set_up(small_design())
    for where, screen in screens(place):
        QApplication.processEvents()
        reached: set[QWidget] = set()
        screen.activateWindow()
        QApplication.processEvents()
        focus: QWidget | None = screen
        for _ in range(60):
            assert focus is not None
            press(focus, Key.Key_Tab)
            focus = QApplication.focusWidget()
            if focus is None or focus in reached:
                break
            reached.add(focus)
        wanted = {
            control
            for control in controls(screen)
            if control.isEnabled() and control.focusPolicy() & Qt.FocusPolicy.TabFocus
        }
        assert wanted <= reached, f"{where}: {[w.accessibleName() or w for w in wanted - reached]}"


def test_every_card_can_be_heard(set_up: SetUp) -> None:
    place = set_up(small_design())
    told = QAccessible.queryAccessibleInterface(place.shelf.blocks.list)
    heard = [told.child(n).text(QAccessible.Text.Name) for n in range(told.childCount())]
    assert heard == [
        "Halves, 6 x 12 in finished, not on the wall yet",
        "Windows, layer 1 of 5, 8 x 8 in finished, not on the wall yet",
        "Rails, 6 x 6 in finished, not on the wall yet",
    ]


@pytest.mark.parametrize("percent", [100, 150, 200])
@pytest.mark.parametrize("theme", ["light", "dark"])
def test_no_text_is_cut_off(set_up: SetUp, percent: int, theme: str) -> None:
    place = set_up(full_design(6, 3), text_percent=percent, theme=theme)
    place.shelf.resize(264 if percent == 100 else 320, 900)
    for where, screen in screens(place):
        for _ in range(3):
            QApplication.processEvents()
        for button in screen.findChildren(QPushButton):
            if button.isVisible():
                assert button.width() >= button.fontMetrics().horizontalAdvance(button.text()), (
                    where,
                    button.text(),
                )
        for label in screen.findChildren(QLabel):
            if label.isVisible() and label.wordWrap():
                assert label.height() >= label.heightForWidth(label.width()) - 1, (where, label.text())
        for area in screen.findChildren(QScrollArea):
            body = area.widget()
            if area.isVisible() and body is not None:
                assert body.width() <= area.viewport().width(), where

"""Mouse and keys, as a test says them."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QWidget

Button = Qt.MouseButton.LeftButton
Key = Qt.Key
_NONE = Qt.KeyboardModifier.NoModifier


def press(widget: QWidget, key: Key, held: Qt.KeyboardModifier = _NONE) -> None:
    """Press and release a key."""
    QTest.keyClick(widget, key, held)


def type_in(widget: QWidget, text: str) -> None:
    """Type a text, key by key."""
    QTest.keyClicks(widget, text)


def retype(line: QLineEdit | None, text: str) -> None:
    """Type over all that stands in a field."""
    assert line is not None
    line.setFocus()
    line.selectAll()
    press(line, Key.Key_Delete)
    type_in(line, text)


def click(widget: QWidget, at: QPoint | None = None) -> None:
    """Click on a widget, in its middle or at a point."""
    QTest.mouseClick(widget, Button, _NONE, widget.rect().center() if at is None else at)


def double_click(widget: QWidget, at: QPoint) -> None:
    """Double-click at a point."""
    QTest.mouseDClick(widget, Button, _NONE, at)


def drag(widget: QWidget, start: QPoint, by: QPoint) -> None:
    """Press, move far enough for a drag, release."""
    QTest.mousePress(widget, Button, _NONE, start)
    for step in range(1, 6):
        QTest.mouseMove(widget, start + by * (step / 5))
    QTest.mouseRelease(widget, Button, _NONE, start + by)

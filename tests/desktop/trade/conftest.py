"""Hands for fields of the drawers."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

from piecewright_qt.drawer import ChoiceField
from piecewright_qt.shelf.fields import LengthField

Typing = Callable[[QWidget, str], None]
Choosing = Callable[[QWidget, str], None]


@pytest.fixture
def type_into() -> Typing:
    """Types a length in the place of what its field shows."""

    def typed(field: QWidget, text: str) -> None:
        assert isinstance(field, LengthField)
        line = field.box.lineEdit()
        assert line is not None
        line.setFocus()
        line.selectAll()
        QTest.keyClicks(line, text)

    return typed


@pytest.fixture
def choose() -> Choosing:
    """Goes through the choices of a field by the keys until one reads so."""

    def chosen(field: QWidget, text: str) -> None:
        assert isinstance(field, ChoiceField)
        place = field.box.findText(text)
        assert place >= 0, [field.box.itemText(n) for n in range(field.box.count())]
        field.box.setFocus()
        QTest.keyClick(field.box, Qt.Key.Key_Home)
        for _ in range(place):
            QTest.keyClick(field.box, Qt.Key.Key_Down)
        assert field.box.currentText() == text

    return chosen

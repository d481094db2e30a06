"""A program of its own for each journey: folders of its own for state and preferences, and its windows closed after."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QMessageBox
from pytestqt.qtbot import QtBot

from piecewright_qt.app import make_application
from piecewright_qt.window import Window
from piecewright_qt.workroom import Workroom


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing of the user's own is read or written."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))


@pytest.fixture(scope="session")
def qapp() -> object:
    """The program's own application, dressed as it starts."""
    return make_application()


@pytest.fixture
def workroom(qtbot: QtBot, own_folders: None) -> Iterator[Workroom]:
    """The program as started, without a window yet."""
    room = Workroom()
    yield room
    for window in tuple(room.windows):
        if isinstance(window, Window):
            window.document.undo_stack.setClean()
        window.close()


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Answers to the boxes that ask, by the words of the button; what each box said is noted behind."""
    given: list[str] = []

    def answer(box: QMessageBox) -> int:
        wanted = given.pop(0)
        for button in box.buttons():
            if button.text().replace("&", "").startswith(wanted):
                button.click()
                return int(box.standardButton(button).value)
        raise AssertionError(f"no button {wanted!r} in {[button.text() for button in box.buttons()]}")

    monkeypatch.setattr(QMessageBox, "exec", answer)
    return given

"""A program of its own for each journey: folders of its own for state and preferences, and its windows closed after."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox
from pytestqt.qtbot import QtBot

from piecewright_qt.app import make_application
from piecewright_qt.workroom import Workroom


@pytest.fixture(autouse=True)
def own_folders(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Nothing of the user's own is read or written."""
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "config"))
    monkeypatch.setenv("HOME", str(tmp_path))
    return tmp_path


@pytest.fixture(scope="session")
def qapp() -> QApplication:
    """The program's own application, dressed as it starts."""
    return make_application()


@pytest.fixture
def workroom(qtbot: QtBot, own_folders: Path) -> Iterator[Workroom]:
    """The program as started, without a window yet."""
    room = Workroom()
    yield room
    for window in tuple(room.windows):
        if window.is_filled:
            window.document.undo_stack.setClean()
        window.close()
    if room.start_page is not None:
        room.start_page.close()
        room.start_page.deleteLater()
    room.runner.stop()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)


@pytest.fixture
def answers(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """Answers to the boxes that ask, by the first words of a button; every answer must be asked for."""
    given: list[str] = []

    def answer(box: QMessageBox) -> int:
        wanted = given.pop(0)
        for button in box.buttons():
            if button.text().replace("&", "").startswith(wanted):
                button.click()
                return 0
        raise AssertionError(f"no button {wanted!r} in {[button.text() for button in box.buttons()]}")

    monkeypatch.setattr(QMessageBox, "exec", answer)
    yield given
    assert not given, "questions that were not asked"


@pytest.fixture
def chosen(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[Path | None]]:
    """The files chosen in the dialogs that ask for one, in order; None gives the dialog up."""
    given: list[Path | None] = []

    def choose(dialog: QFileDialog) -> int:
        path = given.pop(0)
        if path is None:
            return 0
        dialog.selectFile(str(path))
        return 1

    monkeypatch.setattr(QFileDialog, "exec", choose)
    yield given
    assert not given, "files that were not asked for"

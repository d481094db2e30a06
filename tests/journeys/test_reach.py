"""Everything in the window can be reached: each action by words and keys, each control by name, on screen or by ear."""

import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialog, QMenu
from pytestqt.qtbot import QtBot

from piecewright_qt.actions.table import ACTIONS
from piecewright_qt.samples import sample_files
from piecewright_qt.workroom import Workroom
from tests.journeys.user import new_design, opened

ROOT = Path(__file__).resolve().parents[2]
ASKING = {"open", "save", "save-as", "picture", "open-recipe", "save-recipe", "close", "quit", "new", "start"}
"""Actions that ask for a file or open and close windows: journeys of their own."""


def test_no_two_actions_share_a_key() -> None:
    keys = [QKeySequence(one).toString() for row in ACTIONS for one in row.keys]
    assert len(keys) == len(set(keys))
    assert all(row.text for row in ACTIONS)


@pytest.mark.parametrize("name", [row.name for row in ACTIONS if row.name not in ASKING])
def test_every_action_runs_on_a_quilt_with_a_block_selected(
    workroom: Workroom, qtbot: QtBot, name: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(QDialog, "exec", lambda dialog: dialog.close() and 0)
    monkeypatch.setattr(QMenu, "exec", lambda *_: None)
    user = new_design(workroom, qtbot)
    assert user.drop_block("Rail fence of four", 2, 2)
    user.click(2, 2)
    if name == "redo":
        user.window.document.undo()
    action = user.window.actions_by_name[name]
    assert action.text()
    if action.isEnabled():
        action.trigger()
    else:
        assert name in {"paste", "compare"}, f"{name} can not be used where it should be"


def test_a_theme_and_a_text_size_last_to_the_next_start(workroom: Workroom, qtbot: QtBot) -> None:
    user = opened(workroom, qtbot, sample_files()[0])
    before = user.window.look.theme.name
    user.action("theme").trigger()
    user.action("larger-text").trigger()
    after = Workroom()
    assert after.look.theme.name != before
    assert after.look.preferences.text_percent > 100
    after.runner.stop()


FIRST = """
import sys
from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
from piecewright_qt import app
class Watcher(QObject):
    def eventFilter(self, watched, event):
        if event.type() == QEvent.Type.Paint and isinstance(watched, QMainWindow):
            print(sorted({"numpy", "shapely", "coloraide", "highspy"} & set(sys.modules)), flush=True)
            QApplication.instance().removeEventFilter(self)
            QTimer.singleShot(0, QApplication.instance().quit)
        return False
watcher = Watcher()
app.make_application().installEventFilter(watcher)
"""


def test_the_engines_libraries_are_read_in_after_the_first_paint(own_folders: Path) -> None:
    source = f"{FIRST}\nfrom pathlib import Path\napp.start(Path({str(sample_files()[0])!r}))"
    done = subprocess.run(
        [sys.executable, "-c", source], cwd=ROOT, capture_output=True, text=True, check=True, timeout=60
    )
    assert done.stdout.strip() == "[]"


@pytest.mark.x11
def test_a_screen_reader_finds_every_control_and_block_by_name() -> None:
    told = subprocess.run(
        ["dbus-run-session", "--", sys.executable, "-m", "tests.journeys.screen_reader"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
        timeout=120,
    ).stdout.splitlines()
    lines = [line.split("\t") for line in told if line.count("\t") == 2]
    used = {
        "push button",
        "text",
        "slider",
        "combo box",
        "spin box",
        "menu item",
        "page tab",
        "list item",
        "check box",
    }
    assert [line for line in lines if line[1] in used and not line[2]] == []
    names = {name for _, _, name in lines}
    assert {"Undo", "Resize the quilt", "Columns", "Search the blocks", "Add a block"} <= names
    placed = [name for _, role, name in lines if role == "list item" and ", column " in name]
    assert len(placed) == 36
    assert any("turned 90" in name for name in placed)

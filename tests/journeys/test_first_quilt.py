"""A first quilt from start to file, by mouse and keys through the real window; and what happens when it goes wrong."""

import os
import signal
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QPushButton
from pytestqt.qtbot import QtBot

from piecewright.files.design_file import load_design
from piecewright.files.folders import journal_folder
from piecewright.files.recovery import find_left_journals
from piecewright.model.design import Design
from piecewright_qt.samples import sample_files
from piecewright_qt.start_page import StartPage
from piecewright_qt.wall.mime import block_mime, fabric_mime
from piecewright_qt.window import Window
from piecewright_qt.workroom import Workroom
from tests.desktop.wall.hands import at, click, drag, drop

CTRL, SHIFT, NONE = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.NoModifier,
)


def new_window(workroom: Workroom, qtbot: QtBot) -> Window:
    """What pressing "New design" on the start page opens."""
    workroom.show_start()
    start = next(page for page in (workroom.start_page,) if isinstance(page, StartPage))
    button = next(one for one in start.findChildren(QPushButton) if one.text() == "New design")
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    return window_of(workroom, qtbot)


def window_of(workroom: Workroom, qtbot: QtBot) -> Window:
    """The window opened last, shown and settled."""
    window = workroom.windows[-1]
    assert isinstance(window, Window)
    window.resize(1480, 920)
    qtbot.waitExposed(window)
    window.wall.fit()
    return window


def key(window: Window, pressed: Qt.Key, keys: Qt.KeyboardModifier = NONE) -> None:
    """A key on the wall."""
    window.wall.setFocus()
    QTest.keyClick(window.wall, pressed, keys)


def trigger(window: Window, name: str) -> None:
    """An action by its name, as its menu runs it."""
    action = window.actions_by_name[name]
    assert action.isEnabled(), name
    action.trigger()


def block(design: Design, name: str) -> str:
    """A block of the shelf by name."""
    return next(one.id for one in design.blocks if one.name == name)


def placed(design: Design) -> int:
    """How many blocks hang."""
    return sum(len(row.placements) for row in design.quilt.rows)


def tried_out(window: Window) -> int | None:
    """How many blocks the materials count in what is only tried out; None where nothing is."""
    return window.replan.shown.block_count if window.replan.is_preview else None


def drop_ten(window: Window) -> None:
    """Ten blocks of eight inches, two rows of five."""
    rail = block(window.document.design, "Rail fence of four")
    for number in range(10):
        spot = at(window.wall, (number % 5) * 4 + 2, (number // 5) * 4 + 2)
        assert drop(window.wall, block_mime(rail), spot)


def test_a_first_quilt_from_start_to_file_and_back(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    window = new_window(workroom, qtbot)
    first = window.document.design
    assert placed(first) == 0

    drop_ten(window)
    assert placed(window.document.design) == 10
    assert window.replan.standing.block_count == 10
    assert window.replan.standing.set_count > 0

    click(window.wall, at(window.wall, 2, 2))
    trigger(window, "turn")
    assert window.document.design.quilt.by_row[0].placements[0].turn == 90

    fabric = window.document.design.fabrics[4].id
    before = window.document.design
    click(window.wall, at(window.wall, -3, -3))
    assert drop(window.wall, fabric_mime(fabric), at(window.wall, 6, 1))
    assert window.document.design != before
    assert window.replan.changes

    drag(window.wall, at(window.wall, -0.5, -0.5), at(window.wall, 21, 4.2))
    assert len(window.wall.selection.cells) >= 5

    count = placed(window.document.design)
    trigger(window, "copy")
    trigger(window, "paste")
    assert placed(window.document.design) >= count

    window.show_resize()
    window.materials.resizer.columns.setValue(28)
    assert window.document.shown.quilt.lattice.columns == 28
    assert window.document.design.quilt.lattice.columns == 24
    window.materials.resizer.apply()
    assert window.document.design.quilt.lattice.columns == 28

    last = window.document.design
    steps = window.document.undo_stack.count()
    for _ in range(steps):
        trigger(window, "undo")
    assert window.document.design == first
    assert not window.actions_by_name["undo"].isEnabled()
    for _ in range(steps):
        trigger(window, "redo")
    assert window.document.design == last

    path = tmp_path / "first.piecewright"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_kw: (str(path), ""))
    trigger(window, "save")
    assert not window.document.is_changed
    assert load_design(path).design == last
    window.close()
    assert workroom.open(path)
    assert window_of(workroom, qtbot).document.design == last


def test_the_keyboard_alone_hangs_turns_and_moves_a_block(workroom: Workroom, qtbot: QtBot) -> None:
    window = new_window(workroom, qtbot)
    window.wall.take_in_hand(block(window.document.design, "Rail fence of three"))
    for _ in range(3):
        key(window, Qt.Key.Key_Right)
    key(window, Qt.Key.Key_Return)
    assert placed(window.document.design) == 1
    where = window.document.design.quilt.rows[0].placements[0]
    assert where.block == block(window.document.design, "Rail fence of three")


def test_materials_follow_the_drag_before_the_drop_and_forget_it_when_it_leaves(
    workroom: Workroom, qtbot: QtBot
) -> None:
    from tests.desktop.wall.hands import drag_away, drag_in, drag_over

    window = new_window(workroom, qtbot)
    data = block_mime(block(window.document.design, "Middle end for end"))
    spot = at(window.wall, 6, 6)
    assert drag_in(window.wall, data, spot)
    drag_over(window.wall, data, spot)
    assert tried_out(window) == 1
    assert window.replan.changes
    drag_away(window.wall)
    assert tried_out(window) is None
    assert placed(window.document.design) == 0


def test_closing_with_changes_asks_and_cancel_keeps_everything(
    workroom: Workroom, qtbot: QtBot, answers: list[str]
) -> None:
    window = new_window(workroom, qtbot)
    drop_ten(window)
    answers.append("Cancel")
    assert not window.close()
    assert placed(window.document.design) == 10
    answers.append("Discard")
    assert window.close()


def test_a_failed_save_is_said_and_the_design_is_kept(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, answers: list[str]
) -> None:
    window = new_window(workroom, qtbot)
    drop_ten(window)
    nowhere = tmp_path / "gone" / "away.piecewright"
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_args, **_kw: (str(nowhere), ""))
    answers.append("Go on")
    assert not window.save()
    assert not answers
    assert placed(window.document.design) == 10
    assert window.document.is_changed


def test_a_second_window_on_a_file_is_told_and_does_not_overwrite(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path
) -> None:
    path = tmp_path / "shared.piecewright"
    path.write_bytes(sample_files()[0].read_bytes())
    assert workroom.open(path)
    assert workroom.open(path)
    second = window_of(workroom, qtbot)
    assert second.keeping.held_by is not None
    assert second.notice.isVisible()


def test_a_sample_opens_as_a_design_of_its_own(workroom: Workroom, qtbot: QtBot) -> None:
    folder = sample_files()[0].parent
    before = sorted(folder.iterdir())
    assert workroom.open(sample_files()[0])
    window = window_of(workroom, qtbot)
    assert window.keeping.path is None
    assert sorted(folder.iterdir()) == before


KILLED = """
import sys
from pathlib import Path
from piecewright_qt.app import make_application
from piecewright_qt.workroom import Workroom
from piecewright.edit.registry import Cell, call
app = make_application()
room = Workroom()
room.new_design()
window = room.windows[-1]
design = window.document.design
rail = next(one.id for one in design.blocks if one.name == "Rail fence of four")
for number in range(7):
    window.document.perform(call("place-block", block=rail, cell=Cell(number % 6 * 4, number // 6 * 4)))
window.document.undo()
print("ready", flush=True)
app.exec()
"""


def test_what_a_kill_took_is_offered_back_with_a_picture_and_a_choice(
    workroom: Workroom, qtbot: QtBot
) -> None:
    command = [sys.executable, "-c", KILLED]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env={**os.environ}) as child:
        assert child.stdout is not None
        assert "ready" in child.stdout.readline()
        os.kill(child.pid, signal.SIGKILL)
    assert workroom.has_something_left()
    workroom.show_start()
    start = workroom.start_page
    assert start is not None
    back = next(one for one in start.findChildren(QPushButton) if one.text() == "Take it back")
    QTest.mouseClick(back, Qt.MouseButton.LeftButton)
    window = window_of(workroom, qtbot)
    assert placed(window.document.design) == 6
    assert window.document.is_changed
    assert len(find_left_journals(journal_folder()).journals) == 0

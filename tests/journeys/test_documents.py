"""What becomes of a design when things go wrong: closed unsaved, no room, opened twice, changed outside, killed."""

import json
import os
import signal
import subprocess
import sys
from pathlib import Path

from pytestqt.qtbot import QtBot

from piecewright.files.design_file import load_design, save_design
from piecewright.files.folders import journal_folder
from piecewright.files.recovery import find_left_journals
from piecewright_qt.samples import sample_files
from piecewright_qt.workroom import Workroom
from tests.journeys.user import User, button, new_design, opened, start_page_of


def copied(folder: Path) -> Path:
    """A design of the quilter's own."""
    path = folder / "mine.piecewright"
    path.write_bytes(sample_files()[-1].read_bytes())
    return path


def test_closing_with_changes_asks_and_cancel_keeps_everything(
    workroom: Workroom, qtbot: QtBot, answers: list[str]
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    answers.append("Cancel")
    assert not user.window.close()
    assert user.count == 10
    answers.append("Discard")
    assert user.window.close()
    assert not find_left_journals(journal_folder()).journals


def test_closing_can_save_first(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, answers: list[str], chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    design = user.design
    answers.append("Save")
    chosen.append(tmp_path / "kept.piecewright")
    assert user.window.close()
    assert load_design(tmp_path / "kept.piecewright").design == design


def test_a_failed_save_is_said_and_the_design_is_kept(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, answers: list[str], chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    blocked = tmp_path / "a-file"
    blocked.write_text("not a folder")
    chosen.append(blocked / "away.piecewright")
    answers.append("Go on")
    assert not user.window.saving.save()
    assert user.count == 10
    assert user.window.document.is_changed


def test_a_failed_save_can_go_elsewhere(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, answers: list[str], chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    user.drop_ten()
    blocked = tmp_path / "a-file"
    blocked.write_text("not a folder")
    chosen += [blocked / "away.piecewright", tmp_path / "here.piecewright"]
    answers.append("Save a copy elsewhere")
    user.window.saving.save()
    assert load_design(tmp_path / "here.piecewright").design == user.design
    assert not user.window.document.is_changed


def test_a_second_window_on_a_file_is_told_and_overwrites_nothing(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, chosen: list[Path | None]
) -> None:
    path = copied(tmp_path)
    holder = subprocess.Popen(
        [sys.executable, "-c", HOLDING, str(path)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    with holder:
        assert holder.stdout is not None
        assert "held" in holder.stdout.readline()
        before = path.read_bytes()
        user = opened(workroom, qtbot, path)
        assert user.window.keeping.held_by is not None
        assert user.window.notice.isVisible()
        user.window.document.undo_stack.resetClean()
        chosen.append(None)
        user.keys("save")
        assert path.read_bytes() == before
        holder.kill()


HOLDING = """
import sys
from pathlib import Path
from piecewright.files.lock import take_lock
lock = take_lock(Path(sys.argv[1]))
print("held", flush=True)
sys.stdin.read()
"""


def test_a_file_changed_by_another_program_is_not_overwritten_silently(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, answers: list[str]
) -> None:
    path = copied(tmp_path)
    user = opened(workroom, qtbot, path)
    other = user.design.changed(name="Changed elsewhere")
    save_design(path, other)
    user.window.document.undo_stack.resetClean()
    answers.append("Cancel")
    assert not user.window.saving.save()
    assert load_design(path).design == other


def test_a_newer_file_is_left_as_it_is(workroom: Workroom, qtbot: QtBot, tmp_path: Path) -> None:
    path = tmp_path / "newer.json"
    plain = json.loads(to_text(sample_files()[-1]))
    path.write_text(json.dumps({**plain, "piecewright": plain["piecewright"] + 1}))
    before = path.read_bytes()
    user = opened(workroom, qtbot, path)
    assert user.window.keeping.read_only
    assert user.window.notice.isVisible()
    assert path.read_bytes() == before


def to_text(path: Path) -> str:
    """The JSON in a design file."""
    from piecewright.model.codec import to_json

    return to_json(load_design(path).design).decode()


KILLED = """
from piecewright_qt.app import make_application
from piecewright_qt.workroom import Workroom
from piecewright.edit.registry import Cell, call
app = make_application()
room = Workroom()
room.new_design()
window = room.windows[-1]
while not window.is_filled:
    app.processEvents()
rail = next(one.id for one in window.document.design.blocks if one.name == "Rail fence of four")
for number in range(7):
    window.document.perform(call("place-block", block=rail, cell=Cell(number % 6 * 4, number // 6 * 4)))
window.document.undo()
print("ready", flush=True)
app.exec()
"""


def test_what_a_kill_took_is_offered_back_with_a_picture_and_a_choice(
    workroom: Workroom, qtbot: QtBot
) -> None:
    with subprocess.Popen(
        [sys.executable, "-c", KILLED], stdout=subprocess.PIPE, text=True, env={**os.environ}
    ) as child:
        assert child.stdout is not None
        assert "ready" in child.stdout.readline()
        os.kill(child.pid, signal.SIGKILL)
    page = start_page_of(workroom, qtbot)
    qtbot.waitUntil(lambda: bool(page.left.cards), timeout=20_000)
    button(page, "Take it back").click()
    user = User(workroom.windows[-1], qtbot)
    assert user.count == 6
    assert user.window.document.is_changed
    assert not find_left_journals(journal_folder()).journals

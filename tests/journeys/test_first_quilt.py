"""A first quilt from start to file and back, by the mouse and keys through the real window."""

from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from piecewright.files.design_file import load_design
from piecewright_qt.samples import sample_files
from piecewright_qt.wall.mime import block_mime
from piecewright_qt.workroom import Workroom
from tests.desktop.wall.hands import drag_away, drag_in, drag_over, placed
from tests.journeys.user import CTRL, SHIFT, User, new_design, opened


def hang_and_change(user: User) -> None:
    """Ten blocks hung, one turned, one recolored, some repeated, some moved; the quilt made wider."""
    user.drop_ten()
    user.click(2, 2)
    user.key(Qt.Key.Key_R)
    assert placed(user.design)[0, 0].turn == 90

    before = user.design
    user.key(Qt.Key.Key_Escape)
    assert user.drop_fabric(4, 6, 1)
    assert placed(user.design)[4, 0].fabrics
    assert placed(user.design)[8, 0] == placed(before)[8, 0]

    user.band((-0.8, -0.8), (7.5, 7.5))
    assert len(user.window.wall.selection.cells) == 4
    user.key(Qt.Key.Key_C, CTRL)
    user.click(10, 14)
    user.key(Qt.Key.Key_V, CTRL)
    assert user.count > 10

    user.key(Qt.Key.Key_R, CTRL)
    resizer = user.window.materials.resizer
    assert resizer.isVisible()
    for _ in range(4):
        user.key(Qt.Key.Key_Right, on=resizer.columns.slider)
    assert user.window.document.shown.quilt.lattice.columns == 28
    assert user.design.quilt.lattice.columns == 24
    resizer.apply()
    assert user.design.quilt.lattice.columns == 28


def test_from_start_to_file_and_back(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, chosen: list[Path | None]
) -> None:
    user = new_design(workroom, qtbot)
    first = user.design
    assert user.count == 0
    hang_and_change(user)
    assert user.window.replan.standing.block_count == user.count
    assert user.window.isWindowModified()

    last, stack = user.design, user.window.document.undo_stack
    steps = stack.count()
    assert steps == 14  # ten drops, a turn, a fabric, a paste, a size: one gesture, one step
    for _ in range(steps):
        user.key(Qt.Key.Key_Z, CTRL)
    assert user.design == first
    assert not user.window.actions_by_name["undo"].isEnabled()
    for _ in range(steps):
        user.key(Qt.Key.Key_Z, CTRL | SHIFT)
    assert user.design == last
    assert not user.window.actions_by_name["redo"].isEnabled()

    path = tmp_path / "first.piecewright"
    chosen.append(path.with_suffix(""))
    user.key(Qt.Key.Key_S, CTRL)
    assert not user.window.document.is_changed
    assert not user.window.isWindowModified()
    assert load_design(path).design == last
    user.window.close()
    assert opened(workroom, qtbot, path).design == last


def test_the_keyboard_alone_hangs_turns_moves_and_repeats(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    blocks = user.window.shelf.blocks
    user.window.show_shelf("blocks")
    assert QApplication.focusWidget() is blocks.list
    user.key(Qt.Key.Key_Return, on=blocks.list)
    for _ in range(3):
        user.key(Qt.Key.Key_Right)
    user.key(Qt.Key.Key_Return)
    assert user.count == 1
    user.key(Qt.Key.Key_Escape)
    user.key(Qt.Key.Key_A, CTRL)
    (where,) = placed(user.design)
    user.key(Qt.Key.Key_R)
    assert placed(user.design)[where].turn == 90
    user.key(Qt.Key.Key_Down, CTRL)
    (moved,) = placed(user.design)
    assert moved[1] > where[1]
    user.keys("repeat-everywhere")
    assert user.count > 1


def test_materials_follow_the_drag_before_the_drop_and_forget_it_when_it_leaves(
    workroom: Workroom, qtbot: QtBot
) -> None:
    user = new_design(workroom, qtbot)
    wall = user.window.wall
    data, spot = block_mime(user.block("Middle end for end")), user.cell(6, 6)
    assert drag_in(wall, data, spot)
    drag_over(wall, data, spot)
    tried = [user.tried_out]
    drag_away(wall)
    assert [*tried, user.tried_out] == [1, None]
    assert user.window.replan.shown.block_count == 0
    assert user.count == 0


def test_a_refused_drop_says_why_in_the_line_below(workroom: Workroom, qtbot: QtBot) -> None:
    user = new_design(workroom, qtbot)
    assert user.drop_block("Rail fence of four", 2, 2)
    before = user.design
    user.drop_block("Middle end for end", 200, 200)
    assert user.design == before
    assert user.window.status_text


def test_a_sample_opens_as_a_design_of_its_own_and_is_never_written(
    workroom: Workroom, qtbot: QtBot, tmp_path: Path, chosen: list[Path | None]
) -> None:
    sample = sample_files()[0]
    before = sample.read_bytes()
    user = opened(workroom, qtbot, sample)
    assert user.window.keeping.path is None
    user.key(Qt.Key.Key_A, CTRL)
    user.key(Qt.Key.Key_R)
    chosen.append(tmp_path / "mine.piecewright")
    user.key(Qt.Key.Key_S, CTRL)
    assert load_design(tmp_path / "mine.piecewright").design == user.design
    assert sample.read_bytes() == before
    assert not any(place.name.endswith(".lock") for place in sample.parent.iterdir())

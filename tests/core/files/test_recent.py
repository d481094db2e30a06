"""Recent designs: order, pictures, and a list that can not be read."""

import os
from pathlib import Path

import pytest

from piecewright.errors import FileError
from piecewright.files.folders import config_folder, journal_folder, state_folder
from piecewright.files.limits import RECENT_COUNT, RECENT_PICTURE_BYTES
from piecewright.files.recent import RECENT_FILE, forget_design, recent_designs, remember_design
from tests.core.files.sample_design import picture


def test_the_latest_stands_first_and_once(tmp_path: Path) -> None:
    for name in ("a", "b", "c", "a"):
        remember_design(tmp_path, tmp_path / name, name.upper(), picture())
    kept = recent_designs(tmp_path)
    assert [(one.path, one.name) for one in kept] == [(tmp_path / name, name.upper()) for name in "acb"]
    assert all(one.picture == picture() for one in kept)
    assert kept[0].opened >= kept[2].opened


def test_only_so_many_are_kept_and_one_can_be_forgotten(tmp_path: Path) -> None:
    for number in range(RECENT_COUNT + 3):
        remember_design(tmp_path, tmp_path / f"{number}", "x")
    kept = recent_designs(tmp_path)
    assert [one.path.name for one in kept] == [f"{number}" for number in range(RECENT_COUNT + 2, 2, -1)]
    forget_design(tmp_path, kept[0].path)
    assert recent_designs(tmp_path) == kept[1:]


def test_paths_of_any_bytes_are_kept(tmp_path: Path) -> None:
    strange = tmp_path / os.fsdecode(b"\xff\xfe % \xc3\xa4")
    remember_design(tmp_path, strange, "x")
    assert recent_designs(tmp_path)[0].path == strange


@pytest.mark.parametrize("data", [b"<svg/>", picture() + bytes(RECENT_PICTURE_BYTES)])
def test_a_picture_that_is_none_or_too_large_is_left_out(tmp_path: Path, data: bytes) -> None:
    remember_design(tmp_path, tmp_path / "a", "x", data)
    assert recent_designs(tmp_path)[0].picture == b""


def test_what_a_crash_left_beside_the_list_is_removed(tmp_path: Path) -> None:
    (tmp_path / ".piecewright-00000000000000aa.part").write_bytes(b"half")
    assert recent_designs(tmp_path) == ()
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("data", [b"", b"{", b'{"recent": [{"path": 5}]}', b"[" * 100_000, b"\xff"])
def test_a_list_that_can_not_be_read_is_empty_and_begins_anew(tmp_path: Path, data: bytes) -> None:
    (tmp_path / RECENT_FILE).write_bytes(data)
    assert recent_designs(tmp_path) == ()
    remember_design(tmp_path, tmp_path / "a", "x")
    assert len(recent_designs(tmp_path)) == 1


def test_the_folder_is_made_for_its_user_alone_and_a_refusal_is_told(tmp_path: Path) -> None:
    folder = tmp_path / "new" / "piecewright"
    remember_design(folder, tmp_path / "a", "x")
    assert folder.stat().st_mode & 0o077 == 0
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(FileError, match="Not saved"):
        remember_design(tmp_path / "file", tmp_path / "a", "x")


def test_folders_follow_the_base_directory_specification() -> None:
    """XDG Base Directory Specification 0.8: variables, defaults, and that a relative one is ignored."""
    home = {"HOME": "/home/ada"}
    assert state_folder(home) == Path("/home/ada/.local/state/piecewright")
    assert config_folder(home) == Path("/home/ada/.config/piecewright")
    stated = {**home, "XDG_STATE_HOME": "/s", "XDG_CONFIG_HOME": "relative"}
    assert journal_folder(stated) == Path("/s/piecewright/journals")
    assert config_folder(stated) == Path("/home/ada/.config/piecewright")

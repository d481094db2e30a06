"""Saving whole: what is kept, what is refused and in which words, and what a crash leaves."""

import os
import stat
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import FileError
from piecewright.files.atomic import read_file, remove_strays, write_whole
from piecewright.files.exclusive import try_exclusive

PART = ".piecewright-0123456789abcdef.part"


def code(error: pytest.ExceptionInfo[FileError]) -> str:
    return error.value.message.code


@given(st.binary(max_size=3000), st.binary(max_size=3000))
def test_the_new_bytes_replace_the_old_and_nothing_else_stays(
    tmp_path_factory: pytest.TempPathFactory, old: bytes, new: bytes
) -> None:
    folder = tmp_path_factory.mktemp("whole")
    place = folder / "quilt.piecewright"
    place.write_bytes(old)
    write_whole(place, new)
    assert place.read_bytes() == new
    assert list(folder.iterdir()) == [place]


def test_the_mode_of_a_replaced_file_is_kept(tmp_path: Path) -> None:
    place = tmp_path / "quilt"
    place.write_bytes(b"old")
    for mode in (0o600, 0o640, 0o664, 0o755):
        place.chmod(mode)
        write_whole(place, b"new")
        assert stat.S_IMODE(place.stat().st_mode) == mode


def test_a_new_file_has_the_mode_the_mask_says(tmp_path: Path) -> None:
    mask = os.umask(0o027)
    try:
        write_whole(tmp_path / "quilt", b"new")
    finally:
        os.umask(mask)
    assert stat.S_IMODE((tmp_path / "quilt").stat().st_mode) == 0o640


def test_a_link_stays_and_its_target_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "far").mkdir()
    target, link = tmp_path / "far" / "quilt", tmp_path / "link"
    target.write_bytes(b"old")
    link.symlink_to("far/quilt")
    write_whole(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"
    assert sorted(path.name for path in tmp_path.rglob("*")) == ["far", "link", "quilt"]


def test_a_link_to_nothing_makes_its_target(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to("quilt")
    write_whole(tmp_path / "link", b"new")
    assert (tmp_path / "quilt").read_bytes() == b"new"


def test_a_circle_of_links_is_told(tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to("b")
    (tmp_path / "b").symlink_to("a")
    with pytest.raises(FileError, match=r"a: Not saved. It is a link that leads back to itself.") as error:
        write_whole(tmp_path / "a", b"new")
    assert code(error) == "files.not-saved"


@pytest.mark.parametrize("kind", ["folder", "pipe"])
def test_what_is_no_file_is_neither_replaced_nor_read(tmp_path: Path, kind: str) -> None:
    place = tmp_path / "quilt"
    if kind == "folder":
        place.mkdir()
    else:
        os.mkfifo(place)
    before = place.stat()
    with pytest.raises(FileError) as error:
        write_whole(place, b"new")
    assert code(error) == "files.not-a-file"
    assert os.path.samestat(before, place.stat())
    with pytest.raises(FileError) as error:
        read_file(place, 100)
    assert code(error) in ("files.not-a-file", "files.not-read")


def test_a_file_marked_read_only_is_left_alone(tmp_path: Path) -> None:
    place = tmp_path / "quilt"
    place.write_bytes(b"old")
    place.chmod(0o444)
    with pytest.raises(FileError) as error:
        write_whole(place, b"new")
    assert code(error) == "files.marked-read-only"
    assert place.read_bytes() == b"old"


def test_a_folder_that_is_gone_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError) as error:
        write_whole(tmp_path / "gone" / "quilt", b"new")
    assert str(error.value) == (
        "quilt: Not saved. There is no such file or folder. What was on the disk before is untouched. "
        "Save a copy somewhere else, or mend this and save again."
    )


def test_a_name_too_long_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="The name is too long"):
        write_whole(tmp_path / ("q" * 300), b"new")
    assert list(tmp_path.iterdir()) == []


def test_the_longest_name_that_the_disk_takes_can_be_saved(tmp_path: Path) -> None:
    place = tmp_path / ("q" * 255)
    write_whole(place, b"new")
    assert place.read_bytes() == b"new"


def test_a_file_of_the_most_bytes_is_read_and_one_more_is_not(tmp_path: Path) -> None:
    place = tmp_path / "quilt"
    place.write_bytes(b"x" * 100)
    assert read_file(place, 100) == b"x" * 100
    with pytest.raises(FileError) as error:
        read_file(place, 99)
    assert code(error) == "files.too-large"


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    with pytest.raises(FileError, match=r"quilt: The file was not read. There is no such file or folder."):
        read_file(tmp_path / "quilt", 100)


def test_strays_go_and_all_else_stays(tmp_path: Path) -> None:
    others = [".piecewright-x.part", PART + "x", "quilt.part", ".piecewright-0123456789ABCDEF.part"]
    for name in (PART, *others):
        (tmp_path / name).write_bytes(b"half")
    assert remove_strays(tmp_path) == 1
    assert {path.name for path in tmp_path.iterdir()} == set(others)


def test_a_part_that_is_being_written_is_no_stray(tmp_path: Path) -> None:
    part = tmp_path / PART
    descriptor = os.open(part, os.O_RDWR | os.O_CREAT)
    try:
        assert try_exclusive(descriptor) == "gained"
        assert remove_strays(tmp_path) == 0
    finally:
        os.close(descriptor)
    assert remove_strays(tmp_path) == 1


def test_a_stray_that_is_a_link_or_a_folder_is_left_alone(tmp_path: Path) -> None:
    (tmp_path / "precious").write_bytes(b"kept")
    (tmp_path / PART).symlink_to("precious")
    (tmp_path / ".piecewright-00000000000000ff.part").mkdir()
    assert remove_strays(tmp_path) == 0
    assert (tmp_path / "precious").read_bytes() == b"kept"


def test_no_folder_has_no_strays(tmp_path: Path) -> None:
    assert remove_strays(tmp_path / "gone") == 0


def test_a_disk_that_gives_back_other_bytes_is_found_out(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    place = tmp_path / "quilt"
    place.write_bytes(b"old")
    real = os.write
    monkeypatch.setattr(
        os, "write", lambda descriptor, data: real(descriptor, bytes(data).replace(b"w", b"v"))
    )
    with pytest.raises(FileError) as error:
        write_whole(place, b"new")
    assert code(error) == "files.read-back-differs"
    assert place.read_bytes() == b"old"
    assert list(tmp_path.iterdir()) == [place]


def test_short_writes_are_carried_on(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    real = os.write
    monkeypatch.setattr(os, "write", lambda descriptor, data: real(descriptor, bytes(data)[:7]))
    write_whole(tmp_path / "quilt", bytes(range(100)))
    assert (tmp_path / "quilt").read_bytes() == bytes(range(100))

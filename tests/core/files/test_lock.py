"""Two windows on one file: in one process, in two, after a crash, from another computer, and by force."""

import os
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.files import lock as lock_module
from piecewright.files.exclusive import Hold
from piecewright.files.lock import Lock, lock_place, take_lock
from piecewright.files.owner import Owner, is_gone, this_owner

HOLDER = """
import sys
from pathlib import Path
from piecewright.files.lock import take_lock
print(type(take_lock(Path(sys.argv[1]))).__name__, flush=True)
sys.stdin.read()
"""


@dataclass
class Window:
    """Another process that holds a design file until it is killed."""

    process: "subprocess.Popen[str]"
    said: str


@pytest.fixture
def design(tmp_path: Path) -> Path:
    return tmp_path / "hedgerow.piecewright"


@pytest.fixture
def other(design: Path) -> Iterator[Window]:
    process = subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(design)], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    )
    assert process.stdout is not None
    with process:
        yield Window(process, process.stdout.readline().strip())
        process.kill()


def held(taken: Lock | Owner) -> Lock:
    assert isinstance(taken, Lock)
    assert taken.descriptor is not None
    return taken


def told(taken: Lock | Owner) -> Owner:
    assert isinstance(taken, Owner)
    return taken


def test_the_second_window_of_one_program_is_told_who_has_it(design: Path) -> None:
    first = held(take_lock(design))
    owner = told(take_lock(design))
    assert (owner.pid, owner.host, owner.boot) == (os.getpid(), this_owner().host, this_owner().boot)
    assert first.is_ours()
    first.release()
    first.release()
    assert not lock_place(design).exists()
    held(take_lock(design)).release()


def test_another_program_is_told_and_after_its_crash_the_lock_is_taken_over(
    design: Path, other: Window
) -> None:
    assert other.said == "Lock"
    assert told(take_lock(design)).pid == other.process.pid
    other.process.kill()
    other.process.wait()
    assert lock_place(design).exists()
    lock = held(take_lock(design))
    assert told(take_lock(design)).pid == os.getpid()
    lock.release()


def test_by_force_the_file_changes_hands_and_the_first_window_can_see_it(design: Path) -> None:
    first = held(take_lock(design))
    second = held(take_lock(design, by_force=True))
    assert second.is_ours()
    assert not first.is_ours()
    first.release()
    assert second.is_ours()
    second.release()
    assert not lock_place(design).exists()


def test_two_names_of_one_file_meet(design: Path, tmp_path: Path) -> None:
    design.write_bytes(b"x")
    (tmp_path / "link").symlink_to(design)
    first = held(take_lock(tmp_path / "link"))
    told(take_lock(design))
    first.release()


@pytest.mark.parametrize("left", [b"", b"\0\0\0\0", b"{", b'{"pid": "x"}', b"[" * 5000])
def test_a_lock_that_says_nothing_is_taken_over(design: Path, left: bytes) -> None:
    lock_place(design).write_bytes(left)
    held(take_lock(design)).release()


def here(**changes: object) -> Owner:
    return msgspec.structs.replace(this_owner(), **changes)


NO_PID = 2**22 + 1
"""One above the largest process number that Linux gives (proc(5), pid_max)."""


@pytest.mark.parametrize(
    ("owner", "hold", "is_taken_over"),
    [
        (here(), "gained", True),
        (here(), "unknown", False),
        (here(pid=NO_PID), "unknown", True),
        (here(started="1"), "unknown", True),
        (here(boot="another run of this computer"), "unknown", True),
        (here(boot=""), "unknown", False),
        (here(space="pid:[1]", pid=NO_PID), "unknown", False),
        (here(space="pid:[1]", pid=NO_PID), "gained", True),
        (here(host="another", pid=NO_PID), "gained", False),
        (here(host="another", pid=NO_PID), "unknown", False),
        (here(pid=NO_PID), "held", False),
    ],
)
def test_who_is_gone_and_who_is_not(
    design: Path, monkeypatch: pytest.MonkeyPatch, owner: Owner, hold: Hold, is_taken_over: bool
) -> None:
    lock_place(design).write_bytes(msgspec.json.encode(owner))
    monkeypatch.setattr(lock_module, "try_exclusive", lambda _: hold)
    taken = take_lock(design)
    if is_taken_over:
        held(taken).release()
    else:
        assert told(taken) == owner


def test_a_process_whose_number_was_given_again_is_gone() -> None:
    assert is_gone(here(started="1"))
    assert not is_gone(here())
    assert not is_gone(here(pid=1, started=""))
    assert is_gone(here(pid=0))


def test_a_folder_that_lets_nobody_write_gives_a_lock_that_holds_nothing(tmp_path: Path) -> None:
    taken = take_lock(tmp_path / "gone" / "q.piecewright")
    assert isinstance(taken, Lock)
    assert taken.descriptor is None
    assert taken.is_ours()
    taken.release()


def test_a_link_in_the_place_of_the_lock_is_not_followed(design: Path, tmp_path: Path) -> None:
    precious = tmp_path / "precious"
    precious.write_bytes(b"kept")
    lock_place(design).symlink_to(precious)
    taken = take_lock(design)
    assert isinstance(taken, Lock)
    taken.release()
    assert precious.read_bytes() == b"kept"


@given(st.binary(max_size=200))
def test_whatever_a_lock_says_somebody_is_told_or_holds_it(
    tmp_path_factory: pytest.TempPathFactory, content: bytes
) -> None:
    design = tmp_path_factory.mktemp("locks") / "q"
    lock_place(design).write_bytes(content)
    held(take_lock(design)).release()

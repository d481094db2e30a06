"""Each system call of the save path fails in turn: the program must say so and the disk hold a whole file."""

import errno
import itertools
import os
import secrets
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from piecewright.errors import FileError
from piecewright.files.atomic import remove_strays, write_whole
from piecewright.files.design_file import load_design, save_design
from piecewright.model.design import Design
from tests.core.files.sample_design import sample_design, sample_pictures

ERRORS = ("ENOSPC", "EIO", "EDQUOT", "EROFS", "EACCES", "EMFILE")
_WRAPPED = (
    "open", "write", "read", "lseek", "fsync", "replace", "unlink", "stat", "lstat", "fstat", "fchmod", "fchown",
    "close", "scandir", "access", "posix_fadvise", "readlink",
)  # fmt: skip
TOKEN = "0" * 16
OLD, NEW = b"old" * 50_000, b"new" * 70_000


def fail_saving_inside() -> dict[str, int]:
    """Wrap the functions of `os` that saving a design calls, and have each call of each fail with each error."""
    found = _nothing_found()
    old, new = sample_design(), sample_design().changed(name="New")
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "quilt.piecewright"

        def save() -> None:
            save_design(place, new, sample_pictures())

        save_design(place, old, sample_pictures())
        for name, count in _calls_of(save).items():
            for number in range(1, count + 1):
                for error in ERRORS:
                    save_design(place, old, sample_pictures())
                    with _failing(name, number, getattr(errno, error)):
                        said = _outcome(save)
                    there = load_design(place).design
                    _count(found, said, is_old=there == old, is_new=there == new)
                    found["strays_after"] += len(list(Path(folder).iterdir())) - 1
    return found


def fail_loading_inside() -> dict[str, int]:
    """The same for loading: the design as it is or a FileError, and the file untouched."""
    found = {"failed_calls": 0, "loaded": 0, "said_not": 0, "other_design": 0, "changed_file": 0}
    design = sample_design()
    with tempfile.TemporaryDirectory() as folder:
        place = Path(folder) / "quilt.piecewright"
        save_design(place, design, sample_pictures())
        data = place.read_bytes()
        for name, count in _calls_of(lambda: load_design(place)).items():
            for number, error in itertools.product(range(1, count + 1), ERRORS):
                found["failed_calls"] += 1
                with _failing(name, number, getattr(errno, error)):
                    loaded = _loaded(place)
                found["said_not" if loaded is None else "loaded"] += 1
                found["other_design"] += loaded not in (None, design)
                found["changed_file"] += place.read_bytes() != data
    return found


def fail_saving_by_kernel(*, thorough: bool) -> dict[str, int]:
    """Through strace, have the kernel refuse each call that touches the folder, in a program that saves once.

    `thorough`: each with every error; otherwise with one, a different one from call to call.
    """
    turn = itertools.cycle(ERRORS)
    errors = (lambda: ERRORS) if thorough else (lambda: (next(turn),))
    return _traced(
        lambda call, number: [f"--inject={call}:error={error}:when={number}" for error in errors()]
    )


def kill_at_each_call() -> dict[str, int]:
    """Through strace, kill the saving program at each call that touches the folder: the exact points between two."""
    return _traced(lambda call, number: [f"--inject={call}:signal=SIGKILL:when={number}"])


def _traced(injections: Callable[[str, int], list[str]]) -> dict[str, int]:
    found = _nothing_found()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        for call, count in sorted(_traced_calls(folder).items()):
            for injection in itertools.chain(*(injections(call, number) for number in range(1, count + 1))):
                (folder / "quilt").write_bytes(OLD)
                said = _traced_save(folder, injection)
                there = (folder / "quilt").read_bytes()
                _count(found, said, is_old=there == OLD, is_new=there == NEW)
                remove_strays(folder)
                found["strays_after"] += len(list(folder.iterdir())) - 1
    return found


def strace_works() -> bool:
    """Whether strace is there and may be used."""
    if not shutil.which("strace"):
        return False
    tried = subprocess.run(["strace", "-qq", "-o", os.devnull, "true"], capture_output=True, check=False)
    return tried.returncode == 0


def save_once(folder: Path) -> None:
    """What the traced program does; its exit status says saved (0) or not saved (3)."""
    secrets.token_hex = lambda *_: TOKEN  # a name that strace can be told beforehand
    try:
        write_whole(folder / "quilt", NEW)
    except FileError:
        os._exit(3)
    os._exit(0)


def _nothing_found() -> dict[str, int]:
    return {
        "failed_calls": 0,
        "said_saved": 0,
        "said_not": 0,
        "killed": 0,
        "damaged": 0,
        "false_saved": 0,
        "strays_after": 0,
    }


def _count(found: dict[str, int], said: str, *, is_old: bool, is_new: bool) -> None:
    found["failed_calls"] += 1
    found[said] += 1
    found["damaged"] += not (is_old or is_new)
    found["false_saved"] += said == "said_saved" and not is_new


def _loaded(place: Path) -> Design | None:
    try:
        return load_design(place).design
    except FileError:
        return None


def _outcome(save: Callable[[], None]) -> str:
    try:
        save()
    except FileError:
        return "said_not"
    return "said_saved"


def _calls_of(save: Callable[[], object]) -> Counter[str]:
    counted = Counter[str]()
    real = {name: getattr(os, name) for name in _WRAPPED}

    def counting(name: str) -> Callable[..., Any]:
        def call(*args: Any, **options: Any) -> Any:
            counted[name] += 1
            return real[name](*args, **options)

        return call

    with _put_in({name: counting(name) for name in _WRAPPED}):
        save()
    return counted


@contextmanager
def _failing(name: str, number: int, error: int) -> Iterator[None]:
    """Have the `number`th call of a function of `os` refuse; it does nothing then."""
    real, left = getattr(os, name), [number]

    def call(*args: Any, **options: Any) -> Any:
        left[0] -= 1
        if left[0] == 0:
            raise OSError(error, os.strerror(error))
        return real(*args, **options)

    with _put_in({name: call}):
        yield


@contextmanager
def _put_in(functions: dict[str, Callable[..., Any]]) -> Iterator[None]:
    real = {name: getattr(os, name) for name in functions}
    try:
        for name, function in functions.items():
            setattr(os, name, function)
        yield
    finally:
        for name, function in real.items():
            setattr(os, name, function)


def _traced_calls(folder: Path) -> Counter[str]:
    """How often each system call touches the folder in a save that succeeds."""
    (folder / "quilt").write_bytes(OLD)
    log = folder.with_name(f"{folder.name}.trace")
    try:
        if _traced_save(folder, f"--output={log}") != "said_saved":
            raise AssertionError(log.read_text())
        lines = log.read_text().splitlines()
    finally:
        log.unlink(missing_ok=True)
    return Counter(line.split("(")[0].split()[-1] for line in lines if "(" in line)


def _traced_save(folder: Path, *options: str) -> str:
    paths = [folder, folder / "quilt", folder / f".piecewright-{TOKEN}.part"]
    filters = [argument for path in paths for argument in ("-P", str(path))]
    if not any(option.startswith("--output") for option in options):
        options = (*options, f"--output={os.devnull}")
    program = [sys.executable, "-m", "tests.faults.failing", str(folder)]
    done = subprocess.run(["strace", "-qq", *filters, *options, *program], capture_output=True, check=False)
    outcomes = {0: "said_saved", 3: "said_not", -9: "killed", 137: "killed"}
    if done.returncode not in outcomes:
        raise AssertionError(done.stderr.decode())
    return outcomes[done.returncode]


if __name__ == "__main__":
    save_once(Path(sys.argv[1]))

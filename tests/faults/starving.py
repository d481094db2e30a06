"""Disks with too little room, in steps of one percent of the file's size: the old or the new file, always whole."""

import os
import resource
import shutil
import signal
import subprocess
import tempfile
from functools import partial
from pathlib import Path

from piecewright.errors import FileError
from piecewright.files.design_file import load_design, save_design
from piecewright.model.design import Design
from tests.core.files.sample_design import noisy_picture, sample_design, sample_pictures
from tests.faults.forking import in_child

STEPS = range(201)
"""Percent of the file's size."""


def starve_by_disk() -> dict[str, int]:
    """On a small disk in memory, leave 0 to 200 % of the file's size free, and save.

    To be run where mounting is allowed: see `mounting_command`.
    """
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        size = _size_of_file(folder)
        room = 8 * size
        subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={room}", "tmpfs", name], check=True)
        try:
            return _starve_by_ballast(folder, size)
        finally:
            subprocess.run(["umount", name], check=True)


def starve_by_limit() -> dict[str, int]:
    """Let the process write no file larger than 0 to 200 % of the file's size, and save."""
    found = _nothing_found()
    with tempfile.TemporaryDirectory() as name:
        place = Path(name) / "quilt.piecewright"
        size = _size_of_file(place.parent)
        for percent in STEPS:
            save_design(place, _old(), _pictures())
            said, status = in_child(partial(_save_below, place, size * percent // 100))
            if status:
                raise AssertionError(f"the child ended with status {status}")
            _count(found, place, said.decode())
    return found


def mounting_command() -> list[str] | None:
    """What to put before a command that mounts, to give it mounts of its own; None where none is allowed."""
    if not shutil.which("unshare"):
        return None
    mount = ["mount", "-t", "tmpfs", "tmpfs", tempfile.gettempdir()]
    for command in (["unshare", "--mount"], ["unshare", "--user", "--map-root-user", "--mount"]):
        if subprocess.run([*command, *mount], capture_output=True, check=False).returncode == 0:
            return command
    return None


def _starve_by_ballast(folder: Path, size: int) -> dict[str, int]:
    found = _nothing_found()
    place, ballast = folder / "quilt.piecewright", folder / "ballast"
    for percent in STEPS:
        ballast.unlink(missing_ok=True)
        save_design(place, _old(), _pictures())
        _fill(ballast, leave=size * percent // 100)
        try:
            save_design(place, _new(), _pictures())
        except FileError:
            said = "said_not"
        else:
            said = "said_saved"
        _count(found, place, said, beside=1)
    return found


def _fill(ballast: Path, leave: int) -> None:
    with ballast.open("wb") as file:
        disk = os.statvfs(ballast)
        amount = disk.f_bavail * disk.f_frsize - leave
        if amount > 0:
            os.posix_fallocate(file.fileno(), 0, amount)


def _save_below(place: Path, most: int) -> bytes:
    """Runs in a child. Without the signal ignored the kernel would end it; Python ignores it at start."""
    signal.signal(signal.SIGXFSZ, signal.SIG_IGN)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, most))
    try:
        save_design(place, _new(), _pictures())
    except FileError:
        return b"said_not"
    return b"said_saved"


def _nothing_found() -> dict[str, int]:
    return {
        "steps": 0,
        "said_saved": 0,
        "said_not": 0,
        "damaged": 0,
        "false_saved": 0,
        "false_refused": 0,
        "strays": 0,
    }


def _count(found: dict[str, int], place: Path, said: str, beside: int = 0) -> None:
    """`strays` are counted before the next start has swept."""
    found["steps"] += 1
    found[said] += 1
    found["strays"] += len(list(place.parent.iterdir())) - 1 - beside
    try:
        there = load_design(place).design
    except FileError:
        found["damaged"] += 1
        return
    found["false_saved"] += said == "said_saved" and there != _new()
    found["false_refused"] += said == "said_not" and there != _old()


def _old() -> Design:
    return sample_design()


def _new() -> Design:
    return sample_design().changed(name="New")


def _pictures() -> dict[str, bytes]:
    return {**sample_pictures(), "leaf.png": _LEAF}


_LEAF = noisy_picture(400, 340)


def _size_of_file(folder: Path) -> int:
    place = folder / "quilt.piecewright"
    save_design(place, _new(), _pictures())
    return place.stat().st_size

"""Who holds a file: this process, told apart from every other one that is, was or will be."""

import getpass
import os
import platform
import sys
from datetime import UTC, datetime
from functools import cache
from pathlib import Path

import msgspec


class Owner(msgspec.Struct, frozen=True):
    """A running program.

    `boot` names the computer's present run, `started` when the process began in it, `space` the set of
    process numbers it counts in (a sandbox has its own); all three are empty where the system does not tell.
    """

    pid: int
    host: str
    boot: str = ""
    started: str = ""
    space: str = ""
    user: str = ""
    since: str = ""


def this_owner() -> Owner:
    """The process that runs this, from now."""
    return Owner(
        pid=os.getpid(),
        host=platform.node(),
        boot=_line_of("/proc/sys/kernel/random/boot_id"),
        started=_start_of(os.getpid()),
        space=_space(),
        user=_user(),
        since=now(),
    )


def now() -> str:
    """The present moment in UTC to the second, in the form of ISO 8601."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def is_gone(owner: Owner) -> bool:
    """Whether that process has surely ended; False where this computer cannot know."""
    here = this_owner()
    if owner.host != here.host:
        return False
    if owner.boot != here.boot:
        return bool(owner.boot and here.boot)
    if owner.space != here.space:
        return False
    return not _runs(owner.pid) or bool(owner.started and _start_of(owner.pid) != owner.started)


def _runs(pid: int) -> bool:
    if pid <= 0:
        return False
    if sys.platform == "win32":
        return _runs_on_windows(pid)
    try:
        os.kill(pid, 0)
    except ProcessLookupError:
        return False
    except (PermissionError, OverflowError):
        return True
    return True


if sys.platform == "win32":

    def _runs_on_windows(pid: int) -> bool:
        """Signal 0 would end the process there; asking for a handle does not."""
        import ctypes

        query_limited_information = 0x1000
        handle = ctypes.windll.kernel32.OpenProcess(query_limited_information, 0, pid)
        if handle:
            ctypes.windll.kernel32.CloseHandle(handle)
        return bool(handle)


def _start_of(pid: int) -> str:
    """Field 22 of /proc/PID/stat (proc(5)): ticks since boot.

    The name in field 2 may hold spaces and brackets.
    """
    after_name = _line_of(f"/proc/{pid}/stat").rpartition(")")[2].split()
    return after_name[19] if len(after_name) > 19 else ""


def _line_of(path: str) -> str:
    try:
        return Path(path).read_text("utf-8", "replace").strip()
    except OSError:
        return ""


@cache
def _space() -> str:
    try:
        return str(Path("/proc/self/ns/pid").readlink())
    except (OSError, NotImplementedError):
        return ""


@cache
def _user() -> str:
    try:
        return getpass.getuser()
    except (KeyError, OSError, ImportError):
        return ""

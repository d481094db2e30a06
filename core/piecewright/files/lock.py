"""Two windows on one design file: the first holds it, the second is told by whom.

What a crash left is taken over.
"""

import contextlib
import os
from dataclasses import dataclass
from pathlib import Path

import msgspec

from piecewright.files.exclusive import try_exclusive
from piecewright.files.limits import LOCK_BYTES
from piecewright.files.owner import Owner, is_gone, this_owner

_FLAGS = (
    os.O_RDWR
    | os.O_CREAT
    | getattr(os, "O_NOFOLLOW", 0)
    | getattr(os, "O_BINARY", 0)
    | getattr(os, "O_NONBLOCK", 0)
)


@dataclass
class Lock:
    """A design file held for this window.

    `descriptor` is None where its folder lets nobody write: nothing can be overwritten there either.
    """

    place: Path
    descriptor: int | None

    def is_ours(self) -> bool:
        """Whether the file is held still; another window may have taken it over at its user's word."""
        return self.descriptor is None or _is_at(self.place, self.descriptor)

    def release(self) -> None:
        """Let go; a lock that another window took over is left to it. May be called twice."""
        if self.descriptor is None:
            return
        ours = self.is_ours()
        if ours and os.name != "nt":
            _remove(self.place)
        os.close(self.descriptor)
        if ours and os.name == "nt":
            _remove(self.place)
        self.descriptor = None


def lock_place(path: Path) -> Path:
    """Where the lock of a design file lies: hidden beside the file that links lead to."""
    target = Path(os.path.realpath(path))
    return target.with_name(f".{target.name}.lock")


def take_lock(path: Path, *, by_force: bool = False) -> Lock | Owner:
    """Hold a design file for this window, or tell who holds it.

    A lock whose program has ended is taken over. `by_force` takes it from a living one, at the user's word;
    that window finds `is_ours` false. A place where no lock can be written gives a lock that holds nothing.
    """
    place = lock_place(path)
    if by_force:
        _remove(place)
    while True:
        try:
            descriptor = os.open(place, _FLAGS, 0o644)
        except OSError:
            return Lock(place, None)
        other = _living_owner(descriptor)
        if other is None and _is_at(place, descriptor):
            _write_owner(descriptor)
            return Lock(place, descriptor)
        os.close(descriptor)
        if other is not None:
            return other


def _living_owner(descriptor: int) -> Owner | None:
    """Who holds an opened lock: by the kernel's word where it has one, else by what is written in it."""
    hold = try_exclusive(descriptor)
    owner = _read_owner(descriptor)
    if hold == "held":
        return owner or Owner(pid=0, host="")
    if owner is None or is_gone(owner):
        return None
    return None if hold == "gained" and owner.host == this_owner().host else owner


def _read_owner(descriptor: int) -> Owner | None:
    """The owner written in a lock; None for an empty or unreadable one, which only a crash can leave."""
    try:
        os.lseek(descriptor, 0, os.SEEK_SET)
        return msgspec.json.decode(os.read(descriptor, LOCK_BYTES), type=Owner)
    except (OSError, msgspec.MsgspecError, ValueError, RecursionError):
        return None


def _write_owner(descriptor: int) -> None:
    """Write who we are; a full disk leaves an empty lock, which the kernel holds for us all the same."""
    with contextlib.suppress(OSError):
        os.ftruncate(descriptor, 0)
        os.lseek(descriptor, 0, os.SEEK_SET)
        os.write(descriptor, msgspec.json.encode(this_owner()))


def _is_at(place: Path, descriptor: int) -> bool:
    try:
        return os.path.samestat(os.lstat(place), os.fstat(descriptor))
    except OSError:
        return False


def _remove(place: Path) -> None:
    with contextlib.suppress(OSError):
        place.unlink()

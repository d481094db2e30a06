"""Saving a file whole or not at all.

Whatever happens, the disk holds the old file or the new one, never a torn one.
"""

import contextlib
import errno
import os
import re
import secrets
import stat
from collections.abc import Callable, Iterator
from pathlib import Path

from piecewright.errors import FileError
from piecewright.files.exclusive import try_exclusive
from piecewright.files.faults import reading_refused, saving_refused, saving_unsure, shown_name
from piecewright.words.message import message

_PART = re.compile(r"\.piecewright-[0-9a-f]{16}\.part")
_BINARY = getattr(os, "O_BINARY", 0)
_WAITLESS = getattr(os, "O_NONBLOCK", 0)
"""Opening a pipe by mistake must not wait for its other end."""
_LINKS_UNKNOWN = (errno.EPERM, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS, errno.EMLINK)
"""A disk without hard links: there, the instant between looking and putting is not guarded."""
_FOLDER_SYNC_UNKNOWN = (errno.EINVAL, errno.ENOTSUP, errno.EOPNOTSUPP, errno.ENOSYS)


def write_whole(path: Path, data: bytes) -> None:
    """Put `data` at `path`, replacing what is there, and return only when the disk has confirmed it.

    A link is followed: its target is replaced and the link stays. The mode (and, as far as the system lets
    us, the owner) of a replaced file is kept. Raises FileError; unless that says the disk did not confirm,
    the old file is untouched.
    """
    try:
        target = Path(os.path.realpath(path))
        before = _what_is_there(path, target)
        _write(path, target, data, before, Path.replace)
    except OSError as error:
        raise saving_refused(path, error) from error


def write_new(path: Path, data: bytes) -> bool:
    """Put `data` at `path` where nothing is, whole or not at all. False where something is; it is left as it is.

    Raises FileError as `write_whole` does.
    """
    try:
        _write(path, path, data, None, _put_where_nothing_is)
    except FileExistsError:
        return False
    except OSError as error:
        raise saving_refused(path, error) from error
    return True


def remove_file(path: Path) -> None:
    """Take a file away, and return only when the disk has confirmed it. Raises FileError."""
    try:
        with _folder_open(path.parent) as folder:
            path.unlink()
            _sync_folder(path, folder)
    except OSError as error:
        raise saving_refused(path, error) from error


def remove_strays(folder: Path) -> int:
    """Delete the part files that a crash left in a folder, and only those.

    One that is being written is left alone.
    """
    removed = 0
    with contextlib.suppress(OSError), os.scandir(folder) as entries:
        parts = [folder / entry.name for entry in entries if _PART.fullmatch(entry.name)]
        removed = sum(_remove_stray(part) for part in parts)
    return removed


def read_file(path: Path, most: int) -> bytes:
    """The bytes of a regular file of at most `most` bytes.

    FileError for anything else, without waiting on pipes.
    """
    try:
        descriptor = os.open(path, os.O_RDONLY | _BINARY | _WAITLESS)
        with os.fdopen(descriptor, "rb") as file:
            if not stat.S_ISREG(os.fstat(descriptor).st_mode):
                raise FileError(message("files.not-a-file"), None, shown_name(path))
            data = file.read(most + 1)
    except OSError as error:
        raise reading_refused(path, error) from error
    if len(data) > most:
        raise FileError(message("files.too-large", most=most // (1024 * 1024)), None, shown_name(path))
    return data


def _what_is_there(path: Path, target: Path) -> os.stat_result | None:
    """The file to be replaced, if there is one; refuses what is no file, or marked read-only."""
    try:
        before = target.stat()
    except FileNotFoundError:
        return None
    if not stat.S_ISREG(before.st_mode):
        raise FileError(message("files.not-a-file"), message("files.save-hint"), shown_name(path))
    if not before.st_mode & 0o222 or not os.access(target, os.W_OK):
        raise FileError(message("files.marked-read-only"), message("files.save-hint"), shown_name(path))
    return before


def _write(
    path: Path, target: Path, data: bytes, before: os.stat_result | None, put: Callable[[Path, Path], object]
) -> None:
    """Write a part file, have the disk give it back, and put it at its place."""
    with _folder_open(target.parent) as folder, _part_file(target.parent) as (part, descriptor):
        _fill(descriptor, data)
        _keep_rights(descriptor, before)
        os.fsync(descriptor)
        _read_back(path, descriptor, data)
        put(part, target)
        _sync_folder(path, folder)


def _put_where_nothing_is(part: Path, target: Path) -> None:
    """Raises FileExistsError where something is."""
    if os.name == "nt":
        part.rename(target)
        return
    try:
        target.hardlink_to(part)
    except OSError as error:
        if error.errno not in _LINKS_UNKNOWN:
            raise
        if os.path.lexists(target):
            raise FileExistsError(errno.EEXIST, os.strerror(errno.EEXIST), str(target)) from error
        part.replace(target)


@contextlib.contextmanager
def _folder_open(folder: Path) -> Iterator[int | None]:
    """The folder's descriptor, opened before anything is written; None where folders can not be opened."""
    if os.name == "nt":
        yield None
        return
    descriptor = os.open(folder, os.O_RDONLY)
    try:
        yield descriptor
    finally:
        _close(descriptor)


@contextlib.contextmanager
def _part_file(folder: Path) -> Iterator[tuple[Path, int]]:
    """A new, empty file in the folder, held so that nobody takes it for a stray.

    Gone afterwards unless moved away.
    """
    part, descriptor = _new_part(folder)
    try:
        yield part, descriptor
    finally:
        _close(descriptor)
        _remove(part)


def _new_part(folder: Path) -> tuple[Path, int]:
    """Create and hold a part file.

    One that was removed as a stray in the instant before it was held is made anew.
    """
    while True:
        part = folder / f".piecewright-{secrets.token_hex(8)}.part"
        descriptor = os.open(part, os.O_RDWR | os.O_CREAT | os.O_EXCL | _BINARY, 0o666)
        try:
            try_exclusive(descriptor)
            if part.exists():
                return part, descriptor
        except OSError:
            _close(descriptor)
            _remove(part)
            raise
        _close(descriptor)


def _fill(descriptor: int, data: bytes) -> None:
    view = memoryview(data)
    while view:
        written = os.write(descriptor, view)
        if written <= 0:
            raise OSError(errno.ENOSPC, os.strerror(errno.ENOSPC))
        view = view[written:]


def _keep_rights(descriptor: int, before: os.stat_result | None) -> None:
    """Mode and owner of the file that is replaced; a new file has what the user's mask says."""
    if before is None or os.name == "nt":
        return
    with contextlib.suppress(PermissionError):  # only root may give a file away
        if (before.st_uid, before.st_gid) != (os.geteuid(), os.getegid()):
            os.fchown(descriptor, before.st_uid, before.st_gid)
    os.fchmod(descriptor, stat.S_IMODE(before.st_mode))


def _read_back(path: Path, descriptor: int, data: bytes) -> None:
    """Compare what the disk gives back with what was meant; the cache is asked to forget it first."""
    if hasattr(os, "posix_fadvise"):
        with contextlib.suppress(OSError):
            os.posix_fadvise(descriptor, 0, 0, os.POSIX_FADV_DONTNEED)
    os.lseek(descriptor, 0, os.SEEK_SET)
    view = memoryview(data)
    while chunk := os.read(descriptor, 1 << 20):
        if chunk != view[: len(chunk)]:
            break
        view = view[len(chunk) :]
    if view or chunk:
        raise FileError(message("files.read-back-differs"), message("files.save-hint"), shown_name(path))


def _sync_folder(path: Path, folder: int | None) -> None:
    """Have the new name written; the new file is there by now, so a fault is told as one of doubt."""
    if folder is None:
        return
    try:
        os.fsync(folder)
    except OSError as error:
        if error.errno not in _FOLDER_SYNC_UNKNOWN:
            raise saving_unsure(path, error) from error


def _remove_stray(part: Path) -> bool:
    try:
        descriptor = os.open(part, os.O_RDWR | _BINARY | getattr(os, "O_NOFOLLOW", 0) | _WAITLESS)
        try:
            stray = try_exclusive(descriptor) == "gained"
            if stray and os.name != "nt":
                part.unlink()
        finally:
            _close(descriptor)
        if stray and os.name == "nt":
            part.unlink()
    except OSError:
        return False
    return stray


def _close(descriptor: int) -> None:
    """Close without a fault of its own.

    After fsync and read-back a failing close says nothing about the data.
    """
    with contextlib.suppress(OSError):
        os.close(descriptor)


def _remove(part: Path) -> None:
    """Remove without a fault of its own: what stays is a stray for the next opening to remove."""
    with contextlib.suppress(OSError):
        part.unlink()

"""Holding an open file for one process, in a way the kernel itself lets go of when the process dies."""

import errno
import sys
from typing import Literal

Hold = Literal["gained", "held", "unknown"]
"""Gained by us; held by another process or window; or the file system knows no such locks."""

if sys.platform == "win32":
    import msvcrt
    import os

    _FAR = 1 << 30
    """Locks are mandatory there: a byte beyond every content keeps the content readable."""

    def _lock(descriptor: int) -> None:
        here = os.lseek(descriptor, 0, os.SEEK_CUR)
        os.lseek(descriptor, _FAR, os.SEEK_SET)
        try:
            msvcrt.locking(descriptor, msvcrt.LK_NBLCK, 1)
        finally:
            os.lseek(descriptor, here, os.SEEK_SET)
else:
    import fcntl

    def _lock(descriptor: int) -> None:
        fcntl.flock(descriptor, fcntl.LOCK_EX | fcntl.LOCK_NB)


def try_exclusive(descriptor: int) -> Hold:
    """Try, without waiting, to hold an open file until it is closed.

    Two descriptors of one process exclude each other too.
    """
    try:
        _lock(descriptor)
    except OSError as error:
        return "held" if error.errno in (errno.EAGAIN, errno.EACCES, errno.EDEADLK) else "unknown"
    return "gained"

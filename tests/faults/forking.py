"""A child process that does one thing and tells its progress, to be killed at any moment."""

import os
import signal
import struct
import time
import traceback
from collections.abc import Callable

Tell = Callable[[int], None]
"""Tells the parent a number; when it returns, the parent will read it whatever happens to the child."""

_NUMBER = struct.Struct("<Q")


def killed_at_random(work: Callable[[Tell], None], wait: float) -> tuple[int, ...]:
    """Run `work` in a child and kill it with signal 9, `wait` seconds after it has told its first number.

    Returns the numbers told. The wait only picks the point of the kill; nothing depends on how far the child got.
    """
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _work_and_end(work, writing)
    os.close(writing)
    first = os.read(reading, _NUMBER.size)
    time.sleep(wait)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    with os.fdopen(reading, "rb") as pipe:
        told = first + pipe.read()
    if not os.WIFSIGNALED(status) or os.WTERMSIG(status) != signal.SIGKILL:
        raise AssertionError(f"the child ended by itself with status {status}")
    return tuple(number for (number,) in _NUMBER.iter_unpack(told))


def in_child(work: Callable[[], bytes]) -> tuple[bytes, int]:
    """Run `work` in a child of its own limits and settings; returns what it gave and its wait status."""
    reading, writing = os.pipe()
    child = os.fork()
    if child == 0:
        _work_and_end(lambda _: _write_all(writing, work()), writing)
    os.close(writing)
    with os.fdopen(reading, "rb") as pipe:
        given = pipe.read()
    _, status = os.waitpid(child, 0)
    return given, status


def _work_and_end(work: Callable[[Tell], None], writing: int) -> None:
    """The child's whole life: it never returns into the parent's code."""
    try:
        work(lambda number: _write_all(writing, _NUMBER.pack(number)))
    except BaseException:  # noqa: BLE001 - the child must end here, whatever happened
        traceback.print_exc()
        os._exit(70)
    os._exit(0)


def _write_all(descriptor: int, data: bytes) -> None:
    while data:
        data = data[os.write(descriptor, data) :]

"""Work off the window's thread: the newest wins, stale answers are dropped, anything can be given up."""

import os
import sys
from collections.abc import Callable, Hashable
from dataclasses import dataclass, field
from functools import partial
from itertools import count
from threading import Event
from typing import Any, TypeVar

from PySide6.QtCore import QCoreApplication, QObject, Qt, QThreadPool, Signal, Slot

T = TypeVar("T")
Progress = Callable[[int, int], None]
_PATIENCE = 10_000
"""Milliseconds that the end of the program waits for work that does not listen."""


@dataclass(eq=False)
class Job:
    """One piece of work asked for under a key; the work is handed it, to report to and to ask whether to go on."""

    key: Hashable
    generation: int
    _report: Progress
    _given_up: Event = field(default_factory=Event)

    @property
    def is_given_up(self) -> bool:
        """Whether nobody waits for the answer any more; long work looks here and ends early."""
        return self._given_up.is_set()

    def give_up(self) -> None:
        """Nobody waits for the answer any more."""
        self._given_up.set()

    def report(self, done: int, whole: int) -> None:
        """Tell how far the work is."""
        if not self.is_given_up:
            self._report(done, whole)


class Runner(QObject):
    """Runs pure functions in a pool of threads; what they answer is handed over on the thread of this object.

    Work asked for under a key takes the place of what was asked for under it before. A fault in the work goes the way
    of every fault: to `sys.excepthook`, on this object's thread.
    """

    _handed_over = Signal(object)

    def __init__(self, parent: QObject | None = None, threads: int | None = None) -> None:
        """`threads` at once; else one less than the machine has cores, so that the window has one to itself."""
        super().__init__(parent)
        self._pool = QThreadPool()
        self._pool.setMaxThreadCount(threads or max(1, (os.cpu_count() or 2) - 1))
        self._numbers = count(1)
        self._newest: dict[Hashable, Job] = {}
        self._handed_over.connect(self._hand_over, Qt.ConnectionType.QueuedConnection)

    @property
    def is_idle(self) -> bool:
        """Whether every answer waited for has come."""
        return not self._newest

    def run(
        self,
        key: Hashable,
        work: Callable[[Job], T],
        done: Callable[[T], object],
        progress: Progress | None = None,
    ) -> Job:
        """Have `work` done; `done` gets the answer, unless it was given up or newer work took its key."""
        self.give_up(key)
        job = Job(key, next(self._numbers), lambda at, whole: self._pass_on(job, progress, at, whole))
        self._newest[key] = job
        self._pool.start(partial(self._work, job, work, done))
        return job

    def give_up(self, key: Hashable) -> None:
        """No one waits any more for what was asked for under a key."""
        job = self._newest.pop(key, None)
        if job is not None:
            job.give_up()

    def finish(self, patience: int = _PATIENCE) -> None:
        """Wait until everything asked for is done, and hand its answers over; what takes too long is given up."""
        self._pool.waitForDone(patience)
        QCoreApplication.sendPostedEvents(self)
        self.stop()

    def stop(self) -> None:
        """Give everything up, and wait until the threads have heard of it."""
        for key in tuple(self._newest):
            self.give_up(key)
        self._pool.clear()
        self._pool.waitForDone(_PATIENCE)

    def _work(self, job: Job, work: Callable[[Job], Any], done: Callable[[Any], object]) -> None:
        """On a thread of the pool."""
        if job.is_given_up:
            return
        try:
            answer = work(job)
        except Exception as fault:  # noqa: BLE001 - it is told like every other fault, where it can be shown
            self._handed_over.emit(partial(self._fail, job, fault))
        else:
            self._handed_over.emit(partial(self._finish, job, done, answer))

    def _pass_on(self, job: Job, progress: Progress | None, at: int, whole: int) -> None:
        if progress is not None:
            self._handed_over.emit(lambda: None if job.is_given_up else progress(at, whole))

    def _finish(self, job: Job, done: Callable[[Any], object], answer: object) -> None:
        if not job.is_given_up:
            del self._newest[job.key]
            done(answer)

    def _fail(self, job: Job, fault: Exception) -> None:
        if not job.is_given_up:
            del self._newest[job.key]
        sys.excepthook(type(fault), fault, fault.__traceback__)

    @Slot(object)
    def _hand_over(self, what: Callable[[], None]) -> None:
        """On this object's thread."""
        what()

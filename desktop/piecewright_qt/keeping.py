"""Where a design is kept: its file, the lock on it, and the journal of edits that outlives a crash."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path

from piecewright.errors import FileError
from piecewright.files.design_file import Loaded, digest_at, load_design, save_design
from piecewright.files.folders import journal_folder
from piecewright.files.journal import Journal
from piecewright.files.lock import Lock, take_lock
from piecewright.files.owner import Owner
from piecewright.model.design import Design


@dataclass
class Keeping:
    """One open design's place on disk.

    `path` is None until it is first saved; `held_by` names who has the file open in another window.
    """

    path: Path | None = None
    digest: str = ""
    read_only: bool = False
    held_by: Owner | None = None
    journal: Journal | None = None
    _lock: Lock | None = field(default=None, repr=False)

    @classmethod
    def opened(cls, path: Path) -> tuple["Keeping", Loaded]:
        """Read a design and hold its file. Raises FileError; a file that another window holds opens read-only."""
        loaded = load_design(path)
        keeping = cls(path=path, digest=loaded.digest, read_only=loaded.read_only)
        keeping._hold(path)
        return keeping, loaded

    def hold(self) -> None:
        """Hold the file of a design that came from elsewhere than the file."""
        if self.path is not None:
            self._hold(self.path)

    def begin_journal(self, design: Design, pictures: Mapping[str, bytes] | None = None) -> None:
        """Write edits down from this design on. Raises FileError where no journal can be written."""
        self.end_journal()
        self.journal = Journal.begin(
            journal_folder(), design, base=self.path, digest=self.digest, pictures=pictures or {}
        )

    def save(self, design: Design, pictures: Mapping[str, bytes], path: Path | None = None) -> Path:
        """Save, here or under another name, and hold that file. Raises FileError; then nothing has changed.

        A file that another program changed since it was read is left alone, and so is one that a window holds.
        """
        target = path or self.path
        if target is None:
            raise ValueError("a design that was never saved needs a name")
        elsewhere = path is not None and path != self.path
        known = None if elsewhere else self.digest or None
        self.digest = save_design(target, design, pictures, unless_not=known)
        if elsewhere or self._lock is None:
            self._hold(target)
        self.path, self.read_only = target, False
        return target

    def changed_outside(self) -> bool:
        """Whether the file has other bytes than when it was read or saved last."""
        return self.path is not None and bool(self.digest) and digest_at(self.path) not in (self.digest, None)

    def release(self) -> None:
        """Let go of the file and end the journal: the design is saved, or its changes were given up."""
        self.end_journal()
        if self._lock is not None:
            self._lock.release()
            self._lock = None

    def end_journal(self) -> None:
        """Remove the journal: there is nothing left to lose."""
        if self.journal is not None:
            self.journal.close()
            self.journal = None

    def sync(self) -> FileError | None:
        """Have the disk confirm the journal; what went wrong, if anything."""
        try:
            if self.journal is not None:
                self.journal.sync()
        except FileError as error:
            return error
        return None

    def _hold(self, path: Path) -> None:
        if self._lock is not None:
            self._lock.release()
            self._lock = None
        held = take_lock(path)
        if isinstance(held, Owner):
            self.held_by, self.read_only = held, True
        else:
            self._lock, self.held_by = held, None

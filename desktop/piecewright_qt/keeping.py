"""Where a design is kept: its file, the lock on it, and the journal of edits that outlives a crash."""

import os
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from piecewright.edit.registry import EditCall
from piecewright.errors import FileError
from piecewright.files.design_file import Loaded, digest_at, load_design, save_design
from piecewright.files.folders import journal_folder
from piecewright.files.journal import Journal
from piecewright.files.lock import Lock, take_lock
from piecewright.files.owner import Owner
from piecewright.model.design import Design
from piecewright.words.message import message

FileState = Literal["none", "same", "changed", "gone"]
"""How the file stands to what was read or saved last; none where the design was never saved."""

History = Iterable[tuple[EditCall, Design]]
"""Edits in their order, each with the design it gave."""


@dataclass
class Keeping:
    """One open design's place on disk.

    `path` is None until it is first saved; `held_by` names who has the file open in another window; `newer` where a
    newer program wrote the file, `protected` where the system does not let us write it.
    """

    path: Path | None = None
    digest: str = ""
    newer: bool = False
    protected: bool = False
    held_by: Owner | None = None
    journal: Journal | None = None
    _lock: Lock | None = field(default=None, repr=False)

    @classmethod
    def opened(cls, path: Path) -> tuple["Keeping", Loaded]:
        """Read a design and hold its file. Raises FileError; a file that another window holds opens read-only."""
        loaded = load_design(path)
        keeping = cls(path, loaded.digest, newer=loaded.read_only, protected=not os.access(path, os.W_OK))
        keeping.hold()
        return keeping, loaded

    @classmethod
    def of_sample(cls, path: Path) -> tuple["Keeping", Loaded]:
        """Read a sample: a design that is in no file yet. Raises FileError."""
        return cls(), load_design(path)

    @property
    def read_only(self) -> bool:
        """Whether the file is not ours to write; the design can be saved under another name."""
        return self.newer or self.protected or self.held_by is not None

    def hold(self, by_force: bool = False) -> None:
        """Hold the design's file, or learn who holds it; by force at the user's word, who knows nobody does."""
        if self.path is not None:
            self._let_go()
            self._take(take_lock(self.path, by_force=by_force))

    def still_ours(self) -> bool:
        """Whether nobody took the file over meanwhile; if someone did, `held_by` says who."""
        if self._lock is not None and not self._lock.is_ours():
            self.hold()
        return self.held_by is None

    def state(self) -> FileState:
        """How the file stands to what was read or saved last."""
        if self.path is None or not self.digest:
            return "none"
        found = digest_at(self.path)
        if found is None:
            return "gone"
        return "same" if found == self.digest else "changed"

    def save(self, design: Design, pictures: Mapping[str, bytes], path: Path | None = None) -> Path:
        """Save, here or under another name, and hold that file. Raises FileError; then nothing has changed.

        A file that another program changed since it was read is left alone, and so is one that a window holds.
        """
        target = path or self.path
        if target is None:
            raise ValueError("a design that was never saved needs a name")
        if self.path is not None and target.resolve() == self.path.resolve():
            self.digest = save_design(target, design, pictures, unless_not=self.digest or None)
            if self._lock is None:
                self.hold()
            self.protected = False
        else:
            self._save_elsewhere(target, design, pictures)
        self.path = target
        return target

    def overwrite_knowingly(self) -> None:
        """The user has seen that another program changed the file, and wants it overwritten."""
        self.digest = ""

    def begin_journal(
        self,
        design: Design,
        history: History = (),
        *,
        pictures: Mapping[str, bytes] = MappingProxyType({}),
        unsaved: bool = False,
    ) -> Journal:
        """Write edits down from this design on, in the place of the journal so far. Raises FileError.

        `history` is what led from it to where the undo stack can go; `pictures` are those that no file holds;
        `unsaved` where the design itself is in no file.
        """
        made = Journal.begin(
            journal_folder(), design, base=self.path, digest=self.digest, pictures=pictures, unsaved=unsaved
        )
        try:
            for call, after in history:
                made.append(call, after)
        except FileError:
            made.close()
            raise
        self.end_journal()
        self.journal = made
        return made

    def release(self) -> None:
        """Let go of the file and end the journal: the design is saved, or its changes were given up."""
        self.end_journal()
        self._let_go()

    def end_journal(self) -> None:
        """Remove the journal: there is nothing left to lose."""
        if self.journal is not None:
            self.journal.close()
            self.journal = None

    def sync(self) -> FileError | None:
        """Have the disk confirm the journal, from any thread; what went wrong, if anything."""
        try:
            if self.journal is not None:
                self.journal.sync()
        except FileError as error:
            return error
        return None

    def _save_elsewhere(self, target: Path, design: Design, pictures: Mapping[str, bytes]) -> None:
        """Hold the other file first: what a window has open is not overwritten behind its back."""
        held = take_lock(target)
        if isinstance(held, Owner):
            who = held.user or held.host or "?"
            raise FileError(message("files.held-elsewhere", who=who), message("files.held-hint"), target.name)
        try:
            self.digest = save_design(target, design, pictures)
        except FileError:
            held.release()
            raise
        self._let_go()
        self._take(held)
        self.newer = self.protected = False

    def _take(self, held: Lock | Owner) -> None:
        if isinstance(held, Owner):
            self.held_by = held
        else:
            self._lock, self.held_by = held, None

    def _let_go(self) -> None:
        if self._lock is not None:
            self._lock.release()
            self._lock = None

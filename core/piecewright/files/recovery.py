"""What a crash left.

Finding journals whose program is gone, making their edits again, and losing none on the way.
"""

import contextlib
import os
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from types import MappingProxyType
from typing import Literal

from piecewright.edit.registry import EditCall, apply
from piecewright.errors import FileError, PiecewrightError
from piecewright.files.atomic import remove_strays
from piecewright.files.design_file import Loaded, file_errors, load_design
from piecewright.files.exclusive import try_exclusive
from piecewright.files.faults import shown
from piecewright.files.folders import make_folder, path_from_text
from piecewright.files.journal import ENDING, DraftRecord
from piecewright.files.journal_contents import Contents, read_contents
from piecewright.files.limits import JOURNAL_BYTES
from piecewright.files.owner import is_gone
from piecewright.model.codec import from_plain, read_json
from piecewright.model.design import Design
from piecewright.words.message import Message, message

ASIDE = "aside"
_FLAGS = os.O_RDWR | getattr(os, "O_BINARY", 0) | getattr(os, "O_NOFOLLOW", 0) | getattr(os, "O_NONBLOCK", 0)

BaseState = Literal["same", "changed", "gone", "never saved", "saved"]
"""How the design file stands to the journal: as it was; with other bytes; not to be read; there is none; or
it holds the journal's last state already, so that nothing was lost.
"""


@dataclass(frozen=True)
class Recovered:
    """A design as it was when the program ended.

    `edits` of the journal's changes lead to it from the design opened. `digest` is that of the file `base`
    when it was opened. `drafts` are recipes of the design as they stood on the Sewing table.
    """

    design: Design
    pictures: Mapping[str, bytes]
    base: Path | None
    digest: str
    edits: int
    base_state: BaseState
    notes: tuple[Message, ...] = ()
    drafts: tuple[DraftRecord, ...] = ()


@dataclass
class LeftJournal:
    """A journal whose program is gone, held for this window until it is settled, discarded or let go.

    `edits` lead to the state last seen; `started` and `changed` are moments in UTC, in the form of ISO 8601.
    """

    place: Path
    base: Path | None
    digest: str
    started: str
    changed: str
    edits: int
    _contents: Contents
    _descriptor: int | None

    def recover(self) -> Recovered:
        """Make the edits again.

        One that can not be made ends it: what came before is given, and a note says so.

        FileError where the design that the journal begins from can not be read.
        """
        contents = self._contents
        design, notes = _replay(contents)
        loaded = _load(self.base)
        return Recovered(
            design=design,
            pictures=MappingProxyType({**(loaded.pictures if loaded else {}), **contents.pictures}),
            base=self.base,
            digest=self.digest,
            edits=len(contents.chain),
            base_state=self._state_of_base(loaded, design),
            notes=notes,
            drafts=tuple(draft for draft in contents.drafts if draft.recipe in design.shelf.recipes),
        )

    def settle(self, recovered: Recovered) -> Path | None:
        """Done with, once the recovered design is saved or in a journal of its own.

        Deleted if all of it came back, else moved aside; returns where it lies then.
        """
        if recovered.notes:
            return self.keep_aside()
        self.discard()
        return None

    def keep_aside(self) -> Path:
        """Move the journal where no start offers it any more, and let go of it; returns where it lies now."""
        self.release()
        return _move_aside(self.place)

    def discard(self) -> None:
        """Delete the journal, at the user's word, and let go of it."""
        self.release()
        with contextlib.suppress(OSError):
            self.place.unlink()

    def release(self) -> None:
        """Let go of the journal: the next start finds it again."""
        if self._descriptor is not None:
            os.close(self._descriptor)
            self._descriptor = None

    def _state_of_base(self, loaded: Loaded | None, design: Design) -> BaseState:
        if self.base is None:
            return "never saved"
        if loaded is None:
            return "gone"
        if loaded.design == design and not self._contents.drafts:
            return "saved"
        return "same" if loaded.digest == self.digest else "changed"


@dataclass(frozen=True)
class LeftBehind:
    """The journals that can be recovered, latest first, and a note on each one that was kept aside unread."""

    journals: tuple[LeftJournal, ...] = ()
    notes: tuple[Message, ...] = ()


def find_left_journals(folder: Path) -> LeftBehind:
    """The journals in a folder whose program is gone; those of living windows are left alone.

    A journal without any change in effect, begun from a design that is saved, is removed. One that is no
    journal, newer or damaged in its first line is moved to the folder `aside`, and told.
    """
    remove_strays(folder)
    journals, notes = list[LeftJournal](), list[Message]()
    for place in sorted(folder.glob(f"*{ENDING}"), reverse=True):
        try:
            left = _look_at(place)
        except FileError as error:
            notes.append(message("files.journal-kept", why=error.message, place=shown(_move_aside(place))))
        else:
            journals.extend([left] if left else [])
    return LeftBehind(tuple(journals), tuple(notes))


def _look_at(place: Path) -> LeftJournal | None:
    """The journal, held, if its program is gone and it has anything to give back.

    FileError if it is no journal.
    """
    try:
        descriptor = os.open(place, _FLAGS)
    except OSError:
        return None
    left = None
    try:
        contents = _contents_if_left(place, descriptor)
        if contents is not None:
            left = _left_journal(place, descriptor, contents)
    except OSError:
        return None
    finally:
        if left is None:
            os.close(descriptor)
    return left


def _contents_if_left(place: Path, descriptor: int) -> Contents | None:
    """The contents of a journal whose program is gone.

    One that has nothing to give back is removed; None then, too.
    """
    hold = try_exclusive(descriptor)
    if hold == "held" or not os.path.samestat(place.stat(), os.fstat(descriptor)):
        return None
    contents = read_contents(_read(descriptor))
    if hold == "unknown" and not (contents and is_gone(contents.beginning.owner)):
        return None
    if contents and (contents.chain or contents.drafts or contents.damaged or contents.beginning.unsaved):
        return contents
    place.unlink()
    return None


def _left_journal(place: Path, descriptor: int, contents: Contents) -> LeftJournal:
    beginning = contents.beginning
    changed = datetime.fromtimestamp(os.fstat(descriptor).st_mtime, UTC)
    return LeftJournal(
        place=place,
        base=None if beginning.base is None else path_from_text(beginning.base),
        digest=beginning.digest,
        started=beginning.started,
        changed=changed.strftime("%Y-%m-%dT%H:%M:%SZ"),
        edits=len(contents.chain),
        _contents=contents,
        _descriptor=descriptor,
    )


def _replay(contents: Contents) -> tuple[Design, tuple[Message, ...]]:
    """The design after every edit in effect, or after as many as can be made; and what was lost, in words."""
    with file_errors():
        design = from_plain(read_json(bytes(contents.beginning.design)), Design)
    notes = (message("files.journal-damaged", edits=len(contents.edits)),) if contents.damaged else ()
    for done, state in enumerate(contents.chain):
        try:
            call = from_plain(read_json(bytes(contents.edits[state - 1])), EditCall)
            design = apply(design, call)
        except Exception as error:  # noqa: BLE001 - another version's edit may fail in any way; a start must not
            why = str(error) if isinstance(error, PiecewrightError) else type(error).__name__
            return design, (*notes, message("files.replay-stopped", done=done, number=done + 1, why=why))
    return design, notes


def _load(base: Path | None) -> Loaded | None:
    try:
        return load_design(base) if base else None
    except FileError:
        return None


def _read(descriptor: int) -> bytes:
    """All of a journal, or as much as any journal may hold."""
    with open(descriptor, "rb", closefd=False) as file:
        return file.read(JOURNAL_BYTES)


def _move_aside(place: Path) -> Path:
    aside = place.parent / ASIDE
    try:
        make_folder(aside)
        return place.rename(aside / place.name)
    except OSError:
        return place

"""The journal of edits.

Every change is on its way to the disk before the next frame, so that a crash loses none.

A journal is lines of JSON, each `["checksum", record]`. A checksum is the CRC-32 of its record's bytes
carried on from the line before, so a line that is torn, changed, lost or moved ends what can be trusted. The
first record holds the design the edits begin from; then come edits, pictures, moves to an earlier or
later state (undo and redo), and drafts of recipes that can not be made yet.
"""

import contextlib
import os
import secrets
import zlib
from collections.abc import Mapping
from pathlib import Path
from threading import Lock
from types import MappingProxyType
from typing import Any, NoReturn

import msgspec

from piecewright.edit.registry import EditCall
from piecewright.errors import FileError
from piecewright.files.exclusive import try_exclusive
from piecewright.files.faults import reason, shown_name
from piecewright.files.folders import make_folder, path_as_text
from piecewright.files.owner import Owner, now, this_owner
from piecewright.model.codec import encode_own
from piecewright.model.design import Design
from piecewright.words.message import message

JOURNAL_FORMAT = 1
ENDING = ".journal"
_FLAGS = os.O_RDWR | os.O_CREAT | os.O_EXCL | getattr(os, "O_BINARY", 0)


class Beginning(msgspec.Struct, frozen=True):
    """The first record.

    `base` is the design file edited, as `path_as_text` writes it, None for a design never saved; `digest`
    names the bytes of that file; `design` is what the edits begin from, in full; `unsaved` where that is in no
    file, so that even a journal without an edit has something to give back.
    """

    journal: int
    base: str | None
    digest: str
    started: str
    owner: Owner
    design: msgspec.Raw
    unsaved: bool = False


class DraftRecord(msgspec.Struct, frozen=True, omit_defaults=True):
    """The draft that stands of a recipe, by its id, until the next one or the next edit of it.

    `text` is the recipe's plain JSON, empty where no draft stands any more; `fabrics` gives the fabric of each letter
    that is new in it.
    """

    recipe: str
    text: str = ""
    fabrics: Mapping[str, str] = {}


_NO_EDIT = msgspec.Raw(b"")


class Record(msgspec.Struct, frozen=True, omit_defaults=True):
    """A later record.

    An edit, or a move to the state of that number (0 is the beginning, then one for each edit recorded), or a
    picture that no file holds yet, or a draft.
    """

    edit: msgspec.Raw = _NO_EDIT
    go_to: int | None = None
    picture: str | None = None
    data: bytes = b""
    draft: DraftRecord | None = None


class Journal:
    """The journal of one open design, until it is closed. One thread records; any thread may have it synced."""

    def __init__(self, place: Path, descriptor: int, design: Design) -> None:
        self.place = place
        self.state = 0
        self._states = {design: 0}
        self._descriptor: int | None = descriptor
        self._edits = 0
        self._sum = 0
        self._pending = bytearray()
        self._unsynced = False
        self._turn = Lock()

    @classmethod
    def begin(
        cls,
        folder: Path,
        design: Design,
        *,
        base: Path | None = None,
        digest: str = "",
        pictures: Mapping[str, bytes] = MappingProxyType({}),
        unsaved: bool = False,
    ) -> "Journal":
        """A new journal for a design as it was opened from the file `base` with that digest, or made anew.

        `pictures` are those that the file does not hold; `unsaved` where the design itself is in no file, as one
        that was recovered. FileError if nothing can be written in the folder.
        """
        try:
            make_folder(folder)
            journal = cls(*_new_file(folder), design)
        except OSError as error:
            _refuse(folder, error)
        beginning = Beginning(
            journal=JOURNAL_FORMAT,
            base=None if base is None else path_as_text(base),
            digest=digest,
            started=now(),
            owner=this_owner(),
            design=msgspec.Raw(_encode(design)),
            unsaved=unsaved,
        )
        journal._write(beginning)
        for name, data in pictures.items():
            journal.add_picture(name, data)
        return journal

    def append(self, call: EditCall, after: Design | None = None) -> int:
        """Record an edit made to the present state.

        Returns the number of the new state, also kept in `state`.

        `after` is the design it gives, for `return_to`. FileError if it could not be written: then it is
        written with the next one, so the journal stays in order.
        """
        self._edits += 1
        self.state = self._edits
        if after is not None:
            self._states[after] = self.state
        self._write(Record(edit=msgspec.Raw(_encode(call))))
        return self.state

    def go_to(self, state: int) -> None:
        """Record that undo or redo led to the state of this number.

        Nothing to record if it is the present one.
        """
        if not 0 <= state <= self._edits:
            raise ValueError(f"the journal has states 0 to {self._edits}, not {state}")
        if state != self.state:
            self.state = state
            self._write(Record(go_to=state))

    def return_to(self, design: Design) -> None:
        """Record that undo or redo led to a design that was the beginning, or an edit's `after`.

        Else ValueError.
        """
        if design not in self._states:
            raise ValueError("the journal has never seen that design")
        self.go_to(self._states[design])

    def add_picture(self, name: str, data: bytes) -> None:
        """Record a picture before the edit that shows it."""
        self._write(Record(picture=name, data=data))

    def note_draft(self, draft: DraftRecord) -> None:
        """Record the draft of a recipe that stands now, beside the design, which holds only what can be made."""
        self._write(Record(draft=draft))

    def sync(self) -> None:
        """Have the disk confirm all that was recorded; cheap when it has. To be called once a second.

        Any thread may call it: the disk may take its time, and recording need not wait for it.
        """
        with self._turn:
            if self._descriptor is None or not self._unsynced:
                return
            self._unsynced = False
            descriptor = os.dup(self._descriptor)
        try:
            self._flush()
            os.fsync(descriptor)
        except OSError as error:
            self._unsynced = True
            _refuse(self.place, error)
        finally:
            os.close(descriptor)

    def close(self) -> None:
        """End the journal and remove it: the design is saved, or the user gave its changes up. May be called twice."""
        with self._turn:
            if self._descriptor is None:
                return
            if os.name != "nt":
                _remove(self.place)
            os.close(self._descriptor)
            if os.name == "nt":
                _remove(self.place)
            self._descriptor = None

    def _write(self, record: Beginning | Record) -> None:
        if self._descriptor is None:
            raise ValueError("the journal is closed")
        encoded = msgspec.json.encode(record)
        with self._turn:
            self._sum = zlib.crc32(encoded, self._sum)
            self._pending += b'["%08x",%b]\n' % (self._sum, encoded)
            self._unsynced = True
        try:
            self._flush()
        except OSError as error:
            _refuse(self.place, error)

    def _flush(self) -> None:
        """Write what waits; after a refusal the rest follows where the last whole write ended."""
        with self._turn:
            while self._pending and self._descriptor is not None:
                written = os.write(self._descriptor, self._pending)
                del self._pending[:written]


def _new_file(folder: Path) -> tuple[Path, int]:
    """A new journal file, held: one that another start looked at in that very instant is left to it."""
    while True:
        place = folder / f"{now().replace(':', '')}-{secrets.token_hex(6)}{ENDING}"
        descriptor = os.open(place, _FLAGS, 0o600)
        if try_exclusive(descriptor) != "held" and place.exists():
            return place, descriptor
        os.close(descriptor)


def _encode(value: Any) -> bytes:
    return msgspec.json.encode(value, enc_hook=encode_own)


def _refuse(place: Path, error: OSError) -> NoReturn:
    why = message("files.journal-not-written", why=reason(error))
    raise FileError(why, message("files.journal-hint"), shown_name(place)) from error


def _remove(place: Path) -> None:
    with contextlib.suppress(OSError):
        place.unlink()

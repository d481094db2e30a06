"""Reading a journal of edits back: as far as its checksums hold, and not a line further."""

import zlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import msgspec

from piecewright.errors import FileError
from piecewright.files.journal import JOURNAL_FORMAT, Beginning, DraftRecord, Record
from piecewright.words.message import message

_FAULTS = (msgspec.MsgspecError, ValueError, RecursionError)


class _Head(msgspec.Struct):
    journal: int


@dataclass(frozen=True)
class Contents:
    """What a journal holds.

    `edits[n - 1]` leads from state `parents[n - 1]` to state n; `state` is the present one. `damaged` where
    more follows than a last line cut short: something was lost that had been written. `drafts` stand at the end.
    """

    beginning: Beginning
    edits: tuple[msgspec.Raw, ...]
    parents: tuple[int, ...]
    state: int
    pictures: Mapping[str, bytes]
    damaged: bool
    drafts: tuple[DraftRecord, ...] = ()

    @property
    def chain(self) -> tuple[int, ...]:
        """The states from the first edit in effect to the present one.

        What was undone and not redone is left out.
        """
        found, state = list[int](), self.state
        while state:
            found.append(state)
            state = self.parents[state - 1]
        return tuple(reversed(found))


def read_contents(data: bytes) -> Contents | None:
    """The contents of a journal's bytes.

    None where not even its first line is whole, so that no edit can be in it.

    FileError for a file that is no journal, or a newer one.
    """
    *lines, _ = data.split(b"\n")  # what follows the last line end is a line cut short
    if not lines:
        return None
    records = _records(lines)
    beginning = _beginning(next(records, None))
    return _collect(beginning, records, len(lines) - 1)


def _records(lines: list[bytes]) -> Iterator[msgspec.Raw]:
    """The records up to the first line that does not fit the checksums before it."""
    running = 0
    for line in lines:
        try:
            stated, record = msgspec.json.decode(line, type=tuple[str, msgspec.Raw])
        except _FAULTS:
            return
        running = zlib.crc32(record, running)
        if stated != f"{running:08x}":
            return
        yield record


def _beginning(record: msgspec.Raw | None) -> Beginning:
    if record is None:
        raise FileError(message("files.journal-unreadable"))
    try:
        version = msgspec.json.decode(record, type=_Head).journal
        if version > JOURNAL_FORMAT:
            raise FileError(message("files.journal-newer", version=version, newest=JOURNAL_FORMAT))
        return msgspec.json.decode(record, type=Beginning)
    except _FAULTS as error:
        raise FileError(message("files.journal-unreadable")) from error


def _collect(beginning: Beginning, records: Iterator[msgspec.Raw], lines: int) -> Contents:
    edits, parents, pictures = list[msgspec.Raw](), list[int](), dict[str, bytes]()
    drafts: dict[str, DraftRecord] = {}
    state = read = 0
    for raw in records:
        try:
            record = msgspec.json.decode(raw, type=Record)
        except _FAULTS:
            break
        if record.edit:
            edits.append(record.edit)
            parents.append(state)
            state = len(edits)
        elif record.go_to is not None:
            if not 0 <= record.go_to <= len(edits):
                break
            state = record.go_to
        elif record.picture is not None:
            pictures[record.picture] = record.data
        elif record.draft is not None:
            drafts[record.draft.recipe] = record.draft
        read += 1
    standing = tuple(draft for draft in drafts.values() if draft.text)
    damaged = read < lines
    return Contents(beginning, tuple(edits), tuple(parents), state, pictures, damaged, standing)

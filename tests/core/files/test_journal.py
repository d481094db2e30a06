"""The journal of edits: what was recorded comes back, whatever becomes of the last line or the file."""

import errno
import os
import zlib
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from random import Random

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from piecewright.errors import FileError
from piecewright.files.design_file import load_design, save_design
from piecewright.files.folders import path_as_text, path_from_text
from piecewright.files.journal import DraftRecord, Journal
from piecewright.files.recovery import LeftJournal, Recovered, find_left_journals
from piecewright.model.design import Design
from tests.core.files.sample_design import picture, sample_design, sample_pictures
from tests.core.files.sample_edits import random_edits

START = sample_design(2, 2)
WALK = random_edits(START, 30, Random(1))
CALLS = [call for call, _ in WALK]
AFTER = [START, *(design for _, design in WALK)]


def crash(journal: Journal) -> None:
    """What the end of its process does to a journal: its descriptor is closed."""
    assert journal._descriptor is not None
    os.close(journal._descriptor)
    journal._descriptor = None


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    return tmp_path / "state" / "journals"


@pytest.fixture
def journal(folder: Path) -> Iterator[Journal]:
    made = Journal.begin(folder, START)
    yield made
    made.close()


def left_in(folder: Path) -> LeftJournal:
    (left,) = find_left_journals(folder).journals
    return left


def recovered_in(folder: Path) -> Recovered:
    left = left_in(folder)
    try:
        return left.recover()
    finally:
        left.release()


def test_every_edit_comes_back(folder: Path, journal: Journal) -> None:
    for number, (call, after) in enumerate(WALK, 1):
        assert journal.append(call, after) == number
    crash(journal)
    left = left_in(folder)
    assert (left.edits, left.base) == (30, None)
    assert left.started <= left.changed
    recovered = left.recover()
    assert recovered.design == AFTER[30]
    assert (recovered.edits, recovered.base_state, recovered.notes) == (30, "never saved", ())
    assert left.settle(recovered) is None
    assert list(folder.iterdir()) == []


@given(st.lists(st.integers(0, 60), max_size=40))
def test_undo_and_redo_come_back_to_where_they_led(
    tmp_path_factory: pytest.TempPathFactory, turns: list[int]
) -> None:
    """A turn below 30 makes that edit of the walk where it fits; any other goes to an earlier state."""
    folder = tmp_path_factory.mktemp("journals")
    journal = Journal.begin(folder, START)
    states: list[Design] = [START]
    present = 0
    for turn in turns:
        if turn < 30 and states[present] == AFTER[turn]:
            states.append(AFTER[turn + 1])
            present = journal.append(CALLS[turn])
        else:
            present = turn % len(states)
            journal.go_to(present)
    crash(journal)
    if present == 0:
        assert find_left_journals(folder).journals == ()
        assert list(folder.iterdir()) == []
    else:
        assert recovered_in(folder).design == states[present]


def test_return_to_finds_the_state_of_a_design(folder: Path, journal: Journal) -> None:
    for call, after in WALK[:5]:
        journal.append(call, after)
    journal.return_to(AFTER[2])
    assert journal.state == 2
    with pytest.raises(ValueError, match="never seen"):
        journal.return_to(Design("stranger"))
    with pytest.raises(ValueError, match="states 0 to 5"):
        journal.go_to(6)
    crash(journal)
    assert recovered_in(folder).design == AFTER[2]


def test_a_last_line_cut_anywhere_costs_at_most_its_own_edit(folder: Path, journal: Journal) -> None:
    lengths = [journal.place.stat().st_size]
    for call in CALLS[:3]:
        journal.append(call)
        lengths.append(journal.place.stat().st_size)
    crash(journal)
    whole = journal.place.read_bytes()
    for cut in range(lengths[1], lengths[3] + 1):
        journal.place.write_bytes(whole[:cut])
        done = sum(cut >= length for length in lengths[1:])
        recovered = recovered_in(folder)
        assert recovered.design == AFTER[done]
        assert recovered.notes == ()


def test_a_line_changed_lost_or_moved_ends_what_comes_back_and_is_told(
    folder: Path, journal: Journal
) -> None:
    for call in CALLS[:6]:
        journal.append(call)
    crash(journal)
    lines = journal.place.read_bytes().splitlines(keepends=True)
    changed = lines[3].replace(b"edit", b"adit", 1)
    for broken in (
        [*lines[:3], changed, *lines[4:]],
        [*lines[:3], *lines[4:]],
        [*lines[:3], lines[4], lines[3], *lines[5:]],
        [*lines[:3], b"rubbish\n", *lines[4:]],
    ):
        journal.place.write_bytes(b"".join(broken))
        recovered = recovered_in(folder)
        assert recovered.design == AFTER[2]
        assert "2 changes could be read" in str(recovered.notes[0])
    left = left_in(folder)
    aside = left.settle(left.recover())
    assert aside is not None
    assert aside.read_bytes() == b"".join(broken)
    assert find_left_journals(folder).journals == ()


def test_the_journal_of_a_living_window_is_left_alone(folder: Path, journal: Journal) -> None:
    journal.append(CALLS[0])
    assert find_left_journals(folder).journals == ()
    journal.append(CALLS[1])
    crash(journal)
    assert recovered_in(folder).edits == 2


def test_a_journal_is_offered_to_one_start_only_until_it_lets_go(folder: Path, journal: Journal) -> None:
    journal.append(CALLS[0])
    crash(journal)
    first = left_in(folder)
    assert find_left_journals(folder).journals == ()
    first.release()
    left_in(folder).discard()
    assert list(folder.iterdir()) == []


def test_a_journal_without_edits_is_removed(folder: Path, journal: Journal) -> None:
    crash(journal)
    assert find_left_journals(folder).journals == ()
    assert list(folder.iterdir()) == []


def test_a_first_line_cut_anywhere_is_no_journal_yet(folder: Path, journal: Journal) -> None:
    crash(journal)
    whole = journal.place.read_bytes()
    for cut in (0, 1, len(whole) // 2, len(whole) - 1):
        journal.place.write_bytes(whole[:cut])
        assert find_left_journals(folder).notes == ()
        assert not journal.place.exists()


def _line(record: dict[str, object]) -> bytes:
    encoded = msgspec.json.encode(record)
    return b'["%08x",%b]\n' % (zlib.crc32(encoded), encoded)


@pytest.mark.parametrize(
    ("data", "words"),
    [
        (b"a diary of mine\n", "not a journal of edits"),
        (_line({"journal": 2, "hexagons": []}), "A newer Piecewright wrote this journal"),
        (_line({"journal": 1}), "not a journal of edits"),
        (_line({"base": "x"}), "not a journal of edits"),
        (b"[" * 100_000 + b"\n", "not a journal of edits"),
    ],
)
def test_a_foreign_or_newer_journal_is_kept_aside_and_told(folder: Path, data: bytes, words: str) -> None:
    folder.mkdir(parents=True)
    (folder / "x.journal").write_bytes(data)
    found = find_left_journals(folder)
    assert found.journals == ()
    assert words in str(found.notes[0])
    assert "It is kept aside as" in str(found.notes[0])
    assert (folder / "aside" / "x.journal").read_bytes() == data


def test_a_design_in_the_journal_that_can_not_be_read_is_told(folder: Path, journal: Journal) -> None:
    journal.append(CALLS[0])
    crash(journal)
    first, second = journal.place.read_bytes().splitlines()
    beginning = msgspec.json.decode(first)[1]
    beginning["design"] = {"hexagons": []}
    encoded = msgspec.json.encode(beginning)
    edit = second[12:-1]
    running = zlib.crc32(encoded)
    journal.place.write_bytes(
        b'["%08x",%b]\n["%08x",%b]\n' % (running, encoded, zlib.crc32(edit, running), edit)
    )
    left = left_in(folder)
    with pytest.raises(FileError, match="hexagons"):
        left.recover()
    assert left.keep_aside().exists()


def test_an_edit_that_can_not_be_made_again_ends_the_replay_and_is_told(
    folder: Path, journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    for call in CALLS[:4]:
        journal.append(call)
    crash(journal)
    made = iter(AFTER[1:3])

    def failing(design: Design, call: object) -> Design:
        after = next(made, None)
        if after is None:
            raise ZeroDivisionError
        return after

    monkeypatch.setattr("piecewright.files.recovery.apply", failing)
    recovered = recovered_in(folder)
    assert recovered.design == AFTER[2]
    assert (
        str(recovered.notes[0]) == "2 changes came back; change 3 could not be made again. ZeroDivisionError"
    )


def test_pictures_that_no_file_holds_come_back(folder: Path) -> None:
    journal = Journal.begin(folder, START, pictures={"leaf.png": picture("PNG")})
    journal.add_picture("moss.webp", picture("WEBP"))
    journal.append(CALLS[0])
    crash(journal)
    assert recovered_in(folder).pictures == {"leaf.png": picture("PNG"), "moss.webp": picture("WEBP")}


def test_the_base_file_is_told_apart(folder: Path, tmp_path: Path) -> None:
    place = tmp_path / "hedgerow.piecewright"
    digest = save_design(place, START, sample_pictures())
    journal = Journal.begin(folder, START, base=place, digest=digest)
    journal.append(CALLS[0])
    crash(journal)
    same = recovered_in(folder)
    assert (same.base, same.digest, same.base_state) == (place, digest, "same")
    assert same.pictures == sample_pictures()
    save_design(place, AFTER[1], sample_pictures())
    assert recovered_in(folder).base_state == "saved"
    save_design(place, Design("another"))
    assert recovered_in(folder).base_state == "changed"
    assert load_design(place).design == Design("another")
    place.unlink()
    gone = recovered_in(folder)
    assert (gone.base_state, gone.design) == ("gone", AFTER[1])


def test_a_refused_write_is_told_and_made_up_for_in_order(
    folder: Path, journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, room = os.write, [10]

    def narrow(descriptor: int, data: bytes) -> int:
        if not room[0]:
            raise OSError(errno.ENOSPC, "full")
        taken = min(room[0], len(data))
        room[0] -= taken
        return real(descriptor, bytes(data)[:taken])

    monkeypatch.setattr(os, "write", narrow)
    for call in CALLS[:2]:
        with pytest.raises(FileError, match=r"could not be noted for a recovery. The disk is full"):
            journal.append(call)
    with pytest.raises(FileError, match="The disk is full"):
        journal.sync()
    room[0] = 1 << 20
    journal.append(CALLS[2])
    journal.sync()
    crash(journal)
    assert recovered_in(folder).design == AFTER[3]


def test_sync_asks_the_disk_only_when_something_is_new(
    folder: Path, journal: Journal, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = list[int]()
    monkeypatch.setattr(os, "fsync", asked.append)
    journal.sync()
    journal.sync()
    assert len(asked) == 1
    journal.append(CALLS[0])
    journal.sync()
    assert len(asked) == 2


def test_another_thread_may_sync_while_edits_are_recorded(folder: Path, journal: Journal) -> None:
    with ThreadPoolExecutor(1) as other:
        syncs = []
        for call in CALLS:
            journal.append(call)
            syncs.append(other.submit(journal.sync))
        for sync in syncs:
            sync.result()
    crash(journal)
    assert recovered_in(folder).design == AFTER[30]


def test_a_folder_that_can_not_be_made_is_told(tmp_path: Path) -> None:
    (tmp_path / "state").write_bytes(b"a file")
    with pytest.raises(FileError, match="could not be noted for a recovery"):
        Journal.begin(tmp_path / "state" / "journals", START)


def test_a_closed_journal_is_gone_and_takes_nothing_more(folder: Path, journal: Journal) -> None:
    journal.append(CALLS[0])
    journal.close()
    journal.close()
    assert list(folder.iterdir()) == []
    journal.sync()
    with pytest.raises(ValueError, match="closed"):
        journal.append(CALLS[1])


@given(st.binary(min_size=1, max_size=30))
def test_any_path_is_kept_as_text(name: bytes) -> None:
    path = Path("/") / os.fsdecode(name.replace(b"\0", b"0"))
    assert path_from_text(path_as_text(path)) == path
    msgspec.json.encode(path_as_text(path))


def test_the_draft_that_stands_last_comes_back_beside_the_design(folder: Path, journal: Journal) -> None:
    (entry, *_) = START.recipes
    journal.note_draft(DraftRecord(entry.id, "{}", {"Q": "f1"}))
    journal.append(CALLS[0], AFTER[1])
    journal.note_draft(DraftRecord(entry.id, '{"steps": []}', {"Q": "f1"}))
    journal.note_draft(DraftRecord("gone", "{}"))
    crash(journal)
    recovered = recovered_in(folder)
    assert recovered.drafts == (DraftRecord(entry.id, '{"steps": []}', {"Q": "f1"}),)
    assert recovered.design == AFTER[1]


def test_a_draft_alone_is_worth_recovering_until_it_stands_no_longer(folder: Path, journal: Journal) -> None:
    (entry, *_) = START.recipes
    journal.note_draft(DraftRecord(entry.id, "{}"))
    crash(journal)
    assert recovered_in(folder).drafts
    other = Journal.begin(folder, START)
    other.note_draft(DraftRecord(entry.id, "{}"))
    other.note_draft(DraftRecord(entry.id))
    crash(other)
    assert [left.edits for left in find_left_journals(folder).journals] == [0]
    assert not other.place.exists()

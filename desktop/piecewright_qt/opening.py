"""What can be opened and what was left, for the start page: work on files that reads the engine in."""

import contextlib
from collections.abc import Callable
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from piecewright.errors import FileError, PiecewrightError
from piecewright.files.design_file import load_design
from piecewright.files.limits import RECENT_PICTURE_BYTES
from piecewright.files.recent import recent_designs, remember_design
from piecewright.files.recovery import LeftBehind, LeftJournal, find_left_journals
from piecewright.model.design import Design
from piecewright.words.message import Message
from piecewright_qt.pictures import small_picture
from piecewright_qt.samples import sample_files

_SIDES = (384, 256, 128)
"""Pixels of the pictures kept with recent designs, the first that is not too large a file."""


@dataclass(frozen=True)
class Offer:
    """A design to open: its name, a line about it, and its picture, or how to draw one."""

    path: Path
    name: str
    words: str
    picture: bytes = b""
    draw: Callable[[], bytes] | None = None

    def drawn(self, _job: object) -> bytes:
        """The picture, drawn on whatever thread this is."""
        return self.picture or (self.draw() if self.draw is not None else b"")


@dataclass(frozen=True)
class Unsaved:
    """What a journal gives back, with its picture; `fault` where it can give nothing."""

    journal: LeftJournal
    name: str
    edits: int
    changed: str
    picture: bytes = b""
    fault: str = ""


@dataclass(frozen=True)
class Left:
    """All that a crash left, and notes on what was kept aside unread."""

    journals: tuple[Unsaved, ...]
    notes: tuple[Message, ...]


def recent_offers(folder: Path) -> list[Offer]:
    """The designs opened last that are still there."""
    return [
        Offer(one.path, one.name, one.path.name, one.picture, partial(_picture_of_file, one.path))
        for one in recent_designs(folder)
        if one.path.exists()
    ]


def sample_offers() -> list[Offer]:
    """The samples that ship, with how to draw them."""
    offers = []
    for path in sample_files():
        design = load_design(path).design
        offers.append(Offer(path, design.name, design.about, draw=partial(small_picture, design, _SIDES[0])))
    return offers


def what_was_left(folder: Path) -> LeftBehind:
    """The journals of programs that ended before saving; those whose design is saved after all are removed."""
    found = find_left_journals(folder)
    return LeftBehind(tuple(left for left in found.journals if not _is_saved(left)), found.notes)


def offers(folder: Path) -> Left:
    """What was left, each with the design it gives back and its picture."""
    found = what_was_left(folder)
    return Left(tuple(_unsaved(left) for left in found.journals), found.notes)


def remember(folder: Path, path: Path, design: Design) -> Exception | None:
    """Note a design as the latest, at once with the picture it had, then with the one it has; what went wrong."""
    try:
        known = {one.path: one.picture for one in recent_designs(folder)}
        remember_design(folder, path, design.name, known.get(path.absolute(), b""))
        remember_design(folder, path, design.name, _kept_picture(design))
    except (PiecewrightError, OSError) as error:
        return error
    return None


def _unsaved(left: LeftJournal) -> Unsaved:
    try:
        design = left.recover().design
    except FileError as error:
        name = left.base.name if left.base is not None else left.place.name
        return Unsaved(left, name, left.edits, left.changed, fault=error.sentence())
    return Unsaved(left, design.name, left.edits, left.changed, small_picture(design, _SIDES[0]))


def _is_saved(left: LeftJournal) -> bool:
    with contextlib.suppress(PiecewrightError):
        if left.recover().base_state == "saved":
            left.discard()
            return True
    return False


def _kept_picture(design: Design) -> bytes:
    for side in _SIDES:
        picture = small_picture(design, side)
        if len(picture) <= RECENT_PICTURE_BYTES:
            return picture
    return b""


def _picture_of_file(path: Path) -> bytes:
    """Of a design whose list entry has none; nothing where it can not be read by now."""
    try:
        return _kept_picture(load_design(path).design)
    except FileError:
        return b""

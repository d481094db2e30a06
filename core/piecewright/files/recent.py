"""The designs opened last, each with a small picture, for the start of the program."""

import contextlib
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import msgspec

from piecewright.errors import FileError
from piecewright.files.atomic import read_file, remove_strays, write_whole
from piecewright.files.folders import make_folder, path_as_text, path_from_text
from piecewright.files.limits import RECENT_COUNT, RECENT_PICTURE_BYTES, STATE_BYTES
from piecewright.files.owner import now
from piecewright.files.pictures import picture_facts

RECENT_FILE = "recent.json"


@dataclass(frozen=True)
class RecentDesign:
    """A design file, the name of its design, when it was last opened or saved, and a small picture of it.

    The moment is in UTC, in the form of ISO 8601; the picture is PNG, JPEG or WebP, or empty if there is none.
    """

    path: Path
    name: str
    opened: str
    picture: bytes = b""


class _Entry(msgspec.Struct, frozen=True):
    path: str
    name: str
    opened: str
    picture: bytes = b""


class _List(msgspec.Struct, frozen=True):
    recent: tuple[_Entry, ...] = ()


def recent_designs(folder: Path) -> tuple[RecentDesign, ...]:
    """The list kept in the state folder, latest first; empty where it can not be read.

    It is only a convenience.
    """
    remove_strays(folder)
    try:
        kept = msgspec.json.decode(read_file(folder / RECENT_FILE, STATE_BYTES), type=_List)
    except (FileError, msgspec.MsgspecError, ValueError, RecursionError):
        return ()
    return tuple(
        RecentDesign(path_from_text(entry.path), entry.name, entry.opened, _small_picture(entry.picture))
        for entry in kept.recent[:RECENT_COUNT]
    )


def remember_design(folder: Path, path: Path, name: str, picture: bytes = b"") -> None:
    """Put a design at the head of the list.

    A picture too large or of no known kind is left out. Raises FileError.
    """
    latest = RecentDesign(Path(path).absolute(), name, now(), _small_picture(picture))
    _change(folder, lambda kept: (latest, *(entry for entry in kept if entry.path != latest.path)))


def forget_design(folder: Path, path: Path) -> None:
    """Take a design off the list. Raises FileError."""
    gone = Path(path).absolute()
    _change(folder, lambda kept: tuple(entry for entry in kept if entry.path != gone))


def _change(folder: Path, change: Callable[[tuple[RecentDesign, ...]], tuple[RecentDesign, ...]]) -> None:
    """Change the list as it is on the disk now.

    Of two windows that do it at once, the later one's entry is kept.
    """
    with contextlib.suppress(OSError):  # write_whole says in words what is wrong with the folder
        make_folder(folder)
    place = folder / RECENT_FILE
    kept = change(recent_designs(folder))[:RECENT_COUNT]
    entries = tuple(_Entry(path_as_text(one.path), one.name, one.opened, one.picture) for one in kept)
    write_whole(place, msgspec.json.encode(_List(entries)))


def _small_picture(picture: bytes) -> bytes:
    if not picture or len(picture) > RECENT_PICTURE_BYTES:
        return b""
    try:
        picture_facts("recent", picture)
    except FileError:
        return b""
    return picture

"""The user's preferences for the program itself: kept as JSON, and never a reason not to start."""

import contextlib
from dataclasses import dataclass
from pathlib import Path
from typing import Annotated, Any, Literal

import msgspec
from msgspec import Meta

from piecewright.errors import FileError
from piecewright.files.atomic import read_file, remove_strays, write_whole
from piecewright.files.faults import shown
from piecewright.files.folders import make_folder
from piecewright.files.limits import STATE_BYTES
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

PREFERENCES_FILE = "preferences.json"


class Preferences(msgspec.Struct, frozen=True, omit_defaults=True):
    """What the user likes, as it is at first.

    Lengths are shown in `unit`, to the nearest 1/`fraction` (None: exactly); `language` "" is the system's;
    `text_percent` scales all text; `rulers` lie along the wall; `shortcuts` gives the keys of an action where they
    are the user's own; `favorites` are recipes by name; `hints_seen` are those not to be shown again; `window` is the
    window's own note of its place and panels; `new_design` is what new designs begin with, as JSON that
    files/beginning.py reads.
    """

    theme: Literal["system", "light", "dark"] = "system"
    language: Annotated[str, Meta(max_length=20)] = ""
    unit: Literal["in", "cm", "mm"] = "in"
    fraction: Literal[8, 16] | None = None
    decimal_comma: bool = False
    text_percent: Annotated[int, Meta(ge=50, le=300)] = 100
    left_handed: bool = False
    rulers: bool = False
    shortcuts: dict[str, str] = {}
    favorites: tuple[str, ...] = ()
    hints_seen: tuple[str, ...] = ()
    window: bytes = b""
    new_design: dict[str, Any] = {}

    @property
    def measure(self) -> Measure:
        """The formatter for all numbers shown."""
        return Measure(self.unit, self.fraction, self.decimal_comma)


@dataclass(frozen=True)
class LoadedPreferences:
    """Preferences as far as understood, what to tell the user, and keys that only a newer program knows."""

    preferences: Preferences
    notes: tuple[Message, ...] = ()
    unknown: tuple[tuple[str, Any], ...] = ()


def load_preferences(folder: Path) -> LoadedPreferences:
    """The preferences kept in the configuration folder.

    A value that means nothing here gives way to the first one, a file that is no JSON to all of them (it is
    kept under another name), both with a note.
    """
    remove_strays(folder)
    place = folder / PREFERENCES_FILE
    try:
        plain = msgspec.json.decode(read_file(place, STATE_BYTES), type=dict[str, Any])
    except (FileError, msgspec.MsgspecError, ValueError, RecursionError) as error:
        if isinstance(error.__cause__, FileNotFoundError):
            return LoadedPreferences(Preferences())
        return LoadedPreferences(Preferences(), (message("files.preferences-damaged", place=_keep(place)),))
    return _understand(plain)


def save_preferences(folder: Path, loaded: LoadedPreferences) -> None:
    """Save preferences whole, with the keys that a newer program had written. Raises FileError."""
    with contextlib.suppress(OSError):  # write_whole says in words what is wrong with the folder
        make_folder(folder)
    plain = {**dict(loaded.unknown), **msgspec.to_builtins(loaded.preferences)}
    write_whole(folder / PREFERENCES_FILE, msgspec.json.format(msgspec.json.encode(plain), indent=2) + b"\n")


def _understand(plain: dict[str, Any]) -> LoadedPreferences:
    known = {field.encode_name: field.type for field in msgspec.structs.fields(Preferences)}
    values, notes = dict[str, Any](), list[Message]()
    for key in known.keys() & plain.keys():
        try:
            values[key] = msgspec.convert(plain[key], known[key])
        except msgspec.ValidationError:
            notes.append(message("files.preference-reset", name=key))
    unknown = tuple((key, value) for key, value in plain.items() if key not in known)
    return LoadedPreferences(Preferences(**values), tuple(notes), unknown)


def _keep(place: Path) -> str:
    kept = place.with_name(f"{place.name}.damaged")
    with contextlib.suppress(OSError):
        place.replace(kept)
    return shown(kept)

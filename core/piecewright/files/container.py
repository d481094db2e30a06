"""The zip that a design file is: written always alike, read with distrust."""

import io
import struct
import zipfile
import zlib
from collections.abc import Mapping
from dataclasses import dataclass

from piecewright.errors import FileError
from piecewright.files.faults import shown
from piecewright.files.limits import (
    DESIGN_BYTES,
    DIRECTORY_BYTES,
    ENTRIES,
    MEGABYTE,
    PICTURE_BYTES,
    PICTURES_BYTES,
)
from piecewright.files.pictures import is_picture_name
from piecewright.words.message import message

MIME_TYPE = "application/vnd.piecewright.design+zip"
"""The first entry's content, unpacked, so that a file manager knows the file by its first bytes."""

SIGNATURE = b"PK\x03\x04"
_MIME_ENTRY, _DESIGN_ENTRY, _PICTURES = "mimetype", "design.json", "pictures/"
_END = struct.Struct("<4s4H2LH")
_ZIP64 = b"PK\x06\x07"
"""Twenty bytes before the end record these would send the library to another, unchecked list of entries."""
_BEGINNING = (1980, 1, 1, 0, 0, 0)
"""Every entry's date: the same design gives the same bytes."""
_METHODS = (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED)
_ENCRYPTED = 0x1
_BROKEN = (
    zipfile.BadZipFile,
    zlib.error,
    EOFError,
    NotImplementedError,
    RuntimeError,
    struct.error,
    ValueError,
    OverflowError,
    OSError,
    KeyError,
)
"""All that the standard library raises over a zip that is not one; the bytes are in memory, so OSError is one
of them.
"""


@dataclass(frozen=True)
class Contents:
    """What the zip holds: the design's JSON, and the entries beside it, pictures still packed."""

    design: bytes
    archive: zipfile.ZipFile
    entries: tuple[zipfile.ZipInfo, ...]

    def pictures(self) -> dict[str, bytes]:
        """The pictures by name; FileError for an entry that is none of a design's."""
        for entry in self.entries:
            if not _belongs(entry.filename):
                raise FileError(
                    message("files.foreign-entry", name=shown(entry.filename)), message("files.zip-hint")
                )
        pictures = [entry for entry in self.entries if _picture_name(entry.filename)]
        if sum(entry.file_size for entry in pictures) > PICTURES_BYTES:
            raise FileError(message("files.pictures-too-large", most=PICTURES_BYTES // MEGABYTE))
        return {_picture_name(entry.filename): _unpack(self.archive, entry) for entry in pictures}


def pack(design: bytes, pictures: Mapping[str, bytes]) -> bytes:
    """The zip of a design: equal input gives equal bytes."""
    packed = io.BytesIO()
    with zipfile.ZipFile(packed, "w") as archive:
        _add(archive, _MIME_ENTRY, MIME_TYPE.encode(), zipfile.ZIP_STORED)
        _add(archive, _DESIGN_ENTRY, design, zipfile.ZIP_DEFLATED)
        for name in sorted(pictures):
            _add(archive, _PICTURES + name, pictures[name], zipfile.ZIP_STORED)
    return packed.getvalue()


def unpack(data: bytes) -> Contents:
    """The contents of a design's zip.

    Nothing is unpacked before its declared size, and all of them together, are within the limits, and no more
    bytes are unpacked than were declared. Raises FileError.
    """
    _check_end(data)
    try:
        archive = zipfile.ZipFile(io.BytesIO(data))
    except _BROKEN as error:
        raise _damaged() from error
    entries = tuple(archive.infolist())
    _check_entries(entries)
    design = next((entry for entry in entries if entry.filename == _DESIGN_ENTRY), None)
    if design is None:
        raise FileError(message("files.no-design-inside"), message("files.zip-hint"))
    return Contents(_unpack(archive, design), archive, entries)


def _add(archive: zipfile.ZipFile, name: str, data: bytes, method: int) -> None:
    entry = zipfile.ZipInfo(name, _BEGINNING)
    entry.compress_type = method
    entry.create_system = 3  # Unix, on every system
    entry.external_attr = 0o100644 << 16
    archive.writestr(entry, data)


def _check_end(data: bytes) -> None:
    """Refuse a zip that is cut off, oversized or oddly built, before the library reads its entries.

    The end record (PKWARE APPNOTE 4.3.16) must be the last 22 bytes, the list must end where it begins, and
    be short.
    """
    if len(data) < _END.size or data[-_END.size - 20 :].startswith(_ZIP64):
        raise _damaged()
    signature, disk, first_disk, here, count, size, start, comment = _END.unpack(data[-_END.size :])
    if signature != b"PK\x05\x06" or comment or disk or first_disk or here != count:
        raise _damaged()
    if count > ENTRIES:
        raise _too_many(count)
    if size > DIRECTORY_BYTES or start + size != len(data) - _END.size:
        raise _damaged()


def _check_entries(entries: tuple[zipfile.ZipInfo, ...]) -> None:
    if len(entries) > ENTRIES:
        raise _too_many(len(entries))
    names = set[str]()
    for entry in entries:
        name = entry.filename
        where = shown(name)
        if _climbs(entry.orig_filename):
            raise FileError(message("files.climbing-entry", name=where), message("files.zip-hint"))
        if name in names:
            raise FileError(message("files.entry-twice", name=where), message("files.zip-hint"))
        if entry.flag_bits & _ENCRYPTED:
            raise FileError(message("files.encrypted", name=where), message("files.zip-hint"))
        if entry.compress_type not in _METHODS:
            raise FileError(message("files.odd-packing", name=where), message("files.zip-hint"))
        most = _most(name)
        if entry.file_size > most:
            raise FileError(message("files.entry-too-large", name=where, most=most // MEGABYTE))
        names.add(name)


def _climbs(name: str) -> bool:
    """Whether a name leads out of the design or hides its end.

    Nothing is ever unpacked to a path, and still it is refused.
    """
    parts = name.split("/")
    return name.startswith("/") or ".." in parts or any(sign in name for sign in "\\:\0")


def _most(name: str) -> int:
    return DESIGN_BYTES if name == _DESIGN_ENTRY else PICTURE_BYTES


def _belongs(name: str) -> bool:
    return name in (_MIME_ENTRY, _DESIGN_ENTRY, _PICTURES) or bool(_picture_name(name))


def _picture_name(name: str) -> str:
    """The picture's own name; "" for an entry that is no picture."""
    own = name.removeprefix(_PICTURES)
    return own if name.startswith(_PICTURES) and is_picture_name(own) else ""


def _unpack(archive: zipfile.ZipFile, entry: zipfile.ZipInfo) -> bytes:
    """The bytes of an entry whose declared size has been checked; no more is unpacked, whatever follows."""
    try:
        with archive.open(entry) as file:
            data = file.read(entry.file_size)
    except _BROKEN as error:
        raise _damaged() from error
    if len(data) != entry.file_size:
        raise _damaged()
    return data


def _too_many(count: int) -> FileError:
    return FileError(message("files.too-many-entries", count=count, most=ENTRIES), message("files.zip-hint"))


def _damaged() -> FileError:
    return FileError(message("files.damaged-zip"), message("files.damaged-hint"))

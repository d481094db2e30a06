"""Pictures a design carries.

Known by their first bytes, measured without being opened, never anything that could run.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from piecewright.errors import DesignError, FileError
from piecewright.files.faults import shown
from piecewright.files.limits import (
    MEGABYTE,
    PICTURE_BYTES,
    PICTURE_COUNT,
    PICTURE_PIXELS,
    PICTURE_SIDE,
    PICTURES_BYTES,
)
from piecewright.model.fabric import check_picture_name
from piecewright.words.message import message


@dataclass(frozen=True)
class PictureFacts:
    """The kind of a picture and its size in pixels."""

    kind: Literal["png", "jpeg", "webp"]
    width: int
    height: int


def picture_facts(name: str, data: bytes) -> PictureFacts:
    """What a picture is, by its own first bytes.

    `name` only serves the sentence of the FileError for anything else.

    Only the size in the header is read, by PNG (ISO/IEC 15948, 11.2.1), JPEG (ITU-T T.81, B.2.2) and WebP
    (RFC 9649, 2).
    """
    where = f"pictures/{shown(name)}"
    if len(data) > PICTURE_BYTES:
        raise FileError(message("files.picture-too-large", most=PICTURE_BYTES // MEGABYTE), None, where)
    facts = _png(data) or _jpeg(data) or _webp(data)
    if facts is None or facts.width < 1 or facts.height < 1:
        raise FileError(message("files.no-picture"), message("files.picture-hint"), where)
    if max(facts.width, facts.height) > PICTURE_SIDE or facts.width * facts.height > PICTURE_PIXELS:
        size = {
            "width": f"{facts.width}",
            "height": f"{facts.height}",
            "most": f"{PICTURE_PIXELS // 1_000_000}",
        }
        raise FileError(
            message("files.picture-too-many-pixels", **size), message("files.picture-shrink-hint"), where
        )
    return facts


def check_pictures(pictures: Mapping[str, bytes]) -> None:
    """FileError unless a design may carry these pictures under these names."""
    if len(pictures) > PICTURE_COUNT:
        raise FileError(message("files.too-many-pictures", count=len(pictures), most=PICTURE_COUNT))
    if sum(map(len, pictures.values())) > PICTURES_BYTES:
        raise FileError(message("files.pictures-too-large", most=PICTURES_BYTES // MEGABYTE))
    for name, data in pictures.items():
        if not is_picture_name(name):
            raise FileError(
                message("files.bad-picture-name", name=shown(name)), message("files.picture-name-hint")
            )
        picture_facts(name, data)


def is_picture_name(name: str) -> bool:
    """Whether a fabric could name its picture so: one part of a path."""
    try:
        check_picture_name(name)
    except DesignError:
        return False
    return True


def _number(data: bytes, start: int, length: int, order: Literal["big", "little"] = "big") -> int:
    return int.from_bytes(data[start : start + length], order)


def _png(data: bytes) -> PictureFacts | None:
    if data[:8] != b"\x89PNG\r\n\x1a\n" or data[12:16] != b"IHDR":
        return None
    return PictureFacts("png", _number(data, 16, 4), _number(data, 20, 4))


_JPEG_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
"""Start-of-frame markers; the three left out are tables."""
_JPEG_BARE = frozenset({0x01, *range(0xD0, 0xD9)})
"""Markers that no length follows."""


def _jpeg(data: bytes) -> PictureFacts | None:
    if data[:3] != b"\xff\xd8\xff":
        return None
    at = 2
    while at + 9 <= len(data) and data[at] == 0xFF:
        marker = data[at + 1]
        if marker in _JPEG_FRAMES:
            return PictureFacts("jpeg", _number(data, at + 7, 2), _number(data, at + 5, 2))
        if marker == 0xFF:
            at += 1
        else:
            at += 2 if marker in _JPEG_BARE else 2 + max(2, _number(data, at + 2, 2))
    return None


def _webp(data: bytes) -> PictureFacts | None:
    if data[:4] != b"RIFF" or data[8:12] != b"WEBP" or len(data) < 30:
        return None
    match data[12:16]:
        case b"VP8 " if data[23:26] == b"\x9d\x01\x2a":
            return PictureFacts(
                "webp", _number(data, 26, 2, "little") & 0x3FFF, _number(data, 28, 2, "little") & 0x3FFF
            )
        case b"VP8L" if data[20] == 0x2F:
            bits = _number(data, 21, 4, "little")
            return PictureFacts("webp", (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1)
        case b"VP8X":
            return PictureFacts(
                "webp", _number(data, 24, 3, "little") + 1, _number(data, 27, 3, "little") + 1
            )
    return None

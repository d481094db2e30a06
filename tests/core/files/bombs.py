"""Design files that mean harm, each for one way in; and a meter of the bytes that reading one unpacks."""

import io
import struct
import zipfile
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from typing import Any

import pytest

LARGE = 1 << 27
_HEAD = struct.Struct("<4s5H3L2H")
_ENTRY = struct.Struct("<4s6H3L5H2L")
_END = struct.Struct("<4s4H2LH")


class Meter:
    """Counts the bytes that zlib gives out."""

    unpacked = 0


@contextmanager
def metered(patch: pytest.MonkeyPatch) -> Iterator[Meter]:
    """Every decompressor that the zip library asks for inside is counted."""
    meter, real = Meter(), zlib.decompressobj

    class Counted:
        def __init__(self, *options: Any) -> None:
            self._real = real(*options)

        def __getattr__(self, name: str) -> object:
            return getattr(self._real, name)

        def decompress(self, data: bytes, most: int = 0) -> bytes:
            given = self._real.decompress(data, most)
            meter.unpacked += len(given)
            return given

    with patch.context() as patching:
        patching.setattr(zlib, "decompressobj", Counted)
        yield meter


def zipped(*entries: tuple[str, bytes], method: int = zipfile.ZIP_DEFLATED) -> bytes:
    """An ordinary zip of these entries."""
    made = io.BytesIO()
    twice = len({name for name, _ in entries}) < len(entries)
    warned = pytest.warns(UserWarning, match="Duplicate") if twice else nullcontext()
    with warned, zipfile.ZipFile(made, "w", method) as archive:
        for name, data in entries:
            archive.writestr(zipfile.ZipInfo(name), data, method)
    return made.getvalue()


def raw_zip(entries: list[tuple[str, bytes, int, int, int]], share: bool = False) -> bytes:
    """A zip of (name, packed bytes, claimed size, flags, method), as no library would write it.

    `share` has all entries lie over the first one's bytes.
    """
    body, directory = bytearray(), bytearray()
    for name, packed, size, flags, method in entries:
        encoded, start = name.encode(), 0 if share else len(body)
        checksum = zlib.crc32(_unpacked(packed, method)) if size < 1 << 16 else 0
        if not (share and body):
            body += _HEAD.pack(
                b"PK\3\4", 20, flags, method, 0, 33, checksum, len(packed), size, len(encoded), 0
            )
            body += encoded + packed
        directory += _ENTRY.pack(
            b"PK\1\2",
            20,
            20,
            flags,
            method,
            0,
            33,
            checksum,
            len(packed),
            size,
            len(encoded),
            0,
            0,
            0,
            0,
            0,
            start,
        )
        directory += encoded
    count = min(len(entries), 65535)
    end = _END.pack(b"PK\5\6", 0, 0, count, count, len(directory), len(body), 0)
    return bytes(body + directory + end)


def deflated(size: int) -> bytes:
    """Zeros, packed about a thousandfold."""
    packer = zlib.compressobj(9, zlib.DEFLATED, -15)
    chunk = bytes(1 << 20)
    parts = [packer.compress(chunk) for _ in range(size >> 20)]
    return b"".join(parts) + packer.flush()


def honest_bomb() -> bytes:
    """It says that it unpacks to 128 MB, and would."""
    return raw_zip([("design.json", deflated(LARGE), LARGE, 0, 8)])


def lying_bomb() -> bytes:
    """It says that it unpacks to a thousand bytes, and would to 128 MB."""
    return raw_zip([("design.json", deflated(LARGE), 1000, 0, 8)])


def overlapping_bomb() -> bytes:
    """Four hundred pictures over the same packed bytes: eight megabytes each, three gigabytes together."""
    size = 8 << 20
    packed = deflated(size)
    design = zlib.compress(b'{"piecewright":1,"name":"x"}', 9)[2:-4]
    entries = [("design.json", design, 28, 0, 8)]
    entries += [(f"pictures/{number}.png", packed, size, 0, 8) for number in range(399)]
    return raw_zip(entries, share=True)


def many_entries() -> bytes:
    """Sixty thousand entries without content."""
    return raw_zip([(f"pictures/{number}", b"", 0, 0, 0) for number in range(60_000)])


def hidden_entries() -> bytes:
    """It says that it has one entry; its list holds sixty thousand."""
    data = bytearray(many_entries())
    data[-14:-10] = struct.pack("<2H", 1, 1)
    return bytes(data)


def second_directory() -> bytes:
    """The short list is for show; a zip64 record leads the library to a list of sixty thousand."""
    inner = many_entries()
    size, start = struct.unpack("<2L", inner[-10:-2])
    record = struct.pack("<4sQ2H2L4Q", b"PK\6\6", 44, 45, 45, 0, 0, 60_000, 60_000, size, start)
    locator = struct.pack("<4sLQL", b"PK\6\7", 0, len(inner) - 22, 1)
    end = _END.pack(b"PK\5\6", 0, 0, 0, 0, 0, len(inner) - 22 + len(record) + len(locator), 0)
    return inner[:-22] + record + locator + end


BOMBS: dict[str, Callable[[], bytes]] = {
    "honest": honest_bomb,
    "lying": lying_bomb,
    "overlapping": overlapping_bomb,
    "many entries": many_entries,
    "hidden entries": hidden_entries,
    "second directory": second_directory,
    "deep": lambda: b'{"piecewright":1,"name":' + b"[" * 4_000_000,
    "broad": lambda: b'{"piecewright":1,"name":[' + b"{}," * 4_000_000 + b"{}]}",
    "long number": lambda: b'{"piecewright":1,"name":' + b"9" * 4_000_000 + b"}",
    "long blank": lambda: b" " * 20_000_000 + b"{}",
}


def _unpacked(packed: bytes, method: int) -> bytes:
    """The first bytes of what is packed, for the checksum of a small entry."""
    return zlib.decompressobj(-15).decompress(packed, 1 << 16) if method == zipfile.ZIP_DEFLATED else packed

"""Design files: the zip `*.piecewright` and plain JSON.

Read with distrust, saved whole, newer ones left as they are.
"""

import contextlib
import hashlib
import json
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from types import MappingProxyType

from piecewright.errors import FileError, PiecewrightError
from piecewright.files import container
from piecewright.files.atomic import read_file, remove_strays, write_whole
from piecewright.files.faults import saving_refused, short, shown, shown_name
from piecewright.files.limits import (
    DESIGN_BYTES,
    DESIGN_PARTS,
    FILE_BYTES,
    MEGABYTE,
    MOST_OF_A_KIND,
    RECIPES_BYTES,
)
from piecewright.files.migrate import STEPS, VERSION_KEY, Plain, Step, migrate
from piecewright.files.pictures import check_pictures
from piecewright.model.codec import from_plain, read_json, to_json, to_plain
from piecewright.model.design import FORMAT, Design
from piecewright.words.message import Message, message

_BYTE_ORDER_MARK = b"\xef\xbb\xbf"
_NOT_DESIGNS = (
    (b"\x89PNG", "PNG"),
    (b"\xff\xd8\xff", "JPEG"),
    (b"%PDF", "PDF"),
    (b"<", "XML, SVG or HTML"),
    (b"SQLite format 3\0", "SQLite"),
)
_NO_VERSION = 10**6


@dataclass(frozen=True)
class Loaded:
    """A design as its file gave it.

    `version` is the file's; `read_only` where it is newer than this program, which then never writes to it;
    `digest` names these very bytes; `notes` are what the quilter should hear.
    """

    design: Design
    pictures: Mapping[str, bytes]
    version: int = FORMAT
    read_only: bool = False
    digest: str = ""
    notes: tuple[Message, ...] = ()


def load_design(path: Path) -> Loaded:
    """The design in a file, whatever its name ends in. What a crashed save left in its folder is removed.

    Raises FileError, and nothing else, for every file that is not a whole and sound design.
    """
    _sweep(path)
    return read_design(read_file(path, FILE_BYTES), shown_name(path))


def read_design(data: bytes, name: str = "", steps: Mapping[int, Step] = STEPS) -> Loaded:
    """The design in the bytes of a file; `name` begins the sentence of the FileError."""
    with _named(name):
        text, contents = _open(data)
        plain = _plain(text)
        version = _version(plain)
        _check_breadth(plain)
        design = _understand(plain, version, steps)
        pictures = contents.pictures() if contents else {}
        check_pictures(pictures)
    newer = (message("files.newer-read-only", version=version, newest=FORMAT),) if version > FORMAT else ()
    return Loaded(
        design=design,
        pictures=MappingProxyType(pictures),
        version=version,
        read_only=version > FORMAT,
        digest=digest_of(data),
        notes=(*newer, *_missing_pictures(design, pictures)),
    )


def save_design(
    path: Path,
    design: Design,
    pictures: Mapping[str, bytes] = MappingProxyType({}),
    *,
    unless_not: str | None = None,
) -> str:
    """Save a design whole, or leave the file as it was and raise FileError.

    Returns the digest of the bytes written.

    `unless_not` is the digest of the file as last read or saved: a file that has other bytes by now is left
    alone. So is one that a newer program wrote. Of `pictures` those are kept that a fabric shows. A name in
    `.json` gives plain JSON.
    """
    _sweep(path)
    data = pack_design(path, design, pictures)
    _check_overwriting(path, unless_not)
    write_whole(path, data)
    return digest_of(data)


def pack_design(path: Path, design: Design, pictures: Mapping[str, bytes]) -> bytes:
    """The bytes to save under a name; they have been read back into an equal design."""
    name = shown_name(path)
    used = {fabric.picture for fabric in design.fabrics}
    kept = {key: data for key, data in pictures.items() if key in used}
    with _named(name):
        check_pictures(kept)
        if path.suffix.lower() != ".json":
            data = container.pack(to_json(design), kept)
        elif kept:
            raise FileError(message("files.no-pictures-in-json"), message("files.save-as-design-hint"))
        else:
            data = json.dumps(to_plain(design), indent=2, ensure_ascii=False).encode() + b"\n"
        if read_design(data, name).design != design:
            raise FileError(message("files.not-readable-back"), message("files.save-hint"))
    return data


def digest_of(data: bytes) -> str:
    """The SHA-256 of a file's bytes, in hexadecimal."""
    return hashlib.sha256(data).hexdigest()


def digest_at(path: Path) -> str | None:
    """The digest of the file at a path; None where none can be read."""
    try:
        return digest_of(read_file(path, FILE_BYTES))
    except FileError:
        return None


def _sweep(path: Path) -> None:
    """Remove what a crashed save left where the file of that name really lies."""
    remove_strays(Path(os.path.realpath(path)).parent)


def _open(data: bytes) -> tuple[bytes, container.Contents | None]:
    """The design's JSON by the signature of the bytes, and the zip that it came from, if any."""
    if data.startswith(container.SIGNATURE):
        contents = container.unpack(data)
        return contents.design, contents
    text = data.removeprefix(_BYTE_ORDER_MARK).lstrip()
    if not text:
        raise FileError(message("files.empty"), message("files.damaged-hint"))
    for signature, kind in _NOT_DESIGNS:
        if text.startswith(signature):
            raise FileError(message("files.other-kind", kind=kind), message("files.choose-hint"))
    if not text.startswith(b"{"):
        raise FileError(message("files.no-design"), message("files.choose-hint"))
    return text, None


def _plain(text: bytes) -> Plain:
    """The JSON object in a design's text.

    Its size, and the number of its parts, are looked at before it is read.
    """
    if len(text) > DESIGN_BYTES:
        raise FileError(message("files.too-large", most=DESIGN_BYTES // MEGABYTE))
    if text.count(b"{") + text.count(b"[") > DESIGN_PARTS:
        raise FileError(message("files.too-many-parts", most=f"{DESIGN_PARTS}"))
    with file_errors():
        plain = read_json(text)
    if not isinstance(plain, dict):
        raise FileError(message("files.no-design"), message("files.choose-hint"))
    return plain


def _check_breadth(plain: Plain) -> None:
    """Refuse so many things that the quilter would wait for them to be understood, and then refused."""
    if len(json.dumps(plain.get("recipes"), check_circular=False)) > RECIPES_BYTES:
        raise FileError(message("files.recipes-too-large", most=RECIPES_BYTES // 1024), None, "recipes")
    tables = [block.get(key) for block in _objects(plain, "blocks") for key in ("sizes", "draws")]
    lists = {key: [plain.get(key)] for key in ("fabrics", "blocks", "arrangements")}
    lists |= {"borders": [quilt.get("borders") for quilt in _objects(plain, "arrangements")], "sizes": tables}
    for where, found in lists.items():
        count = sum(len(one) for one in found if isinstance(one, list | dict))
        if count > MOST_OF_A_KIND:
            raise FileError(
                message("files.too-many-of-a-kind", count=f"{count}", most=f"{MOST_OF_A_KIND}"), None, where
            )


def _objects(plain: Plain, key: str) -> list[Plain]:
    found = plain.get(key)
    return [one for one in found if isinstance(one, dict)] if isinstance(found, list) else []


def _version(plain: Plain) -> int:
    """The format version that a design states for itself."""
    if VERSION_KEY not in plain:
        if "recipe" in plain:
            raise FileError(message("files.is-recipe"), message("files.choose-hint"))
        raise FileError(message("files.no-version"), message("files.version-hint"))
    version = plain[VERSION_KEY]
    if type(version) is not int or not 0 <= version < _NO_VERSION:
        raise FileError(message("files.bad-version"), message("files.version-hint"))
    return version


def _understand(plain: Plain, version: int, steps: Mapping[int, Step]) -> Design:
    """The design of a JSON object; a newer one is opened only if nothing in it is unknown here."""
    if version <= FORMAT:
        with file_errors():
            return from_plain(migrate(plain, steps), Design)
    try:
        return from_plain({**plain, VERSION_KEY: FORMAT}, Design)
    except PiecewrightError as error:
        newer = message("files.newer", version=version, newest=FORMAT)
        raise FileError(newer, message("files.newer-hint")) from error


def _missing_pictures(design: Design, pictures: Mapping[str, bytes]) -> tuple[Message, ...]:
    """A note for each fabric whose picture is not in the file: its color is shown instead."""
    return tuple(
        message("files.picture-missing", picture=shown(fabric.picture), fabric=shown(fabric.name))
        for fabric in design.fabrics
        if fabric.picture is not None and fabric.picture not in pictures
    )


def _check_overwriting(path: Path, unless_not: str | None) -> None:
    """Refuse to replace what can not be read first, a newer program's file, and one changed since it was read."""
    try:
        data = read_file(path, FILE_BYTES)
    except FileError as error:
        match error.__cause__:
            case FileNotFoundError():
                return
            case OSError() as refused:
                raise saving_refused(path, refused) from refused
        raise
    version = 0
    with contextlib.suppress(FileError):
        version = _version(_plain(_open(data)[0]))
    if version > FORMAT:
        newer = message("files.newer-kept", version=version, newest=FORMAT)
        raise FileError(newer, message("files.save-hint"), shown_name(path))
    if unless_not is not None and digest_of(data) != unless_not:
        raise FileError(message("files.changed-on-disk"), message("files.save-hint"), shown_name(path))


@contextlib.contextmanager
def _named(name: str) -> Iterator[None]:
    """Have each FileError from within begin with the file's name."""
    try:
        yield
    except FileError as error:
        if not name or error.where == name:
            raise
        raise FileError(
            error.message, error.hint, f"{name}, {error.where}" if error.where else name
        ) from error


@contextlib.contextmanager
def file_errors() -> Iterator[None]:
    """What the model refuses in a file is a fault of the file, in the model's words and with its place."""
    try:
        yield
    except FileError:
        raise
    except PiecewrightError as error:
        hint = error.hint and short(error.hint)
        raise FileError(short(error.message), hint, shown(error.where)) from error
    except RecursionError as error:
        raise FileError(message("model.too-deep")) from error

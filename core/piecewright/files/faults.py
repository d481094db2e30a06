"""What the operating system refused, in a quilter's words."""

import errno
import os
from pathlib import Path

from piecewright.errors import FileError
from piecewright.words.message import Arg, Message, message

_REASONS = {
    errno.ENOSPC: "files.disk-full",
    errno.EDQUOT: "files.quota-used",
    errno.EFBIG: "files.too-big-for-disk",
    errno.EROFS: "files.disk-read-only",
    errno.EACCES: "files.not-allowed",
    errno.EPERM: "files.not-allowed",
    errno.EIO: "files.disk-fault",
    errno.EMFILE: "files.too-many-open",
    errno.ENFILE: "files.too-many-open",
    errno.ENOENT: "files.not-there",
    errno.ENOTDIR: "files.not-there",
    errno.EISDIR: "files.is-folder",
    errno.ELOOP: "files.link-circle",
    errno.ENAMETOOLONG: "files.name-too-long",
    errno.ETIMEDOUT: "files.network-gone",
    errno.EHOSTDOWN: "files.network-gone",
    errno.EHOSTUNREACH: "files.network-gone",
    errno.ENETDOWN: "files.network-gone",
    errno.ENETUNREACH: "files.network-gone",
    errno.ENOTCONN: "files.network-gone",
    errno.ESTALE: "files.network-gone",
    errno.ENODEV: "files.network-gone",
}

_SHOWN_LETTERS = 80


def shown(text: str | Path) -> str:
    """A name from outside, safe to print: one line, no control signs, not too long."""
    decoded = os.fsencode(str(text)).decode("utf-8", "replace") if isinstance(text, Path) else text
    clean = "".join(letter if letter.isprintable() else "\N{REPLACEMENT CHARACTER}" for letter in decoded)
    return clean if len(clean) <= _SHOWN_LETTERS else clean[: _SHOWN_LETTERS - 3] + "..."


def short(said: Message) -> Message:
    """A message about what a file holds, with every text from the file cut to a length that a sentence can bear."""
    return Message(said.code, tuple((name, _short(value)) for name, value in said.args))


def _short(value: Arg) -> Arg:
    match value:
        case str():
            return shown(value)
        case Message():
            return short(value)
        case tuple():
            return tuple(map(_short, value))
    return value


def shown_name(path: Path) -> str:
    """The last part of a path, safe to print; the whole path where it has no last part."""
    return shown(Path(path.name) if path.name else path)


def reason(error: OSError) -> Message:
    """Why the operating system refused, as a sentence of its own."""
    code = _REASONS.get(error.errno or 0)
    return (
        message(code)
        if code
        else message("files.other-refusal", why=shown(error.strerror or type(error).__name__))
    )


def reading_refused(path: Path, error: OSError) -> FileError:
    """The fault of a file that could not be read; nothing was changed."""
    return FileError(
        message("files.not-read", why=reason(error)), message("files.read-hint"), shown_name(path)
    )


def saving_refused(path: Path, error: OSError) -> FileError:
    """The fault of a file that could not be saved; what lay on the disk before lies there still."""
    return FileError(
        message("files.not-saved", why=reason(error)), message("files.save-hint"), shown_name(path)
    )


def saving_unsure(path: Path, error: OSError) -> FileError:
    """The fault of a file that is written whole, but that the disk would not confirm."""
    return FileError(
        message("files.save-unsure", why=reason(error)), message("files.save-again-hint"), shown_name(path)
    )

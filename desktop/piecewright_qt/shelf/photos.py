"""Photos of cloth: sniffed, read within bounds, shrunk, measured; never anything that could run."""

from collections.abc import Mapping
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

import numpy as np
from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QMimeData, QSize, Qt
from PySide6.QtGui import QColor, QImage, QImageReader, QImageWriter, QPainter

from piecewright.errors import FileError
from piecewright.files.atomic import read_file
from piecewright.files.faults import shown
from piecewright.files.limits import MEGABYTE, PICTURE_BYTES
from piecewright.files.pictures import picture_facts
from piecewright.model.fabric import Fabric
from piecewright.words.message import message

LONGEST = 1024
"""Pixels of a kept photo's longer side at most."""
_QUALITY = 90
_MOST_BYTES = 64 * MEGABYTE
_MOST_DECODED = 256
"""Megabytes that decoding one picture may take; Qt refuses what would take more."""
_GAMMA = 2.2
_MARK, _SCAN, _END = 0xFF, 0xDA, b"\xff\xd9"
PICTURE_ENDINGS = ("*.png", "*.jpg", "*.jpeg", "*.webp")


@dataclass(frozen=True)
class Photo:
    """A photo as the design keeps it: a JPEG under the name of its contents, and its average color."""

    name: str
    data: bytes
    color: str


def photo_from_file(path: Path) -> Photo:
    """Read a picture file. Raises FileError: it can not be read, is too large, or is no PNG, JPEG or WebP."""
    try:
        data = read_file(path, _MOST_BYTES)
    except FileError as error:
        if error.message.code != "files.too-large":
            raise
        most = message("shelf.photo-too-large", most=_MOST_BYTES // MEGABYTE)
        raise FileError(most, message("files.picture-shrink-hint"), error.where) from error
    return photo_from_bytes(path.name, data)


def photo_from_bytes(name: str, data: bytes) -> Photo:
    """Read a picture by its first bytes, whatever its `name` says. Raises FileError."""
    return photo_from_image(_decode(name, data, QSize(LONGEST, LONGEST)))


def photo_from_image(image: QImage) -> Photo:
    """A picture that is decoded already, as the clipboard has it."""
    kept = _flat(_within(image, QSize(LONGEST, LONGEST)))
    buffer = QBuffer()
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    writer = QImageWriter(buffer, QByteArray(b"jpeg"))
    writer.setQuality(_QUALITY)
    if not writer.write(kept):
        raise FileError(message("shelf.photo-damaged"), message("files.picture-hint"))
    data = bytes(buffer.data().data())
    return Photo(f"cloth-{sha256(data).hexdigest()[:16]}.jpg", data, average_color(kept))


def photo_from_mime(mime: QMimeData) -> Photo | None:
    """The picture that a drop or the clipboard carries; None where it carries none. Raises FileError."""
    files = [Path(url.toLocalFile()) for url in mime.urls() if url.isLocalFile()]
    if files:
        return photo_from_file(files[0])
    image = mime.imageData() if mime.hasImage() else None
    return photo_from_image(image) if isinstance(image, QImage) and not image.isNull() else None


def photo_in(pictures: Mapping[str, bytes], fabric: Fabric) -> bytes | None:
    """The photo that a fabric shows, of a design's pictures; None where it shows none."""
    return pictures.get(fabric.picture) if fabric.picture is not None else None


def carries_photo(mime: QMimeData) -> bool:
    """Whether a drop or the clipboard may carry a picture: an image, or a file of this machine."""
    return mime.hasImage() or any(url.isLocalFile() for url in mime.urls())


def decoded(data: bytes, at_least: QSize) -> QImage | None:
    """A kept photo, no larger than needed to fill a size; None where it can not be read."""
    side = max(at_least.width(), at_least.height())
    try:
        return _decode("", data, QSize(side, side), Qt.AspectRatioMode.KeepAspectRatioByExpanding)
    except FileError:
        return None


def average_color(image: QImage) -> str:
    """The color that a picture has from afar: its light averaged, as #rrggbb."""
    small = image.convertToFormat(QImage.Format.Format_RGBX8888)
    pixels = np.frombuffer(small.constBits(), np.uint8).reshape(small.height(), small.bytesPerLine())
    colors = pixels[:, : small.width() * 4].reshape(-1, 4)[:, :3]
    light = ((colors / 255.0) ** _GAMMA).mean(axis=0)
    red, green, blue = (round(float(part) ** (1 / _GAMMA) * 255) for part in light)
    return f"#{red:02x}{green:02x}{blue:02x}"


def _decode(
    name: str, data: bytes, room: QSize, mode: Qt.AspectRatioMode = Qt.AspectRatioMode.KeepAspectRatio
) -> QImage:
    """The picture, shrunk to `room` while it is read. Its first bytes tell the kind, and no other is tried."""
    kind = picture_facts(name, data[:PICTURE_BYTES]).kind
    QImageReader.setAllocationLimit(_MOST_DECODED)
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer, QByteArray(kind.encode()))
    reader.setDecideFormatFromContent(False)
    reader.setAutoTransform(True)
    size = reader.size()
    scaled = size.scaled(room, mode)
    if size.isValid() and scaled.width() < size.width():
        reader.setScaledSize(scaled.expandedTo(QSize(1, 1)))
    image = reader.read() if kind != "jpeg" or _has_end(data) else QImage()
    if image.isNull():
        raise FileError(message("shelf.photo-damaged"), message("files.picture-hint"), shown(name))
    return image


def _has_end(jpeg: bytes) -> bool:
    """Whether a JPEG has its end marker (ITU-T T.81, B.1.1.3): Qt shows a cut-off one as if it were whole."""
    at = 2
    while at + 4 <= len(jpeg) and jpeg[at] == _MARK and jpeg[at + 1] != _SCAN:
        at += 2 + int.from_bytes(jpeg[at + 2 : at + 4], "big") if jpeg[at + 1] != _MARK else 1
    return jpeg.find(_END, at) > 0


def _within(image: QImage, room: QSize) -> QImage:
    if image.width() <= room.width() and image.height() <= room.height():
        return image
    ratio, way = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
    return image.scaled(image.size().scaled(room, ratio).expandedTo(QSize(1, 1)), mode=way)


def _flat(image: QImage) -> QImage:
    """What is transparent shows white: a JPEG has nothing behind it."""
    flat = QImage(image.size(), QImage.Format.Format_RGB32)
    flat.fill(QColor(Qt.GlobalColor.white))
    painter = QPainter(flat)
    painter.drawImage(0, 0, image)
    painter.end()
    return flat

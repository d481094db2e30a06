"""What a drag or the clipboard carries between shelf, wall and windows: a block, a fabric, or copied blocks."""

from dataclasses import dataclass

import msgspec
from PySide6.QtCore import QByteArray, QMimeData

from piecewright.edit.pasting import Clip
from piecewright.errors import PiecewrightError
from piecewright.model.codec import from_plain, read_json, to_json
from piecewright.words.message import message

BLOCK = "application/x-piecewright-block"
FABRIC = "application/x-piecewright-fabric"
BLOCKS = "application/x-piecewright-blocks"
_MOST_BYTES = 64_000_000


class _BlockDrag(msgspec.Struct, forbid_unknown_fields=True):
    block: str
    kind: int = 0
    layer: int = 0


@dataclass(frozen=True)
class CarriedBlock:
    """A block of the shelf by its id, and which of a batch: kind and layer."""

    block: str
    kind: int = 0
    layer: int = 0


def block_mime(block: str, kind: int = 0, layer: int = 0) -> QMimeData:
    """What a drag of a block from the shelf carries."""
    data = QMimeData()
    data.setData(BLOCK, QByteArray(msgspec.json.encode(_BlockDrag(block, kind, layer))))
    return data


def fabric_mime(fabric: str) -> QMimeData:
    """What a drag of a fabric carries."""
    data = QMimeData()
    data.setData(FABRIC, QByteArray(fabric.encode()))
    return data


def clip_mime(clip: Clip) -> QMimeData:
    """What copied blocks put on the clipboard: themselves, and their names for programs that take text only."""
    data = QMimeData()
    data.setData(BLOCKS, QByteArray(to_json(clip)))
    names = tuple(dict.fromkeys(block.name for block in clip.blocks))
    count = sum(len(row.placements) for row in clip.rows)
    data.setText(str(message("wall.clip-text", count=count, names=names)))
    return data


def carried_block(data: QMimeData) -> CarriedBlock | None:
    """The block a drag carries; None where it carries none that can be read."""
    if not data.hasFormat(BLOCK):
        return None
    try:
        read = msgspec.json.decode(_bytes(data, BLOCK), type=_BlockDrag)
    except msgspec.MsgspecError:
        return None
    return CarriedBlock(read.block, read.kind, read.layer)


def carried_fabric(data: QMimeData) -> str | None:
    """The id of the fabric a drag carries; None where it carries none."""
    return _bytes(data, FABRIC).decode(errors="replace") if data.hasFormat(FABRIC) else None


def carried_clip(data: QMimeData) -> Clip | None:
    """The copied blocks that data carries; None where it carries none that are whole."""
    if not data.hasFormat(BLOCKS):
        return None
    text = _bytes(data, BLOCKS)
    if len(text) > _MOST_BYTES:
        return None
    try:
        clip = from_plain(read_json(text), Clip)
    except PiecewrightError:
        return None
    return clip if clip.rows else None


def _bytes(data: QMimeData, kind: str) -> bytes:
    return bytes(data.data(kind).data())

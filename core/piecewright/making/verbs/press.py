"""Press a seam to one side or open; it makes no piece."""

from typing import Literal

import msgspec

from piecewright.making.steps import Layers, Step

Toward = Literal["left", "right", "up", "down", "open", "in", "out", "darker"]


class Pressing(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`seam` is a sewing step's name (all its seams) or `name.k` (its k-th, from 1)."""

    seam: str
    toward: Toward
    layers: Layers | None = None


class Press(Step, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"press": {"seam": "set.1", "toward": "down"}}`."""

    press: Pressing

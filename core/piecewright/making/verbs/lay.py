"""Lay a strip or a square, raw edges all round."""

from typing import Literal

import msgspec

from piecewright.making.expressions import Expression
from piecewright.making.steps import MakingStep

Grain = Literal["crosswise", "lengthwise", "bias"]


class Strip(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """The cloth to lay: `length` along x, `width` along y, one strip for each layer of the stack."""

    fabric: str
    width: Expression
    length: Expression
    grain: Grain = "crosswise"
    least: bool = False


class Lay(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "39"}}`."""

    lay: Strip

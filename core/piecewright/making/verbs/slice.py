"""Slice a piece in two by one straight cut, slanted or not, between two of its sides."""

import msgspec

from piecewright.making.expressions import Expression
from piecewright.making.steps import MakingStep, Side

End = tuple[Side, Expression]


class Slice(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "part", "slice": "block", "from": ["top", "3"], "to": ["bottom", "5"]}`."""

    slice: str
    from_: End = msgspec.field(name="from")
    to: End

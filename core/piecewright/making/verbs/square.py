"""Square a piece up: trim it to an exact rectangle."""

from typing import Literal

import msgspec

from piecewright.making.expressions import Expression
from piecewright.making.steps import MakingStep, Which

From = Literal["centre", "top left", "top right", "bottom left", "bottom right"]


class Square(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`width` and `height` are lengths, or both the word "fit" (then `step` and `shape` may be given)."""

    square: str
    width: Expression
    height: Expression
    from_: From | None = msgspec.field(name="from", default=None)
    step: Expression | None = None
    shape: Literal["square"] | None = None
    which: Which | None = None

"""Sew pieces edge to edge, right sides together, one seam allowance inside each raw edge."""

from typing import Annotated, Literal

import msgspec

from piecewright.making.expressions import Expression
from piecewright.making.steps import Axis, MakingStep, Which

Align = Literal["centre", "start", "end"]


class Sew(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "set", "sew": ["a", "b"], "axis": "down"}`; `which` picks among the parts of a wildcard."""

    sew: Annotated[tuple[str, ...], msgspec.Meta(min_length=1)]
    axis: Axis
    align: Align | None = None
    step: Expression | None = None
    match: Literal["points"] | None = None
    which: Which | None = None

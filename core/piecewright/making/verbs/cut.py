"""Cut a piece square to an axis into parts, from the left or the top; what remains is waste."""

from typing import Annotated, Literal

import msgspec

from piecewright.making.expressions import Expression
from piecewright.making.steps import Axis, Count, MakingStep


class Cut(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """One of `every` with `count`, `widths`, or `into` (rounded down to `step`)."""

    cut: str
    axis: Axis
    every: Expression | None = None
    count: Count | Literal["fit"] | None = None
    widths: Annotated[tuple[Expression, ...], msgspec.Meta(min_length=1)] | None = None
    into: Count | None = None
    step: Expression | None = None
    trim: Expression | None = None

"""What every step of a recipe shares: its name, its note, and the words that several verbs use."""

from collections.abc import Iterable
from typing import Annotated, Literal

import msgspec

Axis = Literal["across", "down"]
Side = Literal["top", "bottom", "left", "right"]
Count = Annotated[int, msgspec.Meta(ge=1)]
Lean = Annotated[float, msgspec.Meta(ge=-80, le=80)]
"""Degrees, clockwise on screen, from a square cut."""
Turning = Annotated[float, msgspec.Meta(gt=0, lt=360)]
"""Degrees, clockwise on screen."""
Layer = Annotated[int, msgspec.Meta(ge=0)]
Which = Literal["odd", "even"] | Annotated[tuple[Count, ...], msgspec.Meta(min_length=1)]
Layers = Annotated[tuple[Layer, ...], msgspec.Meta(min_length=1)]


def counted(layers: Iterable[int]) -> tuple[int, ...]:
    """Layers as words count them: from 1, the top one; recipes write them from 0."""
    return tuple(layer + 1 for layer in layers)


class Step(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """One step as written: exactly one verb key beside its other keys."""

    note: str | None = None


class MakingStep(Step, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """A step that makes a piece, or parts, under a name."""

    make: str

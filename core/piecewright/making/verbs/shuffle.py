"""Shuffle a pile: move its top layers to the bottom."""

from piecewright.making.steps import Layer, MakingStep, Which


class Shuffle(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "right", "shuffle": "part.2", "by": 1}`."""

    shuffle: str
    by: Layer
    which: Which | None = None

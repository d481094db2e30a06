"""Turn a piece by quarter turns, clockwise on screen."""

from typing import Literal

from piecewright.making.steps import Layers, MakingStep, Which


class Turn(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "mid", "turn": "col.2", "by": 180}`; `layers` restricts it to those layers of the stack."""

    turn: str
    by: Literal[90, 180, 270]
    which: Which | None = None
    layers: Layers | None = None

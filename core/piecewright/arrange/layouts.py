"""The traditional layouts: every block turned so that its light side lies as the layout wants it."""

from dataclasses import dataclass
from math import sqrt
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from piecewright.arrange.room import Hanging, Room
from piecewright.arrange.targets import Places
from piecewright.model.quilt import Turn, turned_by

LayoutName = Literal[
    "barn raising", "straight furrow", "streak of lightning", "basket weave", "alternate turns"
]
_HALF = sqrt(0.5)
LEAST_LEAN = 3.0
"""By so many steps of CIE L* one half of a block must be lighter for a layout by light sides to show."""


@dataclass(frozen=True)
class Turned:
    """A hanging, how many blocks have no light side to turn, and how many could not be turned as wanted."""

    hanging: Hanging
    plain: int
    stuck: int


def lay_out(room: Room, name: LayoutName, *, other: bool = False) -> Turned:
    """Every block stays in its place and is turned to suit; `other` exchanges light and dark.

    Every place is judged by itself, so that the best turn of each is the best of all.
    """
    if not room.items:
        return Turned(room.now, 0, 0)
    if name in ("basket weave", "alternate turns"):
        return _by_turns(room, room.places.steps, 90 if name == "basket weave" else 180, other=other)
    wanted = _light_sides(name, room.places) * (-1 if other else 1)
    turns, plain, on_point = [], 0, room.places.on_point
    for item, side in zip(room.items, wanted, strict=True):
        plain += max(map(abs, item.look.lean)) < LEAST_LEAN
        now = item.laid.placement.turn
        turns.append(
            max(
                item.turns,
                key=lambda turn: (_along(item.look.lean_turned(turn), side, on_point), turn == now),
            )
        )
    return Turned(Hanging(room.now.items, tuple(turns)), plain, 0)


def _by_turns(room: Room, step: NDArray[np.int64], by: Turn, *, other: bool) -> Turned:
    """Every second block a quarter or a half turn on from how the first ones lie."""
    first = room.items[0].laid.placement.turn
    turns, stuck = [], 0
    for item, (column, row) in zip(room.items, step.tolist(), strict=True):
        wanted = turned_by(first, by) if (column + row + other) % 2 else first
        stuck += wanted not in item.turns
        turns.append(wanted if wanted in item.turns else item.laid.placement.turn)
    return Turned(Hanging(room.now.items, tuple(turns)), 0, stuck)


def _light_sides(name: LayoutName, places: Places) -> NDArray[np.float64]:
    """For each place where the light side should lie on the quilt (x right, y down)."""
    if name == "barn raising":  # toward the middle; each block's own diagonal makes the rings
        return -places.centered if places.on_point else np.where(places.centered < 0, 1.0, -1.0)
    first, second = ((0.0, -1.0), (1.0, 0.0)) if places.on_point else ((-1.0, -1.0), (1.0, -1.0))
    turned = (places.steps[:, 0] % 2 == 1) & (name == "streak of lightning")
    found: NDArray[np.float64] = np.where(turned[:, None], second, first)
    return found


def _along(lean: tuple[float, float], side: NDArray[np.float64], on_point: bool) -> float:
    """How far a light side lies as wanted; on point a block's own right lies down to the right on the quilt."""
    x, y = lean
    if on_point:
        x, y = (x - y) * _HALF, (x + y) * _HALF
    return round(x * float(side[0]) + y * float(side[1]), 9)

"""The traditional layouts: every block turned so that its light side lies as the layout wants it."""

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from piecewright.arrange.room import Hanging, Room
from piecewright.arrange.targets import steps
from piecewright.model.quilt import Turn, turned_by

LayoutName = Literal[
    "barn raising", "straight furrow", "streak of lightning", "basket weave", "alternate turns"
]
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
    places = np.array([item.laid[:4] for item in room.items], np.int64)
    if name in ("basket weave", "alternate turns"):
        return _by_turns(room, steps(places), 90 if name == "basket weave" else 180, other=other)
    wanted = _light_sides(name, places) * (-1 if other else 1)
    turns, plain = [], 0
    for item, side in zip(room.items, wanted, strict=True):
        plain += max(map(abs, item.look.lean)) < LEAST_LEAN
        now = item.laid.placement.turn
        turns.append(
            max(item.turns, key=lambda turn: (_along(item.look.lean_turned(turn), side), turn == now))
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


def _light_sides(name: LayoutName, places: NDArray[np.int64]) -> NDArray[np.float64]:
    """For each place where the light side should lie (x right, y down)."""
    middles = places[:, :2] + places[:, 2:] / 2
    low, high = places[:, :2].min(axis=0), (places[:, :2] + places[:, 2:]).max(axis=0)
    from_center = np.where(middles < (low + high) / 2, -1.0, 1.0)
    if name == "barn raising":  # toward the middle; each block's own diagonal makes the rings
        return -from_center
    column = steps(places)[:, 0]
    lightning = name == "streak of lightning"
    return np.stack((np.where(lightning & (column % 2 == 1), 1.0, -1.0), np.full(len(column), -1.0)), axis=1)


def _along(lean: tuple[float, float], side: NDArray[np.float64]) -> float:
    return round(lean[0] * float(side[0]) + lean[1] * float(side[1]), 9)

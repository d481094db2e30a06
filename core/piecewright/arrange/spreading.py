"""Blocks dealt out so that each place is as light as it should be: an assignment, solved exactly."""

from dataclasses import dataclass
from random import Random

import numpy as np
from numpy.typing import NDArray

from piecewright.arrange.room import Hanging, Room
from piecewright.arrange.targets import Spread


@dataclass(frozen=True)
class Spreading:
    """A hanging, and how far it is from what was asked: the mean difference, in steps of CIE L*."""

    hanging: Hanging
    off: float


def spread(room: Room, wish: Spread, seed: int) -> Spreading:
    """The best there is: no other order of these blocks on these places comes nearer to the wish.

    Both sorted, lightest to lightest, is the assignment of least cost for every cost that is convex in the
    difference, the absolute and the squared one among them (Monge's condition; the rearrangement
    inequality is the squared case). Places of unlike size are dealt out each among themselves. The seed
    decides between what is equally good.
    """
    hanging = list(room.now.items)
    wanted = _wanted(room, wish)
    light = np.array([item.look.light for item in room.items])
    random = Random(seed)  # noqa: S311 - chance for beauty, not for secrets
    for numbers in room.forms.values():
        places = _sorted(numbers, wanted, random)
        items = _sorted(numbers, light, random)
        for place, item in zip(places, items, strict=True):
            hanging[place] = item
    turns = tuple(room.items[item].laid.placement.turn for item in hanging)
    return Spreading(Hanging(tuple(hanging), turns), off(room, wish, tuple(hanging)))


def off(room: Room, wish: Spread, items: tuple[int, ...]) -> float:
    """The mean difference between the places' wished and hung lightness, in L*."""
    if not items:
        return 0.0
    light = np.array([room.items[item].look.light for item in items])
    return float(np.abs(light - _wanted(room, wish)).mean())


def _wanted(room: Room, wish: Spread) -> NDArray[np.float64]:
    """The wish for each place as a lightness between those of the darkest and the lightest block."""
    if not room.items:
        return np.zeros(0)
    light = [item.look.light for item in room.items]
    return min(light) + wish.targets(room.places) * (max(light) - min(light))


def _sorted(numbers: tuple[int, ...], by: NDArray[np.float64], random: Random) -> list[int]:
    shuffled = list(numbers)
    random.shuffle(shuffled)
    return sorted(shuffled, key=lambda number: round(float(by[number]), 9))

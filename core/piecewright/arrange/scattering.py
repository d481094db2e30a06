"""Scattering blocks: no like fabrics touching, and like cloth as far apart as may be; better the longer it goes on."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain
from random import Random

from piecewright.arrange.filling import Filling
from piecewright.arrange.looks import NOTHING
from piecewright.arrange.room import Hanging, Room
from piecewright.plan.edges import meetings


@dataclass(frozen=True)
class Scattered:
    """A hanging, the inches along which like fabrics touch in it, and what it costs with closeness counted in."""

    hanging: Hanging
    touching: float
    cost: float


def scatter(room: Room, seed: int) -> Scattered:
    """A first answer: each place in turn takes the block that clashes least with what hangs already."""
    wall = Filling(room, Random(seed))  # noqa: S311 - chance for beauty, not for secrets
    wall.fill()
    return _scattered(wall)


def better(room: Room, start: Scattered, seed: int, rounds: int) -> Iterator[Scattered]:
    """Ever better answers, from a first one: one after each round over all places, so that the work can be stopped.

    Each is at least as good as the one before. Where nothing helps any more, some blocks of the best answer are
    exchanged anyhow and it goes on from there.
    """
    wall = Filling(room, Random(seed))  # noqa: S311 - chance for beauty, not for secrets
    wall.hang(start.hanging)
    best = start
    for _ in range(rounds):
        helped = wall.improve()
        now = _scattered(wall)
        if now.cost < best.cost - 1e-9:
            best = now
        yield best
        if not helped:
            wall.hang(best.hanging)
            wall.stir()


def _scattered(wall: Filling) -> Scattered:
    hanging = wall.hanging()
    inches = touching(wall.room, hanging)
    return Scattered(hanging, round(inches, 9), inches + wall.closeness())


def touching(room: Room, hanging: Hanging) -> float:
    """The inches along which like fabrics meet at the edges of blocks, those that stay included, exactly."""
    hung = (
        (place.laid, turn, room.items[item].look.runs)
        for place, item, turn in zip(room.items, hanging.items, hanging.turns, strict=True)
    )
    stays = ((one.laid, one.laid.placement.turn, one.look.runs) for one in room.fixed)
    found = meetings(room.design.quilt, chain(hung, stays))
    return sum(inches for one, other, inches in found if one == other != NOTHING)

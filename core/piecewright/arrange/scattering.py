"""Scattering blocks: no like fabrics touching, and like cloth as far apart as may be; better the longer it goes on."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from random import Random

from piecewright.arrange.filling import Filling
from piecewright.arrange.looks import NOTHING, Look, Run
from piecewright.arrange.room import Hanging, Item, Room
from piecewright.model.quilt import Turn

_Line = tuple[bool, int]
"""Whether a line of the lattice runs down, and its number from the left or the top."""


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
    lines: dict[_Line, tuple[list[Run], list[Run]]] = defaultdict(lambda: ([], []))
    hung = (
        (place, room.items[item].look, turn)
        for place, item, turn in zip(room.items, hanging.items, hanging.turns, strict=True)
    )
    stays = ((item, item.look, item.laid.placement.turn) for item in room.fixed)
    for place, look, turn in (*hung, *stays):
        for line, side, start, runs in _sides(place, look, turn):
            if room.is_sashed(line[1], upright=line[0]):
                continue
            lines[line][side].extend((start + low, start + high, fabric) for low, high, fabric in runs)
    return sum(_overlap(before, after) for before, after in lines.values())


def _sides(place: Item, look: Look, turn: Turn) -> Iterator[tuple[_Line, int, float, Iterable[Run]]]:
    """The four edges of a hung block: their line, on which side of it it lies, where it starts, what it shows."""
    laid, unit = place.laid, look.unit
    width, height = laid.columns * unit, laid.rows * unit
    top, right, bottom, left = _turned_runs(look, turn, width, height)
    x, y = laid.column * unit, laid.row * unit
    yield (False, laid.row), 1, x, top
    yield (False, laid.row + laid.rows), 0, x, bottom
    yield (True, laid.column), 1, y, left
    yield (True, laid.column + laid.columns), 0, y, right


def _turned_runs(look: Look, turn: Turn, width: float, height: float) -> tuple[Iterable[Run], ...]:
    """Top, right, bottom and left runs of a block that is turned clockwise and then so wide and high."""
    top, right, bottom, left = look.runs
    if turn == 90:
        return _back(left, width), top, _back(right, width), bottom
    if turn == 180:
        return _back(bottom, width), _back(left, height), _back(top, width), _back(right, height)
    if turn == 270:
        return right, _back(bottom, height), left, _back(top, height)
    return look.runs


def _back(runs: Iterable[Run], length: float) -> list[Run]:
    return [(length - high, length - low, fabric) for low, high, fabric in runs]


def _overlap(before: list[Run], after: list[Run]) -> float:
    """The length over which runs on both sides of a line show the same fabric."""
    before.sort()
    after.sort()
    total, i, j = 0.0, 0, 0
    while i < len(before) and j < len(after):
        low, high = max(before[i][0], after[j][0]), min(before[i][1], after[j][1])
        if high > low and before[i][2] == after[j][2] != NOTHING:
            total += high - low
        if before[i][1] <= after[j][1]:
            i += 1
        else:
            j += 1
    return total

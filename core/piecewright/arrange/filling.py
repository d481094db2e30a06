"""A wall while it is being filled: what shows along every edge, where like cloth lies, and what an exchange helps."""

from collections.abc import Sequence
from random import Random

import numpy as np
from numpy.typing import NDArray

from piecewright.arrange.looks import NOTHING, SAMPLES
from piecewright.arrange.room import Form, Hanging, Item, Room
from piecewright.model.quilt import Turn
from piecewright.plan.edges import is_sashed

CLOSENESS = 0.25
"""What like cloth near by weighs: as much as so many inches of like fabrics touching, a cell apart."""
TRIES = 4
"""So many of the most promising exchanges are tried out."""
STIR = 30
"""Of so many blocks one, and three besides, are exchanged to get out of a dead end."""
_LEAST = 1e-9
_NOISE = 1e-3

Edges = NDArray[np.int32]
"""Fabrics at even spots along the top, right, bottom and left of a block, one after the other."""
Numbers = NDArray[np.float64]


class Kin:
    """Items and places of one form, which may be exchanged; both by their index among themselves.

    `edges` are those of every item in every turn it may take (items x turns x spots); `held` and `ways` say
    which item hangs at each place, and in which of its turns; -1 while none does.
    """

    def __init__(self, form: Form, numbers: Sequence[int], room: Room) -> None:
        self.numbers = tuple(numbers)
        self.places = [room.items[number] for number in numbers]
        self.turns = [item.turns for item in self.places]
        most = max(map(len, self.turns))
        self.edges = np.full((len(numbers), most, 2 * sum(form) * SAMPLES), NOTHING, np.int32)
        for index, item in enumerate(self.places):
            for way, turn in enumerate(item.turns):
                self.edges[index, way] = np.concatenate(item.look.edges_turned(turn))
        self.barred = np.array([[way >= len(turns) for way in range(most)] for turns in self.turns])
        self.inch = self.places[0].look.unit / SAMPLES
        self.held = np.full(len(numbers), -1)
        self.ways = np.zeros(len(numbers), np.int64)

    def clash(self, facing: Edges, items: slice | NDArray[np.int64] = slice(None)) -> Numbers:
        """Inches of like fabric of items, or of all, in every turn at one place (items x turns)."""
        alike = _alike(self.edges[items], facing) * self.inch
        found: Numbers = np.where(self.barred[items], np.inf, alike)
        return found

    def clash_of(self, item: int, facings: Edges) -> Numbers:
        """Inches of like fabric of one item at every place, in the best of its turns there."""
        found = _alike(self.edges[item][:, None], facings) * self.inch
        least: Numbers = np.where(self.barred[item][:, None], np.inf, found).min(axis=0)
        return least

    def hung(self, place: int) -> Edges:
        """The edges of what hangs at a place."""
        found: Edges = self.edges[self.held[place], self.ways[place]]
        return found


def _alike(edges: Edges, facing: Edges) -> NDArray[np.int64]:
    found: NDArray[np.int64] = ((edges == facing) & (edges != NOTHING)).sum(axis=-1)
    return found


class Filling:
    """All kin on one wall, with what stays."""

    def __init__(self, room: Room, random: Random) -> None:
        self.room, self._random = room, random
        self._kins = [Kin(form, numbers, room) for form, numbers in room.forms.items()]
        everyone = (*room.items, *room.fixed)
        columns = max((one.laid.column + one.laid.columns for one in everyone), default=0)
        rows = max((one.laid.row + one.laid.rows for one in everyone), default=0)
        self._across = np.full((2, rows + 1, columns * SAMPLES), NOTHING, np.int32)
        self._down = np.full((2, columns + 1, rows * SAMPLES), NOTHING, np.int32)
        self._cloth = np.array([one.look.shares for one in everyone]).reshape(len(everyone), room.fabrics)
        self._near = _nearness(everyone)
        self._lying = self._cloth.copy()
        self._lying[: len(room.items)] = 0
        for one in room.fixed:
            self._show(one, np.concatenate(one.look.edges_turned(one.laid.placement.turn)))

    def fill(self) -> None:
        """Hang every item, place by place from the top left, each where it clashes least with those before."""
        for kin in self._kins:
            left = np.arange(len(kin.numbers))
            cloth = self._cloth[list(kin.numbers)]
            for place in range(len(kin.numbers)):
                around = self._near[kin.numbers[place]] @ self._lying
                close = cloth[left] @ around * CLOSENESS
                noise = np.array([self._random.random() * _NOISE for _ in left])
                cost = kin.clash(self._facing(kin, place), left) + (close + noise)[:, None]
                least, way = divmod(int(cost.argmin()), cost.shape[1])
                self._put(kin, place, int(left[least]), way)
                left = np.delete(left, least)

    def hang(self, hanging: Hanging) -> None:
        """Hang everything as told."""
        for kin in self._kins:
            index_of = {number: index for index, number in enumerate(kin.numbers)}
            for place, number in enumerate(kin.numbers):
                item = index_of[hanging.items[number]]
                self._put(kin, place, item, kin.turns[item].index(hanging.turns[number]))

    def hanging(self) -> Hanging:
        """As it hangs now."""
        items, turns = list(self.room.now.items), list[Turn](self.room.now.turns)
        for kin in self._kins:
            for number, item, way in zip(kin.numbers, kin.held.tolist(), kin.ways.tolist(), strict=True):
                items[number], turns[number] = kin.numbers[item], kin.turns[item][way]
        return Hanging(tuple(items), tuple(turns))

    def closeness(self) -> float:
        """What like cloth near by costs: over all pairs the shares they have in common by the squared distance."""
        return CLOSENESS * float((self._near * (self._lying @ self._lying.T)).sum()) / 2

    def improve(self) -> bool:
        """Try every place once against all others of its form; whether anything became better."""
        helped = False
        for kin in self._kins:
            order = list(range(len(kin.numbers)))
            self._random.shuffle(order)
            for place in order:
                helped |= self._better_at(kin, place)
        return helped

    def stir(self) -> None:
        """Exchange some blocks anyhow, a few in a hundred, each form's among themselves."""
        for kin in self._kins:
            places = range(len(kin.numbers))
            for _ in range(min(len(places) - 1, 3 + len(places) // STIR)):
                one, other = self._random.sample(places, 2)
                first, second = (
                    (int(kin.held[one]), int(kin.ways[one])),
                    (int(kin.held[other]), int(kin.ways[other])),
                )
                self._put(kin, one, *second)
                self._put(kin, other, *first)

    def _better_at(self, kin: Kin, place: int) -> bool:
        """Exchange the block here with the one that helps most, or turn it; whether that helped."""
        facings = np.stack([self._facing(kin, other) for other in range(len(kin.numbers))])
        now = _alike(kin.edges[kin.held, kin.ways], facings) * kin.inch
        comes = kin.clash(facings[place]).min(axis=1)[kin.held]
        goes = kin.clash_of(int(kin.held[place]), facings)
        goes[place] = now[place]  # a turn alone
        gain = now[place] + now - comes - goes - self._exchange(kin, place)
        best = np.argsort(-gain, kind="stable")[:TRIES].tolist()
        return any(gain[other] > _LEAST and self._tried(kin, place, other) for other in best)

    def _exchange(self, kin: Kin, place: int) -> Numbers:
        """What exchanging with each other place adds to closeness.

        With D the nearness and x the shares at the places, the cost is the sum of x.x D over pairs; moving d of
        them from one place to another adds d.(F - G) - d.d D, where F and G are what D makes of all x there.
        """
        numbers = list(kin.numbers)
        lying = self._lying[numbers]
        felt = self._near[numbers] @ self._lying
        more = lying - lying[place]
        added = (more * (felt[place] - felt)).sum(axis=1)
        between = self._near[kin.numbers[place], numbers]
        found: Numbers = CLOSENESS * (added - (more**2).sum(axis=1) * between)
        return found

    def _tried(self, kin: Kin, place: int, other: int) -> bool:
        """Whether exchanging two places really helps; if it does not, all is put back."""
        places = (place,) if other == place else (place, other)
        before = [(int(kin.held[each]), int(kin.ways[each])) for each in places]
        closer = float(self._exchange(kin, place)[other])
        cost = self._around(kin, places)
        for each, (item, way) in zip(places, before[::-1], strict=True):
            self._put(kin, each, item, way)
        for each in places:
            item = int(kin.held[each])
            self._put(kin, each, item, int(kin.clash(self._facing(kin, each))[item].argmin()))
        if self._around(kin, places) + closer < cost - _LEAST:
            return True
        for each, (item, way) in zip(places, before, strict=True):
            self._put(kin, each, item, way)
        return False

    def _around(self, kin: Kin, places: tuple[int, ...]) -> float:
        """Inches of like fabric round one or two places; where these touch each other, counted once."""
        total = sum(float(_alike(kin.hung(each), self._facing(kin, each))) for each in places)
        if len(places) == 2:
            first, second = places
            self._show(kin.places[second], np.full_like(kin.hung(second), NOTHING))
            alone = float(_alike(kin.hung(first), self._facing(kin, first)))
            self._show(kin.places[second], kin.hung(second))
            with_it = float(_alike(kin.hung(first), self._facing(kin, first)))
            total -= with_it - alone
        return total * kin.inch

    def _put(self, kin: Kin, place: int, item: int, way: int) -> None:
        kin.held[place], kin.ways[place] = item, way
        self._lying[kin.numbers[place]] = self._cloth[kin.numbers[item]]
        self._show(kin.places[place], kin.edges[item, way])

    def _show(self, place: Item, edges: Edges) -> None:
        """Let a place show these edges; of a line's two sides, 0 is what lies above or left of it, 1 below or right."""
        column, row, columns, rows = place.laid[:4]
        wide, high = columns * SAMPLES, rows * SAMPLES
        across, down = (
            slice(column * SAMPLES, column * SAMPLES + wide),
            slice(row * SAMPLES, row * SAMPLES + high),
        )
        self._across[1, row, across] = edges[:wide]
        self._down[0, column + columns, down] = edges[wide : wide + high]
        self._across[0, row + rows, across] = edges[wide + high : 2 * wide + high]
        self._down[1, column, down] = edges[2 * wide + high :]

    def _facing(self, kin: Kin, place: int) -> Edges:
        """What the neighbors of a place show it, in the order of its own edges."""
        column, row, columns, rows = kin.places[place].laid[:4]
        wide, high = columns * SAMPLES, rows * SAMPLES
        across, down = (
            slice(column * SAMPLES, column * SAMPLES + wide),
            slice(row * SAMPLES, row * SAMPLES + high),
        )
        shown = (
            self._across[0, row, across],
            self._down[1, column + columns, down],
            self._across[1, row + rows, across],
            self._down[0, column, down],
        )
        lines = ((row, False), (column + columns, True), (row + rows, False), (column, True))
        return np.concatenate(
            [
                np.full_like(spots, NOTHING)
                if is_sashed(self.room.design.quilt, line, upright=upright)
                else spots
                for spots, (line, upright) in zip(shown, lines, strict=True)
            ]
        )


def _nearness(everyone: Sequence[Item]) -> Numbers:
    """One over the squared distance of the middles, in cells, for every two; 0 for one and itself."""
    middles = np.array(
        [(one.laid.column + one.laid.columns / 2, one.laid.row + one.laid.rows / 2) for one in everyone]
    ).reshape(-1, 2)
    apart = ((middles[:, None] - middles[None]) ** 2).sum(axis=2)
    np.fill_diagonal(apart, np.inf)
    found: Numbers = 1 / apart
    return found

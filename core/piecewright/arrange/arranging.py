"""Asking for an arrangement, and what comes back: an edit, how good it is, and whether better is possible."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from piecewright.arrange.layouts import LayoutName, lay_out
from piecewright.arrange.room import Room, room_of
from piecewright.arrange.scattering import Scattered, better, scatter, touching
from piecewright.arrange.spreading import off, spread
from piecewright.arrange.targets import Bands, Checker, FromCenter, Rings, Shape, Spread, Toward
from piecewright.edit.registry import Cell, EditCall
from piecewright.model.design import Design
from piecewright.model.value import Value
from piecewright.words.message import Message, message


class Scatter(Value, frozen=True, tag="scatter"):
    """No like fabrics touching, like cloth far apart."""


class Layout(Value, frozen=True, tag="layout"):
    """A traditional layout by turning; `other` exchanges light and dark."""

    name: LayoutName
    other: bool = False


Wish = Scatter | Layout | Toward | FromCenter | Rings | Bands | Checker | Shape
"""How blocks are to be arranged."""
_SAME = 1e-9


@dataclass(frozen=True)
class Arranged:
    """An answer.

    `call` is the edit, None where all hangs so already; `score` says how good it is and what it was before;
    `proven`: no other answer with these blocks is better.
    """

    call: EditCall | None
    score: Message
    proven: bool


def arrange(
    design: Design, wish: Wish, *, cells: Iterable[Cell] = (), seed: int = 0, turning: bool = True
) -> Arranged:
    """The blocks that cover these cells, or all, arranged as wished; locked ones stay. The same for the same seed."""
    room = room_of(design, cells, turning=turning)
    if not room.items:
        return Arranged(None, message("arrange.nothing-free"), proven=True)
    if isinstance(wish, Scatter):
        return _of_scattered(room, scatter(room, seed))
    if isinstance(wish, Layout):
        return _of_layout(room, wish)
    return _of_spread(room, wish, seed)


def improve(
    design: Design,
    *,
    cells: Iterable[Cell] = (),
    seed: int = 0,
    turning: bool = True,
    rounds: int = 20,
) -> Iterator[Arranged]:
    """Scattered ever better, one answer after each round, beginning with the first; ends when nothing helps."""
    room = room_of(design, cells, turning=turning)
    if not room.items:
        return
    first = scatter(room, seed)
    yield _of_scattered(room, first)
    for found in better(room, first, seed, rounds):
        yield _of_scattered(room, found)


def _of_scattered(room: Room, found: Scattered) -> Arranged:
    before = touching(room, room.now)
    code = "arrange.none-touch" if found.touching == 0 else "arrange.touch"
    score = message(code, inches=_eighth(found.touching), before=_eighth(before))
    return Arranged(room.call(found.hanging), score, proven=False)


def _of_layout(room: Room, wish: Layout) -> Arranged:
    found = lay_out(room, wish.name, other=wish.other)
    return Arranged(room.call(found.hanging), _said_of_layout(found.plain, found.stuck, room), proven=True)


def _said_of_layout(plain: int, stuck: int, room: Room) -> Message:
    if stuck:
        return message("arrange.layout-stuck", count=stuck)
    if plain == len(room.items):
        return message("arrange.no-light-side")
    if plain:
        return message("arrange.layout-plain", count=plain)
    return message("arrange.layout-whole")


def _of_spread(room: Room, wish: Spread, seed: int) -> Arranged:
    found = spread(room, wish, seed)
    before = off(room, wish, room.now.items)
    if before <= found.off + _SAME:
        return Arranged(None, message("arrange.best-already", off=round(before, 1)), proven=True)
    score = message("arrange.spread", off=round(found.off, 1), before=round(before, 1))
    return Arranged(room.call(found.hanging), score, proven=True)


def _eighth(inches: float) -> float:
    return round(inches * 8) / 8

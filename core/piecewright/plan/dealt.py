"""Which strip set and which segment of it every placed block is sewn from: materials told block by block."""

from collections import defaultdict, deque
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Row
from piecewright.plan.batches import Batch, Look, look_of, yields_of
from piecewright.plan.difference import set_said
from piecewright.plan.keys import BatchKey, SetKey
from piecewright.plan.materials import materials
from piecewright.plan.roles import role
from piecewright.plan.sets import StripSet
from piecewright.plan.stage import stage
from piecewright.plan.workroom import workroom_of
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class Segment:
    """A cut of a strip set: the set's key, which of its sets and which cut of that set, both from 1, and its length."""

    key: SetKey
    set: int
    cut: int
    length: Fraction


@dataclass(frozen=True, slots=True)
class Dealt:
    """Where a placed block comes from: its batch, which of the batch's makings (from 1), and the segments of that.

    The blocks of one making share its segments: those of a stack are cut together.
    """

    batch: BatchKey
    making: int
    segments: tuple[Segment, ...]


@stage(keep=4)
def dealt(design: Design) -> dict[Cell, Dealt]:
    """For every placed block, by its top left cell, what it is sewn from.

    Sets are cut up in the order of the materials, blocks take what they need row by row. Blocks that cannot be
    made are left out.
    """
    needed = materials(design)
    slots = {found.key: _slots(found) for found in needed.sets}
    places = _places(design)
    found: dict[Cell, Dealt] = {}
    for batch in needed.batches:
        looks = yields_of(workroom_of(design).work(batch.block).facts, batch.key)
        waiting = {look: deque(cells) for look, cells in places[batch.key].items()}
        for making in range(1, batch.batches + 1):
            segments = tuple(_taken(batch, slots))
            for look, count in looks.items():
                for _ in range(min(count, len(waiting.get(look, ())))):
                    found[waiting[look].popleft()] = Dealt(batch.key, making, segments)
    return found


def origin(design: Design, cell: Cell) -> tuple[Message, ...]:
    """What the block at this top left cell is cut from, a line for each of its sets; none where it is not made."""
    here = dealt(design).get(cell)
    if here is None:
        return ()
    needed = materials(design)
    sets = {found.key: found.sets for found in needed.sets}
    lines: dict[tuple[SetKey, int], list[int]] = {}
    for segment in here.segments:
        lines.setdefault((segment.key, segment.set), []).append(segment.cut)
    return tuple(
        message(
            "plan.origin",
            cuts=tuple(map(str, cuts)),
            count=len(cuts),
            number=number,
            sets=sets[key],
            lanes=set_said(key, needed),
        )
        for (key, number), cuts in lines.items()
    )


def _slots(found: StripSet) -> dict[Fraction, deque[Segment]]:
    """The segments that the sets of one key give, by length, in the order they are cut."""
    slots: dict[Fraction, deque[Segment]] = defaultdict(deque)
    number = 0
    for cuts in found.cuts:
        for _ in range(cuts.sets):
            number += 1
            cut = 0
            for length, count in cuts.segments:
                for _ in range(count):
                    cut += 1
                    slots[length].append(Segment(found.key, number, cut, length))
    return slots


def _taken(batch: Batch, slots: dict[SetKey, dict[Fraction, deque[Segment]]]) -> Iterator[Segment]:
    """The segments of one making, taken off the sets."""
    for ask in batch.asks:
        for _ in range(ask.count):
            for length in ask.kit.segments:
                yield slots[ask.sets][length].popleft()


def _places(design: Design) -> dict[BatchKey, dict[Look, list[Cell]]]:
    """The top left cells of placed blocks by batch and look, row by row."""
    places: dict[BatchKey, dict[Look, list[Cell]]] = defaultdict(lambda: defaultdict(list))
    for row, placement in _hung(design.quilt.rows):
        here = role(workroom_of(design), placement.block, placement.kind, placement.layer, placement.fabrics)
        if here.batch is not None:
            look = look_of(here.batch, placement.kind, placement.layer)
            places[here.batch][look].append(Cell(placement.column, row))
    return places


def _hung(rows: tuple[Row, ...]) -> Iterator[tuple[int, Placement]]:
    for row in rows:
        for placement in row.placements:
            yield row.row, placement

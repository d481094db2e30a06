"""The order of sewing sets and blocks: a test first, measured, then the rest; what is left, what one more costs."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.model.design import Design
from piecewright.plan.batches import Batch
from piecewright.plan.difference import Change, difference, set_said
from piecewright.plan.keys import BatchKey, RoleKey, SetKey
from piecewright.plan.materials import Materials, materials, materials_with, sets_in_order
from piecewright.plan.packing import NOTHING, SetCuts, Truing
from piecewright.plan.roles import Role
from piecewright.plan.sets import StripSet
from piecewright.plan.workroom import workroom_of
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message


@dataclass(frozen=True, slots=True)
class SetRound:
    """All sets of one key: one to test, then the others in a chain.

    `width` is what a sewn set should measure across its strips, both outer allowances still on.
    """

    sets: SetKey
    test: int
    others: int
    width: Fraction
    said: Message


@dataclass(frozen=True, slots=True)
class BlockRound:
    """All blocks of one batch key: those of the first making to test, then the others in a chain."""

    batch: BatchKey
    test: int
    others: int
    size: Unfinished
    said: Message


@dataclass(frozen=True, slots=True)
class Rest:
    """`count` segments of `length` inches that sets already sewn would still give."""

    sets: SetKey
    length: Fraction
    count: int
    said: Message


def set_rounds(made: Materials) -> tuple[SetRound, ...]:
    """The strip sets in the order to sew them; strips that are cut up as they are need no sewing."""
    return tuple(_set_round(made, found) for found in sets_in_order(made) if len(found.lanes) > 1)


def _set_round(made: Materials, found: StripSet) -> SetRound:
    seams = len(found.lanes) - 1
    width = sum((lane.width for lane in found.lanes), NOTHING) - 2 * seams * made.settings.seam
    others = found.sets - 1
    strips = set_said(found.key, made)
    code = "plan.batch-set-first" if others else "plan.batch-set-only"
    return SetRound(found.key, 1, others, width, message(code, strips=strips, width=width, others=others))


def block_rounds(design: Design) -> tuple[BlockRound, ...]:
    """The batches in the order of the materials; once their sets are sewn."""
    room = workroom_of(design)
    return tuple(
        _block_round(found, room.work(found.block).facts.unfinished) for found in materials(design).batches
    )


def _block_round(found: Batch, size: Unfinished) -> BlockRound:
    test = found.per_batch
    others = (found.batches - 1) * found.per_batch
    said = (
        message("plan.batch-first", name=found.name, first=test, size=size, others=others)
        if others
        else message("plan.batch-only", name=found.name, blocks=test, size=size)
    )
    return BlockRound(found.key, test, others, size, said)


def rests(made: Materials) -> tuple[Rest, ...]:
    """Of every kind of set how many more of its shortest segments are left in the sets that are sewn anyway."""
    settings = made.settings
    truing = Truing(settings.trim_first, settings.trim_again, settings.trim_every)
    return tuple(_rests(made, truing))


def _rests(made: Materials, truing: Truing) -> Iterator[Rest]:
    for found in sets_in_order(made):
        length = min(length for cuts in found.cuts for length, _ in cuts.segments)
        if found.to_length or any(kit.trims or kit.whole for kit, _ in found.kits):
            continue  # cut as long as needed, or trued in its own way
        count = sum(cuts.sets * _room(cuts, length, truing) for cuts in found.cuts)
        if count:
            yield Rest(found.key, length, count, message("plan.rest", count=count, length=length))


def _room(cuts: SetCuts, length: Fraction, truing: Truing) -> int:
    """How many more segments of a length one set takes, the truing they ask for included."""
    cut = sum(count for _, count in cuts.segments)
    more = int(cuts.to_spare // length)
    while more and more * length + truing.loss(cut + more) - truing.loss(cut) > cuts.to_spare:
        more -= 1
    return more


def one_more(design: Design, batch: BatchKey) -> tuple[Change, ...]:
    """What one more block of a batch would cost, wherever it lay: nothing while there is room in its sets."""
    made = materials(design)
    found = next(each for each in made.batches if each.key == batch)
    block, kind, layer, _ = found.placed[0]
    role = Role(RoleKey(block, kind, layer, batch.fabrics), batch, (), None)
    return difference(made, materials_with(design, {role.key: (role, 1)}))

"""Batches: how often a making is sewn so that every placed block comes out of it, and what that takes."""

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction

from piecewright.errors import Finding
from piecewright.making.facts import Bed, Facts
from piecewright.plan.cautions import set_bows, stack_drifts
from piecewright.plan.keys import UNCHOSEN, BatchKey, SetKey
from piecewright.plan.packing import Kit
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom
from piecewright.words.message import Message, message

Look = tuple[int, tuple[tuple[str, ...], ...]]
Placed = tuple[tuple[str, int, int, int], ...]
"""(block id, kind, layer, count) of placed blocks, in order."""


@dataclass(frozen=True, slots=True)
class Ask:
    """What one batch asks of the sets of one key: a kit, so many times."""

    sets: SetKey
    kit: Kit
    count: int


@dataclass(frozen=True, slots=True)
class Batch:
    """Blocks sewn alike, those on the wall `placed`, in `batches` of `per_batch` blocks each.

    `block` is the first of the shelf that is placed so; `asks` is what one batch needs: from there a number
    of sets opens to its blocks.
    """

    key: BatchKey
    block: str
    name: str
    placed: Placed
    batches: int
    per_batch: int
    asks: tuple[Ask, ...]
    why: Message
    findings: tuple[Finding, ...]

    @property
    def blocks(self) -> int:
        """How many lie on the wall."""
        return sum(count for _, _, _, count in self.placed)

    @property
    def over(self) -> int:
        """Blocks sewn that do not lie on the wall."""
        return self.batches * self.per_batch - self.blocks


@stage(keep=16384)
def batch(room: Workroom, key: BatchKey, placed: Placed) -> Batch:
    """As many batches as the most wanted look takes.

    Blocks that look alike, of whatever layer, stand in for each other.
    """
    block = min((block for block, _, _, _ in placed), key=room.position)
    facts = room.work(block).facts
    wanted: Counter[Look] = Counter()
    for _, kind, layer, count in placed:
        wanted[look_of(key, kind, layer)] += count
    yields = yields_of(facts, key)
    batches = max((-(-count // yields[look]) for look, count in wanted.items()), default=0)
    asks, findings = _asks(room, key, block)
    why = message(
        "plan.batch-why" if facts.blocks > 1 else "plan.batch-why-single",
        batches=batches,
        per_batch=facts.blocks,
        made=batches * facts.blocks,
        blocks=sum(wanted.values()),
        over=batches * facts.blocks - sum(wanted.values()),
    )
    name = room.work(block).block.name
    return Batch(key, block, name, placed, batches, facts.blocks, asks, why, findings)


def look_of(key: BatchKey, kind: int, layer: int) -> Look:
    """What tells blocks apart: their kind, and the fabrics of each letter as seen from their layer."""
    return kind, tuple(ids[layer:] + ids[:layer] for _, ids in key.fabrics)


def yields_of(facts: Facts, key: BatchKey) -> Counter[Look]:
    """How many blocks of each look one batch gives."""
    yields: Counter[Look] = Counter()
    for index, kind in enumerate(facts.kinds):
        for layer in kind.layers:
            yields[look_of(key, index, layer)] += len(kind.blocks)
    return yields


@stage(keep=16384)
def _asks(room: Workroom, key: BatchKey, block: str) -> tuple[tuple[Ask, ...], tuple[Finding, ...]]:
    """What one batch asks of strip sets; a bed that no set of its cloth can give is a finding instead."""
    work = room.work(block)
    counts: Counter[tuple[SetKey, Kit]] = Counter()
    name = work.block.name
    findings = [_no_fabric(block, name, letter) for letter in _unchosen(key)]
    findings += stack_drifts(block, name, work.facts.stack)
    for bed, kit, needed in _kits(room, block):
        for layer in range(work.facts.stack):
            sets = room.set_key(bed, {letter: ids[layer] for letter, ids in key.fabrics})
            capacity = room.capacity(sets)
            if capacity is None or needed <= capacity:
                counts[sets, kit] += bed.count
                findings += set_bows(block, name, len(sets.lanes), capacity or kit.run)
            else:
                findings.append(_no_block(block, name, kit, capacity, needed))
    asks = tuple(Ask(sets, kit, count) for (sets, kit), count in sorted(counts.items()))
    return asks, tuple(dict.fromkeys(findings))


@stage(keep=1024)
def _kits(room: Workroom, block: str) -> tuple[tuple[Bed, Kit, Fraction], ...]:
    """Each bed of a block with what it asks of its sets, and the usable width it needs."""
    facts = room.work(block).facts
    kits = [(bed, kit_of(bed, facts)) for bed in facts.beds]
    return tuple((bed, kit, kit.needs(room.truing)) for bed, kit in kits)


def kit_of(bed: Bed, facts: Facts) -> Kit:
    """What one bed of a batch asks of its sets."""
    blocks = Fraction(facts.blocks, facts.stack * bed.count)
    return Kit(bed.cuts or (bed.length,), bed.length, bed.whole, bed.trims, blocks, bed.trim)


def _unchosen(key: BatchKey) -> tuple[str, ...]:
    return tuple(letter for letter, ids in key.fabrics if any(fabric.startswith(UNCHOSEN) for fabric in ids))


def _no_fabric(block: str, name: str, letter: str) -> Finding:
    return Finding(
        "plan.no-fabric",
        "warning",
        message("plan.no-fabric", block=name, letter=letter),
        where=block,
        hint=message("plan.choose-fabric"),
    )


def _no_block(block: str, name: str, kit: Kit, capacity: Fraction, needed: Fraction) -> Finding:
    """The loud one: "40 1/2 from 40: no block"."""
    code = "plan.no-block" if kit.run > capacity else "plan.no-block-trued"
    said = message(code, block=name, run=kit.run, usable=capacity, truing=needed - kit.run)
    hint = message("plan.no-block-hint", needed=needed, run=kit.run)
    return Finding(code, "error", said, where=block, hint=hint)

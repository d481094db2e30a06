"""The running account of a quilt.

Blocks, batches, strip sets, strips and bias, carried from one design to the next.

Each count follows from the one before it. When a design changes, only what differs is counted anew, and
rounding up to whole batches and whole sets happens at the end of it, per shared set: so a change costs the
same in a small quilt and a large one, and the account is what it would be if the whole quilt were counted
from nothing.
"""

from collections import Counter, deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field, replace
from typing import TypeVar

from piecewright.errors import Finding
from piecewright.model.quilt import Row
from piecewright.plan.batches import Ask, Batch, batch
from piecewright.plan.book import Book
from piecewright.plan.keys import BatchKey, BiasKey, RoleKey, SetKey, StripKey
from piecewright.plan.packing import Kit
from piecewright.plan.roles import RoleChanges, changes_of, role_changes
from piecewright.plan.sets import StripSet, strip_set
from piecewright.plan.stage import on_forget, stage
from piecewright.plan.workroom import Workroom


@dataclass(frozen=True, slots=True)
class BlockCount:
    """So many placed blocks that are alike."""

    key: RoleKey
    count: int


@dataclass(frozen=True, eq=False)
class Account:
    """All counts that follow from the placed blocks of one arrangement."""

    room: Workroom
    rows: tuple[Row, ...] = ()
    blocks: Book[RoleKey, BlockCount] = field(default_factory=Book)
    batches: Book[BatchKey, Batch] = field(default_factory=Book)
    sets: Book[SetKey, StripSet] = field(default_factory=Book)
    strips: Book[StripKey, int] = field(default_factory=Book)
    bias: Book[BiasKey, int] = field(default_factory=Book)
    faults: Book[RoleKey, Finding] = field(default_factory=Book)
    troubled: Book[BatchKey, Batch] = field(default_factory=Book)


K = TypeVar("K")
Place = tuple[str, int, int]
"""Block id, kind and layer of placed blocks."""
KitChanges = dict[SetKey, Counter[Kit]]

_RECENT: deque[Account] = deque(maxlen=4)
on_forget(_RECENT.clear)


@stage(keep=32)
def account(room: Workroom, rows: tuple[Row, ...]) -> Account:
    """The account of these rows, carried on from a recent one where that is less work."""
    before = next((recent for recent in reversed(tuple(_RECENT)) if recent.room is room), None) or _moved(
        room
    )
    if before is None or 2 * len(set(before.rows).intersection(rows)) < len(before.rows):
        before = Account(room)
    found = advanced(before, rows, role_changes(room, before.rows, rows))
    _RECENT.append(found)
    return found


def advanced(before: Account, rows: tuple[Row, ...], changes: RoleChanges) -> Account:
    """The account after so many more or fewer of each role."""
    blocks = {key: _counted(before, key, by) for key, (_, by) in changes.items() if by}
    batches, kits = _batches(before, changes)
    sets, strips = _sets(before, kits)
    bias: Counter[BiasKey] = Counter()
    for found, by in changes.values():
        for key, length in found.bias:
            bias[key] += by * length
    return Account(
        room=before.room,
        rows=rows,
        blocks=before.blocks.posted(blocks),
        batches=before.batches.posted(batches),
        sets=before.sets.posted(sets),
        strips=before.strips.posted(_added(before.strips, strips)),
        bias=before.bias.posted(_added(before.bias, bias)),
        faults=before.faults.posted(_faults(changes, blocks)),
        troubled=before.troubled.posted(
            {key: found if found and found.findings else None for key, found in batches.items()}
        ),
    )


def also_asked(before: Account, asks: Iterable[Ask]) -> Account:
    """The account that also gives what parts beside the blocks ask of strip sets."""
    kits: KitChanges = {}
    for ask in asks:
        kits.setdefault(ask.sets, Counter())[ask.kit] += ask.count
    if not kits:
        return before
    sets, strips = _sets(before, kits)
    return replace(
        before,
        sets=before.sets.posted(sets),
        strips=before.strips.posted(_added(before.strips, strips)),
    )


def _moved(room: Workroom) -> Account | None:
    """The last account carried into a room where only blocks are others: these are counted anew."""
    before = _RECENT[-1] if _RECENT else None
    if before is None or not _differ_in_blocks_only(before.room, room):
        return None
    old, new = before.room.design.shelf.blocks, room.design.shelf.blocks
    changed = {block for block in old if old[block] != new[block]}
    placements = [
        placement for row in before.rows for placement in row.placements if placement.block in changed
    ]
    gone = advanced(before, (), changes_of(before.room, placements, -1))
    return advanced(replace(gone, room=room), before.rows, changes_of(room, placements, 1))


def _differ_in_blocks_only(one: Workroom, other: Workroom) -> bool:
    old, new = one.design, other.design
    alike = (old.fabrics, old.recipes, old.settings) == (new.fabrics, new.recipes, new.settings)
    return alike and old.shelf.blocks.keys() == new.shelf.blocks.keys()


def _added(counts: Mapping[K, int], changes: Mapping[K, int]) -> dict[K, int | None]:
    """The new count of each key that changes; None where nothing is left of it."""
    return {key: (counts.get(key, 0) + by) or None for key, by in changes.items() if by}


def _counted(before: Account, key: RoleKey, by: int) -> BlockCount | None:
    old = before.blocks.get(key)
    count = by + (old.count if old else 0)
    return BlockCount(key, count) if count else None


def _faults(
    changes: RoleChanges, blocks: Mapping[RoleKey, BlockCount | None]
) -> dict[RoleKey, Finding | None]:
    faulty = {key: found.fault for key, (found, by) in changes.items() if found.fault and by}
    return {key: fault if blocks[key] else None for key, fault in faulty.items()}


def _batches(before: Account, changes: RoleChanges) -> tuple[dict[BatchKey, Batch | None], KitChanges]:
    """Batches that change, and how many more kits that asks of each kind of set."""
    placed: dict[BatchKey, Counter[Place]] = {}
    for found, by in changes.values():
        if found.batch and by:
            placed.setdefault(found.batch, Counter())[found.key.block, found.key.kind, found.key.layer] += by
    batches: dict[BatchKey, Batch | None] = {}
    kits: KitChanges = {}
    for key, by_place in placed.items():
        old = before.batches.get(key)
        new = batches[key] = _batch(before.room, key, old, by_place)
        _ask(old, -1, kits)
        _ask(new, 1, kits)
    return batches, kits


def _batch(room: Workroom, key: BatchKey, old: Batch | None, changes: Counter[Place]) -> Batch | None:
    counts = Counter({(block, kind, layer): count for block, kind, layer, count in old.placed} if old else {})
    counts.update(changes)
    placed = tuple((*place, count) for place, count in sorted(counts.items()) if count)
    return batch(room, key, placed) if placed else None


def _ask(found: Batch | None, by: int, kits: KitChanges) -> None:
    if found is None:
        return
    for ask in found.asks:
        kits.setdefault(ask.sets, Counter())[ask.kit] += by * found.batches * ask.count


def _sets(before: Account, kits: KitChanges) -> tuple[dict[SetKey, StripSet | None], Counter[StripKey]]:
    """Sets that change, and how many more strips these are."""
    sets: dict[SetKey, StripSet | None] = {}
    strips: Counter[StripKey] = Counter()
    for key, by_kit in kits.items():
        if not any(by_kit.values()):
            continue
        old = before.sets.get(key)
        counts = Counter(dict(old.kits) if old else {})
        counts.update(by_kit)
        wanted = tuple(sorted((kit, count) for kit, count in counts.items() if count))
        new = strip_set(key, wanted, before.room.capacity(key), before.room.truing) if wanted else None
        sets[key] = new
        strips.subtract(old.strip_counts() if old else {})
        strips.update(new.strip_counts() if new else {})
    return sets, strips

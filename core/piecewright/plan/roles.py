"""Roles: what each placed block is, as far as the counts of the plan care."""

from collections.abc import Iterable
from dataclasses import dataclass

from piecewright.errors import Finding, PiecewrightError
from piecewright.making.facts import Kind
from piecewright.model.block import Block
from piecewright.model.quilt import Placement, Row
from piecewright.model.value import Letters
from piecewright.plan.bias import bias_lengths
from piecewright.plan.keys import BatchKey, BiasKey, RoleKey
from piecewright.plan.stage import stage
from piecewright.plan.workroom import Workroom, batch_key, effective
from piecewright.words.message import message


@dataclass(frozen=True, slots=True)
class Role:
    """A placed block's key, its batch and the bias edges it brings; or the fault that keeps it unsewn."""

    key: RoleKey
    batch: BatchKey | None
    bias: tuple[tuple[BiasKey, int], ...]
    fault: Finding | None


RoleChanges = dict[RoleKey, tuple[Role, int]]
"""How many more of each role there are now."""


@stage(keep=16384)
def role(room: Workroom, block: str, kind: int, layer: int, fabrics: Letters) -> Role:
    """The role of a placement with these fields; `fabrics` are its own, laid over those of the block."""
    work = room.work(block)
    own = fabrics.over(work.block.fabrics)
    if isinstance(work.outcome, PiecewrightError):
        key = RoleKey(block, kind, layer, effective(work.letters, 1, own))
        return Role(key, None, (), _cannot_be_made(work.block, work.outcome))
    letters = effective(work.letters, work.outcome.stack, own)
    key = RoleKey(block, kind, layer, letters)
    kinds = work.outcome.kinds
    if kind >= len(kinds) or layer not in kinds[kind].layers:
        return Role(key, None, (), _no_such_block(work.block, kind, layer, kinds))
    return Role(key, batch_key(work, letters), bias_lengths(kinds[kind], layer, letters), None)


def role_changes(room: Workroom, before: tuple[Row, ...], after: tuple[Row, ...]) -> RoleChanges:
    """What came less what went: only rows that differ are looked at, and in them what differs."""
    changes: RoleChanges = {}
    gone = {row.row: row.placements for row in set(before).difference(after)}
    came = {row.row: row.placements for row in set(after).difference(before)}
    for number in gone.keys() | came.keys():
        old, new = gone.get(number, ()), came.get(number, ())
        _count(room, set(old).difference(new), -1, changes)
        _count(room, set(new).difference(old), 1, changes)
    return changes


def changes_of(room: Workroom, placements: Iterable[Placement], by: int) -> RoleChanges:
    """The changes that so many of each placement make."""
    changes: RoleChanges = {}
    _count(room, placements, by, changes)
    return changes


def _count(room: Workroom, placements: Iterable[Placement], by: int, changes: RoleChanges) -> None:
    for placement in placements:
        found = role(room, placement.block, placement.kind, placement.layer, placement.fabrics)
        before = changes.get(found.key)
        changes[found.key] = (found, by + (before[1] if before else 0))


def _cannot_be_made(block: Block, fault: PiecewrightError) -> Finding:
    said = message("plan.cannot-be-made", block=block.name, why=fault.message)
    where = f"{block.id}, {fault.where}".removesuffix(", ")
    return Finding("plan.cannot-be-made", "error", said, where, fault.hint)


def _no_such_block(block: Block, kind: int, layer: int, kinds: tuple[Kind, ...]) -> Finding:
    known = tuple(
        message(
            "plan.kind-layers",
            kind=index + 1,
            count=len(known.layers),
            layers=tuple(layer + 1 for layer in known.layers),
        )
        for index, known in enumerate(kinds)
    )
    said = message("plan.no-such-block", block=block.name, kind=kind + 1, layer=layer + 1)
    return Finding("plan.no-such-block", "error", said, block.id, message("plan.choose-kind", known=known))

"""Pressing across the joins of a quilt: each block as its plan says or all the other way, and every join one way."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise
from types import MappingProxyType
from typing import Literal

from piecewright.colour.value import lightness
from piecewright.edit.facts_of import given_of
from piecewright.errors import Finding, MakingError, RecipeError
from piecewright.making.darker import Lightness, darker_of, leaves_to_fabrics
from piecewright.making.pressing_plan import PressingPlan, plan_of
from piecewright.making.run import facts
from piecewright.model.block import Block
from piecewright.model.design import Design
from piecewright.model.quilt import Placement
from piecewright.plan.layout import PlacedBlock
from piecewright.plan.sewing_order import SewingOrder, sewing_order
from piecewright.plan.stage import stage
from piecewright.sewing.assembly import Assembly, Piece, Section, parts_in_order
from piecewright.sewing.balance import balance_in_order
from piecewright.sewing.joins import NO_ENDS, End, Ends, Join, JoinCrossing, Joins, ends_of, joins_of
from piecewright.sewing.junctions import Spot
from piecewright.sewing.signs import Tie
from piecewright.words.message import Message, message

_SASHING = ("sash", "cornerstone", "edge-cornerstone")
_HELD, _FREE = 0, 1
"""Stand in a block's own ends for seams that its recipe fixes, and for those that turn over with the block."""


@dataclass(frozen=True, slots=True)
class BlockPressing:
    """A placed block: pressed as its plan says, or all that its recipe leaves open the other way."""

    placed: PlacedBlock
    other_way: bool


@dataclass(frozen=True, slots=True)
class JoinPressing:
    """A seam between blocks, the way to press it, and the part of `SewingOrder.parts` that it sews."""

    part: int
    toward: str


@dataclass(frozen=True, slots=True)
class JoinClash:
    """Where two seams that meet on a join lie to one side, finished inches from the quilt's finished top left.

    `part` is the part of `SewingOrder.parts` that the join sews.
    """

    point: Spot
    part: int


@dataclass(frozen=True, slots=True)
class QuiltPressing:
    """How the blocks of the arrangement in view and the joins between them are pressed.

    `blocks` are those of the sewing order, in its order. `crossings` are those on joins alone; `bound` is the least
    number of them that clash for any choice. `said_blocks` says how each block of the shelf is pressed, `said_joins`
    for a part of `SewingOrder.parts` how its seams are.
    """

    order: SewingOrder
    blocks: tuple[BlockPressing, ...]
    joins: tuple[JoinPressing, ...]
    crossings: int
    clashes: tuple[JoinClash, ...]
    bound: int
    said_blocks: tuple[Message, ...]
    said_joins: Mapping[int, Message]
    findings: tuple[Finding, ...]

    @property
    def sentences(self) -> tuple[Message, ...]:
        """What is said of blocks, then of the seams that join them."""
        return (*self.said_blocks, *self.said_joins.values())

    @property
    def proven(self) -> bool:
        """Whether no choice has fewer clashes."""
        return len(self.clashes) == self.bound


@stage(keep=8)
def quilt_pressing(design: Design) -> QuiltPressing:
    """The pressing of the arrangement in view: clashes at joins as few as can be, then blocks the other way.

    What is still free then lies away from seams that end on it, and the joins of one part the same way. Blocks that
    can not be made have no seams. Never raises for a design.
    """
    order = sewing_order(design)
    held = len(order.blocks)  # the number of the sign that is always 1; joins are numbered after it
    found = Joins()
    if order.assembly is not None:
        ends = [_placed_ends(design, block, number, held) for number, block in enumerate(order.blocks)]
        ends += [NO_ENDS] * len(order.fillings)
        found = joins_of(order.assembly, ends, held + 1)
    signs, bound = _balanced(found, held)
    blocks = tuple(BlockPressing(block, signs[number] < 0) for number, block in enumerate(order.blocks))
    joins = tuple(JoinPressing(join.part, _way(join, signs[join.sign])) for join in found.joins)
    clashes = tuple(
        _clash(crossing, found.joins[crossing.join - held - 1])
        for crossing in found.crossings
        if (signs[crossing.one] == signs[crossing.other]) != crossing.same
    )
    return QuiltPressing(
        order=order,
        blocks=blocks,
        joins=joins,
        crossings=len(found.crossings),
        clashes=clashes,
        bound=bound,
        said_blocks=tuple(_say_blocks(design, blocks)),
        said_joins=MappingProxyType(dict(_say_joins(order, joins))),
        findings=tuple(_findings(order, clashes)),
    )


def block_plan(design: Design, placement: Placement) -> PressingPlan | None:
    """The pressing plan of a placed block's batch, in its fabrics; None where the block can not be made."""
    block = design.shelf.blocks[placement.block]
    lights = _lights(design, placement) if leaves_to_fabrics(design.shelf.recipes[block.recipe]) else ()
    return _plan(design, block, lights)


def _plan(design: Design, block: Block, lights: Lightness) -> PressingPlan | None:
    recipe, given = design.shelf.recipes[block.recipe], given_of(design, block)
    try:
        return plan_of(recipe, given, darker_of(recipe, given, lights) if lights else ())
    except (RecipeError, MakingError):
        return None


def _lights(design: Design, placement: Placement) -> Lightness:
    """How light each letter is in each layer, where it has a fabric."""
    recipe = design.shelf.recipes[design.shelf.blocks[placement.block].recipe]
    letters = design.letters(placement)
    return tuple(
        (letter, layer, lightness(design.shelf.fabrics[fabric].color))
        for letter in recipe.letters
        for layer in range(recipe.stack)
        if (fabric := letters.fabric(letter, layer)) is not None
    )


def _placed_ends(design: Design, block: PlacedBlock, number: int, held: int) -> Ends:
    """The ends of a block's seams where it lies, decided by sign `number` or, where its recipe fixes them, `held`."""
    placement = block.laid.placement
    plan = block_plan(design, placement)
    if plan is None:
        return NO_ENDS
    shelved = design.shelf.blocks[placement.block]
    name = _made_name(design, shelved, placement.kind, placement.layer)
    own = _own_ends(plan, name, placement.layer, placement.turn // 90) if name else NO_ENDS
    numbers = {_HELD: held, _FREE: number}
    x, y = float(block.rect.x), float(block.rect.y)
    left, top, right, bottom = (
        [End(end.along + offset, numbers[end.sign], end.lean) for end in side]
        for side, offset in zip(own, (y, x, y, x), strict=True)
    )
    return left, top, right, bottom


def _made_name(design: Design, block: Block, kind: int, layer: int) -> str | None:
    """The name of the first block of a kind in a batch; None where the batch has none such in that layer."""
    try:
        kinds = facts(design.shelf.recipes[block.recipe], given_of(design, block)).kinds
    except (RecipeError, MakingError):
        return None
    return kinds[kind].blocks[0] if kind < len(kinds) and layer in kinds[kind].layers else None


@stage(keep=1024)
def _own_ends(plan: PressingPlan, name: str, layer: int, quarters: int) -> Ends:
    """The ends of a block's seams, turned, its top left corner at 0, 0."""
    block = plan.block(name, layer)
    if block is None:
        return NO_ENDS
    signs = {
        number: (_FREE if flips else _HELD, sign)
        for number, (sign, flips) in enumerate(zip(plan.signs, plan.flips, strict=True))
        if sign
    }
    width, height = float(plan.finished.width), float(plan.finished.height)
    return ends_of(block.work.lines, signs, width, height, quarters, (0.0, 0.0))


def _balanced(found: Joins, held: int) -> tuple[tuple[int, ...], int]:
    """The signs of blocks, of what is held, and of joins; and the least number of clashes."""
    count = held + 1 + len(found.joins)
    ties = [Tie(crossing.one, crossing.other, crossing.same) for crossing in found.crossings]
    as_planned = [Tie(number, held, same=True) for number in range(held)]
    away = [Tie(bulk.join, held, bulk.sign > 0) for bulk in found.bulks]
    alike = [
        Tie(one.sign, other.sign, same=True) for one, other in pairwise(found.joins) if one.part == other.part
    ]
    balance = balance_in_order(count, ties, (as_planned, away, alike), {held: 1})
    return balance.signs, balance.bound


def _way(join: Join, sign: int) -> str:
    if join.upright:
        return "right" if sign > 0 else "left"
    return "down" if sign > 0 else "up"


def _clash(crossing: JoinCrossing, join: Join) -> JoinClash:
    point = (join.at, crossing.along) if join.upright else (crossing.along, join.at)
    return JoinClash(point, join.part)


def _say_blocks(design: Design, blocks: Sequence[BlockPressing]) -> Iterator[Message]:
    """How many of each block are pressed the other way, in the order of the shelf."""
    counts: dict[str, tuple[int, int]] = {}
    for block in blocks:
        name = block.placed.laid.placement.block
        count, other = counts.get(name, (0, 0))
        counts[name] = (count + 1, other + block.other_way)
    for shelved in design.blocks:
        count, other = counts.get(shelved.id, (0, 0))
        if count:
            yield _say_block(shelved.name, count, other)


def _say_block(block: str, count: int, other: int) -> Message:
    if not other:
        return message("sewing.as-planned", block=block)
    if other == count:
        return message("sewing.all-other-way", block=block, count=count)
    return message("sewing.other-way", block=block, count=count, other=other)


def _say_joins(order: SewingOrder, joins: Sequence[JoinPressing]) -> Iterator[tuple[int, Message]]:
    ways: dict[int, list[str]] = {}
    for join in joins:
        ways.setdefault(join.part, []).append(join.toward)
    for step in order.steps:
        part = step.part
        if part is None:
            continue
        found = ways.get(part, [])
        sashes = _by_sashes(order, part, found)
        if sashes is not None:
            yield part, message(f"sewing.press-{sashes}-sashes", name=step.name, seams=len(found))
            continue
        runs = tuple(_run(way, len(list(alike))) for way, alike in groupby(found))
        if len(runs) == 1:
            way = message(f"making.press-way-{found[0]}")
            yield part, message("sewing.press-joins", name=step.name, seams=len(found), way=way)
        elif runs:
            yield part, message("sewing.press-joins-unlike", name=step.name, runs=runs)


def _by_sashes(order: SewingOrder, part: int, ways: Sequence[str]) -> Literal["to", "from"] | None:
    """Whether all seams of a row between sashes and other pieces go toward the sashes, or all away from them."""
    sewn = order.parts[part]
    if not isinstance(sewn, Section) or len(ways) < 2:
        return None
    sashes = [_is_sash(order, inner) for inner in sewn.parts]
    if any(one == other for one, other in pairwise(sashes)):
        return None
    toward = {(way in ("right", "down")) == is_sash for way, is_sash in zip(ways, sashes[1:], strict=True)}
    return None if len(toward) > 1 else "to" if toward.pop() else "from"


def _is_sash(order: SewingOrder, part: Assembly) -> bool:
    """Whether a part is a sash, or a row of sashes and cornerstones."""
    fillings = [one.index - len(order.blocks) for one in parts_in_order(part) if isinstance(one, Piece)]
    if isinstance(part, Piece):
        return fillings[0] >= 0 and order.fillings[fillings[0]].part == "sash"
    return all(number >= 0 and order.fillings[number].part in _SASHING for number in fillings)


def _run(way: str, count: int) -> Message:
    """So many seams one after the other that are pressed the same way."""
    return message("sewing.press-run", count=count, way=message(f"making.press-way-{way}"))


def _findings(order: SewingOrder, clashes: Sequence[JoinClash]) -> Iterator[Finding]:
    """One finding for each part on whose joins seams clash."""
    counts: dict[int, int] = {}
    for clash in clashes:
        counts[clash.part] = counts.get(clash.part, 0) + 1
    names = {step.part: step.name for step in order.steps}
    for part, count in counts.items():
        said = message("sewing.join-clash", name=names[part], count=count)
        yield Finding("sewing.join-clash", "note", said, "quilt", message("sewing.open-join"))

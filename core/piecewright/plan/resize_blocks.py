"""As large as the blocks at hand allow: they are hung anew in the largest rectangle that they fill."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.edit.arranging import Hung
from piecewright.edit.continuing import Step
from piecewright.edit.footprint import Laid, footprints
from piecewright.edit.registry import Cell, EditCall, call
from piecewright.edit.spaces import Bunch, bunches, largest_space, spaces_of
from piecewright.errors import DesignError
from piecewright.model.design import Design
from piecewright.model.quilt import Placement, Quilt
from piecewright.plan.resize_moves import Base, Plan, base_of, counts_said, framed, sashed
from piecewright.plan.resize_wish import blocks_at_hand, blocks_on

_SHAPES = 3
"""Rectangles that are offered, those that take most blocks first."""
_SLIMMEST = Fraction(2)
"""No more than so many times as long for its width as it was, or as wide for its length, where blocks allow it."""


@dataclass(frozen=True, slots=True)
class Rehung:
    """A plan that hangs `used` of `count` blocks at hand."""

    plan: Plan
    used: int
    count: int


def rehung(design: Design, ruler: Fraction) -> Iterator[Rehung]:
    """The largest rectangles of whole spaces that the blocks at hand fill; each also with sashing, and with a border.

    Blocks keep their order. Where all that hang are at hand, what hangs is also given as it is, with sashing and with a
    border: that is all there is where a block is locked, or where blocks of unlike sizes fill no rectangle.
    """
    at_hand = blocks_at_hand(design)
    base = base_of(design)
    space = _space(design, at_hand)
    hung = blocks_on(design)
    if hung and hung <= at_hand:
        for each in (*sashed(base.plan, design, space, ruler), *framed(base.plan, design, space, ruler)):
            yield Rehung(each, hung.total(), at_hand.total())
    bunched = _bunches_at_hand(design, at_hand, space)
    locked = any(one.locked for row in design.quilt.rows for one in row.placements)
    if not bunched or locked:
        return
    for columns, rows in _rectangles(design.quilt, len(bunched)):
        found = _hung(base, bunched, space, (columns, rows))
        if found is not None:
            plan, used = found
            for each in (plan, *sashed(plan, design, space, ruler), *framed(plan, design, space, ruler)):
                yield Rehung(each, used, at_hand.total())


def _bunches_at_hand(design: Design, at_hand: Counter[str], space: Step) -> list[Bunch]:
    """The blocks at hand space by space: those that hang in the order they are read, then those that wait."""
    left = Counter(at_hand)
    wide, high = space
    found: list[Bunch] = []
    for bunch in bunches(design, wide, high):
        kept = []
        for one in bunch.blocks:
            if left[one.placement.block] > 0:
                left[one.placement.block] -= 1
                kept.append(one)
        if kept:
            found.append(Bunch(tuple(kept)))
    for block in design.blocks:
        if _cells(design, block.id) == space:
            found += [Bunch((Laid(0, 0, *space, Placement(0, block.id)),))] * left[block.id]
    return found


def _space(design: Design, at_hand: Counter[str]) -> Step:
    """The space that each block gets: the quilt's own, or as large as the largest of them."""
    quilt = design.quilt
    if quilt.sashing is not None or quilt.lattice.kind == "on point":
        return quilt.lattice.space_columns, quilt.lattice.space_rows
    waiting = (max(_cells(design, block)) for block, count in at_hand.items() if count)
    side = max((largest_space(design), *waiting)) if quilt.rows else max(waiting, default=1)
    return side, side


def _cells(design: Design, block: str) -> Step:
    """The cells under a block; one where it can not be made or fits no whole cells."""
    return footprints(design).extent(Placement(0, block))


def _rectangles(quilt: Quilt, count: int) -> list[tuple[int, int]]:
    """Columns and rows of spaces that so many fill, those that take most first, then nearest to the quilt's shape."""
    size = quilt.frame.size
    shape = Fraction(size.width) / Fraction(size.height)
    found = []
    for columns in range(1, count + 1):
        rows = _most_rows(quilt, columns, count)
        lean = Fraction(columns, rows) / shape if rows else Fraction(0)
        if rows:
            found.append((columns, rows, max(lean, 1 / lean)))
    found.sort(key=lambda one: (one[2] > _SLIMMEST, -_holds(quilt, one[0], one[1]), one[2]))
    return [(columns, rows) for columns, rows, _ in found[:_SHAPES]]


def _holds(quilt: Quilt, columns: int, rows: int) -> int:
    between = (columns - 1) * (rows - 1) if quilt.lattice.kind == "on point" else 0
    return columns * rows + between


def _most_rows(quilt: Quilt, columns: int, count: int) -> int:
    """The most rows of so many columns that are filled."""
    if quilt.lattice.kind == "on point":
        return (count + columns - 1) // (2 * columns - 1)
    return count // columns


def _hung(base: Base, bunched: list[Bunch], space: Step, size: Step) -> tuple[Plan, int] | None:
    """All blocks taken off, the quilt made so large, the blocks hung again space by space; and how many those are."""
    quilt, (wide, high), (columns, rows) = base.plan.quilt, space, size
    lattice = quilt.lattice
    if lattice.kind == "straight":
        columns, rows = columns * wide, rows * high
    try:
        after = quilt.changed(lattice=lattice.changed(columns=columns, rows=rows), rows=())
        spaced = after.lattice.changed(space_columns=wide, space_rows=high)
    except DesignError:
        return None
    cells = spaces_of(after.changed(lattice=spaced, sashing=None))
    lay = tuple(
        Hung(cell.row + one.row, one.placement.changed(column=cell.column + one.column))
        for cell, bunch in zip(cells, bunched, strict=False)
        for one in bunch.blocks
    )
    lift = tuple(Cell(one.column, row.row) for row in quilt.rows for one in row.placements)
    calls: tuple[EditCall, ...] = (
        *((call("arrange-blocks", lift=lift, lay=()),) if lift else ()),
        call("continue-quilt", columns=columns, rows=rows),
        call("arrange-blocks", lift=(), lay=lay),
    )
    return Plan(after, calls, ("counts",), (counts_said(base, columns, rows),)), len(lay)

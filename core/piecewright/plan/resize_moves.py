"""What can be done to a quilt's size, each with the edits that do it: counts, block size, sashing, borders."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import product

from piecewright.edit.continuing import Pattern, Step, pattern_of
from piecewright.edit.footprint import all_laid
from piecewright.edit.registry import EditCall, apply, call
from piecewright.edit.resize_quilt import cloth_around, sashing_of_width
from piecewright.edit.scaling import block_units
from piecewright.errors import DesignError, EditError
from piecewright.model.design import Design
from piecewright.model.quilt import MOST_BORDERS, Border, Quilt
from piecewright.model.setting import Sashing
from piecewright.units.rounding import down_to, up_to
from piecewright.units.sizes import Finished
from piecewright.words.message import Message, message

WIDEST_BORDER = Fraction(12)
"""A border added or widened gets no wider (common practice, no source)."""
NARROWEST = Fraction(1, 2)
"""Finished inches of the narrowest sash or border (common practice, no source)."""
MOST_SIZES = 6
"""Other sizes of blocks that are looked at, the nearest first."""
_MOST_FEWER = 6


@dataclass(frozen=True, slots=True)
class Plan:
    """Edits one after another, what each does in words and of what kind it is, and the quilt as it then stands.

    The blocks of `quilt` may still be those before the edits: only its size is meant.
    """

    quilt: Quilt
    calls: tuple[EditCall, ...] = ()
    kinds: tuple[str, ...] = ()
    said: tuple[Message, ...] = ()

    @property
    def size(self) -> Finished:
        """The finished size, exact."""
        found = self.quilt.finished
        return Finished(Fraction(found.width), Fraction(found.height))

    def then(self, kind: str, wanted: EditCall, said: Message, quilt: Quilt) -> "Plan":
        """The same with one more edit."""
        return Plan(quilt, (*self.calls, wanted), (*self.kinds, kind), (*self.said, said))


@dataclass(frozen=True, slots=True)
class Base:
    """A quilt to begin from: as it is, with blocks of another size, or with other sashing, and how its blocks hang."""

    design: Design
    plan: Plan
    pattern: Pattern


def base_of(design: Design, plan: Plan | None = None) -> Base:
    """A design to begin from."""
    laid = all_laid(design, design.quilt)
    return Base(
        design, replace(plan or Plan(design.quilt), quilt=design.quilt), pattern_of(design.quilt, laid)
    )


def other_sizes(design: Design, wanted: Fraction) -> Iterator[Base]:
    """The quilt in other sizes of its blocks, those nearest to `wanted` times the present one first."""
    unit, plan = design.quilt.lattice.unit, Plan(design.quilt)
    others = sorted(
        (one for one in block_units(design) if one != unit), key=lambda one: abs(one - unit * wanted)
    )
    for other in others[:MOST_SIZES]:
        edit = call("set-block-size", unit=other)
        said = _size_said(design, other)
        yield from _tried(design, plan.then("size", edit, said, design.quilt))


def _size_said(design: Design, unit: Fraction) -> Message:
    """The size of the blocks where all are alike, else that of the cells."""
    cells = {tuple(sorted(one[2:4])) for one in all_laid(design, design.quilt)}
    if len(cells) == 1:
        short, long = cells.pop()
        return message("resize.block-size", size=Finished(short * unit, long * unit))
    return message("resize.cell-size", unit=unit)


def other_sashing(design: Design) -> Iterator[Base]:
    """The quilt without its sashing; or with some, as narrow as may be."""
    quilt, plan = design.quilt, Plan(design.quilt)
    if quilt.sashing is not None:
        gone = call("set-sashing", sashing=None)
        yield from _tried(design, plan.then("sashing", gone, message("resize.sashing-gone"), quilt))
        return
    fabric = cloth_around(design)
    if fabric is not None and quilt.rows:
        narrow = Sashing(fabric, NARROWEST, NARROWEST)
        added = call("set-sashing", sashing=narrow)
        yield from _tried(design, plan.then("sashing", added, message("resize.sashing-gone"), quilt))


def _tried(design: Design, plan: Plan) -> Iterator[Base]:
    try:
        after = apply(design, plan.calls[-1])
    except EditError:
        return
    yield base_of(after, plan)


def with_sashing(base: Base, step: Fraction) -> Iterator[Base]:
    """The same quilt with its sashing in every width, up to half a space; and as it is where it has none."""
    quilt, before = base.design.quilt, base.plan.quilt.sashing
    sashing = quilt.sashing
    if sashing is None:
        yield base
        return
    added = "sashing" in base.plan.kinds
    widest = min(quilt.frame.space_width, quilt.frame.space_height) / 2
    width = up_to(step)(NARROWEST)
    while width <= widest:
        wide = sashing_of_width(sashing, width)
        if added or wide != before:
            yield _sashed(base, wide, width, added=added)
        width += step


def _sashed(base: Base, sashing: Sashing, width: Fraction, *, added: bool) -> Base:
    said = message("resize.sashing-added" if added else "resize.sashing-width", width=width)
    plan, quilt = base.plan, base.design.quilt.changed(sashing=sashing)
    before = Plan(quilt, plan.calls[:-1], plan.kinds[:-1], plan.said[:-1]) if added else plan
    return replace(base, plan=before.then("sashing", call("set-sashing", sashing=sashing), said, quilt))


def counts(base: Base, target: Finished, *, below: bool = False) -> Iterator[Plan]:
    """Columns and rows that come near to a size, `below` only from below, the pattern carried on."""
    quilt, pattern = base.plan.quilt, base.pattern
    around = 2 * sum((border.width for border in quilt.borders), Fraction(0))
    width, height = Fraction(target.width) - around, Fraction(target.height) - around
    steps = {(1, 1), (pattern.columns, pattern.rows)}
    tried = {
        pair
        for across, down in steps
        for pair in product(
            _near(base, width, across, below=below), _near(base, height, down, below=below, rows=True)
        )
    }
    for columns, rows in sorted(tried):
        now = quilt.lattice
        if (columns, rows) == (now.columns, now.rows):
            continue
        try:
            after = quilt.changed(lattice=now.changed(columns=columns, rows=rows), rows=())
        except DesignError:
            continue
        edit = call("continue-quilt", columns=columns, rows=rows)
        yield base.plan.then("counts", edit, counts_said(base, columns, rows), after)


def counts_said(base: Base, columns: int, rows: int) -> Message:
    """Columns and rows in words: of blocks where all are alike in size, else of cells."""
    lattice, laid = base.plan.quilt.lattice, all_laid(base.design, base.design.quilt)
    wide, high = (1, 1) if lattice.kind == "on point" else (base.pattern.across[0], base.pattern.down[1])
    alike = lattice.kind == "on point" or {one[2:4] for one in laid} == {(wide, high)}
    whole = columns % wide == 0 and rows % high == 0
    if alike and whole:
        return message(
            f"resize.blocks-{'on-point' if lattice.kind == 'on point' else 'straight'}",
            columns=columns // wide,
            rows=rows // high,
        )
    return message("resize.cells", columns=columns, rows=rows)


def _near(base: Base, wanted: Fraction, times: int, *, below: bool, rows: bool = False) -> Iterator[int]:
    """The counts just under and just over a length, in steps of so many; `below`, all that a border may fill up."""
    quilt = base.plan.quilt
    lattice, name = quilt.lattice, "rows" if rows else "columns"
    single = 1 if lattice.kind == "on point" else (base.pattern.down[1] if rows else base.pattern.across[0])
    step = single * times

    def length(count: int) -> Fraction:
        other = {"columns": 1, "rows": 1, name: count}
        size = quilt.changed(lattice=lattice.changed(**other), rows=()).frame.size
        return Fraction(size.height if rows else size.width)

    try:
        first = length(step)
        more = length(2 * step) - first
    except DesignError:
        return
    under = max(1 + int((wanted - first) // more), 1)
    fewer = min(int(2 * WIDEST_BORDER // more), _MOST_FEWER) if below else 0
    for number in range(max(under - fewer, 1), under + (1 if below else 2)):
        yield number * step


def borders(plan: Plan, design: Design, target: Finished, step: Fraction) -> Iterator[Plan]:
    """The outer border wider, narrower or taken away, or one more: as near to a size as widths of the ruler come.

    One more is not added to a plan that does something else already and may as well widen the outer one.
    """
    quilt, size = plan.quilt, plan.size
    spare = {(Fraction(target.width) - size.width) / 2, (Fraction(target.height) - size.height) / 2}
    by = {rounding(one) for one in spare for rounding in (up_to(step), down_to(step))}
    outer = quilt.borders[-1] if quilt.borders else None
    if outer is not None and outer.block is None:
        yield from _widened(plan, outer, by)
    if outer is not None:
        gone = call("remove-border", index=len(quilt.borders) - 1)
        after = quilt.changed(borders=quilt.borders[:-1])
        yield plan.then("border", gone, message("resize.border-gone"), after)
    fabric = cloth_around(design)
    widened = outer is not None and outer.block is None and bool(plan.calls)
    if fabric is None or widened or len(quilt.borders) >= MOST_BORDERS:
        return
    for width in sorted(one for one in by if NARROWEST <= one <= WIDEST_BORDER):
        border = Border(fabric, width) if outer is None else Border(outer.fabric, width)
        said = message("resize.border-first" if outer is None else "resize.border-added", width=width)
        after = quilt.changed(borders=(*quilt.borders, border))
        yield plan.then(
            "border" if outer is None else "added", call("add-border", border=border), said, after
        )


def _widened(plan: Plan, outer: Border, by: Iterable[Fraction]) -> Iterator[Plan]:
    quilt = plan.quilt
    for more in sorted(by):
        width = outer.width + more
        if not more or not NARROWEST <= width <= max(WIDEST_BORDER, outer.width):
            continue
        border = outer.changed(width=width)
        edit = call("change-border", index=len(quilt.borders) - 1, border=border)
        said = message("resize.border-width", width=width, before=outer.width)
        yield plan.then("border", edit, said, quilt.changed(borders=(*quilt.borders[:-1], border)))


def sashed(plan: Plan, design: Design, space: Step, step: Fraction) -> Iterator[Plan]:
    """Sashing a quarter as wide as a space laid between blocks that have none (common practice, no source)."""
    quilt, fabric = plan.quilt, cloth_around(design)
    if quilt.sashing is not None or fabric is None:
        return
    width = max(down_to(2 * step)(min(space) * quilt.lattice.unit / 4), NARROWEST)
    sashing = Sashing(fabric, width, width)
    edit = call("set-sashing", sashing=sashing, space_columns=space[0], space_rows=space[1])
    lattice = quilt.lattice.changed(space_columns=space[0], space_rows=space[1])
    said = message("resize.sashing-added", width=width)
    yield plan.then("sashing", edit, said, quilt.changed(sashing=sashing, lattice=lattice))


def framed(plan: Plan, design: Design, space: Step, step: Fraction) -> Iterator[Plan]:
    """A border half as wide as a space round the others (common practice, no source)."""
    quilt, fabric = plan.quilt, cloth_around(design)
    if fabric is None or len(quilt.borders) >= MOST_BORDERS:
        return
    half = down_to(4 * step)(min(space) * quilt.lattice.unit / 2)
    border = Border(fabric, min(max(half, NARROWEST), WIDEST_BORDER))
    said = message("resize.border-added" if quilt.borders else "resize.border-first", width=border.width)
    yield plan.then(
        "border", call("add-border", border=border), said, quilt.changed(borders=(*quilt.borders, border))
    )

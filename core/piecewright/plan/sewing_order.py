"""The order in which a top is sewn together: rows, columns or nested sections by straight seams, then the borders."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Literal

from piecewright.errors import Finding
from piecewright.model.design import Design
from piecewright.plan.between import LaidPart
from piecewright.plan.layout import Layout, PlacedBlock, layout
from piecewright.plan.slanted_rows import rect_of, slanted_count, slanted_rows
from piecewright.plan.stage import stage
from piecewright.sewing.assembly import (
    Assembly,
    Knot,
    Piece,
    SeamCount,
    Section,
    assemble,
    parts_in_order,
    seam_count,
)
from piecewright.sewing.walls import KnotSeam
from piecewright.units.sizes import Finished
from piecewright.words.message import Arg, Message, message

_STOP = Fraction(2)
"""Inches by which a partial seam stops short (common practice, no source)."""

Kind = Literal["row", "column", "section", "center", "border"]
Sewn = Literal["sides", "ends", "miters"]
"""Which sides of a border a step sews on: left and right, top and bottom, or all four and their corners."""


@dataclass(frozen=True, slots=True)
class SewingStep:
    """One part of a top sewn together.

    `name` is the part made, `sentence` what to do, `details` the seams one by one where some are partial. `part` is
    the part's place in `SewingOrder.parts`, None for a border. `seams` are so many, each `seam_length` finished; 0
    where they differ. `border` is a border's place from the inside and what of it is sewn on, None for a part.
    """

    kind: Kind
    name: Message
    sentence: Message
    details: tuple[Message, ...]
    part: int | None
    size: Finished
    seams: int
    partial: int
    seam_length: Fraction
    border: tuple[int, Sewn] | None = None


@dataclass(frozen=True, slots=True)
class SewingOrder:
    """How the top of the arrangement in view is sewn.

    `blocks` are those sewn in, `fillings` the sashes, setting triangles and coping strips; `assembly` names both by
    their place there, `fillings` counted on after `blocks`, and lies in the frame of the blocks, None where nothing
    is placed; `parts` are all its parts, each after its own. `count` has the seams between all these, `border_seams`
    and `border_length` those that sew the borders on.
    """

    blocks: tuple[PlacedBlock, ...]
    fillings: tuple[LaidPart, ...]
    assembly: Assembly | None
    parts: tuple[Assembly, ...]
    steps: tuple[SewingStep, ...]
    count: SeamCount
    border_seams: int
    border_length: Fraction
    findings: tuple[Finding, ...]

    @property
    def seams(self) -> int:
        """How many seams there are, those of the borders with them."""
        return self.count.seams + self.border_seams

    @property
    def length(self) -> Fraction:
        """How long they are together, finished inches."""
        return self.count.length + self.border_length

    @property
    def longest(self) -> Fraction:
        """How long the longest is, finished inches."""
        return max([self.count.longest, *(step.seam_length for step in self.steps)])

    @property
    def summary(self) -> Message:
        """How many seams there are, and their length."""
        facts: dict[str, Arg] = {"seams": self.seams, "length": self.length, "longest": self.longest}
        if self.count.partial:
            return message("sewing.total-partial", partial=self.count.partial, **facts)
        return message("sewing.total", **facts)


@stage(keep=16)
def sewing_order(design: Design) -> SewingOrder:
    """The order for the arrangement in view. Never raises for a design: what does not work out is a finding."""
    laid = layout(design)
    blocks = tuple(_sewn(design, laid))
    fillings = (*laid.between, *laid.gaps)
    assembly, count = _assembled(laid, blocks, fillings)
    parts = tuple(parts_in_order(assembly)) if assembly else ()
    names = _Names(design, blocks, fillings, parts)
    borders = tuple(_borders(design, laid)) if blocks else ()
    return SewingOrder(
        blocks=blocks,
        fillings=fillings,
        assembly=assembly,
        parts=parts,
        steps=(*names.steps(), *borders),
        count=count,
        border_seams=sum(step.seams for step in borders),
        border_length=sum((step.seams * step.seam_length for step in borders), Fraction(0)),
        findings=tuple(_findings(laid, len(blocks))),
    )


def _assembled(
    laid: Layout, blocks: Sequence[PlacedBlock], fillings: Sequence[LaidPart]
) -> tuple[Assembly | None, SeamCount]:
    if not blocks:
        return None, SeamCount(0, 0, Fraction(0), Fraction(0))
    slanted = slanted_rows(laid, blocks, fillings) if laid.frame.on_point else None
    if slanted is not None:
        return slanted, slanted_count(laid, slanted)
    pieces: list[PlacedBlock | LaidPart] = [*blocks, *fillings]
    whole = assemble([rect_of(piece) for piece in pieces])
    return whole, seam_count(whole)


def _sewn(design: Design, laid: Layout) -> Iterator[PlacedBlock]:
    """The blocks that lie within the quilt, on no sash and on no other."""
    crowded = bool((laid.covered() > 1).any())
    taken: set[tuple[int, int]] = set()
    for block in laid.blocks:
        column, row, columns, rows = block.laid[:4]
        if not design.quilt.fits(column, row, columns, rows):
            continue
        if crowded:
            cells = {(column + x, row + y) for x in range(columns) for y in range(rows)}
            if cells & taken:
                continue
            taken |= cells
        yield block


def _findings(laid: Layout, sewn: int) -> Iterator[Finding]:
    missing = len(laid.blocks) - sewn
    if missing:
        said = message("sewing.left-out", count=missing)
        yield Finding("sewing.left-out", "warning", said, "quilt", message("sewing.place-apart"))
    empty = laid.missing
    if empty and sewn and laid.coping is None:
        said = message("sewing.gaps", cells=empty)
        yield Finding("sewing.gaps", "note", said, "quilt", message("plan.fill-cells"))


def is_slanted(order: SewingOrder, part: Section) -> bool:
    """Whether a part is the top of slanted rows, a corner triangle at each end."""
    return _ends_in_corners(part, len(order.blocks), order.fillings)


def _ends_in_corners(part: Section, blocks: int, fillings: Sequence[LaidPart]) -> bool:
    end = part.parts[0]
    filling = fillings[end.index - blocks] if isinstance(end, Piece) and end.index >= blocks else None
    return filling is not None and filling.part == "corner-triangle" and filling.row is None


class _Names:
    """What the parts of a top are called: rows and columns of the whole, sections numbered as they are made."""

    def __init__(
        self,
        design: Design,
        blocks: Sequence[PlacedBlock],
        fillings: Sequence[LaidPart],
        parts: Sequence[Assembly],
    ) -> None:
        self._design = design
        self._blocks = blocks
        self._fillings = fillings
        self._parts = parts
        self._names: dict[int, tuple[Kind, Message]] = {}
        self._name_all()

    def _name_all(self) -> None:
        whole = self._parts[-1] if self._parts else None
        if isinstance(whole, Section):
            kind: Kind = "row" if whole.axis == "down" else "column"
            code = "sewing.row" if kind == "row" else "sewing.column"
            rows = whole.parts[1:-1] if self._is_slanted(whole) else whole.parts
            for number, part in enumerate(rows, 1):
                self._names[id(part)] = (kind, message(code, number=number))
        sections = 0
        for part in self._parts:
            if not isinstance(part, Piece) and id(part) not in self._names:
                sections += 1
                self._names[id(part)] = ("section", message("sewing.section", number=sections))
        if whole is not None:
            self._names[id(whole)] = ("center", message("sewing.center"))

    def _is_slanted(self, whole: Section) -> bool:
        return _ends_in_corners(whole, len(self._blocks), self._fillings)

    def steps(self) -> Iterator[SewingStep]:
        """A step for every part that is more than a block."""
        for number, part in enumerate(self._parts):
            if isinstance(part, Section):
                yield self._section(part, number)
            elif isinstance(part, Knot):
                yield self._knot(part, number)

    def _section(self, part: Section, number: int) -> SewingStep:
        kind, name = self._names[id(part)]
        facts: dict[str, Arg] = {"seams": part.seams, "length": part.seam_length}
        slanted = kind == "center" and self._is_slanted(part)
        rows = part.parts[1:-1] if slanted else part.parts
        if kind == "center" and all(id(inner) in self._names for inner in rows):
            first, last = (self._names[id(inner)][1] for inner in (rows[0], rows[-1]))
            code = "sewing.sew-slanted" if slanted else f"sewing.sew-all-{part.axis}"
            sentence = message(code, first=first, last=last, **facts)
        else:
            parts = tuple(self._listed(part.parts, places=kind not in ("row", "column")))
            sentence = message(f"sewing.sew-{part.axis}", name=name, parts=parts, **facts)
        length = Fraction(0) if slanted else part.seam_length
        return SewingStep(kind, name, sentence, (), number, _size(part), part.seams, 0, length)

    def _knot(self, part: Knot, number: int) -> SewingStep:
        kind, name = self._names[id(part)]
        partial = sum(seam.doing == "begin" for seam in part.seams)
        seams = sum(seam.doing != "finish" for seam in part.seams)
        parts = tuple(self._listed(part.parts, places=True))
        if not part.seams:
            sentence = message("sewing.knot-open", name=name, parts=parts)
            return SewingStep(kind, name, sentence, (), number, _size(part), len(parts) - 1, 0, Fraction(0))
        sentence = message("sewing.knot", name=name, parts=parts, partial=partial)
        details = tuple(self._detail(part, seam) for seam in part.seams)
        return SewingStep(kind, name, sentence, details, number, _size(part), seams, partial, Fraction(0))

    def _detail(self, knot: Knot, seam: KnotSeam) -> Message:
        before, after = (
            tuple(self._one(knot.parts[place]) for place in places) for places in (seam.before, seam.after)
        )
        return message(
            f"sewing.knot-{seam.doing}", before=before, after=after, length=seam.length, stop=_STOP
        )

    def _listed(self, parts: Sequence[Assembly], *, places: bool) -> Iterator[Message]:
        """Parts by name; blocks with their places, or else alike ones that follow each other counted together."""
        for _, alike in groupby(parts, key=self._look):
            some = list(alike)
            if places or not isinstance(some[0], Piece):
                yield from (self._one(part) for part in some)
            elif len(some) > 1:
                yield message("sewing.several", count=len(some), block=self._block(some[0]))
            else:
                yield self._block(some[0])

    def _look(self, part: Assembly) -> object:
        if not isinstance(part, Piece):
            return id(part)
        filling = self._filling(part)
        if filling is not None:
            return filling.part, filling.fabric, filling.rect.width, filling.rect.height
        placement = self._blocks[part.index].laid.placement
        return placement.block, placement.turn

    def _filling(self, part: Piece) -> LaidPart | None:
        """The sash, triangle or strip that a piece is; None for a block."""
        number = part.index - len(self._blocks)
        return self._fillings[number] if number >= 0 else None

    def _one(self, part: Assembly) -> Message:
        if not isinstance(part, Piece):
            return self._names[id(part)][1]
        if self._filling(part) is not None:
            return self._block(part)
        laid = self._blocks[part.index].laid
        return message("sewing.block-at", block=self._block(part), column=laid.column + 1, row=laid.row + 1)

    def _block(self, part: Piece) -> Message:
        filling = self._filling(part)
        if filling is not None:
            return message(f"sewing.part-{filling.part}")
        placement = self._blocks[part.index].laid.placement
        name = self._design.shelf.blocks[placement.block].name
        return message(f"sewing.block-turned-{placement.turn}", name=name)


def _size(part: Assembly) -> Finished:
    return Finished(part.box.width, part.box.height)


def _borders(design: Design, laid: Layout) -> Iterator[SewingStep]:
    """Two steps for each border: the pair sewn on first, then the other; a mitered one and its corners in one."""
    width, height = laid.center.width, laid.center.height
    for number, border in enumerate(design.quilt.borders, 1):
        fabric = design.shelf.fabrics[border.fabric].name
        ends_last = border.first == "sides" or border.corners == "squares"
        pairs: tuple[Sewn, ...] = ("sides", "ends") if ends_last else ("ends", "sides")
        for pair in ("miters",) if border.corners == "mitered" else pairs:
            length = height if pair == "sides" else width
            seams = {"miters": 8, "sides": 2, "ends": 2}[pair]
            made = border.pieced is not None or (border.corners == "squares" and pair == "ends")
            if pair == "miters":
                said = message("sewing.border-miters", number=number, fabric=fabric, wide=width, high=height)
            elif made:
                said = message(f"sewing.border-{pair}-made", number=number, length=length)
            else:
                said = message(f"sewing.border-{pair}", number=number, fabric=fabric, length=length)
            width += 2 * border.width if pair != "ends" else 0
            height += 2 * border.width if pair != "sides" else 0
            yield SewingStep(
                kind="border",
                name=message("sewing.border", number=number),
                sentence=said,
                details=(),
                part=None,
                size=Finished(width, height),
                seams=seams,
                partial=0,
                seam_length=Fraction(0) if pair == "miters" else length,
                border=(number - 1, pair),
            )

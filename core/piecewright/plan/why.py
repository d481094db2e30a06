"""Why a number is what it is: its sum, taken apart into terms that can be shown on the wall and opened in turn."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from piecewright.edit.registry import Cell
from piecewright.model.design import Design
from piecewright.plan.batches import Batch
from piecewright.plan.cloth import Cloth, Use
from piecewright.plan.difference import set_said
from piecewright.plan.keys import UNCHOSEN, BatchKey, SetKey
from piecewright.plan.materials import Materials, materials
from piecewright.plan.parts import PartPlan
from piecewright.plan.roles import role
from piecewright.plan.sets import StripSet
from piecewright.plan.workroom import workroom_of
from piecewright.words.message import Message, message

Number = Literal["size", "cloth", "set", "batch", "border", "binding", "backing", "batting"]


@dataclass(frozen=True, slots=True)
class Subject:
    """A number of the materials: `key` is a fabric's id, a set's or a batch's key, or a border's place from 0."""

    number: Number
    key: str | SetKey | BatchKey | int = ""


@dataclass(frozen=True, slots=True)
class Refers:
    """What a term is about, to be lit up: cells of the lattice, blocks of the shelf, fabrics, parts round the quilt.

    `parts`: "border 1" from the inside out, "binding", "backing", "batting", and the parts of the setting
    ("sash", "side-triangle").
    """

    cells: tuple[Cell, ...] = ()
    blocks: tuple[str, ...] = ()
    fabrics: tuple[str, ...] = ()
    parts: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Term:
    """One term of a sum, what it is about, and the number it opens to; None where it is a given."""

    said: Message
    refers: Refers
    opens: Subject | None = None


@dataclass(frozen=True, slots=True)
class Why:
    """A number with its whole sum in words, and the terms of it."""

    subject: Subject
    said: Message
    refers: Refers
    terms: tuple[Term, ...] = field(default=())


def why(design: Design, subject: Subject) -> Why:
    """The sum behind a number of the arrangement in view. Raises KeyError for a number that is not there."""
    made = materials(design)
    if subject.number in _ROUND_OPENERS:
        return _ROUND_OPENERS[subject.number](made, subject)
    return _WALL_OPENERS[subject.number](design, made, subject)


def subjects(made: Materials) -> Iterator[Subject]:
    """Every number of the materials that opens."""
    yield Subject("size")
    yield from (Subject("batch", batch.key) for batch in made.batches)
    yield from (Subject("set", found.key) for found in made.sets)
    yield from (Subject("border", index) for index in range(len(made.borders)))
    yield from (Subject(number) for number in ("binding", "backing", "batting"))
    yield from (Subject("cloth", each.fabric) for each in made.cloth)


def cells_of(design: Design, *batches: BatchKey) -> tuple[Cell, ...]:
    """Where the blocks of these batches lie: the top left cell of each, by rows."""
    room, keys = workroom_of(design), frozenset(batches)
    return tuple(
        Cell(placement.column, row.row)
        for row in design.quilt.rows
        for placement in row.placements
        if role(room, placement.block, placement.kind, placement.layer, placement.fabrics).batch in keys
    )


def _size(design: Design, made: Materials, subject: Subject) -> Why:
    lattice = design.quilt.lattice
    center = message(
        "plan.term-center",
        columns=lattice.columns,
        rows=lattice.rows,
        unit=lattice.unit,
        size=made.size.center,
    )
    terms = [Term(center, Refers(blocks=tuple(sorted(design.quilt.blocks))))]
    terms += [_border_term(made, index) for index in range(len(made.borders))]
    terms.append(Term(message("plan.term-outer-seams", seams=2 * made.size.seam), Refers()))
    return Why(subject, made.size.why, Refers(), tuple(terms))


def _border_term(made: Materials, index: int) -> Term:
    border = made.borders[index]
    said = message("plan.term-border", number=index + 1, width=border.finished_width)
    return Term(said, _round(f"border {index + 1}", border.fabric), Subject("border", index))


def _batch(design: Design, made: Materials, subject: Subject) -> Why:
    found = next((each for each in made.batches if each.key == subject.key), None)
    if found is None:
        raise KeyError(subject)
    terms = (
        Term(
            message("plan.term-placed", count=count, name=design.shelf.blocks[block].name),
            Refers(_placed(design, found, block, kind, layer), (block,)),
        )
        for block, kind, layer, count in found.placed
    )
    return Why(subject, found.why, _of_batches(design, (found,)), tuple(terms))


def _placed(design: Design, found: Batch, block: str, kind: int, layer: int) -> tuple[Cell, ...]:
    room = workroom_of(design)
    return tuple(
        Cell(one.column, row.row)
        for row in design.quilt.rows
        for one in row.placements
        if (one.block, one.kind, one.layer) == (block, kind, layer)
        and role(room, one.block, one.kind, one.layer, one.fabrics).batch == found.key
    )


def _of_batches(design: Design, batches: tuple[Batch, ...]) -> Refers:
    blocks = dict.fromkeys(block for each in batches for block, _, _, _ in each.placed)
    ids = (fabric for each in batches for _, fabrics in each.key.fabrics for fabric in fabrics)
    cells = cells_of(design, *(each.key for each in batches))
    return Refers(cells, tuple(blocks), _known(dict.fromkeys(ids)))


def _known(fabrics: Mapping[str, None] | tuple[str, ...]) -> tuple[str, ...]:
    return tuple(fabric for fabric in fabrics if not fabric.startswith(UNCHOSEN))


def _set(design: Design, made: Materials, subject: Subject) -> Why:
    found = next((each for each in made.sets if each.key == subject.key), None)
    if found is None:
        raise KeyError(subject)
    asking = tuple(each for each in made.batches if any(ask.sets == found.key for ask in each.asks))
    terms = [_asking(design, found, each) for each in asking]
    terms += [_part_term(part) for part in made.parts if _is_of(part, found)]
    for cuts in found.cuts:
        segments = tuple(
            message("plan.segments", count=count, length=length) for length, count in cuts.segments
        )
        said = message(
            "plan.term-cuts",
            sets=cuts.sets,
            usable=found.usable,
            truing=cuts.truing,
            segments=segments,
            spare=cuts.to_spare,
        )
        terms.append(Term(said, Refers(fabrics=_known(_lanes(found)))))
    return Why(subject, found.why, _of_batches(design, asking), tuple(terms))


def _is_of(part: PartPlan, found: StripSet) -> bool:
    """Whether pieces of a part are cut from these strips."""
    (lane, *others) = found.lanes
    short = min(Fraction(part.cut.width), Fraction(part.cut.height))
    return not others and (lane.fabric, lane.width) == (part.fabric, short)


def _part_term(part: PartPlan) -> Term:
    said = message("plan.term-cut", count=part.cuts, size=part.cut, part=message(f"plan.part-{part.part}"))
    return Term(said, _round(part.part, part.fabric))


def _lanes(found: StripSet) -> tuple[str, ...]:
    return tuple(dict.fromkeys(lane.fabric for lane in found.lanes))


def _asking(design: Design, found: StripSet, batch: Batch) -> Term:
    kits = sum(ask.count for ask in batch.asks if ask.sets == found.key)
    said = message(
        "plan.term-batches", batches=batch.batches, name=batch.name, blocks=batch.blocks, kits=kits
    )
    return Term(said, _of_batches(design, (batch,)), Subject("batch", batch.key))


def _cloth(design: Design, made: Materials, subject: Subject) -> Why:
    found = next((each for each in made.cloth if each.fabric == subject.key), None)
    if found is None:
        raise KeyError(subject)
    terms = tuple(term for use in found.uses for term in _use(design, made, found, use))
    blocks = tuple(each for each in made.batches if any(found.fabric in ids for _, ids in each.key.fabrics))
    refers = _of_batches(design, blocks)
    parts = tuple(use.part for use in found.uses if use.part != "piecing")
    return Why(
        subject,
        found.why,
        Refers(refers.cells, refers.blocks, _known((found.fabric,)), parts),
        terms,
    )


def _use(design: Design, made: Materials, found: Cloth, use: Use) -> Iterator[Term]:
    """The sets that strips are for, each a term; what goes round the quilt is one."""
    part, _, number = use.part.partition(" ")
    if part != "piecing":
        opens = Subject("border", int(number) - 1) if part == "border" else _ROUND.get(part)
        said = message("plan.term-part", strips=use.said, part=message(f"plan.part-{part}", number=number))
        yield Term(said, _round(use.part, found.fabric), opens)
        return
    for each in made.sets:
        strips = sum(
            count
            for key, count in each.strip_counts().items()
            if (key.fabric, key.width, key.grain, key.run) == (found.fabric, use.size, use.grain, use.run)
        )
        if strips:
            said = message(
                "plan.term-set", count=strips, width=use.size, sets=each.sets, strips=set_said(each.key, made)
            )
            asking = tuple(one for one in made.batches if any(ask.sets == each.key for ask in one.asks))
            yield Term(said, _of_batches(design, asking), Subject("set", each.key))


_ROUND: Mapping[str, Subject] = {
    "binding": Subject("binding"),
    "backing": Subject("backing"),
    "backing-strip": Subject("backing"),
    "sleeve": Subject("backing"),
    "label": Subject("backing"),
}
"""The number that a part round the quilt opens to; parts between the blocks are given by the setting."""


def _round(part: str, fabric: str | None) -> Refers:
    return Refers(fabrics=_known((fabric,)) if fabric else (), parts=(part,))


def _border(made: Materials, subject: Subject) -> Why:
    index = subject.key
    if not isinstance(index, int) or not 0 <= index < len(made.borders):
        raise KeyError(subject)
    border = made.borders[index]
    refers = _round(f"border {index + 1}", border.fabric)
    terms = (
        Term(message("plan.term-sides", size=border.sides), refers, Subject("size")),
        Term(message("plan.term-ends", size=border.ends), refers, Subject("size")),
        Term(message("plan.term-usable", usable=border.usable), refers),
    )
    return Why(subject, border.why, refers, terms)


def _binding(made: Materials, subject: Subject) -> Why:
    binding = made.binding
    refers = _round("binding", binding.fabric)
    terms = (
        Term(message("plan.term-around", around=binding.around), refers, Subject("size")),
        Term(message("plan.term-usable", usable=binding.usable), refers),
        Term(message("plan.term-spare", spare=binding.to_spare), refers),
    )
    return Why(subject, binding.why, refers, terms)


def _backing(made: Materials, subject: Subject) -> Why:
    backing = made.backing
    refers = _round("backing", backing.fabric)
    size = Term(message("plan.term-top", size=made.size.unfinished), refers, Subject("size"))
    usable = Term(message("plan.term-usable", usable=backing.usable), refers)
    pieces = (Term(piece.why, refers) for piece in made.back_pieces)
    return Why(subject, backing.why, refers, (size, usable, *pieces))


def _batting(made: Materials, subject: Subject) -> Why:
    refers = Refers(parts=("batting",))
    size = Term(message("plan.term-top", size=made.size.unfinished), refers, Subject("size"))
    return Why(subject, made.batting.why, refers, (size,))


_WALL_OPENERS: Mapping[Number, Callable[[Design, Materials, Subject], Why]] = {
    "size": _size,
    "batch": _batch,
    "set": _set,
    "cloth": _cloth,
}
_ROUND_OPENERS: Mapping[Number, Callable[[Materials, Subject], Why]] = {
    "border": _border,
    "binding": _binding,
    "backing": _backing,
    "batting": _batting,
}

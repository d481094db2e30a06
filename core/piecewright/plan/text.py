"""The materials as a list to read at the cutting table.

What to cut, to sew and to buy, in that order of doing.
"""

import re
from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import chain
from textwrap import wrap

from piecewright.plan.backing import BackingPlan
from piecewright.plan.borders import BorderPlan
from piecewright.plan.cloth import Use
from piecewright.plan.difference import set_said
from piecewright.plan.materials import Materials, fabric_name, sets_in_order
from piecewright.plan.packing import TIGHT, SetCuts
from piecewright.plan.parts import PartPlan
from piecewright.plan.sets import StripSet
from piecewright.units.measure import Measure
from piecewright.words.message import Message, message

Line = tuple[str, ...]
"""The columns of a line, left to right; a line of one column runs on over all of them."""
WIDEST = 96
"""A sentence longer than this runs on in a second line."""
_INSIDE_A_LENGTH = re.compile(r"(?<=\d) (?=\d|(?:in|cm|mm|yd|m)\b)")
_UNBROKEN = "\N{NO-BREAK SPACE}"
_DEFAULT = Measure()


def materials_text(materials: Materials, measure: Measure = _DEFAULT) -> str:
    """The whole list, columns aligned, ending with a line end."""
    return _Writer(materials, measure).text()


class _Writer:
    def __init__(self, materials: Materials, measure: Measure) -> None:
        self.materials = materials
        self.measure = measure

    def text(self) -> str:
        sections = (
            ("plan.heading-size", self._size()),
            ("plan.heading-blocks", self._blocks()),
            ("plan.heading-cloth", self._cloth()),
            ("plan.heading-sets", self._sets(sewn=True)),
            ("plan.heading-single", self._sets(sewn=False)),
            ("plan.heading-parts", self._parts()),
            ("plan.heading-borders", self._borders()),
            ("plan.heading-binding", self._binding()),
            ("plan.heading-backing", self._backing(self.materials.backing)),
            ("plan.heading-batting", iter([(self._say(self.materials.batting.why),)])),
            ("plan.heading-bias", self._bias()),
            ("plan.heading-findings", self._findings()),
        )
        parts = [self._head(), *(self._section(heading, lines) for heading, lines in sections)]
        return "\n\n".join(part for part in parts if part) + "\n"

    def _say(self, said: Message) -> str:
        return said.text(self.measure)

    def _name(self, fabric: str) -> str:
        return self._say(fabric_name(self.materials, fabric))

    def _head(self) -> str:
        materials, settings = self.materials, self.materials.settings
        title = message("plan.title", name=materials.name, arrangement=materials.arrangement)
        cloth = message(
            "plan.usable-line",
            usable=settings.usable,
            seam=settings.seam,
            first=settings.trim_first,
            again=settings.trim_again,
            every=settings.trim_every,
        )
        return f"{self._say(title)}\n{self._say(cloth)}"

    def _section(self, heading: str, lines: Iterable[Line]) -> str:
        body = aligned(lines)
        return "\n".join([self._say(message(heading)), *body]) if body else ""

    def _size(self) -> Iterator[Line]:
        size = self.materials.size
        rows = (
            ("plan.row-center", size.center),
            ("plan.row-finished", size.finished),
            ("plan.row-unfinished", size.unfinished),
        )
        for code, each in rows if self.materials.borders else rows[1:]:
            yield self._say(message(code)), self._say(message("plan.size", size=each))
        if self.materials.real is not None:
            yield self._say(message("plan.row-real")), self._say(self.materials.real.sentence)

    def _blocks(self) -> Iterator[Line]:
        if self.materials.made_count:
            made = message("plan.made-so-far", made=self.materials.made_count, count=self.materials.to_make)
            yield (self._say(made),)
        for batch in self.materials.batches:
            fabrics = (", ".join(map(self._name, dict.fromkeys(ids))) for _, ids in batch.key.fabrics)
            counts = message(
                "plan.batch-line" if batch.per_batch > 1 else "plan.batch-line-single",
                blocks=batch.blocks,
                batches=batch.batches,
                per_batch=batch.per_batch,
                over=batch.over,
            )
            yield batch.name, self._say(counts), " / ".join(fabrics)

    def _sets(self, *, sewn: bool) -> Iterator[Line]:
        for found in sets_in_order(self.materials):
            if (len(found.lanes) > 1) == sewn:
                yield from self._set(found, sewn=sewn)

    def _set(self, found: StripSet, *, sewn: bool) -> Iterator[Line]:
        count = message(f"plan.set-{'line' if sewn else 'strips'}", sets=found.sets)
        if found.per_set is not None:
            noun = message("plan.a-set" if sewn else "plan.a-strip")
            count = message("plan.set-yields", sets=count, per_set=found.per_set, noun=noun)
        yield self._say(count), self._say(set_said(found.key, self.materials))
        for cuts in found.cuts:
            yield "", self._say(_cut_said(cuts, found))

    def _borders(self) -> Iterator[Line]:
        for number, border in enumerate(self.materials.borders, 1):
            yield from self._border(number, border)

    def _parts(self) -> Iterator[Line]:
        for part in self.materials.parts:
            named = self._say(message(f"plan.name-{part.part}", count=part.count))
            where = self._say(message("plan.part-border", number=part.where)) if part.where else ""
            yield f"{named} {where}".rstrip(), self._name(part.fabric), self._say(cut_said(part))

    def _border(self, number: int, border: BorderPlan) -> Iterator[Line]:
        title = message(
            "plan.border-title" if border.side_run is None else "plan.border-title-pieced",
            number=number,
            fabric=fabric_name(self.materials, border.fabric),
            width=border.finished_width,
            strips=border.strips,
            cut=border.width,
        )
        yield (self._say(title),)
        pairs = [("plan.border-sides", border.sides), ("plan.border-ends", border.ends)]
        for code, size in pairs if border.first == "sides" else reversed(pairs):
            yield "", self._say(message(code)), self._say(message("plan.border-line", size=size))
        if border.piece is not None and border.side_run and border.end_run:
            count = 2 * (border.side_run.pieces + border.end_run.pieces)
            yield (self._say(message("plan.border-pieces", count=count, cut=border.piece)),)
        yield (self._say(border.why),)

    def _binding(self) -> Iterator[Line]:
        binding = self.materials.binding
        if binding.squares is None:
            cut = message("plan.strip-line", count=binding.strips, width=binding.width)
            yield (self._say(cut),)
        yield (self._say(binding.why),)

    def _backing(self, backing: BackingPlan) -> Iterator[Line]:
        yield (self._say(backing.why),)
        for piece in self.materials.back_pieces:
            yield self._say(message(f"plan.heading-{piece.part}")), self._say(piece.why)

    def _cloth(self) -> Iterator[Line]:
        for cloth in self.materials.cloth:
            yield self._name(cloth.fabric), self.measure.yards(cloth.yardage), *self._use(cloth.uses[0])
            for use in cloth.uses[1:]:
                yield "", "", *self._use(use)
        if self.materials.cost is not None:
            cost = message(
                "plan.cost", cost=float(self.materials.cost), currency=self.materials.settings.currency
            )
            yield (self._say(cost),)

    def _use(self, use: Use) -> Line:
        part, _, number = use.part.partition(" ")
        code = "plan.panel-line" if part == "backing" else "plan.strip-line"
        said = message(code, count=use.count, width=use.size)
        if use.run:
            said = message("plan.strip-line-long", count=use.count, width=use.size, run=use.run)
        grain = (
            ""
            if use.grain == "crosswise" or part == "backing"
            else self._say(message(f"plan.grain-{use.grain}"))
        )
        return self._say(said), self._say(message(f"plan.part-{part}", number=number)), grain

    def _bias(self) -> Iterator[Line]:
        for line in self.materials.bias:
            where = message("plan.bias-outer" if line.outer else "plan.bias-inner")
            band = message(f"plan.band-{line.band}")
            yield self._name(line.fabric), self.measure.length(line.length), self._say(where), self._say(band)

    def _findings(self) -> Iterator[Line]:
        for finding in self.materials.findings:
            severity = self._say(message(f"plan.severity-{finding.severity}"))
            told = finding if _is_a_place(finding.where) else replace(finding, where="")
            yield (f"{severity}: {told.sentence(self.measure)}",)


def cut_said(part: PartPlan) -> Message:
    """What is cut for some parts: pieces, or squares and how they are cut up."""
    how = {1: "plan.part-cut", 2: "plan.part-cut-half", 4: "plan.part-cut-quarter"}[part.yields]
    return message(how, count=part.cuts, cut=part.cut)


def _is_a_place(where: str) -> bool:
    """Whether it leads somewhere that the sentence does not name: one word is an id or a part of the quilt."""
    return not where.isalnum()


def _cut_said(cuts: SetCuts, found: StripSet) -> Message:
    segments = tuple(message("plan.segments", count=count, length=length) for length, count in cuts.segments)
    if found.to_length:
        return message("plan.cut-line-to-length", sets=cuts.sets, run=found.run, segments=segments)
    code = "plan.cut-line-tight" if cuts.to_spare < TIGHT else "plan.cut-line"
    return message(code, sets=cuts.sets, segments=segments, spare=cuts.to_spare)


def aligned(lines: Iterable[Line]) -> list[str]:
    """Columns as wide as their widest text, two spaces apart, indented by two; a line of one column is wrapped."""
    rows = list(lines)
    widths = [max(map(len, column)) for column in _columns([row for row in rows if len(row) > 1])]
    return [text for row in rows for text in _set_out(row, widths)]


def _columns(rows: list[Line]) -> Iterator[list[str]]:
    for index in range(max(map(len, rows), default=0)):
        yield list(chain.from_iterable(row[index : index + 1] for row in rows))


def _set_out(row: Line, widths: list[int]) -> list[str]:
    if len(row) == 1:
        whole = _INSIDE_A_LENGTH.sub(_UNBROKEN, row[0])
        lines = wrap(whole, WIDEST, initial_indent="  ", subsequent_indent="    ", break_long_words=False)
        return [line.replace(_UNBROKEN, " ") for line in lines]
    return ["  " + "  ".join(text.ljust(width) for text, width in zip(row, widths, strict=False)).rstrip()]

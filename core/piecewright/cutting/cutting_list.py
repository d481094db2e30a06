"""The cutting list as one stands at the table: one setting of the ruler at a time, and a plain table beside it."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from piecewright.cutting.plans import CuttingPlan, Laid, Strip, SubCut
from piecewright.cutting.sheets import Sheet
from piecewright.cutting.telling import sheets_said
from piecewright.words.message import Message, message

Stage = Literal["strips", "across", "part"]
_STAGES: tuple[Stage, ...] = ("strips", "across", "part")


@dataclass(frozen=True, slots=True)
class Line:
    """`count` cuts to tick off, what they are, and the keys of the pieces they end in with their counts."""

    count: int
    said: Message
    keys: tuple[tuple[str, int], ...] = ()


@dataclass(frozen=True, slots=True)
class Setting:
    """All cuts of one stage for which the ruler stays at `ruler` inches."""

    stage: Stage
    ruler: Fraction
    lines: tuple[Line, ...]

    @property
    def count(self) -> int:
        """Cuts at this setting."""
        return sum(line.count for line in self.lines)


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the plain table: from each of `sheets`, `strips` of a height, and what each of these gives."""

    sheet: Sheet
    sheets: int
    strips: int
    height: Fraction
    width: Fraction
    length: Fraction
    pieces: tuple[tuple[str, int], ...]


def cutting_list(plan: CuttingPlan) -> tuple[Setting, ...]:
    """Strips first, widest first; then cuts across them; then what parts or trims these."""
    found: dict[tuple[Stage, Fraction], list[Line]] = {}
    for laid in plan.laid:
        for strip in laid.strips:
            for stage, ruler, line in _lines(laid, strip):
                found.setdefault((stage, ruler), []).append(line)
    order = sorted(found, key=lambda each: (_STAGES.index(each[0]), -each[1]))
    return tuple(Setting(stage, ruler, tuple(found[stage, ruler])) for stage, ruler in order)


def plain_table(plan: CuttingPlan) -> tuple[Row, ...]:
    """Each sub-cut of each strip as a row, in the order of the plan."""
    return tuple(
        Row(laid.sheet, laid.count, strip.count, strip.height, cut.width, cut.height, cut.pieces)
        for laid in plan.laid
        for strip in laid.strips
        for cut in strip.cuts
    )


def _lines(laid: Laid, strip: Strip) -> Iterator[tuple[Stage, Fraction, Line]]:
    strips = strip.count * laid.count
    if laid.room != strip.height:
        yield "strips", strip.height, Line(strips, _first_cut(laid, strips))
    for cut in strip.cuts:
        keys = tuple((key, count * strips) for key, count in cut.pieces)
        if cut.width < laid.strip_length:
            cuts = cut.columns * strips
            across = message("cutting.list-cuts", cuts=cuts, strips=strips, height=strip.height)
            yield "across", cut.width, Line(cuts, across, keys)
        yield from _parting(cut, strip.height, strips, keys)


def _first_cut(laid: Laid, strips: int) -> Message:
    if laid.sheet.length is None:
        return message("cutting.list-bolt", strips=strips)
    sheets = sheets_said(laid.sheet, laid.count)
    return message(f"cutting.list-{laid.direction}", strips=strips, sheets=sheets)


def _parting(
    cut: SubCut, height: Fraction, strips: int, keys: tuple[tuple[str, int], ...]
) -> Iterator[tuple[Stage, Fraction, Line]]:
    """Cuts that part a column into its pieces, or take off what is above them."""
    pieces = cut.count * strips
    if cut.stack > 1:
        yield (
            "part",
            cut.height,
            Line(pieces, message("cutting.list-parted", pieces=pieces, width=cut.width), keys),
        )
    elif cut.height < height:
        yield (
            "part",
            cut.height,
            Line(pieces, message("cutting.list-trimmed", pieces=pieces, width=cut.width), keys),
        )

"""The cutting list as one stands at the table: one setting of the ruler at a time, and a plain table beside it."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from piecewright.cutting.left_overs import stays_whole
from piecewright.cutting.plans import CuttingPlan, Laid, Strip, SubCut
from piecewright.cutting.sheets import Sheet
from piecewright.cutting.telling import sheets_said
from piecewright.words.message import Arg, Message, message

Stage = Literal["strips", "across", "part", "again"]
_STAGES: tuple[Stage, ...] = ("strips", "across", "part", "again")


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
    """Strips first, widest first; then cuts across them; what parts or trims these; then what is cut up again.

    Cuts that read alike are told together. A strip of which nothing else is cut, and nothing worth keeping is
    left, stays as long as it is.
    """
    found: dict[tuple[Stage, Fraction], dict[_Alike, _Cuts]] = {}
    for stage, ruler, alike, cuts in (*_laid_cuts(plan), *_cut_again(plan)):
        found.setdefault((stage, ruler), {}).setdefault(alike, _Cuts()).add(cuts)
    order = sorted(found, key=lambda each: (_STAGES.index(each[0]), -each[1]))
    return tuple(
        Setting(stage, ruler, tuple(_line(alike, cuts) for alike, cuts in found[stage, ruler].items()))
        for stage, ruler in order
    )


def plain_table(plan: CuttingPlan) -> tuple[Row, ...]:
    """Each sub-cut of each strip as a row, in the order of the plan."""
    return tuple(
        Row(laid.sheet, laid.count, strip.count, strip.height, cut.width, cut.height, cut.pieces)
        for laid in plan.laid
        for strip in laid.strips
        for cut in strip.cuts
    )


@dataclass(frozen=True, slots=True)
class _Alike:
    """What cuts must have in common to be one line: its sentence, and the terms of it that are not counts."""

    code: str
    sheet: Sheet | None = None
    terms: tuple[tuple[str, Fraction], ...] = ()


@dataclass(slots=True)
class _Cuts:
    """Counts of a line: cuts, the strips and sheets they are made in, and the pieces they end in."""

    count: int = 0
    strips: int = 0
    sheets: int = 0
    keys: Counter[str] = field(default_factory=Counter)

    def add(self, more: "_Cuts") -> None:
        """Count others in."""
        self.count += more.count
        self.strips += more.strips
        self.sheets += more.sheets
        self.keys.update(more.keys)


_Told = tuple[Stage, Fraction, _Alike, _Cuts]


def _line(alike: _Alike, cuts: _Cuts) -> Line:
    terms: dict[str, Arg] = dict(alike.terms)
    if alike.sheet is not None:
        terms["sheets"] = sheets_said(alike.sheet, cuts.sheets)
    said = message(alike.code, cuts=cuts.count, strips=cuts.strips, **terms)
    return Line(cuts.count, said, tuple(cuts.keys.items()))


def _laid_cuts(plan: CuttingPlan) -> Iterator[_Told]:
    for laid in plan.laid:
        first = laid.count
        for strip in laid.strips:
            strips = strip.count * laid.count
            cuts = _Cuts(strips, strips, first, _keys(strip, strips))
            yield "strips", strip.height, _first_cut(laid, strip), cuts
            first = 0
            if not stays_whole(plan.job.keep, laid, strip):
                yield from _cuts_across(laid, strip, strips)
            for cut in strip.cuts:
                yield from _parting(cut, strip.height, strips)


def _keys(strip: Strip, strips: int) -> Counter[str]:
    keys: Counter[str] = Counter()
    for cut in strip.cuts:
        keys.update({key: count * strips for key, count in cut.pieces})
    return keys


def _first_cut(laid: Laid, strip: Strip) -> _Alike:
    if laid.room == strip.height:
        return _Alike("cutting.list-as-is", laid.sheet)
    if laid.sheet.length is None:
        return _Alike("cutting.list-bolt")
    return _Alike("cutting.list-across" if laid.direction == "across" else "cutting.list-along", laid.sheet)


def _cuts_across(laid: Laid, strip: Strip, strips: int) -> Iterator[_Told]:
    alike = _Alike("cutting.list-cuts", terms=(("height", strip.height),))
    for cut in strip.cuts:
        if cut.width < laid.strip_length:
            keys = Counter({key: count * strips for key, count in cut.pieces})
            yield "across", cut.width, alike, _Cuts(cut.columns * strips, strips, 0, keys)


def _parting(cut: SubCut, height: Fraction, strips: int) -> Iterator[_Told]:
    """Cuts that part a column into its pieces, or take off what is above them."""
    if cut.stack == 1 and cut.height == height:
        return
    code = "cutting.list-parted" if cut.stack > 1 else "cutting.list-trimmed"
    pieces = cut.count * strips
    keys = Counter({key: count * strips for key, count in cut.pieces})
    yield "part", cut.height, _Alike(code, terms=(("width", cut.width),)), _Cuts(pieces, strips, 0, keys)


def _cut_again(plan: CuttingPlan) -> Iterator[_Told]:
    """Strips that are cut up as soon as their ends are true."""
    for piece in plan.pieces_cut.values():
        code = "cutting.list-again" if piece.trued else "cutting.list-again-untrued"
        terms = (("height", piece.height), ("trued", piece.trued))
        for length, count in piece.inside:
            cuts = _Cuts(count * piece.count, piece.count, 0, Counter({piece.key: piece.count}))
            yield "again", length, _Alike(code, terms=terms), cuts

"""Borders: exact lengths to cut, in the order they are sewn on, how a pieced one comes out, and the strips for them."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import sqrt

from piecewright.errors import Finding
from piecewright.model.quilt import Border, Placement, Turn, turned_by
from piecewright.model.setting import Pieced
from piecewright.plan.batches import Ask
from piecewright.plan.joining import cloth_too_narrow, strips_joined_straight
from piecewright.plan.keys import Lane, SetKey
from piecewright.plan.packing import NOTHING, Kit
from piecewright.plan.parts import PartPlan
from piecewright.plan.stage import stage
from piecewright.units.rounding import up_to, whole_up
from piecewright.units.sizes import Cut, Finished
from piecewright.words.message import Message, message

_EIGHTH = up_to(Fraction(1, 8))
_WAYS: tuple[Turn, ...] = (0, 90, 180, 270)


@dataclass(frozen=True, slots=True)
class Run:
    """One side of a pieced border, finished inches: so many whole pieces, and `coping` at each end."""

    length: Fraction
    pieces: int
    coping: Fraction


@dataclass(frozen=True, slots=True)
class BorderPlan:
    """One border.

    `sides` and `ends` (top and bottom) are cut sizes, two of each, length first, of a pieced border the size once
    sewn; `first` tells the pair that is sewn on first. `strips` of `usable` inches, cut `width` wide, are joined to
    `total` inches; of one that is `lengthwise` the four strips are cut along the selvage, none joined; a pieced border
    has none of its own. `parts` are its corner squares and coping strips, `asks` the strip sets for its pieces,
    `side_run` and `end_run` how these come out, `piece` the cut size of one; with a plain border `inside` it, finished
    so wide, whole pieces would fill all sides.
    """

    fabric: str
    finished_width: Fraction
    width: Fraction
    first: str
    sides: Cut
    ends: Cut
    total: Fraction
    usable: Fraction
    strips: int
    why: Message
    findings: tuple[Finding, ...] = ()
    corners: str = "butted"
    parts: tuple[PartPlan, ...] = ()
    asks: tuple[Ask, ...] = ()
    side_run: Run | None = None
    end_run: Run | None = None
    piece: Cut | None = None
    inside: Fraction | None = None
    lengthwise: bool = False

    @property
    def longest(self) -> Fraction:
        """The longest strip, cut."""
        return max(Fraction(self.sides.width), Fraction(self.ends.width))


@stage(keep=256)
def border_plan(
    border: Border, inner: Finished, usable: Fraction, seam: Fraction, number: int = 1
) -> BorderPlan:
    """The border round an `inner` quilt of that finished size; `number` counts from the inside.

    Butted: the pair sewn on first is as long as the unfinished edge it meets, the second pair as long as that edge
    once the first pair is on (common practice; Quilting club handout '4Bs': 46 and 34 1/2 + 2 x 2 = 38 1/2 in).
    Mitered: edge and twice the border's width, and the spare (quilters' forum, multiple borders with mitered corners:
    edge + 2 w + 1 in). Corner squares: all four are as long as the edge.
    """
    width = border.width + 2 * seam
    side_length, end_length = (length + 2 * seam for length in strip_lengths(border, inner))
    if border.corners == "mitered":
        side_length, end_length = side_length + border.spare, end_length + border.spare
    sides, ends = Cut(side_length, width), Cut(end_length, width)
    plain = BorderPlan(
        fabric=border.fabric,
        finished_width=border.width,
        width=width,
        first=border.first,
        sides=sides,
        ends=ends,
        total=NOTHING,
        usable=usable,
        strips=0,
        why=message("plan.border-none"),
        corners=border.corners,
        parts=tuple(_corner_squares(border, seam, number)),
    )
    if border.pieced is not None:
        return _pieced(plain, border.pieced, strip_lengths(border, inner), seam, number)
    total = 2 * side_length + 2 * end_length
    lengthwise = border.grain == "lengthwise"
    strips = (4 if width <= usable else None) if lengthwise else strips_joined_straight(total, usable, seam)
    narrow = _too_wide(width, usable, number) if lengthwise else cloth_too_narrow("border", usable, 2 * seam)
    return replace(
        plain,
        total=total,
        strips=strips or 0,
        why=_plain_why(strips or 0, sides, ends, usable, seam, lengthwise=lengthwise),
        findings=(*(() if strips else (narrow,)), *_short_miters(border, seam, number)),
        lengthwise=lengthwise,
    )


def _plain_why(
    strips: int, sides: Cut, ends: Cut, usable: Fraction, seam: Fraction, *, lengthwise: bool
) -> Message:
    side, end = Fraction(sides.width), Fraction(ends.width)
    return message(
        "plan.border-why-lengthwise" if lengthwise else "plan.border-why",
        strips=strips,
        sides=side,
        ends=end,
        total=2 * side + 2 * end,
        usable=usable,
        join=2 * seam,
        beside=int(usable // Fraction(sides.height)),
        longest=max(side, end),
    )


def _too_wide(width: Fraction, usable: Fraction, number: int) -> Finding:
    said = message("plan.border-too-wide", number=number, width=width, usable=usable)
    return Finding("plan.border-too-wide", "error", said, f"border {number}", message("plan.border-narrower"))


def strip_lengths(border: Border, inner: Finished) -> tuple[Fraction, Fraction]:
    """How long the sides, and the top and the bottom, finish: their longer edge where they are mitered."""
    sides, ends = Fraction(inner.height), Fraction(inner.width)
    over = 2 * border.width
    match border.corners, border.first:
        case "mitered", _:
            return sides + over, ends + over
        case "butted", "sides":
            return sides, ends + over
        case "butted", _:
            return sides + over, ends
    return sides, ends


def around(inner: Finished, border: Border) -> Finished:
    """The finished size once the border is on."""
    return Finished(inner.width + 2 * border.width, inner.height + 2 * border.width)


def run_of(pieced: Pieced, length: Fraction) -> Run:
    """How the pieces of a border come out along a side of this finished length."""
    count = int(length // pieced.length)
    return Run(length, count, (length - count * pieced.length) / 2)


def border_placements(border: Border, inner: Finished) -> tuple[tuple[Placement, ...], ...]:
    """The blocks of a border pieced of blocks: those of the top, right, bottom and left side, each clockwise."""
    pieced = border.pieced
    if pieced is None or pieced.block is None:
        return ()
    sides, ends = (run_of(pieced, length).pieces for length in strip_lengths(border, inner))
    return tuple(
        tuple(Placement(place, pieced.block, turned_by(pieced.turn, by)) for place in range(count))
        for by, count in zip(_WAYS, (ends, sides, ends, sides), strict=True)
    )


def _pieced(
    plain: BorderPlan, pieced: Pieced, lengths: tuple[Fraction, Fraction], seam: Fraction, number: int
) -> BorderPlan:
    """The plan with its pieces; `lengths` are those of sides and ends, finished."""
    side, end = (run_of(pieced, length) for length in lengths)
    high, wide = _insides(pieced.length, lengths)
    along = pieced.length + 2 * seam
    coping = _coping(plain, side, end, seam, number)
    return replace(
        plain,
        why=message(
            "plan.border-why-blocks" if pieced.block else "plan.border-why-pieces",
            sides=side.pieces,
            ends=end.pieces,
            length=pieced.length,
            width=plain.finished_width,
        ),
        findings=tuple(_coping_findings(pieced.length, lengths, number)),
        parts=(*plain.parts, *coping),
        asks=() if pieced.block else tuple(_piece_asks(pieced.fabrics, along, plain.width, (side, end))),
        side_run=side,
        end_run=end,
        piece=None if pieced.block else Cut(along, plain.width),
        inside=high if high == wide and high else None,
    )


def _piece_asks(
    fabrics: tuple[str, ...], along: Fraction, width: Fraction, runs: tuple[Run, Run]
) -> Iterator[Ask]:
    """Segments across a strip set of all fabrics in turn; each side takes whole ones and unpicks what is over."""
    count = sum(2 * whole_up(Fraction(run.pieces, len(fabrics))) for run in runs)
    if count:
        lanes = tuple(Lane(fabric, along, "crosswise") for fabric in fabrics)
        yield Ask(SetKey(lanes), Kit((width,), width, whole=False, trims=False, blocks=NOTHING), count)


def _corner_squares(border: Border, seam: Fraction, number: int) -> Iterator[PartPlan]:
    if border.corners == "squares":
        side, cut = border.width, border.width + 2 * seam
        why = message("plan.part-why", size=Finished(side, side), cut=Cut(cut, cut))
        fabric = border.corner or border.fabric
        yield PartPlan("corner-square", fabric, 4, Finished(side, side), Cut(cut, cut), 1, why, number)


def _coping(plain: BorderPlan, side: Run, end: Run, seam: Fraction, number: int) -> Iterator[PartPlan]:
    for run in (side, end):
        if run.coping:
            size = Finished(run.coping, plain.finished_width)
            why = message("plan.part-why", size=size, cut=size.cut(seam))
            yield PartPlan("coping-strip", plain.fabric, 4, size, size.cut(seam), 1, why, number)


def _coping_findings(length: Fraction, lengths: tuple[Fraction, Fraction], number: int) -> Iterator[Finding]:
    """What makes a border come out whose pieces, so long, do not divide its sides and its ends."""
    sides, ends = (edge % length / 2 for edge in lengths)
    if not sides and not ends:
        return
    said = message("plan.border-coping", number=number, length=length, sides=sides, ends=ends)
    high, wide = _insides(length, lengths)
    if high == wide:
        hint = message("plan.border-inside", width=high)
    else:
        hint = message("plan.border-inside-unlike", sides=high, ends=wide)
    yield Finding("plan.border-coping", "note", said, f"border {number}", hint)


def _insides(length: Fraction, lengths: tuple[Fraction, Fraction]) -> tuple[Fraction, Fraction]:
    """How wide a border inside must be for the pieces to come out along the sides, and along the ends."""
    high, wide = (-edge % length / 2 for edge in lengths)
    return high, wide


def _short_miters(border: Border, seam: Fraction, number: int) -> Iterator[Finding]:
    """A mitered strip must reach its corner and the allowance of the slant: sqrt 2 times the seam at each end."""
    if border.corners != "mitered":
        return
    least = _EIGHTH(2 * sqrt(2) * float(seam))
    if border.spare < least:
        said = message("plan.miter-short", number=number, spare=border.spare, least=least)
        yield Finding(
            "plan.miter-short", "warning", said, f"border {number}", message("plan.miter-hint", least=least)
        )

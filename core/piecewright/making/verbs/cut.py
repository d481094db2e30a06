"""Cut a piece square to an axis into parts, from the left or the top; what remains is waste."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Annotated, Literal, NamedTuple

import msgspec

from piecewright.geometry.half import beyond, up_to
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Rect, Segment
from piecewright.geometry.tolerance import passes
from piecewright.making.cloth import Cloth, Scrap, fills, home, parted, scraps_of
from piecewright.making.edges import box_edge
from piecewright.making.events import Severed, first
from piecewright.making.expressions import Expression
from piecewright.making.steps import Axis, Count, MakingStep
from piecewright.making.table import MOST_PARTS, Hand, Outcome
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.units.rounding import down_to, whole_down
from piecewright.words.message import Message, message


class Cut(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """One of `every` with `count`, `widths`, or `into` (rounded down to `step`)."""

    cut: str
    axis: Axis
    every: Expression | None = None
    count: Count | Literal["fit"] | None = None
    widths: Annotated[tuple[Expression, ...], msgspec.Meta(min_length=1)] | None = None
    into: Count | None = None
    step: Expression | None = None
    trim: Expression | None = None


class _Cuts(NamedTuple):
    """How wide each part is along the axis, what is trimmed off first, and the key that says so."""

    trim: Fraction
    widths: tuple[Number, ...]
    key: str


def act(step: Cut, hand: Hand) -> None:
    """The parts, each moved home, in order along the axis."""
    pile = hand.take(step.cut, "cut", "faced")
    along = 0 if step.axis == "across" else 1
    cuts = _cuts(step, _extent(pile[0].box, along), hand)
    layers = [_cut_up(cloth, cuts, along, hand) for cloth in pile]
    hand.parts = len(cuts.widths)
    names = tuple(f"{step.make}.{number}" for number in range(1, hand.parts + 1))
    for index, name in enumerate(names):
        hand.made[name] = tuple(parts[index] for parts, _ in layers)
    scraps = tuple(tuple(off) for _, off in layers)
    lines = tuple(_lines(pile[0].box, cuts, along))
    hand.events.append(Severed(step.cut, step.make, names, lines, step.axis, cuts.widths, cuts.trim, scraps))


def _extent(box: Rect, along: int) -> Number:
    return box.height if along else box.width


def _cuts(step: Cut, extent: Number, hand: Hand) -> _Cuts:
    """What a step says to cut from a piece this long, checked against the cloth there is."""
    _check_keys(step, hand)
    trim = Fraction(0) if step.trim is None else hand.value(step.trim, "trim")
    if trim < 0:
        raise hand.fault("no-length", "trim", message("making.leave-trim-out"), length=trim)
    cloth = extent - trim
    if step.every is not None:
        return _Cuts(trim, _every(step, step.every, cloth, hand), "every")
    if step.widths is not None:
        widths = tuple(hand.length(width, f"widths[{index}]") for index, width in enumerate(step.widths))
        _check_enough(sum(widths), cloth, "widths", hand)
        return _Cuts(trim, widths, "widths")
    return _Cuts(trim, _into(step, cloth, hand), "into")


def _check_keys(step: Cut, hand: Hand) -> None:
    ways = [key for key in ("every", "widths", "into") if getattr(step, key) is not None]
    if len(ways) != 1:
        raise hand.fault("cut-how", "cut", message("making.cut-one-way"), ways=tuple(ways))
    if (step.every is None) != (step.count is None):
        raise hand.fault(
            "every-with-count", "count" if step.every is None else "every", message("making.cut-one-way")
        )
    if step.step is not None and step.into is None:
        raise hand.fault("step-with-into", "step", message("making.leave-step-out"))


def _every(step: Cut, every: Expression, cloth: Number, hand: Hand) -> tuple[Number, ...]:
    width = hand.length(every, "every")
    if isinstance(step.count, int):
        count = step.count
    else:
        count = whole_down(cloth / width)
        if count < 1:
            raise _short(width, cloth, "every", hand)
    if count > MOST_PARTS:
        raise hand.fault("too-many-parts", "count", None, count=count, most=MOST_PARTS)
    if count > 1 and passes(width * count, cloth):
        raise _short_for_all(width, count, cloth, hand)
    _check_enough(width * count, cloth, "every", hand)
    return (width,) * count


def _into(step: Cut, cloth: Number, hand: Hand) -> tuple[Number, ...]:
    into = step.into or 1
    if into > MOST_PARTS:
        raise hand.fault("too-many-parts", "into", None, count=into, most=MOST_PARTS)
    width: Number = cloth / into
    if step.step is not None:
        width = down_to(hand.length(step.step, "step"))(width)
    if width <= 0:
        raise hand.fault("nothing-left", "into", message("making.fewer-parts"), cloth=cloth, count=into)
    return (width,) * into


def _check_enough(wanted: Number, cloth: Number, key: str, hand: Hand) -> None:
    if passes(wanted, cloth):
        raise _short(wanted, cloth, key, hand)


def _short(wanted: Number, cloth: Number, key: str, hand: Hand) -> Exception:
    hint = (
        message("making.cut-at-most", most=cloth)
        if cloth > 0
        else message("making.more-cloth", missing=wanted - cloth)
    )
    return hand.fault("cloth-short", key, hint, wanted=wanted, cloth=cloth, missing=wanted - cloth)


def _short_for_all(width: Number, count: int, cloth: Number, hand: Hand) -> Exception:
    fits = whole_down(cloth / width) if cloth > 0 else 0
    most = (
        message("making.cut-fewer", count=fits, most=cloth / count)
        if fits
        else message("making.cut-at-most", most=cloth)
    )
    args = {
        "width": width,
        "count": count,
        "wanted": width * count,
        "cloth": cloth,
        "missing": width * count - cloth,
    }
    return hand.fault("cloth-short-for-all", "every", most, **args)


def _cut_up(cloth: Cloth, cuts: _Cuts, along: int, hand: Hand) -> tuple[list[Cloth], list[Scrap]]:
    """The parts of one cloth and what is cut off it."""
    start = cloth.box.top if along else cloth.box.left
    rest: Cloth = cloth
    scraps: list[Scrap] = []
    if cuts.trim:
        start += cuts.trim
        rest, off, scraps = parted(rest, beyond(along, start))
        scraps = [*scraps, *scraps_of(off)]
    parts: list[Cloth] = []
    for number, width in enumerate(cuts.widths, start=1):
        rect = _slab(cloth.box, along, start, start + width)
        part, rest, loose = parted(rest, up_to(along, start + width))
        if not cloth.whole and not fills(part, rect):
            raise hand.fault(
                "not-wholly-cloth", cuts.key, message("making.trim-first"), part=f"{hand.name}.{number}"
            )
        parts.append(home(msgspec.structs.replace(part, box=rect, whole=True)))
        scraps += loose
        start += width
    return parts, scraps + scraps_of(rest)


def _slab(box: Rect, along: int, start: Number, end: Number) -> Rect:
    """The part of a box between two places along an axis."""
    return Rect(box.left, start, box.right, end) if along else Rect(start, box.top, end, box.bottom)


def _lines(box: Rect, cuts: _Cuts, along: int) -> Iterator[Segment]:
    """The cuts in the frame of the piece, without the one that would run along its own edge."""
    place = (box.top if along else box.left) + cuts.trim
    places = [place] if cuts.trim else []
    for width in cuts.widths:
        place += width
        places.append(place)
    for place in places:
        if passes(box.bottom if along else box.right, place):
            yield box_edge(_slab(box, along, place, place), "top" if along else "left")


def say(_step: Cut, hand: Hand) -> Message:
    """Cut the set into 3 segments 13 1/2 in wide (cut size)."""
    cut = first(hand.events, Severed)
    alike = len(set(cut.widths)) == 1
    trim = (
        message("making.trimmed", trim=cut.trim, side=message(f"making.first-{cut.axis}"))
        if cut.trim
        else None
    )
    return message(
        f"making.say-cut-{'alike' if alike else 'unlike'}",
        trim=trim or message("making.nothing"),
        piece=cut.piece,
        count=len(cut.widths),
        widths=cut.widths[:1] if alike else cut.widths,
        measured=message(f"making.measured-{cut.axis}"),
    )


def handles(step: Cut, outcome: Outcome) -> tuple[Handle, ...]:
    """The first cut stands for `every`; with `widths` each cut has its own; the trim has its line."""
    cut = first(outcome.events, Severed)
    toward = (1, 0) if step.axis == "across" else (0, 1)
    lines = list(cut.lines)
    found = []
    if cut.trim and lines:
        found.append(Handle(Place(outcome.step_index, "trim"), cut.piece, lines.pop(0), toward))
    if step.widths is not None:
        places = [Place(outcome.step_index, "widths", index) for index in range(len(lines))]
    else:
        places = [Place(outcome.step_index, "every")] if step.every is not None and lines else []
    found += [Handle(place, cut.piece, line, toward) for place, line in zip(places, lines, strict=False)]
    return tuple(found)


CUT = Verb("cut", Cut, act, say, handles)

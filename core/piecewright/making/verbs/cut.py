"""Cut a piece square to an axis into parts, from the left or the top; what remains is waste."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Annotated, Literal, NamedTuple

import msgspec

from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE, passes
from piecewright.making.cloth import Cloth, Scrap, home, parted, scraps_of
from piecewright.making.events import Severed, first
from piecewright.making.expressions import Expression
from piecewright.making.limits import SLANTED_WORK
from piecewright.making.rulers import LeaningRuler, Ruler, SquareRuler, leaning_ruler, normal_of
from piecewright.making.steps import Axis, Count, Lean, MakingStep
from piecewright.making.table import MOST_PARTS, Hand, Outcome, work_of
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.units.rounding import down_to, whole_down
from piecewright.words.message import Message, message


class Cut(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """One of `every` with `count`, `widths`, or `into` (rounded down to `step`); `angle` makes the cuts lean."""

    cut: str
    axis: Axis
    every: Expression | None = None
    count: Count | Literal["fit"] | None = None
    widths: Annotated[tuple[Expression, ...], msgspec.Meta(min_length=1)] | None = None
    into: Count | None = None
    step: Expression | None = None
    trim: Expression | None = None
    angle: Lean | None = None


class _Cuts(NamedTuple):
    """How wide each part is along the axis, what is trimmed off first, and the key that says so."""

    trim: Fraction
    widths: tuple[Number, ...]
    key: str


def act(step: Cut, hand: Hand) -> None:
    """The parts, each moved home, in order along the axis."""
    pile = hand.take(step.cut, "cut", "faced", "tube")
    if pile[0].loop is not None and (pile[0].loop == step.axis or step.angle is not None):
        key = "axis" if pile[0].loop == step.axis else "angle"
        raise hand.fault("tube-across", key, message("making.cut-rings"), piece=step.cut)
    rulers = [_ruler(step, cloth, hand) for cloth in pile]
    cuts = _cuts(step, min(ruler.extent for ruler in rulers), hand)
    each = SLANTED_WORK if step.angle else 1
    hand.count_work(each * len(cuts.widths) * sum(map(work_of, pile)))
    layers = [_cut_up(cloth, ruler, cuts, hand) for cloth, ruler in zip(pile, rulers, strict=True)]
    hand.parts = len(cuts.widths)
    names = tuple(f"{step.make}.{number}" for number in range(1, hand.parts + 1))
    for index, name in enumerate(names):
        hand.made[name] = tuple(parts[index] for parts, _ in layers)
    scraps = tuple(tuple(off) for _, off in layers)
    lines = tuple(_lines(pile[0], rulers[0], cuts))
    angle = step.angle or 0.0
    hand.events.append(
        Severed(step.cut, step.make, names, lines, step.axis, cuts.widths, cuts.trim, scraps, angle)
    )


def _ruler(step: Cut, cloth: Cloth, hand: Hand) -> Ruler:
    if step.angle is None:
        return SquareRuler(cloth.box, step.axis)
    if not step.angle:
        raise hand.fault("angle-nothing", "angle", message("making.leave-angle-out"))
    ruler = leaning_ruler(cloth, step.axis, step.angle)
    if ruler.extent <= ALIKE:
        hint = message("making.lean-less")
        raise hand.fault("angle-short", "angle", hint, piece=step.cut, angle=abs(step.angle))
    return ruler


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
    if isinstance(width, Fraction):
        hand.note_fineness(width.denominator, "into")
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


def _cut_up(cloth: Cloth, ruler: Ruler, cuts: _Cuts, hand: Hand) -> tuple[list[Cloth], list[Scrap]]:
    """The parts of one cloth and what is cut off it."""
    start = ruler.start + cuts.trim if cuts.trim else ruler.start
    rest: Cloth = cloth
    scraps: list[Scrap] = []
    if cuts.trim or isinstance(ruler, LeaningRuler):
        off, rest, scraps = parted(rest, ruler.before(start))
        scraps = [*scraps, *scraps_of(off)]
    parts: list[Cloth] = []
    for number, width in enumerate(cuts.widths, start=1):
        cut, rest, loose = parted(rest, ruler.before(start + width))
        part = ruler.part(cut, start, start + width)
        if part is None:
            raise hand.fault(
                "not-wholly-cloth", cuts.key, message("making.trim-first"), part=f"{hand.name}.{number}"
            )
        parts.append(home(part))
        scraps += loose
        start += width
    return parts, scraps + scraps_of(rest)


def _lines(cloth: Cloth, ruler: Ruler, cuts: _Cuts) -> Iterator[Segment]:
    """The cuts in the frame of the piece, square ones without those that would run along its own edge."""
    place = ruler.start + cuts.trim
    places = [place] if cuts.trim or isinstance(ruler, LeaningRuler) else []
    for width in cuts.widths:
        place += width
        places.append(place)
    for place in places:
        line = ruler.line(cloth, place)
        if line is not None:
            yield line


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
        measured=_measured(cut),
        leaning=_leaning(cut),
    )


def _measured(cut: Severed) -> Message:
    return message("making.measured-leaning") if cut.angle else message(f"making.measured-{cut.axis}")


def _leaning(cut: Severed) -> Message:
    if not cut.angle:
        return message("making.nothing")
    way = message(f"making.lean-{cut.axis}-{'clockwise' if cut.angle > 0 else 'counter'}")
    return message("making.leaning", angle=abs(cut.angle), way=way)


def handles(step: Cut, outcome: Outcome) -> tuple[Handle, ...]:
    """The first cut stands for `every`; with `widths` each cut has its own; the trim has its line."""
    cut = first(outcome.events, Severed)
    lines = list(cut.lines)
    toward: tuple[float, float] = (1, 0) if step.axis == "across" else (0, 1)
    if cut.angle:
        toward = normal_of(step.axis, cut.angle)
        lines = lines if cut.trim else lines[1:]
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

"""Slice a piece in two by one straight cut, slanted or not, between two of its sides."""

from fractions import Fraction

import msgspec

from piecewright.geometry import polygons
from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.shapes import Rect, Segment
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Cloth, Scrap, box_of, parted
from piecewright.making.drawn_lines import End, drawn_line
from piecewright.making.edges import OUTWARD
from piecewright.making.events import Severed, first
from piecewright.making.steps import MakingStep, Side
from piecewright.making.table import Hand, Outcome
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.words.message import Message, message


class Slice(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "part", "slice": "block", "from": ["top", "3"], "to": ["bottom", "5"]}`."""

    slice: str
    from_: End = msgspec.field(name="from")
    to: End


def act(step: Slice, hand: Hand) -> None:
    """Two parts that stay where they lay, so that matched points can be found again."""
    pile = hand.take(step.slice, "slice", "faced")
    cut = drawn_line(pile[0], (step.from_, step.to), ("from", "to"), hand)
    _check_cut(pile[0], cut, hand)
    half = _first_part(step.from_[0], step.to[0], cut)
    layers = [_sliced(cloth, cut, half, hand) for cloth in pile]
    hand.parts = 2
    names = (f"{step.make}.1", f"{step.make}.2")
    for index, name in enumerate(names):
        hand.made[name] = tuple(parts[index] for parts, _ in layers)
    scraps = tuple(tuple(loose) for _, loose in layers)
    hand.events.append(Severed(step.slice, step.make, names, (cut,), None, (), Fraction(0), scraps))


def _piece(hand: Hand) -> str:
    """The piece that a step took first."""
    return next(iter(hand.taken))


def _check_cut(cloth: Cloth, cut: Segment, hand: Hand) -> None:
    """A cut has two ends, and the line it lies on meets no other cloth of the piece."""
    if cut.length <= ALIKE:
        raise hand.fault("slice-nothing", "to", message("making.move-end"))
    if not cloth.whole:
        seen = [patch.seen.points for patch in cloth.patches]
        if abs(polygons.crossing(seen, cut.start, cut.end) - float(cut.length)) > ALIKE:
            raise hand.fault("more-than-two", "slice", message("making.square-it-first"), piece=_piece(hand))


def _first_part(one: Side, other: Side, cut: Segment) -> Half:
    """The half plane of part 1: the left, the upper, or the cut-off corner."""
    half = right_hand(cut.start, cut.end)
    first = {frozenset(("top", "bottom")): (-1, 0), frozenset(("left", "right")): (0, -1)}
    away = first.get(frozenset((one, other)))
    if away is None:
        away = (OUTWARD[one][0] + OUTWARD[other][0], OUTWARD[one][1] + OUTWARD[other][1])
    outward = half.x_part * away[0] + half.y_part * away[1]
    return half if outward < 0 else half.opposite


def _sliced(cloth: Cloth, cut: Segment, half: Half, hand: Hand) -> tuple[tuple[Cloth, Cloth], list[Scrap]]:
    found = parted(cloth, half)
    if not found.inside.patches or not found.outside.patches:
        raise hand.fault("slice-nothing", "to", message("making.move-end"))
    first = _part(cloth, found.inside, cut, half)
    second = _part(cloth, found.outside, cut, half.opposite)
    return (first, second), found.loose


def _part(cloth: Cloth, part: Cloth, cut: Segment, half: Half) -> Cloth:
    """One part, with an exact box where it is cut from a whole rectangle."""
    clockwise = right_hand(cut.start, cut.end) == half
    edges = (cut if clockwise else Segment(cut.end, cut.start),)
    if not cloth.whole:
        box = box_of(part.patches)
        return msgspec.structs.replace(part, box=box, whole=False, kept=True, cut_edges=edges)
    corners = [point for point in cloth.box.points if half.distance(point) < 0]
    points = [*corners, cut.start, cut.end]
    across, down = [point[0] for point in points], [point[1] for point in points]
    box = Rect(min(across), min(down), max(across), max(down))
    return msgspec.structs.replace(part, box=box, whole=half.is_square, kept=True, cut_edges=edges)


def say(step: Slice, hand: Hand) -> Message:
    """Slice block from 3 in along the top to 5 in along the bottom."""
    ends = {key: _say_end(end, key, hand) for key, end in (("start", step.from_), ("end", step.to))}
    return message("making.say-slice", piece=step.slice, **ends)


def _say_end(end: End, key: str, hand: Hand) -> Message:
    return message(f"making.on-{end[0]}", distance=hand.value(end[1], key))


def handles(step: Slice, outcome: Outcome) -> tuple[Handle, ...]:
    """Either end of the cut may be dragged along its side."""
    cut = first(outcome.events, Severed).lines[0]
    found = []
    for key, side, point in (("from", step.from_[0], cut.start), ("to", step.to[0], cut.end)):
        toward = (1, 0) if side in ("top", "bottom") else (0, 1)
        found.append(Handle(Place(outcome.step_index, key, 1), step.slice, Segment(point, point), toward))
    return tuple(found)


SLICE = Verb("slice", Slice, act, say, handles)

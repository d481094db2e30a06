"""Sews cloths of one layer edge to edge: where each comes to lie, what the seams hide, what easing takes off."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise
from math import hypot, sqrt
from typing import NamedTuple

from piecewright.geometry.half import Half, beyond, right_hand, up_to
from piecewright.geometry.motion import Motion, Number
from piecewright.geometry.shapes import Placing, Rect, Segment, shifts
from piecewright.geometry.tolerance import SEAMS_MEET, alike, apart, most_eased, passes, same
from piecewright.making.cloth import (
    Cloth,
    Flap,
    Patch,
    Scrap,
    Seam,
    box_of,
    clipped_seams,
    fills,
    hidden,
    moved,
    parted,
    placed_flap,
    scraps_of,
)
from piecewright.making.partial_seams import catches, role_of, sewn_edge, trims
from piecewright.making.steps import Axis, Side
from piecewright.making.table import Hand
from piecewright.words.message import message

_At = tuple[Hand, str]
"""The step, and the piece that is spoken of."""


@dataclass(frozen=True, slots=True)
class Plan:
    """How to sew: along which axis, how deep inside each raw edge, how ends are set.

    `match`: points of slices are matched; `flush`: what sticks out beyond the ends of the first piece is trimmed off.
    """

    names: tuple[str, ...]
    axis: Axis
    depth: Fraction
    align: str | None
    step: Fraction | None
    match: bool = False
    flush: bool = False

    @property
    def along(self) -> int:
        """The index of the axis into a point."""
        return 0 if self.axis == "across" else 1

    @property
    def eases(self) -> bool:
        """Whether ends are to be even, so that a small excess is eased in."""
        return self.match or (self.align is None and self.step is None and not self.flush)


@dataclass(frozen=True, slots=True)
class Joint:
    """The sewn cloth, how each piece moved into its frame, and what else there is to say (see events.Joined)."""

    cloth: Cloth
    moves: tuple[Motion, ...]
    lines: tuple[Segment, ...]
    eased: Number
    stand_out: Number
    scraps: tuple[Scrap, ...]


class _Placed(NamedTuple):
    """A cloth with its two edges that are sewn (None at the ends of the row) and its move along and beside the axis."""

    cloth: Cloth
    near: Segment | None
    far: Segment | None
    ahead: Number
    aside: Number

    def sewn_side(self, plan: Plan) -> Side:
        """The side along which an outer piece of the row is sewn."""
        if plan.along == 0:
            return "right" if self.near is None else "left"
        return "bottom" if self.near is None else "top"


def join(cloths: Sequence[Cloth], plan: Plan, hand: Hand) -> Joint:
    """Sew cloths of one layer in their order. Raises MakingError where edges do not fit."""
    placed = _place(cloths, plan, hand)
    eased = _excess(placed, plan, hand)
    band = _span(placed[0], plan) if plan.flush else _band(placed, plan) if eased else None
    span = band or _extent(placed, plan)
    start = placed[0].cloth.box.left if plan.along == 0 else placed[0].cloth.box.top
    patches: list[Patch] = []
    seams: list[Seam] = []
    scraps: list[Scrap] = []
    flap: Flap | None = None
    moves = tuple(_move(item, plan, start, span[0]) for item in placed)
    for item, (dx, dy), name in zip(placed, moves, plan.names, strict=True):
        bounds = _bounds(item, band, plan)
        kept, kept_seams, off = _prepared(item.cloth, bounds[0], _seam_halves(item, plan), plan, (hand, name))
        placing = Placing(0, dx, dy)
        if item.cloth.flap is not None:
            flap, over = _sewn_flap(item, item.cloth.flap, bounds[1], plan, (hand, name))
            flap = placed_flap(flap, placing)
            scraps += over
        patches += [patch.placed(placing) for patch in kept] if shifts(dx) or shifts(dy) else kept
        seams += [seam.placed(placing) for seam in kept_seams] if shifts(dx) or shifts(dy) else kept_seams
        scraps += off
    lines = tuple(_seam_lines(placed, moves, band, plan, hand))
    if plan.match:
        _check_meeting(seams, lines, hand)
    new = (Seam(hand.name, number, 0, 0, line) for number, line in enumerate(lines, start=1))
    cloth = _whole_cloth((*patches,), (*seams, *new), _box(placed, moves, span, plan), placed, plan)
    motions = tuple(Motion(dx=dx, dy=dy) for dx, dy in moves)
    joint = Joint(cloth, motions, lines, eased, _stand_out(placed, plan), tuple(scraps))
    return joint if flap is None else _with_flap(joint, flap)


def _with_flap(joint: Joint, flap: Flap) -> Joint:
    """A joint whose cloth still has a partial seam, home again with what lies beyond that."""
    cloth = joint.cloth
    box = box_of((*cloth.patches, *flap.patches))
    partial = Cloth(cloth.patches, cloth.seams, box, whole=False, flap=flap)
    dx, dy = -box.left, -box.top
    return replace(
        joint,
        cloth=moved(partial, dx, dy),
        moves=tuple(move.moved(dx, dy) for move in joint.moves),
        lines=tuple(line.moved(dx, dy) for line in joint.lines),
    )


def _sewn_flap(
    item: _Placed, flap: Flap, bounds: Sequence[Half], plan: Plan, at: _At
) -> tuple[Flap, list[Scrap]]:
    """What a partial seam holds, once its piece is sewn: caught in the seam where that crosses the sewn end."""
    catching = catches(flap, item.sewn_side(plan))
    seam_halves = _seam_halves(item, plan) if catching else []
    over = Cloth(flap.patches, flap.seams, box_of(flap.patches), whole=False)
    patches, seams, scraps = _prepared(over, bounds, seam_halves, plan, at)
    held = [flap.seam]
    for half in seam_halves:
        held = clipped_seams(held, half)
    return Flap(tuple(patches), tuple(seams), held[0], flap.on_right, flap.caught or catching), scraps


def _place(cloths: Sequence[Cloth], plan: Plan, hand: Hand) -> list[_Placed]:
    """Every cloth with its sewn edges and its move, relative to the first."""
    sides: tuple[Side, Side] = ("left", "right") if plan.along == 0 else ("top", "bottom")
    placed: list[_Placed] = []
    last = len(cloths) - 1
    for index, cloth in enumerate(cloths):
        near = _sewn_edge(cloth, sides[0], index, plan, hand) if index else None
        far = _sewn_edge(cloth, sides[1], index, plan, hand) if index < last else None
        ahead, aside = _next_to(placed[-1], near, index, plan, hand) if near and placed else (0, 0)
        placed.append(_Placed(cloth, near, far, ahead, aside))
    return placed


def _sewn_edge(cloth: Cloth, side: Side, index: int, plan: Plan, hand: Hand) -> Segment:
    name = plan.names[index]
    if cloth.flap is not None and role_of(cloth.flap, side) == "flap":
        raise hand.fault("partial-side", "sew", message("making.end-partial"), piece=name, side=side)
    found = sewn_edge(cloth, side)
    if found is None:
        raise hand.fault(
            "edge-not-straight", "sew", message("making.square-first", piece=name), piece=name, side=side
        )
    if plan.match and not cloth.kept:
        raise hand.fault("frame-gone", "match", message("making.match-slices"), piece=name)
    if not plan.match and not same(found.start[plan.along], found.end[plan.along]):
        raise hand.fault(
            "edge-slanted", "sew", message("making.square-or-match", piece=name), piece=name, side=side
        )
    return found


def _next_to(before: _Placed, near: Segment, index: int, plan: Plan, hand: Hand) -> tuple[Number, Number]:
    """How a cloth moves, along and beside the axis, to be sewn to the one before it."""
    far = before.far
    if far is None:
        raise AssertionError("only the last cloth of a row has no far edge")
    if plan.match:
        _check_one_line(far, near, index, plan, hand)
        return before.ahead - seam_shift(far, plan), before.aside
    along, beside = plan.along, 1 - plan.along
    ahead = far.start[along] + before.ahead - 2 * plan.depth - near.start[along]
    aside = aligned(far.start[beside], far.end[beside], near.start[beside], near.end[beside], plan.align)
    return ahead, before.aside + aside + (plan.step or 0)


def aligned(
    far_start: Number, far_end: Number, near_start: Number, near_end: Number, align: str | None
) -> Number:
    """How far an edge moves along the seam to lie even with the one it is sewn to."""
    if align == "start":
        return far_start - near_start
    if align == "end":
        return far_end - near_end
    if far_start == near_start and far_end == near_end:
        return 0
    return (far_start + far_end - near_start - near_end) / 2


def _check_one_line(far: Segment, near: Segment, index: int, plan: Plan, hand: Hand) -> None:
    line = right_hand(far.start, far.end)
    if not all(alike(line.distance(end), 0.0) for end in (near.start, near.end)):
        names = {"piece": plan.names[index], "before": plan.names[index - 1]}
        raise hand.fault("not-one-line", "match", message("making.match-slices"), **names)


def slant_of(edge: Segment, along: int) -> Number:
    """How far an edge runs along the axis per inch beside it."""
    run = edge.end[along] - edge.start[along]
    return run / (edge.end[1 - along] - edge.start[1 - along]) if run else 0


def seam_shift(edge: Segment, plan: Plan) -> Number:
    """How far the next piece moves along the axis so that seams running into the slanted edge meet.

    2 x depth x sqrt(1 + k^2), k the run per rise of the slant: both raw edges lie one depth off the seam line, measured
    square to it.
    """
    slant = slant_of(edge, plan.along)
    return 2 * plan.depth * sqrt(1 + slant * slant) if slant else 2 * plan.depth


def _excess(placed: Sequence[_Placed], plan: Plan, hand: Hand) -> Number:
    """The most by which two sewn edges differ where ends are to be even. Raises past what can be eased."""
    most: Number = 0
    if not plan.eases:
        return most
    for index, (before, after) in enumerate(pairwise(placed), start=1):
        if before.far is None or after.near is None:
            continue
        lengths = before.far.length, after.near.length
        excess = apart(*lengths)
        if alike(*lengths):
            continue
        names = {"one": plan.names[index - 1], "other": plan.names[index]}
        if passes(excess, most_eased(min(lengths))):
            hint = message("making.trim-longer", length=min(lengths))
            raise hand.fault("edges-differ", "sew", hint, first=lengths[0], second=lengths[1], **names)
        hand.warn("eased", excess=excess, **names)
        most = max(most, excess)
    return most


def _span(item: _Placed, plan: Plan) -> tuple[Number, Number]:
    """From where to where a placed cloth lies beside the axis; one with a partial seam, where it is sewn."""
    sewn = item.near or item.far
    if item.cloth.flap is not None and sewn is not None:
        return sewn.start[1 - plan.along] + item.aside, sewn.end[1 - plan.along] + item.aside
    box = item.cloth.box
    start, end = (box.top, box.bottom) if plan.along == 0 else (box.left, box.right)
    return start + item.aside, end + item.aside


def _band(placed: Sequence[_Placed], plan: Plan) -> tuple[Number, Number]:
    """What all cloths share beside the axis."""
    spans = [_span(item, plan) for item in placed]
    return max(start for start, _ in spans), min(end for _, end in spans)


def _extent(placed: Sequence[_Placed], plan: Plan) -> tuple[Number, Number]:
    """From where to where the sewn cloth lies beside the axis."""
    spans = [_span(item, plan) for item in placed]
    return min(start for start, _ in spans), max(end for _, end in spans)


def _move(item: _Placed, plan: Plan, start: Number, top: Number) -> tuple[Number, Number]:
    ahead, aside = item.ahead - start, item.aside - top
    return (ahead, aside) if plan.along == 0 else (aside, ahead)


def _bounds(
    item: _Placed, band: tuple[Number, Number] | None, plan: Plan
) -> tuple[Sequence[Half], Sequence[Half]]:
    """What trims a cloth to the band, where it lay; and what trims its flap."""
    if band is None:
        return (), ()
    beside = 1 - plan.along
    halves = beyond(beside, band[0] - item.aside), up_to(beside, band[1] - item.aside)
    if item.cloth.flap is None:
        return halves, ()
    sides: tuple[Side, Side] = ("top", "bottom") if plan.along == 0 else ("left", "right")
    return trims(item.cloth.flap, item.sewn_side(plan), zip(halves, sides, strict=True))


def _prepared(
    cloth: Cloth, bounds: Sequence[Half], seam_halves: Sequence[Half], plan: Plan, at: _At
) -> tuple[list[Patch], list[Seam], list[Scrap]]:
    """A cloth where it lay, cut to bounds, clipped at its seam lines: patches, seams, what easing takes off."""
    hand, name = at
    scraps: list[Scrap] = []
    for half in bounds:
        cloth, off, loose = parted(cloth, half)
        scraps += [*loose, *scraps_of(off)]
    patches, seams = list(cloth.patches), list(cloth.seams)
    for half in seam_halves:
        patches, lost = hidden(patches, half)
        if lost:
            hint = message("making.wider-than-seam", width=2 * plan.depth)
            raise hand.fault("no-seen-width", "sew", hint, piece=name, fabric=lost[0].letter)
        seams = clipped_seams(seams, half)
    return patches, seams, scraps


def _seam_halves(item: _Placed, plan: Plan) -> list[Half]:
    """What stays in sight of a cloth between its seams."""
    found = []
    for side, is_far in ((item.near, False), (item.far, True)):
        if side is not None:
            line = right_hand(side.start, side.end)
            inside = line if is_far == (plan.along == 0) else line.opposite
            found.append(inside.shrunk(plan.depth))
    return found


def _seam_lines(
    placed: Sequence[_Placed],
    moves: tuple[tuple[Number, Number], ...],
    band: tuple[Number, Number] | None,
    plan: Plan,
    hand: Hand,
) -> list[Segment]:
    """Where the seams lie in the result: as far as both edges go."""
    beside = 1 - plan.along
    lines = []
    for index, (before, after) in enumerate(pairwise(placed)):
        if before.far is None or after.near is None:
            continue
        far, near = before.far.moved(*moves[index]), after.near.moved(*moves[index + 1])
        start, end = max(far.start[beside], near.start[beside]), min(far.end[beside], near.end[beside])
        if band:
            start, end = max(start, 0), min(end, band[1] - band[0])
        if not passes(end, start):
            names = {"one": plan.names[index], "other": plan.names[index + 1]}
            raise hand.fault("edges-apart", "sew", message("making.step-less"), **names)
        lines.append(Segment(*(_on_seam(far, value, plan) for value in (start, end))))
    return lines


def _on_seam(far: Segment, beside: Number, plan: Plan) -> tuple[Number, Number]:
    """The point of the seam line inside a far edge at a place beside the axis."""
    slant = slant_of(far, plan.along)
    ahead = far.start[plan.along] - seam_shift(far, plan) / 2
    if slant:
        ahead += slant * (beside - far.start[1 - plan.along])
    return (ahead, beside) if plan.along == 0 else (beside, ahead)


def _check_meeting(seams: Sequence[Seam], lines: Sequence[Segment], hand: Hand) -> None:
    """Warn where seams that run into a matched seam from both sides miss each other."""
    for line in lines:
        half = right_hand(line.start, line.end)
        sides: tuple[list[Number], list[Number]] = ([], [])
        for seam in seams:
            ends = seam.line.start, seam.line.end
            away = [half.distance(end) for end in ends]
            touching = 0 if apart(away[0], 0) <= apart(away[1], 0) else 1
            if alike(away[touching], 0.0):
                point = ends[touching]
                along = hypot(point[0] - line.start[0], point[1] - line.start[1])
                sides[0 if away[1 - touching] < 0 else 1].append(along)
        for one in sides[0]:
            miss = min((apart(one, other) for other in sides[1]), default=0.0)
            if miss > SEAMS_MEET:
                hand.warn("seams-miss", miss=miss)


def _box(
    placed: Sequence[_Placed],
    moves: tuple[tuple[Number, Number], ...],
    span: tuple[Number, Number],
    plan: Plan,
) -> Rect:
    """The box of the sewn cloth, home: from the first piece's outer edge to the last's, and the span beside that."""
    last, (dx, dy) = placed[-1].cloth.box, moves[-1]
    zero, beside = Fraction(0), span[1] - span[0]
    if plan.along == 0:
        return Rect(zero, zero, last.right + dx, beside)
    return Rect(zero, zero, beside, last.bottom + dy)


def _whole_cloth(
    patches: tuple[Patch, ...], seams: tuple[Seam, ...], box: Rect, placed: Sequence[_Placed], plan: Plan
) -> Cloth:
    """The sewn cloth, with the knowledge whether it fills its box."""
    spans = {_span(item, plan) for item in placed}
    cloth = Cloth(patches, seams, box, whole=False)
    even = not plan.match and all(item.cloth.whole for item in placed) and len(spans) == 1
    return Cloth(patches, seams, box, whole=even or fills(cloth, box))


def _stand_out(placed: Sequence[_Placed], plan: Plan) -> Number:
    """How far raw ends stand apart along a matched seam: 2 x depth x k."""
    if not plan.match:
        return 0
    return max(apart(2 * plan.depth * slant_of(item.far, plan.along), 0) for item in placed if item.far)

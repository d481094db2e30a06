"""Sews pieces of one layer along the edges that a slice or a leaning cut made, whatever way those edges run."""

from collections.abc import Iterable, Sequence
from math import hypot
from typing import NamedTuple

import msgspec

from piecewright.geometry.carrying import carried_line
from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.motion import STILL, Motion, Number, Point, split_turn
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE, TOUCH, alike, passes
from piecewright.making.cloth import (
    Cloth,
    Patch,
    Scrap,
    Seam,
    box_of,
    carried_cloth,
    clipped_seams,
    fills,
    hidden,
    moved,
    parted,
    scraps_of,
)
from piecewright.making.drawn_lines import chords, rise_of, run_of
from piecewright.making.edges import clockwise_edge, clockwise_line, is_outline, outward_degrees
from piecewright.making.joining import Joint, Plan, aligned
from piecewright.making.limits import SLANTED_WORK
from piecewright.making.steps import Axis, Side
from piecewright.making.table import Hand
from piecewright.words.message import message

_SIDES: dict[Axis, tuple[Side, Side]] = {"across": ("left", "right"), "down": ("top", "bottom")}
_ASIDE = 1e-4
"""How far beside an edge is looked for cloth: more than rounding, less than any seam."""


class _Line(NamedTuple):
    """Where a piece is sewn: what of it is seen, and from where to where its cloth reaches along the seam."""

    seen: Half
    chord: Segment


class _Placed(NamedTuple):
    """A piece in the frame of the first, how it came there, the seams that it is sewn on, and its edge still free."""

    cloth: Cloth
    motion: Motion
    lines: tuple[_Line, ...]
    far: Segment | None


def join_edges(cloths: Sequence[Cloth], plan: Plan, hand: Hand) -> Joint:
    """Sew cloths of one layer in their order, the first in its frame. Raises MakingError where edges do not fit."""
    hand.count_work(SLANTED_WORK * sum(len(cloth.patches) for cloth in cloths))
    last = len(cloths) - 1
    ends = [_ends(cloth, index, last, plan, hand) for index, cloth in enumerate(cloths)]
    placed = [_Placed(cloths[0], STILL, (), ends[0][1])]
    seams: list[Segment] = []
    scraps: list[Scrap] = []
    for index in range(1, last + 1):
        before = placed[-1]
        near, far = ends[index]
        if before.far is None or near is None:
            raise AssertionError("only the ends of a row have no edge to be sewn")
        if not (cloths[index].cut_edges or cloths[index - 1].cut_edges):
            names = {"one": plan.names[index - 1], "other": plan.names[index]}
            raise hand.fault("no-cut-edge", "edge", message("making.leave-edge-out"), **names)
        sewn = _line(before.cloth, before.far, index - 1, plan, hand)
        motion = _motion(cloths[index], near, before.far, sewn, index, plan, hand)
        cloth = carried_cloth(cloths[index], motion)
        line = _line(cloth, carried_line(near, motion), index, plan, hand)
        if plan.flush:
            cloth, line, off = _flushed(cloth, line, before.cloth, sewn)
            scraps += off
        seams.append(_common(sewn.chord, line.chord, index, plan, hand))
        placed[-1] = before._replace(lines=(*before.lines, sewn))
        placed.append(_Placed(cloth, motion, (line,), far and carried_line(far, motion)))
    free = () if plan.flush else (_free(cloths[0], ends[0][0]), _free(cloths[last], placed[-1].far))
    return _joint(placed, seams, scraps, [edge for edge in free if edge], plan, hand)


def _free(cloth: Cloth, edge: Segment | None) -> Segment | None:
    """An outer edge of the row that was cut last as well, where a piece has two of them."""
    return edge if len(cloth.cut_edges) > 1 else None


def _ends(
    cloth: Cloth, index: int, last: int, plan: Plan, hand: Hand
) -> tuple[Segment | None, Segment | None]:
    """The edges of a piece toward the start and the end of the axis: cut last, else its plain sides.

    A side that is not one straight segment is sewn along its outermost line.
    """
    name, cuts = plan.names[index], cloth.cut_edges
    if len(cuts) == 1:
        if 0 < index < last:
            raise hand.fault("one-cut-edge", f"sew[{index}]", message("making.sew-by-two"), piece=name)
        return cuts[0], cuts[0]
    if cuts:
        return min(cuts, key=lambda cut: _looks(cut, plan)), max(cuts, key=lambda cut: _looks(cut, plan))
    near, far = (clockwise_edge(cloth, side) or clockwise_line(cloth, side) for side in _SIDES[plan.axis])
    needed = ([near] if index else []) + ([far] if index < last else [])
    if None in needed:
        side = _SIDES[plan.axis][0 if index and near is None else 1]
        hint = message("making.square-first", piece=name)
        raise hand.fault("edge-not-straight", "sew", hint, piece=name, side=side)
    return near, far


def _looks(cut: Segment, plan: Plan) -> float:
    """How much an edge looks to the end of the axis."""
    half = right_hand(cut.start, cut.end)
    return float(half.y_part if plan.along else half.x_part)


def _line(cloth: Cloth, edge: Segment, index: int, plan: Plan, hand: Hand) -> _Line:
    """Where a piece is sewn along an edge, which runs clockwise round it."""
    name = plan.names[index]
    if not is_outline(cloth, edge, cloth_on_right=True):
        hint = message("making.square-first", piece=name)
        raise hand.fault("cut-edge-broken", "sew", hint, piece=name)
    seen = right_hand(edge.start, edge.end).shrunk(plan.depth)
    found = chords(cloth, edge.moved(-seen.x_part * plan.depth, -seen.y_part * plan.depth))
    if not found:
        raise hand.fault("seam-off", "sew", message("making.wider-than-seam", width=plan.depth), piece=name)
    if len(found) > 1:
        raise hand.fault("seam-broken", "sew", message("making.square-it-first"), piece=name)
    return _Line(seen, found[0])


def _motion(
    cloth: Cloth, near: Segment, far: Segment, sewn: _Line, index: int, plan: Plan, hand: Hand
) -> Motion:
    """How a piece comes to lie beside the one before: its edge along that one's, ends as the plan says."""
    turn = Motion(*split_turn(outward_degrees(far) + 180 - outward_degrees(near)))
    line = _line(carried_cloth(cloth, turn), carried_line(near, turn), index, plan, hand)
    along = _along(sewn.chord)
    there, here = _reach(sewn.chord, along), _reach(line.chord, along)
    lengths = there[1] - there[0], here[1] - here[0]
    if plan.eases and not alike(*lengths):
        names = {"one": plan.names[index - 1], "other": plan.names[index]}
        hint = message("making.trim-longer", length=min(lengths))
        raise hand.fault("edges-differ", "sew", hint, first=lengths[0], second=lengths[1], **names)
    ahead = aligned(*there, *here, plan.align) + (plan.step or 0)
    away = sewn.seen.distance(line.chord.start)
    return turn.moved(along[0] * ahead - sewn.seen.x_part * away, along[1] * ahead - sewn.seen.y_part * away)


def _along(chord: Segment) -> tuple[Number, Number]:
    """The direction of a seam, of length 1: downward, or to the right where it is level. Exact where it is square."""
    run, rise = run_of(chord), rise_of(chord)
    if not run:
        return 0, 1
    if not rise:
        return 1, 0
    length = hypot(run, rise)
    run, rise = run / length, rise / length
    return (run, rise) if rise > TOUCH or (rise >= -TOUCH and run > 0) else (-run, -rise)


def _reach(chord: Segment, along: tuple[Number, Number]) -> tuple[Number, Number]:
    """From where to where a chord reaches along a direction."""
    first, last = (along[0] * x + along[1] * y for x, y in (chord.start, chord.end))
    return (last, first) if first > last else (first, last)


def _common(one: Segment, other: Segment, index: int, plan: Plan, hand: Hand) -> Segment:
    """The seam: as far as the cloth of both reaches."""
    along = _along(one)
    (a, b), (c, d) = _reach(one, along), _reach(other, along)
    start, end = max(a, c), min(b, d)
    if not passes(end, start):
        names = {"one": plan.names[index - 1], "other": plan.names[index]}
        raise hand.fault("edges-apart", "sew", message("making.step-less"), **names)
    x, y = one.start
    base = along[0] * x + along[1] * y
    ends = [(x + along[0] * (place - base), y + along[1] * (place - base)) for place in (start, end)]
    return Segment(*ends)


def _flushed(cloth: Cloth, line: _Line, before: Cloth, sewn: _Line) -> tuple[Cloth, _Line, list[Scrap]]:
    """A piece trimmed along the sides of the one before, where they meet the seam; and what is trimmed off."""
    along = _along(sewn.chord)
    scraps: list[Scrap] = []
    chord: Segment | None = line.chord
    first, last = sewn.chord.start, sewn.chord.end
    forward = run_of(sewn.chord) * along[0] + rise_of(sewn.chord) * along[1] > 0
    for end, sign in ((first, -1), (last, 1)) if forward else ((last, -1), (first, 1)):
        side = _side_at(before, end, (sign * along[0], sign * along[1]))
        if side is not None:
            cloth, off, loose = parted(cloth, side)
            scraps += [*loose, *scraps_of(off)]
            chord = chord and chord.clipped(side)
    box = box_of(cloth.patches)
    trimmed = msgspec.structs.replace(cloth, box=box, whole=False)
    trimmed = msgspec.structs.replace(trimmed, whole=fills(trimmed, box))
    return trimmed, line._replace(chord=chord or line.chord), scraps


def _side_at(cloth: Cloth, end: Point, outward: tuple[Number, Number]) -> Half | None:
    """What lies within the side of a piece that a seam runs into, looking from the seam; None where it has none."""
    for patch in cloth.patches:
        corners = patch.seen.points
        for start, stop in zip(corners, (*corners[1:], corners[0]), strict=True):
            length = hypot(float(stop[0] - start[0]), float(stop[1] - start[1]))
            if length <= ALIKE:
                continue
            half = right_hand(start, stop)
            faces = half.x_part * outward[0] + half.y_part * outward[1]
            if faces <= ALIKE or not alike(half.distance(end), 0.0):
                continue
            ux, uy = float(stop[0] - start[0]) / length, float(stop[1] - start[1]) / length
            at = ux * float(end[0] - start[0]) + uy * float(end[1] - start[1])
            inward = min(max(at, _ASIDE), length - _ASIDE)
            x, y = float(start[0]) + ux * inward, float(start[1]) + uy * inward
            beyond = (x + float(half.x_part) * _ASIDE, y + float(half.y_part) * _ASIDE)
            if -ALIKE <= at <= length + ALIKE and not _covers(cloth.patches, beyond):
                return half
    return None


def _covers(patches: Iterable[Patch], point: Point) -> bool:
    """Whether a point lies on some patch."""
    return any(
        all(
            right_hand(start, end).distance(point) <= 0
            for start, end in zip(
                patch.seen.points, (*patch.seen.points[1:], patch.seen.points[0]), strict=True
            )
            if start != end
        )
        for patch in patches
    )


def _joint(
    placed: Sequence[_Placed],
    lines: Sequence[Segment],
    scraps: list[Scrap],
    free: list[Segment],
    plan: Plan,
    hand: Hand,
) -> Joint:
    """The pieces as one cloth, home, each clipped at its seams."""
    patches: list[Patch] = []
    seams: list[Seam] = []
    for piece, name in zip(placed, plan.names, strict=True):
        kept, kept_seams = list(piece.cloth.patches), list(piece.cloth.seams)
        for line in piece.lines:
            kept, lost = hidden(kept, line.seen)
            kept_seams = clipped_seams(kept_seams, line.seen)
            if lost:
                hint = message("making.wider-than-seam", width=2 * plan.depth)
                raise hand.fault("no-seen-width", "sew", hint, piece=name, fabric=lost[0].letter)
        patches += kept
        seams += kept_seams
    seams += [Seam(hand.name, number, 0, 0, line) for number, line in enumerate(lines, start=1)]
    box = box_of(patches)
    flat = Cloth(tuple(patches), tuple(seams), box, whole=False, cut_edges=tuple(free))
    home = moved(msgspec.structs.replace(flat, whole=fills(flat, box)), -box.left, -box.top)
    motions = tuple(piece.motion.moved(-box.left, -box.top) for piece in placed)
    sewn = tuple(line.moved(-box.left, -box.top) for line in lines)
    return Joint(home, motions, sewn, 0, 0, tuple(scraps))

"""Open a seam of a tube, so that it lies flat again and both allowances of the seam come back."""

from collections.abc import Sequence
from fractions import Fraction
from typing import NamedTuple

from piecewright.geometry.half import beyond, up_to
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Placing, Rect, Segment
from piecewright.geometry.tolerance import ALIKE, alike, apart
from piecewright.making.cloth import Cloth, Patch, Pile, Seam, clipped_seams, fills
from piecewright.making.edges import box_edge
from piecewright.making.events import Unpicked
from piecewright.making.reopening import Opened, Run, drawn_on, reopened, runs_into
from piecewright.making.steps import Count, MakingStep, Which
from piecewright.making.table import Hand
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message


class Unpick(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "row", "unpick": "ring.3", "seam": 2}`: seams are counted from the start of the tube's axis."""

    unpick: str
    seam: Count
    which: Which | None = None


class _Opening(NamedTuple):
    """Where a tube is opened: `place` along its axis, `length` all round, and the raw ends that this gives."""

    place: Number
    length: Number
    opened: Opened

    def shift(self, *, before: bool) -> Placing:
        """How what lies before the seam moves to the end, and what lies after it to the start."""
        by = self.opened.depth - self.place + (self.length if before else 0)
        return Placing(0, 0 if self.opened.along else by, by if self.opened.along else 0)


def act(step: Unpick, hand: Hand) -> None:
    """The piece flat and home, the cloth after the seam first."""

    def one(piece: str, made: str, pile: Pile) -> Pile:
        openings = [_opening(cloth, step, piece, hand) for cloth in pile]
        flat = tuple(
            _flat(cloth, opening, piece, hand) for cloth, opening in zip(pile, openings, strict=True)
        )
        hand.events.append(Unpicked(piece, made, step.seam, _line(pile[0].box, openings[0])))
        return flat

    hand.make_each(step.unpick, "unpick", step.which, one, "tube")


def _opening(cloth: Cloth, step: Unpick, piece: str, hand: Hand) -> _Opening:
    """The seam that a step names, among those that run right across the tube."""
    if cloth.loop is None:
        raise hand.fault("not-a-tube", "unpick", message("making.loop-first"), piece=piece)
    along = 0 if cloth.loop == "across" else 1
    places = _seams_across(cloth, along)
    if step.seam > len(places):
        hint = message("making.seams-across", piece=piece, count=len(places))
        raise hand.fault("no-seam-across", "seam", hint, seam=step.seam)
    length = cloth.box.height if along else cloth.box.width
    place = places[step.seam - 1]
    ends = (0 * place, place) if alike(place, length) else (place,)  # the last seam is also at the start
    return _Opening(place, length, Opened(along, ends, hand.context.depth))


def _seams_across(cloth: Cloth, along: int) -> list[Number]:
    """The places along a tube where a seam runs from one raw side to the other, in order."""
    lengths: dict[Number, Number] = {}
    for seam in cloth.seams:
        start, end = seam.line.start[along], seam.line.end[along]
        if alike(start, end):
            place = next((known for known in lengths if alike(known, start)), start)
            lengths[place] = lengths.get(place, 0) + seam.line.length
    beside = cloth.box.width if along else cloth.box.height
    return sorted(place for place, length in lengths.items() if apart(length, beside) <= ALIKE)


def _flat(cloth: Cloth, opening: _Opening, piece: str, hand: Hand) -> Cloth:
    """One layer's piece, opened."""
    opened = opening.opened
    parts = [part for seam in cloth.seams for part in _parted(seam, opening)]
    runs = runs_into(parts, opened)
    patches = [_moved_patch(patch, runs, opening) for patch in cloth.patches]
    seams = [_moved_seam(seam, runs, opening) for seam in parts]
    long, zero = opening.length + 2 * opened.depth, Fraction(0)
    width, height = (cloth.box.width, long) if opened.along else (long, cloth.box.height)
    flat = Cloth(tuple(patches), tuple(seams), Rect(zero, zero, width, height))
    if not fills(flat, flat.box):
        raise hand.fault("allowance-gone", "seam", message("making.unpick-other"), piece=piece)
    return flat


def _moved_patch(patch: Patch, runs: Sequence[Run], opening: _Opening) -> Patch:
    """A patch where it comes to lie; one beside the seam is seen up to its raw edge again."""
    box = patch.seen.box
    middle = (box.top + box.bottom) / 2 if opening.opened.along else (box.left + box.right) / 2
    seen = patch.shaped(patch.raw, reopened(patch, runs, opening.opened))
    return seen.placed(opening.shift(before=middle < opening.place))


def _parted(seam: Seam, opening: _Opening) -> list[Seam]:
    """A seam before and after the unpicked one, where it crosses it; nothing of the unpicked one itself."""
    along, place = opening.opened.along, opening.place
    if alike(seam.line.start[along], place) and alike(seam.line.end[along], place):
        return []
    return [
        part for half in (up_to(along, place), beyond(along, place)) for part in clipped_seams([seam], half)
    ]


def _moved_seam(seam: Seam, runs: Sequence[Run], opening: _Opening) -> Seam:
    """A seam where it comes to lie, over the allowance that is free again as well."""
    along = opening.opened.along
    middle = (seam.line.start[along] + seam.line.end[along]) / 2
    line = drawn_on(seam.line, runs, opening.opened)
    return seam.with_line(line).placed(opening.shift(before=middle < opening.place))


def _line(box: Rect, opening: _Opening) -> Segment:
    """The seam to unpick, flat across a tube."""
    place = opening.place
    if opening.opened.along:
        return box_edge(Rect(box.left, place, box.right, place), "top")
    return box_edge(Rect(place, box.top, place, box.bottom), "left")


def say(step: Unpick, hand: Hand) -> Message:
    """Unpick seam 2 of ring.3: row.3 measures 2 1/2 x 12 1/2 in unfinished."""
    opened = [event for event in hand.events if isinstance(event, Unpicked)]
    boxes = [hand.made[event.made][0].box for event in opened]
    sizes = dict.fromkeys(Unfinished(box.width, box.height) for box in boxes)
    pieces = tuple(event.piece for event in opened)
    return message("making.say-unpick", seam=step.seam, pieces=pieces, count=len(pieces), sizes=tuple(sizes))


UNPICK = Verb("unpick", Unpick, act, say, no_handles)

"""Finish a partial seam: sew the stretch that was left open."""

from itertools import pairwise
from typing import NamedTuple

import msgspec

from piecewright.geometry.half import Half, beyond, up_to
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import EASED_AT_MOST, alike, apart, most_eased, passes
from piecewright.making.cloth import (
    Cloth,
    Flap,
    Pile,
    Scrap,
    box_of,
    fills,
    home,
    parted,
    scraps_of,
)
from piecewright.making.events import Closed
from piecewright.making.partial_seams import (
    axis_of,
    beside,
    body_half,
    closed,
    far_end_of_flap,
    open_end,
    raw_edges_beyond,
)
from piecewright.making.steps import MakingStep, Which
from piecewright.making.table import Hand
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message


class Finish(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "block", "finish": "spiral"}`; `which` picks among the parts of a wildcard."""

    finish: str
    which: Which | None = None


class _Done(NamedTuple):
    """A finished piece, the stretch sewn in the frame before, and what easing took off."""

    cloth: Cloth
    line: Segment
    scraps: tuple[Scrap, ...]


def act(step: Finish, hand: Hand) -> None:
    """The piece flat and home, its seam one line from end to end."""

    def one(piece: str, made: str, pile: Pile) -> Pile:
        layers = [_finished(cloth, piece, hand) for cloth in pile]
        scraps = tuple(layer.scraps for layer in layers)
        hand.events.append(Closed(piece, made, layers[0].line, scraps))
        return tuple(layer.cloth for layer in layers)

    hand.make_each(step.finish, "finish", step.which, one, "partial")


def _finished(cloth: Cloth, piece: str, hand: Hand) -> _Done:
    """One layer's piece."""
    flap = cloth.flap
    if flap is None:
        raise hand.fault("not-partial", "finish", message("making.leave-first"), piece=piece)
    _check_straight(cloth, flap, piece, hand)
    along = axis_of(flap)
    sewn_end = flap.seam.line.end[along]
    body_end, flap_end = open_end(cloth, flap), far_end_of_flap(flap)
    lengths = apart(sewn_end, body_end), apart(sewn_end, flap_end)
    scraps: list[Scrap] = []
    if not alike(*lengths):
        shorter = min(lengths)
        if passes(apart(*lengths), most_eased(shorter)):
            hint = message("making.sew-missing", length=shorter)
            sizes = {"first": lengths[0], "second": lengths[1]}
            raise hand.fault("finish-unlike", "finish", hint, piece=piece, **sizes)
        hand.warn("finish-eased", piece=piece, excess=apart(*lengths))
        end = body_end if lengths[0] < lengths[1] else flap_end
        kept = beyond(along, end) if sewn_end > end else up_to(along, end)
        cloth, flap = _trimmed(cloth, flap, kept, scraps)
        body_end = end
    return _closed(cloth, flap, body_end, scraps, (piece, hand))


def _check_straight(cloth: Cloth, flap: Flap, piece: str, hand: Hand) -> None:
    """Raise where the edge beside the seam is not one straight line, an allowance beyond it."""
    edges = raw_edges_beyond(beside(cloth, flap), body_half(flap), axis_of(flap))
    straight = all(alike(before.end, after.start) for before, after in pairwise(edges))
    if not straight or any(passes(apart(edge.beyond, hand.context.depth), EASED_AT_MOST) for edge in edges):
        raise hand.fault("finish-broken", "finish", message("making.even-there"), piece=piece)


def _trimmed(cloth: Cloth, flap: Flap, half: Half, scraps: list[Scrap]) -> tuple[Cloth, Flap]:
    """Both trimmed where the shorter ends."""
    kept = []
    for part in (cloth, Cloth(flap.patches, flap.seams, cloth.box, whole=False)):
        inside, off, loose = parted(part, half)
        scraps += [*loose, *scraps_of(off)]
        kept.append(inside)
    body, over = kept
    return body, msgspec.structs.replace(flap, patches=over.patches, seams=over.seams)


def _closed(cloth: Cloth, flap: Flap, end: Number, scraps: list[Scrap], at: tuple[str, Hand]) -> _Done:
    """The seam sewn up to its end, and both allowances out of sight."""
    piece, hand = at
    found = closed(cloth, flap)
    if found.lost:
        hint = message("making.wider-than-seam", width=2 * hand.context.depth)
        raise hand.fault("no-seen-width", "finish", hint, piece=piece, fabric=found.lost[0].letter)
    stop, sewn_end = flap.seam.line.start, flap.seam.line.end
    open_end = (stop[0], end) if axis_of(flap) else (end, stop[1])
    whole = flap.seam.with_line(Segment(open_end, sewn_end))
    patches = (*found.patches, *found.flap_patches)
    flat = Cloth(patches, (*found.seams, *found.flap_seams, whole), box_of(patches), whole=False)
    flat = home(msgspec.structs.replace(flat, whole=fills(flat, flat.box)))
    return _Done(flat, Segment(stop, open_end), tuple(scraps))


def say(_step: Finish, hand: Hand) -> Message:
    """Finish the partial seam of spiral: it measures 8 1/2 x 8 1/2 in unfinished."""
    done = [event for event in hand.events if isinstance(event, Closed)]
    boxes = [hand.made[event.made][0].box for event in done]
    sizes = dict.fromkeys(Unfinished(box.width, box.height) for box in boxes)
    pieces = tuple(event.piece for event in done)
    return message("making.say-finish", pieces=pieces, count=len(pieces), sizes=tuple(sizes))


FINISH = Verb("finish", Finish, act, say, no_handles)

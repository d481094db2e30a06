"""Open two pieces that were sewn right sides together: unfold them along the seam that holds them."""

from typing import NamedTuple

import msgspec

from piecewright.geometry.carrying import turned_over
from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE, alike
from piecewright.making.cloth import (
    Cloth,
    Over,
    Patch,
    Pile,
    Scrap,
    Seam,
    box_of,
    clipped_seams,
    fills,
    hidden,
    home,
)
from piecewright.making.events import Opened
from piecewright.making.steps import MakingStep, Which
from piecewright.making.table import Hand, Sewn
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

_FEW_STITCHES = 4
"""A seam over a tip is picked out where it is no longer than so many allowances (common practice, no source)."""


class Open(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "unit", "open": "half.*"}`; `which` picks among the parts of a wildcard."""

    open: str
    which: Which | None = None


def act(step: Open, hand: Hand) -> None:
    """The lower piece stays, the upper is folded back along the seam; then both move home as one."""
    lines: list[Segment] = []

    def one(piece: str, made: str, pile: Pile) -> Pile:
        holds = [_hold(cloth, piece, hand) for cloth in pile]
        opened = [_opened(cloth, hold, len(lines) + 1, hand) for cloth, hold in zip(pile, holds, strict=True)]
        lines.append(holds[0].line)
        scraps = tuple(tuple(scraps) for _, scraps in opened)
        hand.events.append(Opened(piece, made, lines[-1], holds[0].picked, scraps))
        return tuple(cloth for cloth, _ in opened)

    hand.make_each(step.open, "open", step.which, one, "faced")
    hand.sewn[step.make] = Sewn(tuple(lines))


class _Hold(NamedTuple):
    """What two pieces turn on: the seam, the side of it where they are seen, the seams over tips to pick out."""

    line: Segment
    body: Half
    picked: tuple[Segment, ...]


def _opened(cloth: Cloth, hold: _Hold, join: int, hand: Hand) -> tuple[Cloth, list[Scrap]]:
    """One layer's pieces side by side, and cloth of which nothing is seen."""
    line, body, _ = hold
    over = cloth.over or Over((), (), ())
    patches, lost = hidden(cloth.patches, body)
    upper, swallowed = hidden(over.patches, body)
    back = turned_over(line)
    together = (*patches, *(patch.carried(back) for patch in upper))
    seams = (
        *clipped_seams(cloth.seams, body),
        *(seam.carried(back) for seam in clipped_seams(over.seams, body)),
        Seam(hand.name, join, 0, 0, line),
    )
    flat = Cloth(together, seams, box_of(together), whole=False)
    opened = home(msgspec.structs.replace(flat, whole=fills(flat, flat.box)))
    return opened, [_vanished(patch, hand) for patch in (*lost, *swallowed)]


def _vanished(patch: Patch, hand: Hand) -> Scrap:
    hand.warn("hidden-in-seam", fabric=patch.letter)
    return Scrap(patch.letter, patch.layer, patch.strip, patch.raw, None)


def _hold(cloth: Cloth, piece: str, hand: Hand) -> _Hold:
    """The one seam that pieces turn on: the longest of which the others lie in its allowance or only cross a tip.

    The smaller side of a seam is its allowance.
    """
    if cloth.over is None:
        raise hand.fault("open-flat", "open", message("making.face-first"), piece=piece)
    lines = sorted((stitch.line for stitch in cloth.over.stitches), key=lambda line: -float(line.length))
    if not lines:
        raise hand.fault("open-loose", "open", message("making.cut-beside-seam"), piece=piece)
    few = _FEW_STITCHES * hand.context.depth
    for line in lines:
        body = _larger_side(cloth, line)
        if body is not None:
            holding = [other for other in lines if other is not line and not _lies_beyond(other, body)]
            if all(other.length <= few for other in holding):
                return _Hold(line, body, tuple(holding))
    if len(lines) == 1:
        raise hand.fault("open-middle", "open", message("making.cut-beside-seam"), piece=piece)
    hint = message("making.cut-between-seams")
    raise hand.fault("open-held", "open", hint, piece=piece, count=len(lines))


def _larger_side(cloth: Cloth, line: Segment) -> Half | None:
    """The side of a line with more cloth; None where both have as much."""
    half = right_hand(line.start, line.end)
    right, left = (
        float(sum(shape.area for patch in cloth.patches if (shape := patch.seen.clipped(side))))
        for side in (half, half.opposite)
    )
    return None if alike(right, left) else half if right > left else half.opposite


def _lies_beyond(line: Segment, half: Half) -> bool:
    return all(half.distance(end) >= -ALIKE for end in (line.start, line.end))


def say(_step: Open, hand: Hand) -> Message:
    """Open half.1 and half.2 along their seams: each measures 3 1/2 x 3 1/2 in unfinished."""
    opened = [event for event in hand.events if isinstance(event, Opened)]
    boxes = [hand.made[event.made][0].box for event in opened]
    like = all(alike(box.width, boxes[0].width) and alike(box.height, boxes[0].height) for box in boxes)
    picked = any(event.picked for event in opened)
    return message(
        f"making.say-open-{'alike' if like else 'unlike'}",
        pieces=tuple(event.piece for event in opened),
        count=len(opened),
        first=message("making.pick-out" if picked else "making.nothing"),
        sizes=tuple(Unfinished(box.width, box.height) for box in (boxes[:1] if like else boxes)),
    )


OPEN = Verb("open", Open, act, say, no_handles)

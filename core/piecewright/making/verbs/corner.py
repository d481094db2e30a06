"""Stitch and flip: sew a square over a corner of a piece and fold it open, so that a triangle covers the corner."""

from typing import Literal, NamedTuple

import msgspec

from piecewright.geometry.carrying import turned_over
from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.motion import Motion, Point
from piecewright.geometry.shapes import Rect, Segment
from piecewright.geometry.tolerance import alike, passes
from piecewright.making.cloth import (
    Cloth,
    Over,
    Scrap,
    Seam,
    box_of,
    carried_cloth,
    clipped_seams,
    fills,
    hidden,
    home,
    parted,
    scraps_of,
)
from piecewright.making.drawn_lines import chords
from piecewright.making.events import Cornered, first
from piecewright.making.steps import MakingStep
from piecewright.making.table import Hand, Sewn
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

At = Literal["top left", "top right", "bottom left", "bottom right"]


class Corner(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "goose", "corner": "sky", "with": "square", "at": "top left"}`; `keep` the pair cut off, sewn."""

    corner: str
    with_: str = msgspec.field(name="with")
    at: At
    keep: bool = False


class _Fold(NamedTuple):
    """Where a square lies face down and is folded: how it came there, the seam, and what stays of the piece's side.

    `body` is the side of the seam away from the corner, `kept` reaches one allowance beyond the seam.
    """

    came: Motion
    line: Segment
    body: Half
    kept: Half


def act(step: Corner, hand: Hand) -> None:
    """The piece with the same outline, a triangle of the square in its corner."""
    pile, square = hand.take(step.corner, "corner"), hand.take(step.with_, "with")
    fold = _fold(pile[0], square[0], step, hand)
    under, over = hand.evened([pile, square])
    layers = [_folded(*cloths, fold, step.keep, hand) for cloths in zip(under, over, strict=True)]
    _put(step, layers, hand)
    hand.sewn[step.make] = Sewn((fold.line,), out="left" if step.at.endswith("left") else "right")
    cut = _moved_out(fold.line, fold.body, float(hand.context.depth))
    pair = layers[0].pair
    seam = pair.over.stitches[0].line if pair and pair.over else None
    scraps = tuple(tuple(layer.scraps) for layer in layers)
    hand.events.append(
        Cornered(step.corner, step.with_, step.make, step.at, fold.came, fold.line, cut, seam, scraps)
    )


class _Folded(NamedTuple):
    """The piece of one layer, the pair cut off where it is kept (in the frame of the piece), and what falls off."""

    cloth: Cloth
    pair: Cloth | None
    scraps: list[Scrap]


def _put(step: Corner, layers: list[_Folded], hand: Hand) -> None:
    """Put what is made on the table: the piece alone, or as the first part beside the pair."""
    pile, pairs = tuple(layer.cloth for layer in layers), [layer.pair for layer in layers]
    if not step.keep:
        hand.made[step.make] = pile
        return
    hand.parts = 2
    hand.made[f"{step.make}.1"] = pile
    hand.made[f"{step.make}.2"] = tuple(home(pair) for pair in pairs if pair)


def _fold(piece: Cloth, square: Cloth, step: Corner, hand: Hand) -> _Fold:
    """How the square is laid, sewn and folded, checked against the cloth there is."""
    size, box = square.box, piece.box
    if not alike(size.width, size.height) or not (square.whole or fills(square, size)):
        found = Unfinished(size.width, size.height)
        hint = message("making.square-it-up", piece=step.with_)
        raise hand.fault("corner-no-square", "with", hint, piece=step.with_, size=found)
    side = size.width
    most = min(box.width, box.height)
    if passes(side, most):
        hint = message("making.corner-at-most", most=most)
        raise hand.fault(
            "corner-too-large", "with", hint, piece=step.with_, side=side, most=most, base=step.corner
        )
    left = box.right - side if step.at.endswith("right") else box.left
    top = box.bottom - side if step.at.startswith("bottom") else box.top
    rect = Rect(left, top, left + side, top + side)
    if not piece.whole and not fills(piece, rect):
        hint = message("making.square-first", piece=step.corner)
        raise hand.fault("corner-ragged", "at", hint, piece=step.corner, at=_said(step.at))
    came = Motion(faced=True, dx=rect.right + size.left, dy=rect.top - size.top)
    line, body = _seam(rect, step.at)
    return _Fold(came, line, body, body.shrunk(-float(hand.context.depth)))


def _seam(rect: Rect, at: At) -> tuple[Segment, Half]:
    """The line across a corner's square from corner to corner, and the side of it away from the piece's corner."""
    top_left, top_right, bottom_right, bottom_left = rect.points
    ends: dict[At, tuple[Point, Point]] = {
        "top left": (bottom_left, top_right),
        "top right": (top_left, bottom_right),
        "bottom right": (top_right, bottom_left),
        "bottom left": (bottom_right, top_left),
    }
    line = Segment(*ends[at])
    return line, right_hand(line.start, line.end)


def _folded(piece: Cloth, square: Cloth, fold: _Fold, keep: bool, hand: Hand) -> _Folded:
    """One layer's piece with its triangle."""
    under, off, loose = parted(piece, fold.kept)
    over, over_off, over_loose = parted(carried_cloth(square, fold.came), fold.kept)
    scraps = [*loose, *over_loose]
    pair = _pair(off, over_off, fold, hand) if keep else None
    if pair is None:
        scraps += [*scraps_of(off), *scraps_of(over_off)]
    patches, lost = hidden(under.patches, fold.body)
    triangle, swallowed = hidden(over.patches, fold.body)
    for patch in (*lost, *swallowed):
        hand.warn("hidden-in-seam", fabric=patch.letter)
        scraps.append(Scrap(patch.letter, patch.layer, patch.strip, patch.raw, None))
    back = turned_over(fold.line)
    new = Seam(hand.name, 1, 0, 0, fold.line)
    sewn = Cloth(
        (*patches, *(patch.carried(back) for patch in triangle)),
        (
            *clipped_seams(under.seams, fold.body),
            *(seam.carried(back) for seam in clipped_seams(over.seams, fold.body)),
            new,
        ),
        piece.box,
        piece.whole,
    )
    return _Folded(sewn, pair, scraps)


def _pair(under: Cloth, over: Cloth, fold: _Fold, hand: Hand) -> Cloth:
    """Both corners cut off, right sides together, sewn one allowance beyond the cut."""
    stitch = _moved_out(fold.line, fold.body, 2 * float(hand.context.depth))
    flat = msgspec.structs.replace(under, box=box_of(under.patches), whole=False)
    found = chords(flat, stitch)
    beyond = right_hand(stitch.start, stitch.end).opposite
    if len(found) != 1 or _area(flat, beyond) <= _area(flat, beyond.opposite):
        raise hand.fault("keep-small", "keep", message("making.keep-nothing"))
    held = Over(over.patches, over.seams, (Seam(hand.name, 2, 0, 0, found[0]),))
    return msgspec.structs.replace(flat, over=held)


def _area(cloth: Cloth, half: Half) -> float:
    """How much of a cloth is seen in a half plane, square inches."""
    return float(sum(shape.area for patch in cloth.patches if (shape := patch.seen.clipped(half))))


def _moved_out(line: Segment, body: Half, by: float) -> Segment:
    """A line moved away from a half plane, as long as it was."""
    dx, dy = body.x_part * by, body.y_part * by
    (x1, y1), (x2, y2) = line.start, line.end
    return Segment((x1 + dx, y1 + dy), (x2 + dx, y2 + dy))


def _said(at: str) -> Message:
    return message(f"making.at-{at.replace(' ', '-')}")


def say(step: Corner, hand: Hand) -> Message:
    """Lay s face down on the top left corner of a, sew it from corner to corner, trim and fold it open."""
    event = first(hand.events, Cornered)
    piece = f"{step.make}.1" if step.keep else step.make
    box = hand.made[piece][0].box
    return message(
        "making.say-corner",
        pair=_say_pair(step, hand),
        square=event.square,
        piece=event.piece,
        at=_said(step.at),
        beyond=hand.context.depth,
        made=piece,
        size=Unfinished(box.width, box.height),
    )


def _say_pair(step: Corner, hand: Hand) -> Message:
    if not step.keep:
        return message("making.nothing")
    return message("making.say-pair", away=2 * hand.context.depth, pair=f"{step.make}.2")


CORNER = Verb("corner", Corner, act, say, no_handles)

"""Lay a strip or a square, raw edges all round."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

import msgspec

from piecewright.geometry.motion import STILL, Motion
from piecewright.geometry.shapes import Rect
from piecewright.making.cloth import Cloth, Patch
from piecewright.making.edges import box_edge
from piecewright.making.end_to_end import How, joined_lengths, joined_strip, taken_by_a_join
from piecewright.making.events import Joined, Laid, first
from piecewright.making.expressions import Expression
from piecewright.making.steps import MakingStep
from piecewright.making.table import MOST_PARTS, Hand, Outcome, Sewn
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.words.message import Message, message

Grain = Literal["crosswise", "lengthwise", "bias"]


class Strip(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """The cloth to lay: `length` along x, `width` along y, one strip for each layer of the stack.

    `join` says how a strip longer than the cloth is wide is made up.
    """

    fabric: str
    width: Expression
    length: Expression
    grain: Grain = "crosswise"
    least: bool = False
    join: How | None = None


class Lay(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "39"}}`."""

    lay: Strip


_THREADS: Mapping[Grain, int] = {"crosswise": 90, "lengthwise": 0, "bias": 45}
"""The lengthwise thread of a strip as laid, clockwise degrees from x."""


def act(step: Lay, hand: Hand) -> None:
    """One raw rectangle, home; or several joined end to end where it is longer than the cloth is wide."""
    strip = step.lay
    width, length = hand.length(strip.width, "lay.width"), hand.length(strip.length, "lay.length")
    rect = Rect(Fraction(0), Fraction(0), length, width)
    number = hand.table.strips
    patch = Patch(strip.fabric, 0, number, _THREADS[strip.grain], rect, rect, STILL)
    lengths = (length,) if strip.join is None else _lengths(strip, strip.join, width, length, hand)
    if len(lengths) == 1 or strip.join is None:
        hand.made[step.make] = (Cloth((patch,), (), rect),)
        hand.events.append(_laid(step, step.make, 0, width, length, hand))
        return
    depth = hand.context.depth
    made = joined_strip(patch, width, lengths, strip.join, depth, step.make)
    names = tuple(f"{step.make}.{count}" for count in range(1, len(lengths) + 1))
    for index, (name, part) in enumerate(zip(names, lengths, strict=True)):
        hand.events.append(_laid(step, name, index, width, part, hand, whole=index + 1 < len(lengths)))
    moves = tuple(Motion(dx=start) for start in made.starts)
    hand.events.append(
        Joined(
            step.make,
            names,
            "across",
            moves,
            made.lines,
            rect,
            eased=0,
            stand_out=0,
            plain=False,
            scraps=(made.scraps,),
        )
    )
    hand.sewn[step.make] = Sewn(made.lines, "across" if strip.join == "straight" else None)
    hand.made[step.make] = (made.cloth,)


def _lengths(strip: Strip, how: How, width: Fraction, length: Fraction, hand: Hand) -> tuple[Fraction, ...]:
    """The lengths to cut and join, full widths of the cloth and a rest."""
    if strip.grain != "crosswise":
        raise hand.fault("join-grain", "lay.join", message("making.leave-join-out"), grain=strip.grain)
    usable, taken = hand.names["usable"], taken_by_a_join(how, width, hand.context.depth)
    if length <= usable:
        return (length,)
    if usable <= taken:
        hint = message("making.narrower-strip")
        raise hand.fault("join-takes-all", "lay.join", hint, taken=taken, usable=usable)
    lengths = joined_lengths(length, usable, taken)
    if len(lengths) > MOST_PARTS:
        raise hand.fault("too-many-parts", "lay.length", None, count=len(lengths), most=MOST_PARTS)
    return lengths


def _laid(
    step: Lay, piece: str, index: int, width: Fraction, length: Fraction, hand: Hand, *, whole: bool = False
) -> Laid:
    strip, number = step.lay, hand.table.strips + index
    stack = hand.context.stack
    return Laid(piece, number, strip.fabric, width, length, strip.grain, strip.least, stack, whole)


def say(step: Lay, hand: Hand) -> Message:
    """Lay a strip of fabric A, 2 1/2 x 39 in cut."""
    laid = first(hand.events, Laid)
    layers = message("making.in-layers", count=laid.layers) if laid.layers > 1 else message("making.nothing")
    pieces = [event for event in hand.events if isinstance(event, Laid)]
    if len(pieces) > 1:
        return message(
            "making.say-lay-joined",
            fabric=laid.fabric,
            width=laid.width,
            count=len(pieces) - 1,
            full=laid.length,
            rest=pieces[-1].length,
            layers=layers,
            how=message(f"making.joined-{step.lay.join}"),
            made=step.make,
            length=hand.made[step.make][0].box.width,
        )
    code = "making.say-lay-least" if laid.least else "making.say-lay"
    crosswise = laid.grain == "crosswise"
    thread = message("making.nothing") if crosswise else message(f"making.grain-{laid.grain}")
    return message(
        code, fabric=laid.fabric, width=laid.width, length=laid.length, layers=layers, thread=thread
    )


def handles(step: Lay, outcome: Outcome) -> tuple[Handle, ...]:
    """The strip's end changes its length, its lower edge its width."""
    box = outcome.made[step.make][0].box
    return (
        Handle(Place(outcome.step_index, "lay.length"), step.make, box_edge(box, "right"), (1, 0)),
        Handle(Place(outcome.step_index, "lay.width"), step.make, box_edge(box, "bottom"), (0, 1)),
    )


LAY = Verb("lay", Lay, act, say, handles)

"""Lay a strip or a square, raw edges all round."""

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

import msgspec

from piecewright.geometry.motion import STILL
from piecewright.geometry.shapes import Rect
from piecewright.making.cloth import Cloth, Patch
from piecewright.making.edges import box_edge
from piecewright.making.events import Laid, first
from piecewright.making.expressions import Expression
from piecewright.making.steps import MakingStep
from piecewright.making.table import Hand, Outcome
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.words.message import Message, message

Grain = Literal["crosswise", "lengthwise", "bias"]


class Strip(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """The cloth to lay: `length` along x, `width` along y, one strip for each layer of the stack."""

    fabric: str
    width: Expression
    length: Expression
    grain: Grain = "crosswise"
    least: bool = False


class Lay(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "a", "lay": {"fabric": "A", "width": "2 1/2", "length": "39"}}`."""

    lay: Strip


_THREADS: Mapping[Grain, int] = {"crosswise": 90, "lengthwise": 0, "bias": 45}
"""The lengthwise thread of a strip as laid, clockwise degrees from x."""


def act(step: Lay, hand: Hand) -> None:
    """One raw rectangle, home."""
    strip = step.lay
    width, length = hand.length(strip.width, "lay.width"), hand.length(strip.length, "lay.length")
    rect = Rect(Fraction(0), Fraction(0), length, width)
    number = hand.table.strips
    patch = Patch(strip.fabric, 0, number, _THREADS[strip.grain], rect, rect, STILL)
    hand.made[step.make] = (Cloth((patch,), (), rect),)
    laid = Laid(step.make, number, strip.fabric, width, length, strip.grain, strip.least, hand.context.stack)
    hand.events.append(laid)


def say(_step: Lay, hand: Hand) -> Message:
    """Lay a strip of fabric A, 2 1/2 x 39 in cut."""
    laid = first(hand.events, Laid)
    code = "making.say-lay-least" if laid.least else "making.say-lay"
    layers = message("making.in-layers", count=laid.layers) if laid.layers > 1 else message("making.nothing")
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

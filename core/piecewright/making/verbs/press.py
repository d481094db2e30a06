"""Press a seam to one side or open; it makes no piece."""

from typing import Literal

import msgspec

from piecewright.making.events import Pressed
from piecewright.making.steps import Layers, Step
from piecewright.making.table import Hand
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.words.message import Message, message

Toward = Literal["left", "right", "up", "down", "open", "in", "out", "darker"]
_NOT_ACROSS = ("up", "down")
_NOT_DOWN = ("left", "right")


class Pressing(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`seam` is a sewing step's name (all its seams) or `name.k` (its k-th, from 1)."""

    seam: str
    toward: Toward
    layers: Layers | None = None


class Press(Step, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"press": {"seam": "set.1", "toward": "down"}}`."""

    press: Pressing


def act(step: Press, hand: Hand) -> None:
    """Note the decision; every part cut from the seam inherits it."""
    pressing = step.press
    base, dot, number = pressing.seam.partition(".")
    joins = hand.table.joins.get(base)
    if joins is None:
        raise hand.fault("no-seam", "press.seam", message("making.name-sewing"), piece=base)
    axis, count = joins
    join = int(number) if dot else None
    if join is not None and not 1 <= join <= count:
        raise hand.fault(
            "no-join", "press.seam", message("making.joins-are", piece=base, count=count), seam=pressing.seam
        )
    if pressing.toward in (_NOT_ACROSS if axis == "across" else _NOT_DOWN):
        hint = message(f"making.press-{axis}")
        raise hand.fault("press-along", "press.toward", hint, seam=pressing.seam, toward=pressing.toward)
    if pressing.toward in ("in", "out") and join is not None and 2 * join == count + 1:
        hint = message(f"making.press-{axis}")
        raise hand.fault("press-middle", "press.toward", hint, seam=pressing.seam, toward=pressing.toward)
    _check_layers(pressing, hand)
    hand.events.append(Pressed(base, join, pressing.toward, pressing.layers))


def _check_layers(pressing: Pressing, hand: Hand) -> None:
    for index, layer in enumerate(pressing.layers or ()):
        if layer >= hand.context.stack:
            hint = message("making.layers-to", most=hand.context.stack - 1)
            key = f"press.layers[{index}]"
            raise hand.fault("no-layer", key, hint, layer=layer, count=hand.context.stack)


def say(step: Press, _hand: Hand) -> Message:
    """Press the seam set.1 down."""
    pressing = step.press
    layers = (
        message("making.only-layers", count=len(pressing.layers), layers=pressing.layers)
        if pressing.layers
        else message("making.nothing")
    )
    seams = "making.say-press-one" if "." in pressing.seam else "making.say-press-all"
    return message(
        seams, seam=pressing.seam, way=message(f"making.press-way-{pressing.toward}"), layers=layers
    )


PRESS = Verb("press", Press, act, say, no_handles)

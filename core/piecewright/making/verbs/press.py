"""Press a seam to one side or open; it makes no piece."""

from typing import Literal

import msgspec

from piecewright.making.events import Pressed
from piecewright.making.pressing import runs_along
from piecewright.making.steps import Layers, Step, counted
from piecewright.making.table import Hand, Sewn
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.words.message import Message, message

Toward = Literal["left", "right", "up", "down", "open", "in", "out", "darker"]


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
    sewn = hand.table.sewn.get(base)
    if sewn is None:
        raise hand.fault("no-seam", "press.seam", message("making.name-sewing"), piece=base)
    count = len(sewn.lines)
    join = int(number) if dot else None
    if join is not None and not 1 <= join <= count:
        raise hand.fault(
            "no-join", "press.seam", message("making.joins-are", piece=base, count=count), seam=pressing.seam
        )
    if fault := _fault(pressing.toward, join, sewn):
        hint = message(f"making.press-{sewn.axis or 'aside'}")
        raise hand.fault(fault, "press.toward", hint, seam=pressing.seam, toward=pressing.toward)
    _check_layers(pressing, hand)
    hand.events.append(Pressed(base, join, pressing.toward, pressing.layers))


def _fault(toward: str, join: int | None, sewn: Sewn) -> str | None:
    """Why a seam can not be pressed that way."""
    if toward in ("in", "out"):
        middle = join is not None and 2 * join == len(sewn.lines) + 1 and sewn.out is None
        return "press-middle" if middle or not (sewn.axis or sewn.out) else None
    lines = sewn.lines if join is None else sewn.lines[join - 1 : join]
    return "press-along" if any(runs_along(toward, sewn.axis, line) for line in lines) else None


def _check_layers(pressing: Pressing, hand: Hand) -> None:
    for index, layer in enumerate(pressing.layers or ()):
        if layer >= hand.context.stack:
            hint = message("making.layers-to", most=hand.context.stack - 1)
            key = f"press.layers[{index}]"
            raise hand.fault("no-layer", key, hint, layer=layer + 1, count=hand.context.stack)


def say(step: Press, _hand: Hand) -> Message:
    """Press the seam set.1 down."""
    pressing = step.press
    layers = (
        message("making.only-layers", count=len(pressing.layers), layers=counted(pressing.layers))
        if pressing.layers
        else message("making.nothing")
    )
    seams = "making.say-press-one" if "." in pressing.seam else "making.say-press-all"
    return message(
        seams, seam=pressing.seam, way=message(f"making.press-way-{pressing.toward}"), layers=layers
    )


PRESS = Verb("press", Press, act, say, no_handles)

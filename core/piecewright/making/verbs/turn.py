"""Turn a piece by quarter turns, clockwise on screen."""

from typing import Literal

from piecewright.geometry.motion import STILL, Motion
from piecewright.making.cloth import Pile, same_outline, spread, turned, turning
from piecewright.making.events import Moved
from piecewright.making.steps import Layers, MakingStep, Which
from piecewright.making.table import Hand
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.words.message import Message, message


class Turn(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "mid", "turn": "col.2", "by": 180}`; `layers` restricts it to those layers of the stack."""

    turn: str
    by: Literal[90, 180, 270]
    which: Which | None = None
    layers: Layers | None = None


def act(step: Turn, hand: Hand) -> None:
    """The piece turned and moved home, in all layers or some."""
    for index, layer in enumerate(step.layers or ()):
        if layer >= hand.context.stack:
            hint = message("making.layers-to", most=hand.context.stack - 1)
            raise hand.fault("no-layer", f"layers[{index}]", hint, layer=layer, count=hand.context.stack)

    def one(piece: str, made: str, pile: Pile) -> Pile:
        hand.events.append(Moved(piece, made, _motion(pile, step.by // 90), step.layers))
        return _turned(step, pile, hand)

    hand.make_each(step.turn, "turn", step.which, one, "faced")


def _motion(pile: Pile, quarters: int) -> Motion:
    """The turn followed by the move home."""
    return turning(pile[0].box, quarters).motion(STILL)


def _turned(step: Turn, pile: Pile, hand: Hand) -> Pile:
    quarters = step.by // 90
    if step.layers is None:
        return tuple(turned(cloth, quarters) for cloth in pile)
    layers = spread(pile, hand.context.stack)
    result = tuple(
        turned(cloth, quarters) if layer in step.layers else cloth for layer, cloth in enumerate(layers)
    )
    if not all(same_outline(result[0], cloth) for cloth in result[1:]):
        raise hand.fault("outlines-differ", "layers", message("making.turn-all-layers"), by=step.by)
    return result


def say(step: Turn, hand: Hand) -> Message:
    """Turn col.2 end for end."""
    turns = [event for event in hand.events if isinstance(event, Moved)]
    layers = (
        message("making.only-layers", count=len(step.layers), layers=step.layers)
        if step.layers
        else message("making.nothing")
    )
    return message(f"making.say-turn-{step.by}", pieces=tuple(event.piece for event in turns), layers=layers)


TURN = Verb("turn", Turn, act, say, no_handles)

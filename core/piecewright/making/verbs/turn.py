"""Turn a piece, clockwise on screen: by degrees, or until an edge of it lies level."""

from piecewright.geometry.motion import STILL, Motion, split_turn
from piecewright.making.cloth import Cloth, Pile, carried_cloth, home, same_outline, spread, turned, turning
from piecewright.making.edges import SIDE_DEGREES, facing, outward_degrees
from piecewright.making.events import Moved
from piecewright.making.steps import Layers, MakingStep, Side, Turning, Which, counted
from piecewright.making.table import Hand
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.words.message import Message, message


class Turn(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "mid", "turn": "col.2", "by": 180}`; `layers` restricts it to those layers of the stack.

    In place of `by`, `level` names the side on which an edge, slanted before, is to lie level or upright.
    """

    turn: str
    by: Turning | None = None
    level: Side | None = None
    which: Which | None = None
    layers: Layers | None = None


def act(step: Turn, hand: Hand) -> None:
    """The piece turned and moved home, in all layers or some."""
    if (step.by is None) == (step.level is None):
        raise hand.fault("turn-how", "turn", message("making.turn-one-way"))
    for index, layer in enumerate(step.layers or ()):
        if layer >= hand.context.stack:
            hint = message("making.layers-to", most=hand.context.stack - 1)
            raise hand.fault("no-layer", f"layers[{index}]", hint, layer=layer + 1, count=hand.context.stack)

    def one(piece: str, made: str, pile: Pile) -> Pile:
        if pile[0].flap and (step.level or step.layers or split_turn(step.by or 0)[1]):
            raise hand.fault("still-partial", "turn", message("making.quarters-or-finish"), piece=piece)
        quarters, rest = split_turn(_degrees(step, pile[0], piece, hand))
        hand.events.append(Moved(piece, made, _motion(pile[0], quarters, rest), step.layers))
        return _turned(step, pile, (quarters, rest), hand)

    hand.make_each(step.turn, "turn", step.which, one, "faced", "partial")


def _degrees(step: Turn, cloth: Cloth, piece: str, hand: Hand) -> float:
    """How far to turn."""
    if step.level is None:
        return step.by or 0
    edge = facing(cloth, step.level)
    if edge is None:
        hint = message("making.level-other")
        raise hand.fault("level-nothing", "level", hint, piece=piece, side=step.level)
    return SIDE_DEGREES[step.level] - outward_degrees(edge)


def _motion(cloth: Cloth, quarters: int, rest: float) -> Motion:
    """The turn followed by the move home."""
    if not rest:
        return turning(cloth.box, quarters).motion(STILL)
    turn = Motion(quarters, rest)
    box = carried_cloth(cloth, turn).box
    return turn.moved(-box.left, -box.top)


def _turned(step: Turn, pile: Pile, turn: tuple[int, float], hand: Hand) -> Pile:
    if step.layers is None:
        return tuple(_lying(cloth, *turn) for cloth in pile)
    (layers,) = hand.evened([spread(pile, hand.context.stack)])
    result = tuple(
        _lying(cloth, *turn) if layer in step.layers else cloth for layer, cloth in enumerate(layers)
    )
    if not all(same_outline(result[0], cloth) for cloth in result[1:]):
        degrees = f"{turn[0] * 90 + turn[1]:g}"
        raise hand.fault("outlines-differ", "layers", message("making.turn-all-layers"), by=degrees)
    return result


def _lying(cloth: Cloth, quarters: int, rest: float) -> Cloth:
    """A cloth turned and home; exactly where it turns by quarters."""
    return home(carried_cloth(cloth, Motion(quarters, rest))) if rest else turned(cloth, quarters)


def say(step: Turn, hand: Hand) -> Message:
    """Turn col.2 end for end; or: Turn p.1 by 30 degrees clockwise, so that its slanted edge lies level on top."""
    turns = [event for event in hand.events if isinstance(event, Moved)]
    pieces = tuple(event.piece for event in turns)
    layers = (
        message("making.only-layers", count=len(step.layers), layers=counted(step.layers))
        if step.layers
        else message("making.nothing")
    )
    if step.level is not None:
        way = message(f"making.level-{step.level}")
        found = tuple(message("making.turned-by", by=event.motion.turn_degrees) for event in turns)
        degrees = tuple(dict.fromkeys(found))
        return message("making.say-turn-level", pieces=pieces, degrees=degrees, way=way, layers=layers)
    quarters, rest = split_turn(step.by or 0)
    if rest:
        return message("making.say-turn-by", pieces=pieces, by=float(step.by or 0), layers=layers)
    return message(f"making.say-turn-{90 * quarters}", pieces=pieces, layers=layers)


TURN = Verb("turn", Turn, act, say, no_handles)

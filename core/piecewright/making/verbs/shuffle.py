"""Shuffle a pile: move its top layers to the bottom."""

from piecewright.making.cloth import Pile, lowered
from piecewright.making.events import Restacked
from piecewright.making.steps import Layer, MakingStep, Which
from piecewright.making.table import Hand
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.words.message import Message, message


class Shuffle(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "right", "shuffle": "part.2", "by": 1}`."""

    shuffle: str
    by: Layer
    which: Which | None = None


def act(step: Shuffle, hand: Hand) -> None:
    """Layer j now holds what was layer (j + by) mod stack; the frame is kept."""
    stack = hand.context.stack
    if step.by >= stack:
        hint = message("making.shuffle-to", most=stack - 1) if stack > 1 else message("making.needs-stack")
        raise hand.fault("shuffle-too-far", "by", hint, by=step.by, stack=stack)

    def one(piece: str, made: str, pile: Pile) -> Pile:
        hand.events.append(Restacked(piece, made, step.by))
        return restacked(pile, step.by, stack)

    hand.make_each(step.shuffle, "shuffle", step.which, one, "faced", "tube", "partial")


def restacked(pile: Pile, by: int, stack: int) -> Pile:
    """The pile with its top `by` layers moved to the bottom; fabrics are still found by counting down from a layer."""
    if not by:
        return pile
    order = pile if len(pile) == 1 else pile[by:] + pile[:by]
    return tuple(lowered(cloth, by, stack) for cloth in order)


def say(step: Shuffle, hand: Hand) -> Message:
    """Shuffle part.2: move its top layer to the bottom."""
    pieces = tuple(event.piece for event in hand.events if isinstance(event, Restacked))
    return message("making.say-shuffle", pieces=pieces, count=step.by)


SHUFFLE = Verb("shuffle", Shuffle, act, say, no_handles)

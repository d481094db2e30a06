"""Sew pieces edge to edge, right sides together, one seam allowance inside each raw edge."""

from typing import Annotated, Literal

import msgspec

from piecewright.making.cloth import Pile, even
from piecewright.making.events import Joined, first
from piecewright.making.expressions import Expression
from piecewright.making.joining import Joint, Plan, join
from piecewright.making.steps import Axis, MakingStep, Which
from piecewright.making.table import WILDCARD, Hand, Outcome, Sewn
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

Align = Literal["centre", "start", "end"]


class Sew(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "set", "sew": ["a", "b"], "axis": "down"}`; `which` picks among the parts of a wildcard."""

    sew: Annotated[tuple[str, ...], msgspec.Meta(min_length=1)]
    axis: Axis
    align: Align | None = None
    step: Expression | None = None
    match: Literal["points"] | None = None
    which: Which | None = None


def act(step: Sew, hand: Hand) -> None:
    """The pieces become one; where layers are unlike, one for each layer."""
    piles = _take(step, hand)
    shift = None if step.step is None else hand.value(step.step, "step")
    if step.match and (step.align or step.step):
        raise hand.fault("match-alone", "match", message("making.leave-align-out"))
    plan = Plan(tuple(piles), step.axis, hand.context.depth, step.align, shift, step.match is not None)
    layers = even(list(piles.values()), hand.context.stack)
    joints = [join(cloths, plan, hand) for cloths in zip(*layers, strict=True)]
    hand.made[step.make] = tuple(joint.cloth for joint in joints)
    hand.sewn[step.make] = Sewn(joints[0].lines, step.axis)
    hand.events.append(_joined(joints, plan, hand))


def _take(step: Sew, hand: Hand) -> dict[str, Pile]:
    names: list[tuple[str, str]] = []
    for index, name in enumerate(step.sew):
        parts = hand.wildcard(name, f"sew[{index}]")
        chosen = hand.picked(parts, step.which) if name.endswith(WILDCARD) else parts
        names += [(part, f"sew[{index}]") for part in chosen]
    if len(names) < 2:
        raise hand.fault("sew-one", "sew", message("making.name-two"), count=len(names))
    return {name: hand.take(name, key) for name, key in names}


def _joined(joints: list[Joint], plan: Plan, hand: Hand) -> Joined:
    first = joints[0]
    plain = plan.align in (None, "centre") and not plan.step and not plan.match and not first.eased
    return Joined(
        hand.name,
        plan.names,
        plan.axis,
        first.moves,
        first.lines,
        first.cloth.box,
        first.eased,
        first.stand_out,
        plain,
        tuple(joint.scraps for joint in joints),
    )


def say(step: Sew, hand: Hand) -> Message:
    """Sew a and b, each below the one before: 40 1/2 x 4 1/2 in unfinished."""
    joined = first(hand.events, Joined)
    return message(
        f"making.say-sew-{joined.axis}",
        pieces=joined.pieces,
        made=joined.piece,
        size=Unfinished(joined.size.width, joined.size.height),
        how=_how(step, joined, hand),
    )


def _how(step: Sew, joined: Joined, hand: Hand) -> Message:
    if step.match:
        return message("making.matched", apart=joined.stand_out)
    if step.step is not None:
        return message("making.stepped", step=hand.value(step.step, "step"))
    if step.align in ("start", "end"):
        return message(f"making.even-{step.align}-{step.axis}")
    return message("making.nothing")


def handles(step: Sew, outcome: Outcome) -> tuple[Handle, ...]:
    """Where pieces are stepped, the first seam is dragged along itself."""
    if step.step is None:
        return ()
    seam = first(outcome.events, Joined).lines[0]
    toward = (0, 1) if step.axis == "across" else (1, 0)
    return (Handle(Place(outcome.step_index, "step"), step.make, seam, toward),)


SEW = Verb("sew", Sew, act, say, handles)

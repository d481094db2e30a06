"""Sew pieces edge to edge, right sides together, one seam allowance inside each raw edge."""

from collections.abc import Iterator
from functools import reduce
from typing import Annotated, Literal

import msgspec

from piecewright.making.cloth import Pile
from piecewright.making.edge_joining import join_edges
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
    """`{"make": "set", "sew": ["a", "b"], "axis": "down"}`; `which` picks among the parts of a wildcard.

    `edge`: the seams run along the edges that the last slice or leaning cut made; `flush` trims ends even.
    """

    sew: Annotated[tuple[str, ...], msgspec.Meta(min_length=1)]
    axis: Axis
    align: Align | None = None
    step: Expression | None = None
    match: Literal["points"] | None = None
    edge: Literal["cut"] | None = None
    flush: bool = False
    which: Which | None = None


def act(step: Sew, hand: Hand) -> None:
    """The pieces become one; where layers are unlike, one for each layer."""
    piles = _take(step, hand)
    shift = None if step.step is None else hand.value(step.step, "step")
    if step.match and (step.align or step.step or step.edge or step.flush):
        raise hand.fault("match-alone", "match", message("making.leave-align-out"))
    matched, flush = step.match is not None, step.flush
    plan = Plan(tuple(piles), step.axis, hand.context.depth, step.align, shift, matched, flush)
    layers = hand.evened(list(piles.values()))
    sewing = join_edges if step.edge else join
    joints = [sewing(cloths, plan, hand) for cloths in zip(*layers, strict=True)]
    hand.made[step.make] = tuple(joint.cloth for joint in joints)
    hand.sewn[step.make] = Sewn(joints[0].lines, None if step.edge else step.axis)
    hand.events.append(_joined(joints, plan, step.edge is not None, hand))


def _take(step: Sew, hand: Hand) -> dict[str, Pile]:
    names: list[tuple[str, str]] = []
    for index, name in enumerate(step.sew):
        parts = hand.wildcard(name, f"sew[{index}]")
        chosen = hand.picked(parts, step.which) if name.endswith(WILDCARD) else parts
        names += [(part, f"sew[{index}]") for part in chosen]
    if len(names) < 2:
        raise hand.fault("sew-one", "sew", message("making.name-two"), count=len(names))
    return {name: hand.take(name, key) for name, key in names}


def _joined(joints: list[Joint], plan: Plan, by_edges: bool, hand: Hand) -> Joined:
    first = joints[0]
    special = plan.step or plan.match or plan.flush or by_edges or first.eased
    plain = plan.align in (None, "centre") and not special
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
    size = Unfinished(joined.size.width, joined.size.height)
    how = reduce(_both, _how(step, joined, hand), message("making.nothing"))
    if step.edge:
        return message("making.say-sew-edge", pieces=joined.pieces, made=joined.piece, size=size, how=how)
    return message(
        f"making.say-sew-{joined.axis}", pieces=joined.pieces, made=joined.piece, size=size, how=how
    )


def _both(one: Message, other: Message) -> Message:
    return message("making.both", one=one, other=other)


def _how(step: Sew, joined: Joined, hand: Hand) -> Iterator[Message]:
    """What else is to be minded, each thing after a comma."""
    if step.match:
        yield message("making.matched", apart=joined.stand_out)
    if step.edge and step.align in ("start", "end"):
        yield message(f"making.even-{step.align}-edge")
    elif step.align in ("start", "end") and step.step is None:
        yield message(f"making.even-{step.align}-{step.axis}")
    if step.step is not None:
        yield message("making.stepped", step=hand.value(step.step, "step"))
    if step.flush:
        yield message("making.flush", first=joined.pieces[0])


def handles(step: Sew, outcome: Outcome) -> tuple[Handle, ...]:
    """Where pieces are stepped, the first seam is dragged along itself."""
    if step.step is None:
        return ()
    seam = first(outcome.events, Joined).lines[0]
    toward: tuple[float, float] = (0, 1) if step.axis == "across" else (1, 0)
    if step.edge:
        length = float(seam.length)
        toward = float(seam.end[0] - seam.start[0]) / length, float(seam.end[1] - seam.start[1]) / length
    return (Handle(Place(outcome.step_index, "step"), step.make, seam, toward),)


SEW = Verb("sew", Sew, act, say, handles)

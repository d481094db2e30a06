"""Sew pieces edge to edge, right sides together, one seam allowance inside each raw edge."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import reduce
from typing import Annotated, Literal

import msgspec

from piecewright.geometry.shapes import Segment
from piecewright.making.cloth import Cloth, Pile
from piecewright.making.drawn_lines import End
from piecewright.making.edge_joining import join_edges
from piecewright.making.edges import OUTWARD
from piecewright.making.events import Joined, first
from piecewright.making.expressions import Expression
from piecewright.making.joining import Joint, Plan, join
from piecewright.making.leaving import leave_open, open_stretch
from piecewright.making.steps import Axis, MakingStep, Which
from piecewright.making.table import WILDCARD, Hand, Outcome, Sewn
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

Align = Literal["centre", "start", "end"]
_PAIR = 2


class Sew(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "set", "sew": ["a", "b"], "axis": "down"}`; `which` picks among the parts of a wildcard.

    `edge`: the seams run along the edges that the last slice or leaning cut made; `flush` trims ends even; `leave`: a
    partial seam, open for a length from its end at a side.
    """

    sew: Annotated[tuple[str, ...], msgspec.Meta(min_length=1)]
    axis: Axis
    align: Align | None = None
    step: Expression | None = None
    match: Literal["points"] | None = None
    edge: Literal["cut"] | None = None
    flush: bool = False
    leave: End | None = None
    which: Which | None = None


def act(step: Sew, hand: Hand) -> None:
    """The pieces become one; where layers are unlike, one for each layer."""
    piles = _take(step, hand)
    shift = None if step.step is None else hand.value(step.step, "step")
    if step.match and (step.align or step.step or step.edge or step.flush):
        raise hand.fault("match-alone", "match", message("making.leave-align-out"))
    _check_partial(step, piles, hand)
    matched, flush = step.match is not None, step.flush
    plan = Plan(tuple(piles), step.axis, hand.context.depth, _align(step), shift, matched, flush)
    layers = hand.evened(list(piles.values()))
    sewing = join_edges if step.edge else join if step.leave is None else _leaving(step.leave, hand)
    joints = [sewing(cloths, plan, hand) for cloths in zip(*layers, strict=True)]
    hand.made[step.make] = tuple(joint.cloth for joint in joints)
    hand.sewn[step.make] = Sewn(joints[0].lines, None if step.edge else step.axis)
    hand.events.append(_joined(joints, plan, step, hand))


def _leaving(leave: End, hand: Hand) -> Callable[[Sequence[Cloth], Plan, Hand], Joint]:
    length = hand.value(leave[1], "leave[1]")
    return lambda cloths, plan, hand: leave_open(cloths, plan, (leave[0], length), hand)


def _align(step: Sew) -> Align | None:
    """Which ends are even; where a seam is left open and nothing is said, those at its other end."""
    if step.leave is None or step.align or step.step is not None:
        return step.align
    return "end" if step.leave[0] in ("left", "top") else "start"


def _check_partial(step: Sew, piles: Mapping[str, Pile], hand: Hand) -> None:
    """Raise where a seam is left open, or was before, and the pieces can not be sewn so."""
    special = step.match or step.edge or step.flush
    partial = [name for name, pile in piles.items() if pile[0].state]
    if step.leave is not None:
        sides = ("left", "right") if step.axis == "down" else ("top", "bottom")
        if step.leave[0] not in sides:
            hint = message("making.leave-at", one=sides[0], other=sides[1])
            raise hand.fault("leave-side", "leave[0]", hint, side=step.leave[0])
        if len(piles) != _PAIR:
            raise hand.fault("leave-two", "leave", message("making.sew-two"), count=len(piles))
        if special:
            raise hand.fault("leave-plain", "leave", message("making.leave-special-out"))
    if not partial:
        return
    if len(piles) != _PAIR or len(partial) == _PAIR:
        raise hand.fault("partial-one", "sew", message("making.one-more-piece"), piece=partial[0])
    if step.match or step.edge or step.leave or (step.flush and next(iter(piles)) != partial[0]):
        raise hand.fault("partial-plain", "sew", message("making.end-partial"), piece=partial[0])


def _take(step: Sew, hand: Hand) -> dict[str, Pile]:
    names: list[tuple[str, str]] = []
    for index, name in enumerate(step.sew):
        parts = hand.wildcard(name, f"sew[{index}]")
        chosen = hand.picked(parts, step.which) if name.endswith(WILDCARD) else parts
        names += [(part, f"sew[{index}]") for part in chosen]
    if len(names) < 2:
        raise hand.fault("sew-one", "sew", message("making.name-two"), count=len(names))
    return {name: hand.take(name, key, "partial") for name, key in names}


def _joined(joints: list[Joint], plan: Plan, step: Sew, hand: Hand) -> Joined:
    first = joints[0]
    flap = first.cloth.flap
    special = plan.step or plan.match or plan.flush or step.edge or first.eased or flap
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
        open_stretch(first.lines[0], flap) if step.leave and flap else None,
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
    align = _align(step)
    if step.edge and align in ("start", "end"):
        yield message(f"making.even-{align}-edge")
    elif align in ("start", "end") and step.step is None:
        yield message(f"making.even-{align}-{step.axis}")
    if step.step is not None:
        shift = hand.value(step.step, "step")
        yield message("making.stepped-back" if shift < 0 else "making.stepped", step=abs(shift))
    if step.flush:
        yield message("making.flush", first=joined.pieces[0])
    if step.leave is not None:
        length = hand.value(step.leave[1], "leave[1]")
        yield message(f"making.left-open-{step.leave[0]}", length=length)


def handles(step: Sew, outcome: Outcome) -> tuple[Handle, ...]:
    """Where pieces are stepped, the first seam is dragged along itself; where one is left open, its end of stitches."""
    found = tuple(_leave_handle(step, step.leave, outcome)) if step.leave else ()
    return found if step.step is None else (_step_handle(step, outcome), *found)


def _leave_handle(step: Sew, leave: End, outcome: Outcome) -> Iterator[Handle]:
    left_open = first(outcome.events, Joined).left_open
    if left_open is not None:
        x, y = OUTWARD[leave[0]]
        end = Segment(left_open.end, left_open.end)
        yield Handle(Place(outcome.step_index, "leave", 1), step.make, end, (-x, -y))


def _step_handle(step: Sew, outcome: Outcome) -> Handle:
    seam = first(outcome.events, Joined).lines[0]
    toward: tuple[float, float] = (0, 1) if step.axis == "across" else (1, 0)
    if step.edge:
        length = float(seam.length)
        toward = float(seam.end[0] - seam.start[0]) / length, float(seam.end[1] - seam.start[1]) / length
    return Handle(Place(outcome.step_index, "step"), step.make, seam, toward)


SEW = Verb("sew", Sew, act, say, handles)

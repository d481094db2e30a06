"""Face two pieces: lay one face down on the other, edge to edge, and sew both together on drawn lines."""

from collections.abc import Iterator
from fractions import Fraction
from math import hypot
from typing import Annotated

import msgspec

from piecewright.geometry.motion import Motion
from piecewright.geometry.shapes import Segment
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Cloth, Over, Seam, carried_cloth, home, same_outline
from piecewright.making.drawn_lines import End, chords, drawn_line, rise_of, run_of
from piecewright.making.events import Faced, first
from piecewright.making.expressions import Expression
from piecewright.making.steps import MakingStep
from piecewright.making.table import Hand, Outcome
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message


class SewnLine(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """A line from side to side to sew on; with `beside`, sewn that far from it on both its sides."""

    from_: End = msgspec.field(name="from")
    to: End
    beside: Expression | None = None


class Face(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "pair", "face": ["a", "b"], "seams": [{"from": ["top", "0"], "to": ["bottom", "5"]}]}`."""

    face: tuple[str, str]
    seams: Annotated[tuple[SewnLine, ...], msgspec.Meta(min_length=1, max_length=20)]


def act(step: Face, hand: Hand) -> None:
    """The two pieces as one, in the frame of the first, moved home."""
    one, other = (hand.take(name, f"face[{index}]") for index, name in enumerate(step.face))
    unders, overs = hand.evened([one, other])
    came = Motion(faced=True, dx=overs[0].box.width)
    drawn = [_drawn(sewn, home(unders[0]), index, hand) for index, sewn in enumerate(step.seams)]
    pile = [_faced(*cloths, came, drawn, step, hand) for cloths in zip(unders, overs, strict=True)]
    hand.made[step.make] = tuple(pile)
    over = pile[0].over
    stitches = tuple(seam.line for seam in over.stitches) if over else ()
    hand.events.append(Faced(step.face, step.make, came, tuple(line for line, _ in drawn), stitches))


_Drawn = tuple[Segment, Fraction | None]
"""A line drawn on a piece, and how far beside it on both sides it is sewn (None: on the line itself)."""


def _drawn(sewn: SewnLine, cloth: Cloth, index: int, hand: Hand) -> _Drawn:
    keys = (f"seams[{index}].from", f"seams[{index}].to")
    line = drawn_line(cloth, (sewn.from_, sewn.to), keys, hand)
    if line.length <= ALIKE:
        raise hand.fault("seam-off", f"seams[{index}]", message("making.move-seam"), piece=hand.name)
    return line, None if sewn.beside is None else hand.length(sewn.beside, f"seams[{index}].beside")


def _faced(one: Cloth, other: Cloth, came: Motion, drawn: list[_Drawn], step: Face, hand: Hand) -> Cloth:
    """One layer's two pieces, edge to edge."""
    under, over = home(one), carried_cloth(home(other), came)
    if not same_outline(under, over):
        names = {"one": step.face[0], "other": step.face[1]}
        sizes = {"first": _size(under), "second": _size(over)}
        raise hand.fault("outlines-unlike", "face", message("making.square-alike-first"), **names, **sizes)
    lines = [line for index, seam in enumerate(drawn) for line in _stitches(under, seam, index, hand)]
    seams = (Seam(step.make, number, 0, 0, line) for number, line in enumerate(lines, start=1))
    return msgspec.structs.replace(under, over=Over(over.patches, over.seams, tuple(seams)))


def _size(cloth: Cloth) -> Unfinished:
    return Unfinished(cloth.box.width, cloth.box.height)


def _stitches(cloth: Cloth, drawn: _Drawn, index: int, hand: Hand) -> Iterator[Segment]:
    """The stretches of cloth that are sewn for one drawn line, each from edge to edge."""
    line, beside = drawn
    for by in (Fraction(0),) if beside is None else (-beside, beside):
        found = chords(cloth, _moved_aside(line, by))
        key = f"seams[{index}]"
        if not found:
            raise hand.fault("seam-off", key, message("making.move-seam"), piece=hand.name)
        if len(found) > 1:
            raise hand.fault("seam-broken", key, message("making.square-it-first"), piece=hand.name)
        yield found[0]


def _moved_aside(drawn: Segment, by: Fraction) -> Segment:
    """A line moved square to itself; exact where it is level or upright."""
    run, rise = run_of(drawn), rise_of(drawn)
    if not by:
        return drawn
    if not run:
        return drawn.moved(-by if rise > 0 else by, Fraction(0))
    if not rise:
        return drawn.moved(Fraction(0), by if run > 0 else -by)
    length = hypot(run, rise)
    return drawn.moved(-rise / length * float(by), run / length * float(by))


def say(step: Face, hand: Hand) -> Message:
    """Lay b face down on a, edges even, and sew both together 1/4 in on both sides of the line from ... to ...."""
    lines = tuple(_said(sewn, index, hand) for index, sewn in enumerate(step.seams))
    event = first(hand.events, Faced)
    return message("making.say-face", one=event.pieces[0], other=event.pieces[1], lines=lines)


def _said(sewn: SewnLine, index: int, hand: Hand) -> Message:
    ends = {
        key: message(f"making.on-{end[0]}", distance=hand.value(end[1], f"seams[{index}]"))
        for key, end in (("start", sewn.from_), ("end", sewn.to))
    }
    if sewn.beside is None:
        return message("making.sewn-on", **ends)
    return message("making.sewn-beside", beside=hand.value(sewn.beside, f"seams[{index}]"), **ends)


def handles(step: Face, outcome: Outcome) -> tuple[Handle, ...]:
    """Either end of each drawn line may be dragged along its side."""
    found = []
    for index, (sewn, line) in enumerate(zip(step.seams, first(outcome.events, Faced).drawn, strict=True)):
        for key, side, point in (("from", sewn.from_[0], line.start), ("to", sewn.to[0], line.end)):
            toward = (1, 0) if side in ("top", "bottom") else (0, 1)
            place = Place(outcome.step_index, f"seams[{index}].{key}", 1)
            found.append(Handle(place, step.make, Segment(point, point), toward))
    return tuple(found)


FACE = Verb("face", Face, act, say, handles)

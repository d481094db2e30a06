"""Sews two pieces by a partial seam: open for a length at one end, where the piece that stands out is folded back."""

from collections.abc import Sequence
from dataclasses import replace

from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Placing, Segment
from piecewright.geometry.tolerance import alike
from piecewright.making.cloth import Cloth, Flap, Seam
from piecewright.making.edges import OUTWARD
from piecewright.making.joining import Joint, Plan, join
from piecewright.making.steps import Side
from piecewright.making.table import Hand
from piecewright.words.message import message


def leave_open(cloths: Sequence[Cloth], plan: Plan, leave: tuple[Side, Number], hand: Hand) -> Joint:
    """Sew two cloths of one layer, all but a length from a side. Raises MakingError where that can not be.

    The piece that stands out there becomes the flap.
    """
    joint = join(cloths, plan, hand)
    line = joint.lines[0]
    _check_length(leave[1], line.length, hand)
    sewn = _stitched(line, leave)
    placings = [Placing(0, move.dx, move.dy) for move in joint.moves]
    first, second = (
        Cloth(
            tuple(patch.placed(placing) for patch in cloth.patches),
            tuple(seam.placed(placing) for seam in cloth.seams),
            cloth.box.placed(placing),
        )
        for cloth, placing in zip(cloths, placings, strict=True)
    )
    body, over = (first, second) if _first_is_body(first, second, leave[0], plan, hand) else (second, first)
    # whoever walks to the right has what lies below on the right hand, whoever walks down what lies left
    backward = leave[0] in ("right", "bottom")
    on_right = (over is (second if plan.axis == "down" else first)) != backward
    flap = Flap(over.patches, over.seams, Seam(hand.name, 1, 0, 0, sewn), on_right)
    partial = Cloth(body.patches, body.seams, joint.cloth.box, whole=False, flap=flap)
    return replace(joint, cloth=partial)


def _check_length(length: Number, seam: Number, hand: Hand) -> None:
    """Some of the seam stays open beyond the allowance, and some is sewn."""
    least, most = hand.context.depth, seam - hand.context.depth
    if most <= least:
        raise hand.fault("leave-short", "leave", message("making.sew-whole"), seam=seam)
    if not least < length < most:
        hint = message("making.leave-between", least=least, most=most)
        raise hand.fault("leave-length", "leave[1]", hint, length=length, seam=seam)


def _stitched(line: Segment, leave: tuple[Side, Number]) -> Segment:
    """What of a seam is sewn, from where the stitches stop."""
    start, end = _from_side(line, leave[0])
    x, y = OUTWARD[leave[0]]
    return Segment((start[0] - x * leave[1], start[1] - y * leave[1]), end)


def _from_side(line: Segment, side: Side) -> tuple[tuple[Number, Number], tuple[Number, Number]]:
    """The ends of a line, that at a side first."""
    ends = sorted((line.start, line.end))
    return (ends[0], ends[1]) if side in ("left", "top") else (ends[1], ends[0])


def open_stretch(line: Segment, flap: Flap) -> Segment:
    """What of a whole seam a partial one leaves open, from its open end on."""
    stop, sewn_end = flap.seam.line.start, flap.seam.line.end
    return Segment(line.start if line.end == sewn_end else line.end, stop)


def _first_is_body(first: Cloth, second: Cloth, side: Side, plan: Plan, hand: Hand) -> bool:
    """Whether it is the second that stands out at a side. Raises where both end alike there."""
    reach = [_reach(cloth, side) for cloth in (first, second)]
    if alike(*reach):
        names = {"one": plan.names[0], "other": plan.names[1], "side": side}
        raise hand.fault("leave-even", "leave", message("making.stand-out"), **names)
    return reach[1] > reach[0]


def _reach(cloth: Cloth, side: Side) -> Number:
    """How far a piece reaches toward a side."""
    box = cloth.box
    found: dict[Side, Number] = {
        "left": -box.left,
        "right": box.right,
        "top": -box.top,
        "bottom": box.bottom,
    }
    return found[side]

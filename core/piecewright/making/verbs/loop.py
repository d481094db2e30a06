"""Sew a piece into a tube: one of its ends to the opposite one."""

from fractions import Fraction

from piecewright.geometry.half import beyond, up_to
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Placing, Rect, Segment
from piecewright.making.cloth import Cloth, Pile, Seam, clipped_seams, hidden, home
from piecewright.making.edges import box_edge
from piecewright.making.events import Looped
from piecewright.making.steps import Axis, MakingStep, Which
from piecewright.making.table import Hand, Sewn
from piecewright.making.verbs.verb import Verb, no_handles
from piecewright.words.message import Message, message


class Loop(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`{"make": "tube", "loop": "set", "axis": "down"}`; `which` picks among the parts of a wildcard."""

    loop: str
    axis: Axis
    which: Which | None = None


def act(step: Loop, hand: Hand) -> None:
    """The piece lying flat as it was, without its two allowances; the seam is its right or lower edge."""
    lines: list[Segment] = []

    def one(piece: str, made: str, pile: Pile) -> Pile:
        tubes = tuple(_closed(cloth, step.axis, len(lines) + 1, piece, hand) for cloth in pile)
        lines.append(_closing(tubes[0].box, step.axis))
        hand.events.append(Looped(piece, made, step.axis, lines[-1]))
        return tubes

    hand.make_each(step.loop, "loop", step.which, one)
    hand.sewn[step.make] = Sewn(tuple(lines), step.axis)


def _closed(cloth: Cloth, axis: Axis, join: int, piece: str, hand: Hand) -> Cloth:
    """One layer's tube."""
    if not cloth.whole:
        raise hand.fault("loop-ragged", "loop", message("making.square-first", piece=piece), piece=piece)
    flat = home(cloth)
    along, depth = (0 if axis == "across" else 1), hand.context.depth
    length: Number = flat.box.height if along else flat.box.width
    patches, seams = list(flat.patches), list(flat.seams)
    for half in (beyond(along, depth), up_to(along, length - depth)):
        patches, lost = hidden(patches, half)
        seams = clipped_seams(seams, half)
        if lost:
            hint = message("making.wider-than-seam", width=2 * depth)
            raise hand.fault("no-seen-width", "loop", hint, piece=piece, fabric=lost[0].letter)
    back = Placing(0, 0 if along else -depth, -depth if along else 0)
    zero, round_ = Fraction(0), length - 2 * depth
    box = Rect(zero, zero, flat.box.right if along else round_, round_ if along else flat.box.bottom)
    placed = [seam.placed(back) for seam in seams]
    placed.append(Seam(hand.name, join, 0, 0, _closing(box, axis)))
    return Cloth(tuple(patch.placed(back) for patch in patches), tuple(placed), box, loop=axis)


def _closing(box: Rect, axis: Axis) -> Segment:
    """Where the seam of a tube lies, flat: its right edge, or its lower one."""
    return box_edge(box, "right" if axis == "across" else "bottom")


def say(step: Loop, hand: Hand) -> Message:
    """Sew the top and the bottom of set together: a tube 12 in round."""
    loops = [event for event in hand.events if isinstance(event, Looped)]
    boxes = [hand.made[event.made][0].box for event in loops]
    rounds = dict.fromkeys(box.height if step.axis == "down" else box.width for box in boxes)
    pieces = tuple(event.piece for event in loops)
    return message(f"making.say-loop-{step.axis}", pieces=pieces, count=len(pieces), rounds=tuple(rounds))


LOOP = Verb("loop", Loop, act, say, no_handles)

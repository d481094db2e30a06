"""Square a piece up: trim it to an exact rectangle."""

from fractions import Fraction
from typing import Literal, NamedTuple

import msgspec

from piecewright.geometry import polygons
from piecewright.geometry.motion import Number
from piecewright.geometry.shapes import Rect
from piecewright.geometry.tolerance import ALIKE, passes
from piecewright.making.cloth import Cloth, Pile, Scrap, fills, halves, moved, parted, scraps_of
from piecewright.making.edges import box_edge
from piecewright.making.events import Trimmed, first
from piecewright.making.expressions import Expression
from piecewright.making.limits import EDGE_WORK
from piecewright.making.steps import MakingStep, Which
from piecewright.making.table import Hand, Outcome
from piecewright.making.verbs.verb import Handle, Place, Verb
from piecewright.units.rounding import down_to
from piecewright.units.sizes import Unfinished
from piecewright.words.message import Message, message

From = Literal["centre", "top left", "top right", "bottom left", "bottom right"]
FIT = "fit"
_EIGHTH = Fraction(1, 8)
_FINEST = 64


class Square(MakingStep, frozen=True, forbid_unknown_fields=True, kw_only=True, omit_defaults=True):
    """`width` and `height` are lengths, or both the word "fit" (then `step` and `shape` may be given)."""

    square: str
    width: Expression
    height: Expression
    from_: From | None = msgspec.field(name="from", default=None)
    step: Expression | None = None
    shape: Literal["square"] | None = None
    which: Which | None = None


def act(step: Square, hand: Hand) -> None:
    """The rectangle, home, of exactly the size asked for."""
    fit = _is_fit(step, hand)

    def one(piece: str, made: str, pile: Pile) -> Pile:
        target = _fitted(step, pile[0], hand) if fit else _placed(step, pile[0], piece, hand)
        trimmed = [_trimmed(cloth, target, piece, hand) for cloth in pile]
        scraps = tuple(tuple(scraps) for _, scraps in trimmed)
        hand.events.append(Trimmed(piece, made, target.rect, target.size, scraps))
        return tuple(cloth for cloth, _ in trimmed)

    hand.make_each(step.square, "square", step.which, one, "faced")


class _Target(NamedTuple):
    """What is to stay of a piece, in its frame, and its exact size."""

    rect: Rect
    size: Unfinished


def _target(left: Number, top: Number, width: Fraction, height: Fraction) -> _Target:
    return _Target(Rect(left, top, left + width, top + height), Unfinished(width, height))


def _is_fit(step: Square, hand: Hand) -> bool:
    words = [length.text.strip() == FIT for length in (step.width, step.height)]
    if words[0] != words[1]:
        raise hand.fault("fit-both", "height" if words[0] else "width", message("making.write-fit-twice"))
    for key, given in (("step", step.step), ("shape", step.shape)):
        if given is not None and not words[0]:
            raise hand.fault("only-with-fit", key, message("making.write-fit-twice"), key=key)
    if words[0] and step.from_ is not None:
        raise hand.fault("fit-finds-place", "from", message("making.leave-from-out"))
    return words[0]


def _placed(step: Square, cloth: Cloth, piece: str, hand: Hand) -> _Target:
    """The rectangle asked for, in the middle of the piece's box or in a corner."""
    width, height = hand.length(step.width, "width"), hand.length(step.height, "height")
    box = cloth.box
    for key, wanted, there in (("width", width, box.width), ("height", height, box.height)):
        if passes(wanted, there):
            hint = message("making.square-at-most", most=there)
            raise hand.fault("square-short", key, hint, piece=piece, wanted=wanted, there=there)
    across, down = _spare(box.width, width), _spare(box.height, height)
    start = step.from_ or "centre"
    if start == "centre":
        left, top = box.left + across / 2, box.top + down / 2
    else:
        left = box.left + (across if start.endswith("right") else 0)
        top = box.top + (down if start.startswith("bottom") else 0)
    return _target(left, top, width, height)


def _spare(there: Number, wanted: Fraction) -> Number:
    return there - wanted if passes(there, wanted) else 0 * wanted


def _fitted(step: Square, cloth: Cloth, hand: Hand) -> _Target:
    """The largest rectangle (or square) on the step inside a piece, nearest its centre."""
    grid = _EIGHTH if step.step is None else hand.length(step.step, "step")
    box = cloth.box
    if not cloth.whole:
        return _fitted_inside(cloth, grid, step.shape == "square", hand)
    width, height = down_to(grid)(box.width), down_to(grid)(box.height)
    if step.shape == "square":
        width = height = min(width, height)
    if not width or not height:
        raise hand.fault("nothing-fits", "step", message("making.finer-step"), step=grid)
    left, top = box.left + _spare(box.width, width) / 2, box.top + _spare(box.height, height) / 2
    return _target(left, top, width, height)


def _fitted_inside(cloth: Cloth, grid: Fraction, square: bool, hand: Hand) -> _Target:
    seen = [patch.seen.points for patch in cloth.patches]
    found = polygons.largest_rectangle(
        seen, grid, square=square, tell=lambda edges: hand.count_work(EDGE_WORK * edges)
    )
    if found is None:
        raise hand.fault("nothing-fits", "step", message("making.finer-step"), step=grid)
    left, top = (_exact(value) for value in (found.left, found.top))
    return _target(left, top, found.columns * grid, found.rows * grid)


def _exact(value: float) -> Number:
    """A place found in float as the fraction of an inch it plainly stands for, if there is one."""
    near = Fraction(value).limit_denominator(_FINEST)
    return near if abs(near - Fraction(value)) <= ALIKE else value


def _trimmed(cloth: Cloth, target: _Target, piece: str, hand: Hand) -> tuple[Cloth, list[Scrap]]:
    rect, size = target
    if not cloth.whole and not fills(cloth, rect):
        raise hand.fault(
            "square-not-cloth", "square", message("making.square-smaller"), piece=piece, size=size
        )
    scraps: list[Scrap] = []
    rest = cloth
    for half in halves(rect):
        rest, off, loose = parted(rest, half)
        scraps += [*loose, *scraps_of(off)]
    placed = moved(rest, -rect.left, -rect.top)
    box = Rect(Fraction(0), Fraction(0), size.width, size.height)
    return msgspec.structs.replace(placed, box=box, whole=True), scraps


def say(step: Square, hand: Hand) -> Message:
    """Square the block up to 7 7/8 x 7 7/8 in unfinished."""
    trims = [event for event in hand.events if isinstance(event, Trimmed)]
    start = (step.from_ or "centre").replace(" ", "-")
    pieces = tuple(event.piece for event in trims)
    return message(
        "making.say-square", pieces=pieces, size=trims[0].size, start=message(f"making.from-{start}")
    )


def handles(step: Square, outcome: Outcome) -> tuple[Handle, ...]:
    """The right and lower edges change width and height, where they are numbers."""
    if step.width.text.strip() == FIT:
        return ()
    trim = first(outcome.events, Trimmed)
    return (
        Handle(Place(outcome.step_index, "width"), trim.piece, box_edge(trim.rect, "right"), (1, 0)),
        Handle(Place(outcome.step_index, "height"), trim.piece, box_edge(trim.rect, "bottom"), (0, 1)),
    )


SQUARE = Verb("square", Square, act, say, handles)

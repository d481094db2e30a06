"""What hands do at the table, as changes of a recipe: strips laid, edges sewn, cuts, turns, layers moved."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any, Literal, NamedTuple

from piecewright.geometry.motion import Number
from piecewright.making.cloth import Pile
from piecewright.making.draft import (
    Plain,
    fresh_name,
    insert_step,
    replace_step,
    turned_further,
)
from piecewright.making.run import Making
from piecewright.making.steps import Axis, Side
from piecewright.making.suggesting import suggested_step
from piecewright.units.measure import Measure
from piecewright.units.rounding import down_to

Align = Literal["start", "centre", "end"]
Corner = Literal["top left", "top right", "bottom left", "bottom right"]
_PLAIN_SEW = frozenset({"make", "sew", "axis", "note"})
_PLAIN_CUT = frozenset({"make", "cut", "axis", "widths", "note"})
_FIRST: Mapping[Side, bool] = {"left": True, "top": True, "right": False, "bottom": False}
_FINE = down_to(Fraction(1, 64))


class Changed(NamedTuple):
    """A recipe as hands change it, and the step (from 0) to look at then."""

    plain: Plain
    at: int


def axis_of(side: Side) -> Axis:
    """The axis along which pieces follow each other where they are sewn at a side."""
    return "across" if side in ("left", "right") else "down"


def lying_after(making: Making, step: int) -> dict[str, Pile]:
    """The piles that are made by then and not used, by name, after a step (from 0; -1: before all of them)."""
    made: dict[str, Pile] = {}
    for outcome in making.outcomes[: step + 1]:
        for name in outcome.taken:
            made.pop(name, None)
        made.update(outcome.made)
    return made


def laid(plain: Mapping[str, Any], at: int, letter: str, size: tuple[str, str] | None = None) -> Changed:
    """A strip of a fabric letter laid after a step: of that width and length, else like the one laid last."""
    step = suggested_step(plain, "lay", ())
    step["lay"]["fabric"] = letter
    before: Plain = next((one["lay"] for one in reversed(plain["steps"][: at + 1]) if "lay" in one), {})
    width, length = size or (str(before.get("width", step["lay"]["width"])), step["lay"]["length"])
    step["lay"] |= {"width": width, "length": length}
    return _inserted(plain, at, step)


def sewn_on(
    plain: Mapping[str, Any], at: int, piece: str, target: str, side: Side, align: Align | None = None
) -> Changed:
    """A piece sewn to a side of another: in the same step where that step has just sewn the other in that row."""
    axis = axis_of(side)
    step = plain["steps"][at] if 0 <= at < len(plain["steps"]) else {}
    if (
        align is None
        and step.get("make") == target
        and step.get("axis") == axis
        and step.keys() <= _PLAIN_SEW
    ):
        names = [piece, *step["sew"]] if _FIRST[side] else [*step["sew"], piece]
        return Changed(replace_step(plain, at, {**step, "sew": names}), at)
    names = [piece, target] if _FIRST[side] else [target, piece]
    made = {"make": fresh_name(plain, "sewn"), "sew": names, "axis": axis}
    return _inserted(plain, at, made if align is None else {**made, "align": align})


def sewn_in_part(
    plain: Mapping[str, Any], at: int, piece: str, target: str, side: Side, leave: tuple[Side, Number]
) -> Changed:
    """A piece sewn to a side of another but for a length from one end of the seam, to be finished later."""
    names = [piece, target] if _FIRST[side] else [target, piece]
    step = {"make": fresh_name(plain, "sewn"), "sew": names, "axis": axis_of(side)}
    return _inserted(plain, at, {**step, "leave": [leave[0], _text(leave[1])]})


def used(
    plain: Mapping[str, Any],
    at: int,
    recipe: Mapping[str, Any],
    sizes: Mapping[str, Number],
    letters: Mapping[str, str],
) -> Changed:
    """The block of another recipe made as a piece, at those sizes; `letters` gives its letters in this recipe."""
    step: Plain = {"make": fresh_name(plain, "used"), "use": dict(recipe)}
    if sizes:
        step["sizes"] = {name: _text(size) for name, size in sizes.items()}
    changed = {letter: ours for letter, ours in letters.items() if letter != ours}
    return _inserted(plain, at, {**step, "fabrics": changed} if changed else step)


def sewn_in_row(plain: Mapping[str, Any], at: int, pieces: Sequence[str], axis: Axis) -> Changed:
    """Pieces sewn in their order."""
    return _inserted(plain, at, {"make": fresh_name(plain, "sewn"), "sew": list(pieces), "axis": axis})


def cut_from(
    plain: Mapping[str, Any], at: int, piece: str, side: Side, distance: Fraction, extent: Number
) -> Changed:
    """A piece, `extent` inches in that direction, cut in two so far from one of its sides.

    A cut through the last part of the step's own cut becomes one more cut of that step.
    """
    axis, first = axis_of(side), _FIRST[side]
    rest = extent - distance if isinstance(extent, Fraction | int) else _FINE(extent - float(distance))
    widths = [_text(width) for width in ((distance, rest) if first else (rest, distance))]
    step = plain["steps"][at] if 0 <= at < len(plain["steps"]) else {}
    if step.keys() <= _PLAIN_CUT and step.get("axis") == axis and "widths" in step:
        base, _, number = piece.partition(".")
        parts = step["widths"]
        if base == step["make"] and number == str(len(parts)):
            return Changed(replace_step(plain, at, {**step, "widths": [*parts[:-1], *widths]}), at)
    cut = {"make": fresh_name(plain, "part"), "cut": piece, "axis": axis, "widths": widths}
    return _inserted(plain, at, cut)


def cut_every(
    plain: Mapping[str, Any],
    at: int,
    piece: str,
    side: Side,
    width: Fraction,
    extent: Number,
    angle: float = 0.0,
) -> Changed:
    """A piece cut from one of its sides into as many parts of a width as it gives; what is left lies at the far end."""
    step: Plain = {"make": fresh_name(plain, "part"), "cut": piece, "axis": axis_of(side)}
    if angle:
        return _inserted(plain, at, {**step, "every": _text(width), "count": "fit", "angle": angle})
    count = int(extent / width)
    step |= {"every": _text(width), "count": max(1, count)}
    rest = extent - count * width
    if not _FIRST[side] and rest > 0 and count:
        step["trim"] = _text(rest if isinstance(rest, Fraction | int) else _FINE(rest))
    return _inserted(plain, at, step)


def sliced(
    plain: Mapping[str, Any],
    at: int,
    piece: str,
    start: tuple[Side, Fraction],
    end: tuple[Side, Fraction],
) -> Changed:
    """A piece sliced from one of its sides to another, so far along each."""
    ends = {"from": [start[0], _text(start[1])], "to": [end[0], _text(end[1])]}
    return _inserted(plain, at, {"make": fresh_name(plain, "side"), "slice": piece, **ends})


def turned_by(plain: Mapping[str, Any], at: int, piece: str, by: int, before: Making | None) -> Changed:
    """A piece turned by degrees: further by the step that has just turned it; a whole turn takes that step out."""
    step = plain["steps"][at] if 0 <= at < len(plain["steps"]) else {}
    if step.get("make") == piece and "turn" in step and isinstance(step.get("by"), int):
        whole = (step["by"] + by) % 360 == 0
        return Changed(turned_further(plain, at, by), at - 1 if whole and at else at)
    return _inserted(plain, at, {"make": fresh_name(plain, "turned"), "turn": piece, "by": by}, before)


def leveled(plain: Mapping[str, Any], at: int, piece: str, before: Making | None) -> Changed:
    """A piece turned until the edge cut last, slanted before, lies level on top."""
    return _inserted(plain, at, {"make": fresh_name(plain, "level"), "turn": piece, "level": "top"}, before)


def even_axis(piles: Sequence[Pile]) -> Axis:
    """The way in which pieces can be sewn in a row: below each other where they are equally wide, else beside."""
    widths, heights = ([float(getattr(pile[0].box, way)) for pile in piles] for way in ("width", "height"))
    return "down" if max(widths) - min(widths) <= max(heights) - min(heights) else "across"


def shuffled(plain: Mapping[str, Any], at: int, piece: str, by: int, before: Making | None) -> Changed:
    """The top layers of a pile, so many, moved to its bottom."""
    return _inserted(plain, at, {"make": fresh_name(plain, "pile"), "shuffle": piece, "by": by}, before)


def squared(
    plain: Mapping[str, Any],
    at: int,
    piece: str,
    size: tuple[Fraction, Fraction],
    keep: Corner,
    before: Making | None,
) -> Changed:
    """A piece trimmed to a width and height, from the corner that stays."""
    width, height = (_text(length) for length in size)
    step = {
        "make": fresh_name(plain, "squared"),
        "square": piece,
        "width": width,
        "height": height,
        "from": keep,
    }
    return _inserted(plain, at, step, before)


def cornered(plain: Mapping[str, Any], at: int, piece: str, square: str, corner: Corner) -> Changed:
    """A square sewn over a corner of a piece."""
    step = {"make": fresh_name(plain, "cornered"), "corner": piece, "with": square, "at": corner}
    return _inserted(plain, at, step)


def faced(plain: Mapping[str, Any], at: int, piece: str, upon: str) -> Changed:
    """A piece laid face down upon another and sewn to it, to be opened."""
    return _inserted(plain, at, suggested_step(plain, "face", (upon, piece)))


def unpicked(plain: Mapping[str, Any], at: int, tube: str, seam: int, before: Making | None) -> Changed:
    """A tube opened at one of its seams, counted from 1."""
    step = {"make": fresh_name(plain, "opened"), "unpick": tube, "seam": seam}
    return _inserted(plain, at, step, before)


def done_to(
    plain: Mapping[str, Any], at: int, verb: str, pieces: Sequence[str], before: Making | None
) -> Changed:
    """A step of any verb on some pieces, as likely to work as can be told."""
    return _inserted(plain, at, suggested_step(plain, verb, pieces, before), before)


def _inserted(plain: Mapping[str, Any], at: int, step: Plain, before: Making | None = None) -> Changed:
    return Changed(insert_step(plain, at + 1, step, before), at + 1)


def _text(length: Number) -> str:
    return Measure().bare(length)

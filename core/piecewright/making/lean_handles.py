"""How a leaning cut is dragged: which of its ends moves, and what lean a place of that end gives."""

from dataclasses import dataclass
from math import atan2, degrees

from piecewright.geometry.shapes import Segment
from piecewright.making.events import Severed, first
from piecewright.making.steps import Axis, Step
from piecewright.making.table import Outcome
from piecewright.making.verbs.cut import Cut
from piecewright.making.verbs.verb import Place

LEANS = (15.0, 22.5, 30.0, 45.0, 60.0)
"""Degrees that patterns are cut at and rulers are marked with, either way (common practice, no source)."""
_MOST, _FINE = 80.0, 0.5  # as the format has it, and degrees that a hand can aim at


@dataclass(frozen=True, slots=True)
class LeanHandle:
    """The lean of a step's cuts; `line` runs from the end that stays to the one dragged, in the frame of the piece."""

    place: Place
    piece: str
    axis: Axis
    line: Segment
    lean: float


def lean_handle(step: Step, outcome: Outcome) -> LeanHandle | None:
    """The handle of a leaning cut, at its middle line; None of any other step."""
    if not isinstance(step, Cut) or not step.angle:
        return None
    cut = first(outcome.events, Severed)
    if not cut.lines:
        return None
    line = cut.lines[len(cut.lines) // 2]
    along = 1 if step.axis == "across" else 0
    stays, moves = sorted((line.start, line.end), key=lambda end: end[along])
    place = Place(outcome.step_index, "angle")
    return LeanHandle(place, cut.piece, step.axis, Segment(stays, moves), float(step.angle))


def lean_at(axis: Axis, run: float, drop: float, *, free: bool = False) -> float:
    """The lean of a line that runs so far right and so far down: the nearest usual one, or `free` to half a degree."""
    ahead, aside = (drop, -run) if axis == "across" else (run, drop)
    way = -1.0 if ahead < 0 else 1.0
    exact = degrees(atan2(way * aside, way * ahead))
    if free:
        fine = round(exact / _FINE) * _FINE
        return min(max(fine, -_MOST), _MOST) or _FINE
    return min((sign * lean for sign in (-1, 1) for lean in LEANS), key=lambda lean: abs(lean - exact))


def next_lean(lean: float, by: int) -> float:
    """The next usual lean further clockwise (`by` 1) or back (-1); the same where there is none."""
    usual = sorted(sign * one for sign in (-1, 1) for one in LEANS)
    beyond = [one for one in usual if (one - lean) * by > 0]
    return min(beyond, key=lambda one: abs(one - lean), default=lean)

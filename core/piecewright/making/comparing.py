"""Compares two blocks of one recipe made with other lengths: what of the second is not as it was.

A slice is cut by eye: lines off the thread may then lie anywhere, while every piece keeps its corners. Lines that
follow the thread, however they lie in the block, and the widths between them are measured.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations
from math import hypot
from typing import Literal

from piecewright.geometry.motion import Point
from piecewright.geometry.tolerance import ALIKE, alike
from piecewright.making.facts import Facts, Kind, SeenPatch
from piecewright.making.kinds import off_thread
from piecewright.making.recipe import Recipe
from piecewright.making.steps import Step
from piecewright.making.verbs.corner import Corner
from piecewright.making.verbs.cut import Cut
from piecewright.making.verbs.face import Face
from piecewright.making.verbs.use import Use

Effect = Literal["fails", "size", "pieces", "fewer", "lines", "warns", "allowance", "slant", "nothing"]
"""What a change does, the gravest first: no block, another size, other pieces, fewer blocks, lines elsewhere, a new
warning, less cloth in the seams of a block that looks the same, only slants cut by eye elsewhere, nothing."""

_PLACES = 6
_OFF = 1e-4
"""Degrees: a line further off the thread does not follow it."""

_Line = tuple[float, float, float]
"""The way a line runs, and how far from the origin."""


def slants_by_eye(recipe: Recipe) -> bool:
    """Whether no slant of a recipe is laid along a ruler or a drawn line, so that slices alone make them."""
    return not any(_is_ruled(step) for step in recipe.steps)


def _is_ruled(step: Step) -> bool:
    if isinstance(step, Use):
        return not slants_by_eye(step.use.recipe)
    return isinstance(step, Face | Corner) or (isinstance(step, Cut) and bool(step.angle))


def compared(now: Facts, then: Facts | None, *, by_eye: bool) -> Effect:
    """What of a block is other once it is made otherwise (None: it can not be made); `by_eye`: its slants are."""
    if then is None:
        return "fails"
    sizes = ((now.finished.width, then.finished.width), (now.finished.height, then.finished.height))
    if not all(alike(one, other) for one, other in sizes):
        return "size"
    if _pieces(now) != _pieces(then):
        return "pieces"
    lies = not all(_lie_alike(one, other) for one, other in zip(now.kinds, then.kinds, strict=True))
    if lies and not (by_eye and all(map(_keeps_lines, now.kinds, then.kinds))):
        return "lines"
    if then.blocks < now.blocks:
        return "fewer"
    known = {(warning.code, warning.step) for warning in now.warnings}
    if any((warning.code, warning.step) not in known for warning in then.warnings):
        return "warns"
    if lies:
        return "slant"
    return "allowance" if then.ledger.allowance < now.ledger.allowance - ALIKE else "nothing"


def _pieces(found: Facts) -> list[list[tuple[str, int, int]]]:
    return [sorted(map(_piece, kind.patches)) for kind in found.kinds]


def _piece(patch: SeenPatch) -> tuple[str, int, int]:
    return patch.fabric, patch.layer, len(patch.points)


def _lie_alike(one: Kind, other: Kind) -> bool:
    return _corners(one.patches) == _corners(other.patches)


def _corners(patches: Iterable[SeenPatch]) -> Sequence[object]:
    return sorted(
        (*_piece(patch), [(_rounded(x), _rounded(y)) for x, y in patch.points]) for patch in patches
    )


def _rounded(value: object) -> float:
    return round(float(value), _PLACES) + 0.0  # type: ignore[arg-type]


def _keeps_lines(now: Kind, then: Kind) -> bool:
    """Whether every patch can be found again with all that was measured of it; slants may have become square."""
    by_eye = {_line(*edge) for patch in now.patches for edge in _edges(patch) if _is_off(patch, edge)}
    left = [(_piece(patch), _measured(patch, set())) for patch in then.patches]
    asked = [(_piece(patch), _measured(patch, by_eye)) for patch in now.patches]
    for piece, measured in sorted(asked, key=lambda each: -len(each[1])):
        found = next((each for each in left if each[0] == piece and measured <= each[1]), None)
        if found is None:
            return False
        left.remove(found)
    return True


_Edge = tuple[Point, Point]


def _edges(patch: SeenPatch) -> list[_Edge]:
    return list(zip(patch.points, patch.points[1:] + patch.points[:1], strict=True))


def _is_off(patch: SeenPatch, edge: _Edge) -> bool:
    return off_thread(*edge, patch.grain_deg) > _OFF


def _measured(patch: SeenPatch, by_eye: set[_Line]) -> frozenset[object]:
    """The lines of a patch that are not cut by eye, and the widths between edges along its own thread."""
    lines = {_line(*edge) for edge in _edges(patch)}
    along = sorted({_line(*edge) for edge in _edges(patch) if not _is_off(patch, edge)})
    widths = {
        _rounded(abs(one[2] - other[2])) for one, other in combinations(along, 2) if one[:2] == other[:2]
    }
    return frozenset((lines - by_eye) | widths)


def _line(start: Point, end: Point) -> _Line:
    """The line through two points, whichever comes first."""
    (x, y), (other_x, other_y) = (tuple(map(float, point)) for point in sorted((start, end)))
    length = hypot(other_x - x, other_y - y)
    run, rise = (other_x - x) / length, (other_y - y) / length
    if alike(run, 0.0):
        return 0.0, 1.0, _rounded(x)
    return _rounded(run), _rounded(rise), _rounded(y * run - x * rise)

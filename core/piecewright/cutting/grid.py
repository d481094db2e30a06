"""From exact inches to whole numbers and back: the finest common unit, and which pieces are one item."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from math import gcd, lcm

from piecewright.cutting.job import Job, fits
from piecewright.cutting.pieces import Piece
from piecewright.cutting.problem import Face, Lie, Problem
from piecewright.cutting.sheets import Direction, Sheet
from piecewright.plan.stage import stage
from piecewright.units.rounding import ROUNDINGS

FINEST = 32_768
"""A width of cloth is at most so many units: tables of the solvers are as long."""
ROUNDED = "sixteenth in up"
"""How lengths are rounded where no unit is common to all; they are then cut so, and it is said."""


@dataclass(frozen=True, slots=True)
class Grid:
    """A job in whole numbers of `unit` inches, and what is needed to read the answer.

    `items` has the pieces of each item, all of one size with the same allowed turns; `sizes` the exact inches
    behind a lie on a face, by (face, item, across, along) in units; `sources` the sheet of each source;
    `faces` the source and first cut of each face; `unplaced` are pieces larger than the sheet; `rounded` had to
    be made larger, as they were and as they are cut.
    """

    job: Job
    unit: Fraction
    problem: Problem
    items: tuple[tuple[Piece, ...], ...]
    sizes: dict[tuple[int, Lie], tuple[Fraction, Fraction]]
    sources: tuple[Sheet, ...]
    faces: tuple[tuple[int, Direction], ...]
    unplaced: tuple[Piece, ...]
    rounded: tuple[tuple[Piece, Piece], ...]


@stage(keep=128)
def grid_of(job: Job) -> Grid:
    """The job on the finest unit common to its pieces, which keeps every length exact.

    Where that unit would be too fine for the solvers, sides of pieces are rounded up to a sixteenth of an
    inch.
    """
    placed = [piece for piece in job.pieces if fits(piece, (job.sheet,))]
    unplaced = tuple(piece for piece in job.pieces if piece not in placed)
    sources = (*(held.sheet for held in job.on_hand), job.sheet)
    unit = common_unit(side for piece in placed for side in (piece.width, piece.height))
    widest = max(max(sheet.width, sheet.length or Fraction(0)) for sheet in sources)
    rounded: list[tuple[Piece, Piece]] = []
    if widest / unit > FINEST:
        cut = [_rounded(piece, job.sheet) for piece in placed]
        rounded = [(old, new) for old, new in zip(placed, cut, strict=True) if old != new]
        placed = cut
        unit = ROUNDINGS[ROUNDED].step or unit
    items = _items(placed)
    faces = tuple(
        (source, direction) for source, sheet in enumerate(sources) for direction in sheet.directions
    )
    built = [_face(source, sources[source], way, items, unit, job) for source, way in faces]
    sizes = {(index, lie): size for index, (_, exact) in enumerate(built) for lie, size in exact.items()}
    problem = Problem(
        demand=tuple(sum(piece.count for piece in item) for item in items),
        areas=_areas(items, [face for face, _ in built], unit),
        faces=tuple(face for face, _ in built),
        stocks=(*(held.count for held in job.on_hand), None),
    )
    return Grid(job, unit, problem, items, sizes, sources, faces, unplaced, tuple(rounded))


def common_unit(lengths: Iterable[Fraction]) -> Fraction:
    """The greatest length of which all are whole multiples; 1 where there are none."""
    lengths = list(lengths)
    if not lengths:
        return Fraction(1)
    below = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * below) for length in lengths)), below)


def _rounded(piece: Piece, sheet: Sheet) -> Piece:
    """A piece with its sides rounded up; a side that would then leave the sheet stays, it lies there alone."""
    step = ROUNDINGS[ROUNDED]
    larger = replace(piece, width=step(piece.width), height=step(piece.height))
    return larger if fits(larger, (sheet,)) else piece


def _items(pieces: Sequence[Piece]) -> tuple[tuple[Piece, ...], ...]:
    alike: dict[tuple[tuple[Fraction, Fraction], ...], list[Piece]] = {}
    for piece in pieces:
        alike.setdefault(tuple(sorted(piece.lies)), []).append(piece)
    return tuple(tuple(item) for item in alike.values())


def _face(
    source: int,
    sheet: Sheet,
    direction: Direction,
    items: Sequence[Sequence[Piece]],
    unit: Fraction,
    job: Job,
) -> tuple[Face, dict[Lie, tuple[Fraction, Fraction]]]:
    turned = direction == "along"
    width, length = sheet.width, sheet.length
    if turned and length is not None:
        width, length = length, width
    room = width - job.reserve if sheet.is_trued and width > job.reserve else width
    exact: dict[Lie, tuple[Fraction, Fraction]] = {}
    for index, item in enumerate(items):
        for lie in item[0].lies:
            across, along = reversed(lie) if turned else lie
            if across <= width and (length is None or along <= length):
                exact[Lie(index, _units(across, room, unit), _units(along, length, unit))] = (across, along)
    whole = int(room // unit)
    return Face(
        source, turned, whole, None if length is None else int(length // unit), tuple(exact), job.stack
    ), exact


def _units(side: Fraction, room: Fraction | None, unit: Fraction) -> int:
    """A side in whole units, up; a side that takes all there is, to the last part of a unit, is all of it."""
    count = -int(-side // unit)
    return count if room is None else min(count, int(room // unit))


def _areas(items: Sequence[Sequence[Piece]], faces: Sequence[Face], unit: Fraction) -> tuple[int, ...]:
    """The square units that a piece of each item takes; one nearly as long as a strip counts as what is left of it."""
    areas = [-int(-item[0].width // unit) * -int(-item[0].height // unit) for item in items]
    for face in faces:
        for lie in face.lies:
            areas[lie.item] = min(areas[lie.item], lie.across * lie.along)
    return tuple(areas)

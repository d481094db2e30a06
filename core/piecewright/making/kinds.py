"""Sorts finished blocks into kinds that are alike, and tells of each what is seen: patches, bias edges and seams."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from math import atan2, degrees, hypot

from piecewright.geometry.motion import Number, Point
from piecewright.geometry.shapes import Rect, Segment
from piecewright.geometry.tolerance import LEAST_BIAS, TOUCH, alike
from piecewright.making.cloth import Cloth, Patch, Pile, Seam, spread
from piecewright.making.facts import BiasEdge, Kind, SeenPatch, SeenSeam
from piecewright.making.pressing import Decisions, decisions_of
from piecewright.making.table import Outcome

_PLACES = 6
_ASIDE = 1.7e-7
"""Added before rounding, so that no fraction of an inch lies where rounding goes either way."""


def kinds_of(blocks: Mapping[str, Pile], outcomes: Iterable[Outcome], stack: int) -> tuple[Kind, ...]:
    """The kinds of finished blocks, in the order in which they first come; layers from 0."""
    decisions = decisions_of(outcomes)
    layers_by_look: dict[tuple[str, object], tuple[Kind, list[int]]] = {}
    only_one = len(blocks) == 1
    for name, pile in blocks.items():
        layers = spread(pile, stack) if decisions.by_layer else pile
        for layer, cloth in enumerate(layers):
            kind = _kind(cloth, layer, decisions, stack)
            look = None if only_one and len(layers) == 1 else _look(kind)
            found = layers_by_look.setdefault((name, look), (kind, []))
            found[1].extend([layer] if len(layers) > 1 else range(stack))
    names_by_kind: dict[tuple[object, tuple[int, ...]], tuple[Kind, list[str]]] = {}
    for (name, look), (kind, found_layers) in layers_by_look.items():
        names_by_kind.setdefault((look, tuple(found_layers)), (kind, []))[1].append(name)
    return tuple(
        replace(kind, blocks=tuple(names), layers=layers)
        for (_, layers), (kind, names) in names_by_kind.items()
    )


def _kind(cloth: Cloth, layer: int, decisions: Decisions, stack: int) -> Kind:
    """What one finished block shows."""
    pairs = sorted(((_seen_patch(patch), patch) for patch in cloth.patches), key=_reading_order)
    return Kind(
        blocks=(),
        layers=(),
        patches=tuple(seen for seen, _ in pairs),
        area_by_fabric=_areas(cloth.patches),
        bias_edges=tuple(
            edge for seen, patch in pairs if _may_stretch(patch) for edge in _bias_edges(seen, cloth.box)
        ),
        seams=tuple(_seen_seam(seam, decisions.pressed(seam, layer, stack)) for seam in cloth.seams),
    )


def _seen_seam(seam: Seam, pressed: str | None) -> SeenSeam:
    start, end = sorted((seam.line.start, seam.line.end))
    return SeenSeam(seam.step, seam.line.length, pressed, start, end)


def _may_stretch(patch: Patch) -> bool:
    """Whether an edge may be off the thread: not where a rectangle lies square to it."""
    return not isinstance(patch.seen, Rect) or bool((patch.thread + patch.came.turn_degrees) % 90)


def _look(kind: Kind) -> object:
    """What makes two blocks alike: fabrics, layers, outlines, threads and pressing, to what rounding leaves."""
    patches = tuple(
        (patch.fabric, patch.layer, _rounded(patch.points), round(patch.grain_deg, _PLACES))
        for patch in kind.patches
    )
    return patches, tuple((_rounded((seam.start, seam.end)), seam.pressed) for seam in kind.seams)


def _rounded(points: Iterable[Point]) -> tuple[tuple[float, float], ...]:
    return tuple(
        (round(float(x) + _ASIDE, _PLACES) + 0.0, round(float(y) + _ASIDE, _PLACES) + 0.0) for x, y in points
    )


def _reading_order(pair: tuple[SeenPatch, Patch]) -> tuple[float, float]:
    ((x, y),) = _rounded(pair[0].points[:1])
    return y, x


def _seen_patch(patch: Patch) -> SeenPatch:
    grain = float((patch.thread + patch.came.turn_degrees) % 360)
    return SeenPatch(patch.letter, patch.layer, _corners(patch), grain, patch.came, patch.strip)


def _corners(patch: Patch) -> tuple[Point, ...]:
    """The true corners, clockwise from the upper left one: none twice, none in the middle of a straight edge."""
    if isinstance(patch.seen, Rect):
        return patch.seen.points
    points = _without_double(patch.seen.points)
    points = tuple(
        point
        for index, point in enumerate(points)
        if not _straight(points[index - 1], point, points[(index + 1) % len(points)])
    )
    first = min(range(len(points)), key=lambda index: _rounded([points[index]])[0][::-1])
    return points[first:] + points[:first]


def _without_double(points: tuple[Point, ...]) -> tuple[Point, ...]:
    return tuple(
        point
        for index, point in enumerate(points)
        if not (alike(point[0], points[index - 1][0]) and alike(point[1], points[index - 1][1]))
    )


def _straight(before: Point, point: Point, after: Point) -> bool:
    """Whether a corner lies on the line between its neighbors."""
    run, rise = after[0] - before[0], after[1] - before[1]
    away = run * (point[1] - before[1]) - rise * (point[0] - before[0])
    return hypot(away) <= TOUCH * (1 + hypot(run, rise))


def _areas(patches: Iterable[Patch]) -> dict[str, Number]:
    areas: dict[str, Number] = {}
    for patch in patches:
        areas[patch.letter] = areas.get(patch.letter, 0) + patch.seen.area
    return dict(sorted(areas.items()))


def _bias_edges(patch: SeenPatch, box: Rect) -> Iterable[BiasEdge]:
    """The edges of a patch that lie 2 degrees or more off its nearest thread."""
    points = patch.points
    for index, start in enumerate(points):
        end = points[(index + 1) % len(points)]
        off = off_thread(start, end, patch.grain_deg)
        if off >= LEAST_BIAS - TOUCH:
            yield BiasEdge(
                patch.fabric, Segment(start, end).length, off, _on_outline(start, end, box), start, end
            )


def off_thread(start: Point, end: Point, grain_deg: float) -> float:
    """The angle between a line and the nearest thread, lengthwise or crosswise: 0 to 45 degrees."""
    run, rise = end[0] - start[0], end[1] - start[1]
    direction = 0.0 if not rise else 90.0 if not run else degrees(atan2(rise, run))
    off = (direction - grain_deg) % 90
    return min(off, 90 - off)


def _on_outline(start: Point, end: Point, box: Rect) -> bool:
    """Whether a line runs along an edge of the block."""
    lines = ((0, box.left), (0, box.right), (1, box.top), (1, box.bottom))
    return any(alike(start[axis], place) and alike(end[axis], place) for axis, place in lines)

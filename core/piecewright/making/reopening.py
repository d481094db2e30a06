"""What comes back when a seam is unpicked: the allowance of each patch, parted by the seams that run on into it."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from piecewright.geometry.half import Half, right_hand
from piecewright.geometry.motion import Number, Point
from piecewright.geometry.shapes import Segment, Shape
from piecewright.geometry.tolerance import ALIKE, alike
from piecewright.making.cloth import Patch, Seam


class Opened(NamedTuple):
    """Where seams are unpicked: `places` along an axis (its index is `along`), `depth` inside the raw edges."""

    along: int
    places: tuple[Number, ...]
    depth: Number

    def holds(self, place: Number) -> bool:
        """Whether a place along the axis is one of them."""
        return any(alike(place, known) for known in self.places)

    def is_edge(self, start: Point, end: Point) -> bool:
        """Whether an edge lies on an unpicked seam."""
        return alike(start[self.along], end[self.along]) and self.holds(start[self.along])


class Run(NamedTuple):
    """Where a seam ran into an unpicked one, and how it runs on, up to the raw edge or a newer seam."""

    end: Point
    ahead: Segment


def runs_into(seams: Iterable[Seam], opened: Opened) -> list[Run]:
    """Every seam that runs on over allowance that comes back; `seams` are in the order in which they were sewn.

    A seam ends where it meets a newer one, for that was sewn across it.
    """
    found: list[Run] = []
    for seam in reversed([*seams]):
        for start, end in _endings(seam.line, opened):
            run = _run_on(start, end, opened)
            same_side = [newer for newer in found if _goes_on(start, newer, opened.along)]
            if not any(_same_point(end, newer.end) for newer in same_side):
                found.append(Run(end, _shortened(run, [newer.ahead for newer in same_side])))
    return found


def drawn_on(line: Segment, runs: Sequence[Run], opened: Opened) -> Segment:
    """A seam's line with what it runs on over the allowance."""
    ends = [line.start, line.end]
    for start, end in _endings(line, opened):
        for run in runs:
            straight = right_hand(start, end).distance(run.ahead.end)
            if run.end == end and _goes_on(start, run, opened.along) and alike(straight, 0 * straight):
                ends[0 if end is line.start else 1] = run.ahead.end
    return Segment(*ends)


def reopened(patch: Patch, runs: Sequence[Run], opened: Opened) -> Shape:
    """What is seen of a patch once no seam hides it where seams are unpicked: its cloth within its other edges."""
    corners = patch.seen.points
    sides = list(zip(corners, (*corners[1:], corners[0]), strict=True))
    free = [side for side in sides if opened.is_edge(*side)]
    if not free:
        return patch.seen
    seen: Shape = patch.raw
    for start, end in sides:
        if start != end and not opened.is_edge(start, end):
            seen = seen.clipped(right_hand(start, end)) or seen
    for run in runs:
        for start, end in free:
            if _is_beside(patch, start, run, opened.along) and _crosses(seen, run.ahead):
                middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
                seen = seen.clipped(_side_with(middle, run.ahead)) or seen
    return seen


def _is_beside(patch: Patch, edge: Point, run: Run, along: int) -> bool:
    """Whether a seam came from the side of an unpicked one on which a patch lies that has an edge there."""
    box = patch.seen.box
    middle = ((box.left + box.right) / 2, (box.top + box.bottom) / 2)
    return alike(edge[along], run.end[along]) and _goes_on(middle, run, along)


def _endings(line: Segment, opened: Opened) -> list[tuple[Point, Point]]:
    """The ends of a line that lie on an unpicked seam into which it runs, each after the other end."""
    along = opened.along
    if alike(line.start[along], line.end[along]):
        return []
    both = ((line.end, line.start), (line.start, line.end))
    return [(start, end) for start, end in both if opened.holds(end[along])]


def _run_on(start: Point, end: Point, opened: Opened) -> Segment:
    """A seam's line from its end on an unpicked seam to the raw edge; exact where it is square."""
    run, rise = end[0] - start[0], end[1] - start[1]
    ahead = rise if opened.along else run
    by = opened.depth if ahead > 0 else -opened.depth
    return Segment(end, (end[0] + run / ahead * by, end[1] + rise / ahead * by))


def _shortened(line: Segment, others: Iterable[Segment]) -> Segment:
    """A line up to the first of some others that it meets."""
    share: Number = 1
    for other in others:
        half = right_hand(other.start, other.end)
        here, there = half.distance(line.start), half.distance(line.end)
        if (here > 0) == (there > 0) or alike(here, there):
            continue
        met = here / (here - there)
        point = _at(line, met)
        beside = [right_hand(line.start, line.end).distance(end) for end in (other.start, other.end)]
        if (beside[0] > ALIKE) != (beside[1] > ALIKE) or any(
            _same_point(point, end) for end in (other.start, other.end)
        ):
            share = min(share, met)
    return line if share == 1 else Segment(line.start, _at(line, share))


def _at(line: Segment, share: Number) -> Point:
    (x1, y1), (x2, y2) = line.start, line.end
    return (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share)


def _crosses(shape: Shape, line: Segment) -> bool:
    """Whether a line runs through the inside of a convex shape."""
    inside: Segment | None = line
    corners = shape.points
    for start, end in zip(corners, (*corners[1:], corners[0]), strict=True):
        if start != end and inside is not None:
            inside = inside.clipped(right_hand(start, end))
    return inside is not None and inside.length > ALIKE


def _side_with(point: Point, line: Segment) -> Half:
    half = right_hand(line.start, line.end)
    return half if half.distance(point) < 0 else half.opposite


def _same_point(one: Point, other: Point) -> bool:
    return alike(one[0], other[0]) and alike(one[1], other[1])


def _goes_on(start: Point, run: Run, along: int) -> bool:
    """Whether a seam came from the same side of the unpicked one as a point."""
    return (start[along] < run.end[along]) == (run.ahead.end[along] > run.end[along])

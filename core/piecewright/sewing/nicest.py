"""The nicest of all ways to part a whole by straight seams, from any one of them.

Where seams run through a part both ways, all those that run the shorter way come first, of equally long ones the level
ones, which make rows. Then the longest seam is as short as can be: whatever comes first, one seam runs through, and all
others lie within what it leaves.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from piecewright.sewing.lists import Bounds

Place = tuple[int, int]
"""Where a seam may lie: the end of the part before and the start of the one after, the same where there is no gap."""


@dataclass(frozen=True, slots=True)
class Leaf:
    """A rectangle by its index."""

    box: Bounds
    index: int


@dataclass(frozen=True, slots=True)
class Bunch:
    """Parts that no straight seam parts."""

    box: Bounds
    parts: "tuple[Node, ...]"


@dataclass(frozen=True, slots=True)
class Row:
    """Parts with upright seams between them, or level ones.

    `places` are those of its seams; `crossing` those of the seams that run through it the other way.
    """

    box: Bounds
    upright: bool
    parts: "tuple[Node, ...]"
    places: tuple[Place, ...]
    crossing: tuple[Place, ...]


Node = Leaf | Bunch | Row


def box_of(boxes: Iterable[Bounds]) -> Bounds:
    """The rectangle round some."""
    left, top, right, bottom = zip(*boxes, strict=True)
    return min(left), min(top), max(right), max(bottom)


def joined(upright: bool, parts: Sequence[Node]) -> Row:
    """Parts in their order with seams between them, as the nicest of all ways."""
    flat = [each for part in parts for each in _along(upright, part)]
    box, places = box_of(part.box for part in flat), _places(upright, flat)
    crossing = _crossing(flat)
    level_is_nicer = box[2] - box[0] <= box[3] - box[1]
    if crossing and upright == level_is_nicer:
        bands = [each for band in _bands(upright, flat, crossing) for each in _along(not upright, band)]
        return Row(box, not upright, tuple(bands), _places(not upright, bands), places)
    return Row(box, upright, tuple(flat), places, crossing)


def _along(upright: bool, part: Node) -> Sequence[Node]:
    """A part parted by all seams that run through it one way."""
    if not isinstance(part, Row):
        return (part,)
    if part.upright == upright:
        return part.parts
    return _bands(part.upright, part.parts, part.crossing) if part.crossing else (part,)


def _places(upright: bool, parts: Sequence[Node]) -> tuple[Place, ...]:
    start, end = (0, 2) if upright else (1, 3)
    return tuple((one.box[end], other.box[start]) for one, other in pairwise(parts))


def _crossing(parts: Sequence[Node]) -> tuple[Place, ...]:
    """The places of seams that run through all the parts, the other way than those between them."""
    common: dict[Place, None] | None = None
    for part in parts:
        if not isinstance(part, Row):
            return ()
        common = dict.fromkeys(
            part.places if common is None else (place for place in part.places if place in common)
        )
        if not common:
            return ()
    return tuple(common or ())


def _bands(upright: bool, parts: Sequence[Node], crossing: Sequence[Place]) -> list[Node]:
    """Parts in a row, parted by the seams that cross all of them."""
    pieces = [_cut(part, crossing) for part in parts if isinstance(part, Row)]
    return [_one(upright, band) for band in zip(*pieces, strict=True)]


def _cut(row: Row, places: Sequence[Place]) -> list[Node]:
    """A row parted at some of its own seams."""
    wanted, found, group = set(places), [], [row.parts[0]]
    for place, part in zip(row.places, row.parts[1:], strict=True):
        if place in wanted:
            found.append(_one(row.upright, group))
            group = []
        group.append(part)
    return [*found, _one(row.upright, group)]


def _one(upright: bool, parts: Sequence[Node]) -> Node:
    return parts[0] if len(parts) == 1 else joined(upright, parts)

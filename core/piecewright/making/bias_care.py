"""What to do about edges off the thread: those of a block that are alike, with their length, and how to handle them.

Under 5 degrees an edge is quiet, to 20 it wants pins, above that it is bias (common practice, no source).
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from piecewright.making.facts import BiasEdge, Facts, Kind
from piecewright.words.message import Message, message

PINNED, BIAS = 5.0, 20.0
"""Degrees off the thread: from the first an edge is pinned, above the second it stretches in the hand."""
_PLACES = 6
_OUTER = ("handle", "starch", "stay-stitch", "pin")
_INNER = ("pin", "starch", "straight-down")


@dataclass(frozen=True, slots=True)
class BiasCare:
    """Edges of one block that run alike: so many degrees off the thread, outer or inner, of these fabric letters.

    `length` is that of all `count` of them, `longest` of one, inches finished; `kinds` number the kinds of block,
    from 0, in which they are so.
    """

    kinds: tuple[int, ...]
    fabrics: tuple[str, ...]
    outer: bool
    degrees: float
    count: int
    length: float
    longest: float

    @property
    def care(self) -> tuple[Message, ...]:
        """What to do, the most telling first; nothing where the edge is quiet."""
        if self.degrees < PINNED:
            return ()
        if self.degrees <= BIAS:
            return (message("sewing.care-pin"), message("sewing.care-straight-down"))
        return tuple(message(f"sewing.care-{what}") for what in (_OUTER if self.outer else _INNER))

    @property
    def sentence(self) -> Message:
        """What it is and what to do."""
        code = f"sewing.care-{'of' if self.care else 'quiet'}-{'outer' if self.outer else 'inner'}"
        told = message(
            code,
            count=self.count,
            fabrics=self.fabrics,
            degrees=self.degrees,
            length=self.length,
            longest=self.longest,
        )
        return told if not self.care else message("sewing.care", what=told, care=self.care)


def bias_care(facts: Facts) -> tuple[BiasCare, ...]:
    """The outer edges off the thread, then the inner ones, those most off the thread first, then the longest."""
    found: dict[BiasCare, list[int]] = {}
    for number, kind in enumerate(facts.kinds):
        for each in _of_kind(kind):
            found.setdefault(each, []).append(number)
    told = (replace(each, kinds=tuple(numbers)) for each, numbers in found.items())
    return tuple(sorted(told, key=_most_telling))


def _of_kind(kind: Kind) -> Iterator[BiasCare]:
    """What is told of one kind, whose number is not yet in it."""
    alike: dict[tuple[bool, float], list[BiasEdge]] = {}
    for edge in kind.bias_edges:
        alike.setdefault((edge.outer, round(edge.degrees, 1)), []).append(edge)
    for (outer, degrees), edges in alike.items():
        fabrics = tuple(sorted({edge.fabric for edge in edges}))
        lengths = [float(edge.length) for edge in edges]
        longest, whole = (round(length, _PLACES) for length in (max(lengths), sum(lengths)))
        yield BiasCare((), fabrics, outer, degrees, len(edges), whole, longest)


def _most_telling(each: BiasCare) -> tuple[bool, float, float, tuple[int, ...]]:
    return not each.outer, -each.degrees, -each.length, each.kinds

"""What to do about edges off the thread: those of a block that are alike, with their length, and how to handle them.

Under 5 degrees an edge is quiet, to 20 it wants pins, above that it is bias (common practice, no source).
"""

from collections.abc import Iterator
from dataclasses import dataclass

from piecewright.making.facts import Facts
from piecewright.words.message import Message, message

PINNED, BIAS = 5.0, 20.0
"""Degrees off the thread: from the first an edge is pinned, above the second it stretches in the hand."""
_OUTER = ("handle", "starch", "stay-stitch", "pin")
_INNER = ("pin", "starch", "straight-down")


@dataclass(frozen=True, slots=True)
class BiasCare:
    """Edges of one block that are alike: of one fabric letter, so many degrees off the thread, outer or inner.

    `length` is that of all `count` of them, `longest` of one, inches finished; `kind` numbers the kind of block from 0.
    """

    kind: int
    fabric: str
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
            fabric=self.fabric,
            degrees=self.degrees,
            length=self.length,
            longest=self.longest,
        )
        return told if not self.care else message("sewing.care", what=told, care=self.care)


def bias_care(facts: Facts) -> tuple[BiasCare, ...]:
    """The outer edges off the thread, then the inner ones, those most off the thread first, then the longest."""
    found = [each for number in range(len(facts.kinds)) for each in _of_kind(facts, number)]
    return tuple(sorted(found, key=_most_telling))


def _of_kind(facts: Facts, number: int) -> Iterator[BiasCare]:
    lengths: dict[tuple[bool, str, float], list[float]] = {}
    for edge in facts.kinds[number].bias_edges:
        lengths.setdefault((edge.outer, edge.fabric, round(edge.degrees, 1)), []).append(float(edge.length))
    for (outer, fabric, degrees), found in lengths.items():
        yield BiasCare(number, fabric, outer, degrees, len(found), sum(found), max(found))


def _most_telling(each: BiasCare) -> tuple[bool, float, float, int, str]:
    return not each.outer, -each.degrees, -each.length, each.kind, each.fabric

"""The scan for a straight seam through a set of rectangles: four linked lists walked in step until one finds it.

The lists go by left, right, top and bottom edge, each from its own outside in. A walk has found a seam when nothing it
met reaches beyond the next edge; then all stop, so that a split costs no more than its scanned side: n log n in all,
but for sets without a seam.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import NamedTuple

Bounds = tuple[int, int, int, int]
"""Left, top, right and bottom of a rectangle, in whole steps."""


@dataclass(slots=True)
class Members:
    """Some rectangles: the first in each list, and how many they are."""

    heads: list[int]
    count: int


class Split(NamedTuple):
    """Straight seams, upright or level, and the rectangles between them, from left to right or top to bottom."""

    upright: bool
    parts: list[Members]


class Lists:
    """The rectangles of a set in four linked lists; a split keeps the lists of both sides."""

    def __init__(self, bounds: Sequence[Bounds]) -> None:
        self._end = len(bounds)
        left, top, right, bottom = (list(edges) for edges in zip(*bounds, strict=True))
        # seen from each side the near edge of a rectangle comes first, and its far edge is how far it reaches
        self._near = (left, _negated(right), top, _negated(bottom))
        self._far = (right, _negated(left), bottom, _negated(top))
        self._next = tuple([self._end] * (self._end + 1) for _ in range(4))
        self._before = tuple([self._end] * (self._end + 1) for _ in range(4))

    def all(self) -> Members:
        """Every rectangle."""
        return self.of(list(range(self._end)))

    def of(self, numbers: list[int]) -> Members:
        """Some rectangles, by their indices, that are in no list any more."""
        heads = []
        for near, follow, before in zip(self._near, self._next, self._before, strict=True):
            last = self._end
            for number in sorted(numbers, key=near.__getitem__) if len(numbers) > 1 else numbers:
                before[number] = last
                follow[last] = number
                last = number
            follow[last] = self._end
            heads.append(follow[self._end])
        return Members(heads, len(numbers))

    def numbers(self, some: Members) -> list[int]:
        """The indices of some rectangles."""
        return self._until(some.heads[0], self._end, self._next[0])

    def split(self, some: Members) -> Split | None:
        """Part some rectangles along straight seams through, using them up; None where there are none.

        The seam found first, and those after it from the same side as long as they are not much further apart: the
        rows of a grid come off one after the other. More seams the same way may be left.
        """
        found = self._scan(some)
        if found is None:
            return None
        side = found[0]
        beyond: int | None = found[1]
        parts = []
        while beyond is not None:
            parts.append(self._take(some, self._until(some.heads[side], beyond, self._next[side])))
            beyond = self._scan_on(some, side, 2 * parts[-1].count)
        parts.append(some)
        return Split(side < 2, parts[::-1] if side % 2 else parts)

    def _scan_on(self, some: Members, side: int, most: int) -> int | None:
        """The first rectangle beyond the next seam from a side, where at most so many lie before it."""
        follow, near, far = self._next[side], self._near[side], self._far[side]
        number = some.heads[side]
        reach = far[number]
        for _ in range(most):
            number = follow[number]
            if number == self._end:
                return None
            if near[number] >= reach:
                return number
            if far[number] > reach:
                reach = far[number]
        return None

    def _scan(self, some: Members) -> tuple[int, int] | None:
        """The side (left, right, top, bottom) from which a seam is found first, and the first rectangle beyond it."""
        at = list(some.heads)
        reach = [self._far[side][at[side]] for side in range(4)]
        sides = tuple(zip(range(4), self._next, self._near, self._far, strict=True))
        for _ in range(some.count - 1):
            for side, follow, near, far in sides:
                number = follow[at[side]]
                if near[number] >= reach[side]:
                    return side, number
                if far[number] > reach[side]:
                    reach[side] = far[number]
                at[side] = number
        return None

    def _until(self, number: int, beyond: int, follow: Sequence[int]) -> list[int]:
        found = []
        while number != beyond:
            found.append(number)
            number = follow[number]
        return found

    def _take(self, some: Members, numbers: list[int]) -> Members:
        """Take rectangles out of all lists, into lists of their own."""
        for side, (follow, before) in enumerate(zip(self._next, self._before, strict=True)):
            for number in numbers:
                first, last = before[number], follow[number]
                if first == self._end:
                    some.heads[side] = last
                else:
                    follow[first] = last
                before[last] = first
        some.count -= len(numbers)
        return self.of(numbers)


def _negated(edges: Sequence[int]) -> list[int]:
    return [-edge for edge in edges]

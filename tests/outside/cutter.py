"""A second pair of hands that shares no code with the engine: it reads a block's printed page and does it.

Cloth is a list of layers; a layer is an outline and patches (fabric, convex polygon), x right and y down, in inches.
Where a sentence uses a name that no sentence gave, it means the result that has waited longest for a name, as a reader
of the page would take it.
"""

import re
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import reduce
from itertools import chain
from math import sqrt
from typing import Any

Number = Any  # Fraction until a slant, then float
Point = tuple[Number, Number]
Polygon = tuple[Point, ...]
Side = Callable[[Point], Number]
"""Not below 0 on the side that is kept."""

NEAR = 1e-9
LENGTH = r"[\d ]*\d+/\d+|[\d.]+"
LAY = (
    rf"Lay a strip of fabric (\w+), ({LENGTH}) in wide and (?:at least )?({LENGTH}) in long \(cut size\)"
    r"(?:, one in each of the (\d+) layers)?\."
)
SEW = r"Sew (.+?) together, each (below|to the right of) the one before(, matching.*?)?: (\S+) measures .*"
CUT = r"Cut the \w+ into (\d+) segments? (.+?) wide \(cut size\)\."
SLICE = rf"Slice the \w+ from ({LENGTH}) in along the top to ({LENGTH}) in along the bottom\."


def number(text: str) -> Fraction:
    """A printed length, "13 1/2", in inches."""
    return sum((Fraction(part) for part in text.replace("in", "").split()), Fraction(0))


def clipped(polygon: Polygon, side: Side) -> Polygon:
    """The part of a convex polygon on one side of a line (Sutherland and Hodgman, from memory)."""
    kept: list[Point] = []
    for (ax, ay), (bx, by) in zip(polygon, (*polygon[1:], polygon[0]), strict=True):
        at_a, at_b = side((ax, ay)), side((bx, by))
        if at_a >= -NEAR:
            kept.append((ax, ay))
        if (at_a > NEAR and at_b < -NEAR) or (at_a < -NEAR and at_b > NEAR):
            share = at_a / (at_a - at_b)
            kept.append((ax + share * (bx - ax), ay + share * (by - ay)))
    return tuple(kept)


def area(polygon: Polygon) -> Number:
    """The area of a simple polygon, either way round."""
    pairs = zip(polygon, (*polygon[1:], polygon[0]), strict=True)
    return (
        abs(sum(ax * by - bx * ay for (ax, ay), (bx, by) in pairs)) / 2 if len(polygon) > 2 else Fraction(0)
    )


def rectangle(width: Number, height: Number) -> Polygon:
    """A rectangle with its top left at 0, 0."""
    zero = Fraction(0)
    return ((zero, zero), (width, zero), (width, height), (zero, height))


@dataclass(frozen=True)
class Cloth:
    """One layer: its raw outline and the patches seen on it so far; `slant` is the line it was last sliced along."""

    outline: Polygon
    patches: tuple[tuple[str, Polygon], ...]
    slant: tuple[Point, Point] | None = None

    def box(self) -> tuple[Number, Number, Number, Number]:
        """Left, top, right, bottom."""
        xs, ys = zip(*self.outline, strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    def kept(self, side: Side, slant: tuple[Point, Point] | None = None) -> "Cloth":
        """What lies on one side of a cut."""
        patches = ((fabric, clipped(polygon, side)) for fabric, polygon in self.patches)
        return Cloth(clipped(self.outline, side), tuple(one for one in patches if area(one[1]) > NEAR), slant)

    def moved(self, dx: Number, dy: Number) -> "Cloth":
        """The same cloth, elsewhere."""
        return self._each(lambda point: (point[0] + dx, point[1] + dy))

    def home(self) -> "Cloth":
        """Its box with the top left at 0, 0."""
        left, top, _, _ = self.box()
        return self.moved(-left, -top)

    def quarter_turned(self) -> "Cloth":
        """A quarter turn clockwise as seen, moved home."""
        return self._each(lambda point: (-point[1], point[0])).home()

    def _each(self, move: Callable[[Point], Point]) -> "Cloth":
        patches = tuple((fabric, tuple(map(move, polygon))) for fabric, polygon in self.patches)
        return Cloth(tuple(map(move, self.outline)), patches)


Pile = tuple[Cloth, ...]
Segments = Callable[[Sequence[str], Number], Pile]


@dataclass
class Cutter:
    """Follows one page.

    `fabric(letter, layer)` says which cloth a letter is; `take(fabrics, length)` hands over a segment of that
    length from a strip set already sewn, named by its fabrics from top to bottom.
    """

    fabric: Callable[[str, int], str]
    take: Callable[[Sequence[str], Number], Cloth]
    seam: Fraction
    named: dict[str, Any] = field(default_factory=dict)
    waiting: deque[Any] = field(default_factory=deque)
    last: Any = None

    def follow(self, sentences: Sequence[str]) -> Pile:
        """Do every step; the last result, one block a layer."""
        for sentence in sentences:
            self._do(sentence)
        return self.last  # type: ignore[no-any-return]

    def _do(self, sentence: str) -> None:
        for pattern, act in (
            (LAY, self._lay),
            (SEW, self._sew),
            (CUT, self._cut),
            (SLICE, self._slice),
            (r"Turn (\S+) (end for end|a quarter turn clockwise)\.", self._turn),
            (r"Shuffle (\S+): move the top (\d+) layers? to the bottom\.", self._shuffle),
            (rf"Square (\S+) up to ({LENGTH}) x ({LENGTH}) in unfinished\.", self._square),
            (r"Press .*", lambda *_: None),
        ):
            found = re.fullmatch(pattern, sentence)
            if found:
                act(*found.groups())
                return
        raise AssertionError(f"a sentence nobody could follow: {sentence}")

    def _get(self, name: str) -> Any:
        base, dot, part = name.partition(".")
        if base not in self.named:
            self.named[base] = self.waiting.popleft()
        return self.named[base][int(part) - 1] if dot else self.named[base]

    def _made(self, result: Any, name: str | None = None) -> None:
        """A result, which waits for a name unless the sentence gave it one."""
        self.last = result
        if name is None:
            self.waiting.append(result)
        else:
            self.named[name] = result

    def _used_last(self) -> Any:
        """What the step before gave: "the set", "the slab"."""
        if self.waiting and self.waiting[-1] is self.last:
            self.waiting.pop()
        return self.last

    def _lay(self, letter: str, width: str, length: str, layers: str | None) -> None:
        del width  # the set was sewn from strips cut as the materials say
        fabrics = [[self.fabric(letter, layer)] for layer in range(int(layers or 1))]
        self._made(("bed", number(length), fabrics))

    def _sew(self, names: str, way: str, matching: str | None, made: str) -> None:
        pieces = [self._get(name) for name in re.split(r", | and ", names)]
        if all(isinstance(piece, tuple) and piece[0] == "bed" for piece in pieces):
            assert len({piece[1] for piece in pieces}) == 1, "strips of a set are of one length"
            by_layer = zip(*(piece[2] for piece in pieces), strict=True)
            fabrics: list[list[str]] = [list(chain(*together)) for together in by_layer]
            result: Any = ("bed", pieces[0][1], fabrics)
        else:
            sew = self._sew_slanted if matching else (self._sew_down if way == "below" else self._sew_across)
            result = tuple(self._row(layer, sew) for layer in zip(*map(self._pile, pieces), strict=True))
        self._made(result, made)

    def _pile(self, piece: Any) -> Pile:
        """Cloth in hand: a bed that nobody cut is one segment of the set, of the bed's length."""
        if piece[0] == "bed":
            return tuple(self.take(fabrics, piece[1]) for fabrics in piece[2])
        return tuple(piece)

    def _row(self, cloths: Sequence[Cloth], sew: Callable[[Cloth, Cloth], Cloth]) -> Cloth:
        whole = cloths[0]
        for further in cloths[1:]:
            whole = sew(whole, further)
        return whole

    def _sew_down(self, upper: Cloth, lower: Cloth) -> Cloth:
        left, right = (
            reduce(lambda cloth, _: cloth.quarter_turned(), range(3), one) for one in (upper, lower)
        )
        return self._sew_across(left, right).quarter_turned()

    def _sew_across(self, left: Cloth, right: Cloth) -> Cloth:
        """The right edge of one to the left edge of the other, one allowance inside both."""
        _, top, edge, bottom = left.box()
        _, r_top, r_edge, r_bottom = right.box()
        assert abs((bottom - top) - (r_bottom - r_top)) < NEAR, "edges of unlike length"
        line = edge - self.seam
        over = right.moved(line - self.seam, 0)
        patches = (
            *left.kept(lambda point: line - point[0]).patches,
            *over.kept(lambda point: point[0] - line).patches,
        )
        return Cloth(rectangle(edge + r_edge - 2 * self.seam, bottom - top), patches)

    def _sew_slanted(self, left: Cloth, right: Cloth) -> Cloth:
        """Along the slant both were sliced on, the right part moved level until the seam lines fall together."""
        assert left.slant is not None
        (x0, y0), (x1, y1) = left.slant
        lean = (x1 - x0) / (y1 - y0)
        level = float(self.seam) * sqrt(1 + float(lean) ** 2)
        over = right.moved(-2 * level, 0)

        def inside(point: Point) -> Number:
            return float(x0 + lean * (point[1] - y0)) - level - float(point[0])

        patches = (*left.kept(inside).patches, *over.kept(lambda point: -inside(point)).patches)
        width = float(over.box()[2])
        return Cloth(rectangle(width, y1 - y0), patches)

    def _cut(self, count: str, widths: str) -> None:
        lengths = [number(one) for one in re.split(r", | and ", widths)]
        lengths = lengths if len(lengths) > 1 else lengths * int(count)
        assert len(lengths) == int(count)
        piece = self._used_last()
        self._made([self._segment(piece, lengths, place) for place in range(len(lengths))])

    def _segment(self, piece: Any, lengths: list[Fraction], place: int) -> Pile:
        if piece[0] == "bed":
            return tuple(self.take(fabrics, lengths[place]) for fabrics in piece[2])
        start = sum(lengths[:place], Fraction(0))
        stop = start + lengths[place]
        assert stop <= piece[0].box()[2], "a cut beyond the cloth"
        return tuple(
            cloth.kept(lambda point: point[0] - start).kept(lambda point: stop - point[0]).home()
            for cloth in piece
        )

    def _slice(self, top: str, bottom: str) -> None:
        piece = self._pile(self._used_last())
        height = piece[0].box()[3]
        x0, x1 = number(top), number(bottom)
        slant = ((x0, Fraction(0)), (x1, height))

        def left(point: Point) -> Number:
            return x0 + (x1 - x0) * point[1] / height - point[0]

        parts = [tuple(cloth.kept(left, slant) for cloth in piece)]
        parts.append(tuple(cloth.kept(lambda point: -left(point), slant) for cloth in piece))
        self._made(parts)

    def _turn(self, name: str, how: str) -> None:
        pile = self._pile(self._get(name))
        for _ in range(2 if how == "end for end" else 1):
            pile = tuple(cloth.quarter_turned() for cloth in pile)
        self._made(pile)

    def _shuffle(self, name: str, count: str) -> None:
        pile = self._get(name)
        self._made((*pile[int(count) :], *pile[: int(count)]))

    def _square(self, name: str, width: str, height: str) -> None:
        wide, high = number(width), number(height)
        self._made(tuple(self._trimmed(cloth, wide, high) for cloth in self._get(name)))

    def _trimmed(self, cloth: Cloth, wide: Number, high: Number) -> Cloth:
        left, top, right, bottom = cloth.box()
        x, y = (left + right - wide) / 2, (top + bottom - high) / 2
        trimmed = cloth.kept(lambda point: point[0] - x).kept(lambda point: x + wide - point[0])
        return trimmed.kept(lambda point: point[1] - y).kept(lambda point: y + high - point[1]).home()

"""What blocks have to cover when the sewn cloth is cut for a bag, a cushion or a vest."""

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cached_property

from piecewright.making.faults import shown
from piecewright.model.limits import check_count, check_not_negative, refuse
from piecewright.model.usual_shapes import USUAL_SHAPES, ShapeName
from piecewright.model.value import NO_SIZES, Sizes, Value

MOST_CORNERS = 200
LARGEST_SHAPE = Fraction(1000)


class Corner(Value, frozen=True):
    """A corner of a shape: inches to the right of and below the top left of the box round it."""

    x: Fraction
    y: Fraction


class Shape(Value, frozen=True, dict=True):
    """What is cut out of the sewn cloth: a usual shape in its sizes, or a polygon of its own.

    `kind` names one of `USUAL_SHAPES`; `sizes` are those that differ from the usual ones. Without a kind `corners`
    are the shape's, in order, their box at 0, 0. `margin` is what cloth has to reach beyond it all round. It lies in
    the middle of the quilt's center. No side crosses another.
    """

    kind: ShapeName | None = None
    sizes: Sizes = NO_SIZES
    corners: tuple[Corner, ...] = ()
    margin: Fraction = Fraction(1)

    def __post_init__(self) -> None:
        check_not_negative(self.margin, "margin round a shape", Fraction(100))
        if (self.kind is None) != bool(self.corners):
            refuse("shape-of-both")
        self._check_sizes()
        check_count(len(self.outline), "corners of a shape", 3, MOST_CORNERS)
        across, down = self._sides()
        if min(across) or min(down):
            refuse("shape-not-home", left=min(across), top=min(down))
        if max(*across, *down) > LARGEST_SHAPE:
            refuse("shape-too-large", most=LARGEST_SHAPE)
        if not self.area:
            refuse("shape-flat", name=self.name)
        if _crosses_itself(self.outline):
            refuse("shape-crossed", name=self.name)

    @property
    def name(self) -> str:
        """What it is called."""
        return self.kind or "shape"

    @property
    def sized(self) -> Mapping[str, Fraction]:
        """All sizes of a usual shape; none of a polygon of its own."""
        return {**USUAL_SHAPES[self.kind].usual, **self.sizes} if self.kind else {}

    @cached_property
    def outline(self) -> tuple[Corner, ...]:
        """Its corners, in order."""
        if self.kind is None:
            return self.corners
        return tuple(dict.fromkeys(Corner(x, y) for x, y in USUAL_SHAPES[self.kind].outline(self.sized)))

    @property
    def width(self) -> Fraction:
        """How wide the box round it is."""
        return max(self._sides()[0])

    @property
    def height(self) -> Fraction:
        """How high the box round it is."""
        return max(self._sides()[1])

    @property
    def area(self) -> Fraction:
        """Its area in square inches (the shoelace formula)."""
        double = sum(
            (one.x * other.y - other.x * one.y for one, other in _sides_of(self.outline)), Fraction(0)
        )
        return abs(double) / 2

    def _sides(self) -> tuple[list[Fraction], list[Fraction]]:
        return [corner.x for corner in self.outline], [corner.y for corner in self.outline]

    def _check_sizes(self) -> None:
        found = None if self.kind is None else USUAL_SHAPES.get(self.kind)
        if self.kind is not None and found is None:
            refuse("no-such-shape", name=shown(self.kind))
        usual = found.usual if found else {}
        for name, size in self.sizes.items():
            if name not in usual:
                refuse("no-such-size", name=shown(name), sizes=tuple(usual))
            check_not_negative(size, name, LARGEST_SHAPE)


def _sides_of(corners: Sequence[Corner]) -> list[tuple[Corner, Corner]]:
    return list(zip(corners, (*corners[1:], corners[0]), strict=True))


def _crosses_itself(corners: Sequence[Corner]) -> bool:
    """Whether two sides meet elsewhere than at the corner they share."""
    sides = _sides_of(corners)
    last = len(sides) - 1
    for number, one in enumerate(sides):
        for other_number in range(number + 1, len(sides)):
            neighbors = other_number == number + 1 or (number == 0 and other_number == last)
            if not neighbors and _meet(*one, *sides[other_number]):
                return True
            if neighbors and len(sides) > 3 and _folds(one, sides[other_number]):
                return True
    return False


def _turn(a: Corner, b: Corner, c: Corner) -> int:
    """1 where c lies right of a to b, -1 left of it, 0 on that line (y runs down)."""
    cross = (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x)
    return (cross > 0) - (cross < 0)


def _between(a: Corner, b: Corner, c: Corner) -> bool:
    return min(a.x, b.x) <= c.x <= max(a.x, b.x) and min(a.y, b.y) <= c.y <= max(a.y, b.y)


def _meet(a: Corner, b: Corner, c: Corner, d: Corner) -> bool:
    turns = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if turns[0] != turns[1] and turns[2] != turns[3]:
        return True
    ends = ((a, b, c), (a, b, d), (c, d, a), (c, d, b))
    return any(turn == 0 and _between(*end) for turn, end in zip(turns, ends, strict=True))


def _folds(one: tuple[Corner, Corner], other: tuple[Corner, Corner]) -> bool:
    """Whether a side runs back over its neighbor."""
    first, second = (one, other) if one[1] == other[0] else (other, one)
    a, b, c = first[0], first[1], second[1]
    back = (b.x - a.x) * (c.x - b.x) + (b.y - a.y) * (c.y - b.y)
    return _turn(a, b, c) == 0 and back < 0

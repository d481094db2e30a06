"""Random sets of rectangles: tilings by straight cuts and pinwheels, and sets with gaps."""

from fractions import Fraction
from random import Random

from piecewright.geometry.shapes import Rect

Box = tuple[int, int, int, int]


def tiling(random: Random, count: int, pinwheels: float = 0.0, side: int = 24) -> list[Box]:
    """A square tiled by at least so many rectangles; a share of the splits are pinwheels of five."""
    boxes: list[Box] = [(0, 0, side, side)]
    while len(boxes) < count:
        number = random.randrange(len(boxes))
        parts = (
            _pinwheel(random, boxes[number]) if random.random() < pinwheels else _cut(random, boxes[number])
        )
        if parts:
            boxes[number : number + 1] = parts
        elif all(right - left < 3 or bottom - top < 3 for left, top, right, bottom in boxes):
            boxes = [(2 * left, 2 * top, 2 * right, 2 * bottom) for left, top, right, bottom in boxes]
    return boxes


def _cut(random: Random, box: Box) -> list[Box]:
    left, top, right, bottom = box
    if random.random() < 0.5:
        if right - left < 2:
            return []
        x = random.randrange(left + 1, right)
        return [(left, top, x, bottom), (x, top, right, bottom)]
    if bottom - top < 2:
        return []
    y = random.randrange(top + 1, bottom)
    return [(left, top, right, y), (left, y, right, bottom)]


def _pinwheel(random: Random, box: Box) -> list[Box]:
    left, top, right, bottom = box
    if right - left < 3 or bottom - top < 3:
        return []
    x1, x2 = sorted(random.sample(range(left + 1, right), 2))
    y1, y2 = sorted(random.sample(range(top + 1, bottom), 2))
    if random.random() < 0.5:
        return [
            (left, top, x2, y1),
            (x2, top, right, y2),
            (x1, y2, right, bottom),
            (left, y1, x1, bottom),
            (x1, y1, x2, y2),
        ]
    return [
        (x1, top, right, y1),
        (left, top, x1, y2),
        (left, y2, x2, bottom),
        (x2, y1, right, bottom),
        (x1, y1, x2, y2),
    ]


def scattered(random: Random, count: int, side: int = 8) -> list[Box]:
    """At most so many rectangles that do not overlap, with gaps between them."""
    boxes: list[Box] = []
    for _ in range(count * 4):
        left, top = random.randrange(side), random.randrange(side)
        right, bottom = random.randint(left + 1, side), random.randint(top + 1, side)
        new = (left, top, min(right, left + 4), min(bottom, top + 4))
        if len(boxes) < count and not any(overlap(new, box) for box in boxes):
            boxes.append(new)
    return boxes


def overlap(one: Box, other: Box) -> bool:
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]


def rects(boxes: list[Box], unit: Fraction = Fraction(3, 2)) -> list[Rect]:
    return [Rect(*(unit * edge for edge in box)) for box in boxes]

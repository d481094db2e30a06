"""What a block on the wall looks like to one who arranges: how light, which side is light, what its edges show."""

from collections import defaultdict
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from piecewright.colour.value import lightness
from piecewright.edit.facts_of import facts_of, stack_of
from piecewright.geometry.shapes import Ring
from piecewright.making.facts import SeenPatch
from piecewright.model.design import Design
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Placement, Turn
from piecewright.plan.edges import Edges, Run, edges_of

SAMPLES = 12
"""So many spots along each cell of an edge are compared with the neighbor's."""
NOTHING = -1
"""What is seen beyond the quilt, and where a block lacks a fabric: it is like nothing."""
_UNCHOSEN = "#808080"

Spots = NDArray[np.int32]
"""Numbers of fabrics along an edge."""


@dataclass(frozen=True, eq=False)
class Look:
    """A block as it lies unturned, `columns` x `rows` cells of `unit` inches.

    `shares` is how much of its area each fabric covers, by the fabric's number; `light` is its mean CIE L*;
    `lean` points to its lighter side (x right, y down), as long as that side is lighter, in L*; `runs` are
    what its top, right, bottom and left edges show, each from its left or upper end.
    """

    columns: int
    rows: int
    unit: float
    shares: NDArray[np.float64]
    light: float
    lean: tuple[float, float]
    runs: Edges

    @cached_property
    def edges(self) -> tuple[Spots, Spots, Spots, Spots]:
        """The fabrics at even spots along the top, right, bottom and left edge."""
        top, right, bottom, left = (
            _spots(runs, cells, self.unit)
            for runs, cells in zip(self.runs, (self.columns, self.rows) * 2, strict=True)
        )
        return top, right, bottom, left

    def edges_turned(self, turn: Turn) -> tuple[Spots, Spots, Spots, Spots]:
        """The same with the block turned clockwise."""
        top, right, bottom, left = self.edges
        if turn == 90:
            return left[::-1], top, right[::-1], bottom
        if turn == 180:
            return bottom[::-1], left[::-1], top[::-1], right[::-1]
        if turn == 270:
            return right, bottom[::-1], left, top[::-1]
        return top, right, bottom, left

    def lean_turned(self, turn: Turn) -> tuple[float, float]:
        """Where the lighter side lies with the block turned clockwise."""
        x, y = self.lean
        return {0: (x, y), 90: (-y, x), 180: (-x, -y), 270: (y, -x)}[turn]


class Looks:
    """The looks of a design's blocks, each worked out once."""

    def __init__(self, design: Design) -> None:
        self._design = design
        self._unit = float(design.quilt.lattice.unit)
        self._numbers = {fabric.id: number for number, fabric in enumerate(design.fabrics)}
        self._light = [lightness(color) for color in map(_color, design.fabrics)]
        self._known: dict[object, Look] = {}

    @property
    def fabrics(self) -> int:
        """How many fabrics there are."""
        return len(self._numbers)

    def of(self, placement: Placement, columns: int, rows: int) -> Look:
        """The look of a placed block that covers so many cells as it lies unturned.

        Raises RecipeError or MakingError where it can not be made.
        """
        key = (placement.block, placement.kind, placement.layer, placement.fabrics)
        found = self._known.get(key)
        if found is None:
            found = self._known[key] = self._measured(placement, columns, rows)
        return found

    def _measured(self, placement: Placement, columns: int, rows: int) -> Look:
        facts = facts_of(self._design, placement.block)
        letters = self._design.letters(placement)
        stack = stack_of(self._design, placement.block)

        def number_of(patch: SeenPatch) -> int:
            fabric = letters.fabric(patch.fabric, (placement.layer + patch.layer) % stack)
            return NOTHING if fabric is None else self._numbers[fabric]

        width, height = float(facts.finished.width), float(facts.finished.height)
        shares: dict[int, float] = defaultdict(float)
        whole = tilt_x = tilt_y = 0.0
        for patch in facts.kinds[placement.kind].patches:
            number = number_of(patch)
            ring = Ring(tuple((float(x), float(y)) for x, y in patch.points))
            area, (x, y) = ring.area, ring.centroid
            light = area * self._lightness(number)
            shares[number] += area
            whole += light
            tilt_x += light * (x - width / 2)
            tilt_y += light * (y - height / 2)
        area = width * height
        vector = np.zeros(self.fabrics)
        for number, share in shares.items():
            if number != NOTHING:
                vector[number] = share / area
        lean = (4 * tilt_x / (area * width), 4 * tilt_y / (area * height))  # halves of L1 and L2 lean L2 - L1
        edges = edges_of(facts, placement.kind, number_of)
        return Look(columns, rows, self._unit, vector, whole / area, lean, edges)

    def _lightness(self, number: int) -> float:
        return lightness(_UNCHOSEN) if number == NOTHING else self._light[number]


def _color(fabric: Fabric) -> str:
    return fabric.color


def _spots(runs: tuple[Run, ...], cells: int, unit: float) -> Spots:
    spots = np.full(cells * SAMPLES, NOTHING, np.int32)
    step = unit / SAMPLES
    for low, high, number in runs:
        first, last = int(np.ceil(low / step - 0.5)), int(np.ceil(high / step - 0.5))
        spots[first:last] = number
    return spots

"""Which way to press the seams of a recipe: one decision for each seam as sewn, as many crossings nesting as can."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from piecewright.geometry.half import right_hand
from piecewright.geometry.motion import Motion, Point
from piecewright.geometry.tolerance import ALIKE
from piecewright.making.cloth import Cloth, Seam, spread
from piecewright.making.finishing import finish
from piecewright.making.given import Given
from piecewright.making.pressing import TOWARD_END, WAYS, decisions_of, nearest_way
from piecewright.making.recipe import Recipe
from piecewright.making.run import Making, run
from piecewright.making.table import Sewn
from piecewright.sewing.junctions import SeamLine, Spot
from piecewright.sewing.layers import OPEN, Lump, lump
from piecewright.sewing.nesting import Nesting, Seamwork, nest, opened, seamwork
from piecewright.units.sizes import Finished

_MOST_JOINS = 1_000_000


class SewnSeam(NamedTuple):
    """A seam as sewn: the `join`-th (from 1) of a sewing step, in one layer of the stack (from 0, the top)."""

    step: str
    join: int
    layer: int


@dataclass(frozen=True, slots=True)
class PlannedSeam:
    """A seam with the way to press it, in the frame of the step that sews it.

    `fixed`: the recipe says so; `only`: the step sews no other seam. "darker" stays where fabrics are not known.
    """

    seam: SewnSeam
    toward: str
    fixed: bool
    only: bool

    @property
    def name(self) -> str:
        """As a `press` step names it."""
        return self.seam.step if self.only else f"{self.seam.step}.{self.seam.join}"


@dataclass(frozen=True, slots=True)
class PressedBlock:
    """The seams of a finished block of one layer, numbered as in the plan, and where they meet."""

    name: str
    layer: int
    work: Seamwork


@dataclass(frozen=True, slots=True)
class Clash:
    """Two seams of a finished block that meet on a third at a point and are pressed to one side, as plan numbers."""

    block: str
    layer: int
    point: Spot
    on: int
    one: int
    other: int


@dataclass(frozen=True, slots=True, eq=False)
class PressingPlan:
    """Every seam seen in the blocks of one batch, in the order of sewing, and what comes of pressing them so.

    Compared by identity; `plan_of` gives the same one for the same values.

    `signs` are the ways as numbers, -1 being the way opposite to 1, and 0 open or not known. `flips` tells which seams
    may all be pressed the other way together at no cost. `bound` is the least number of clashes of any pressing;
    `press_open` are seams that, opened, leave none.
    """

    seams: tuple[PlannedSeam, ...]
    signs: tuple[int, ...]
    flips: tuple[bool, ...]
    blocks: tuple[PressedBlock, ...]
    finished: Finished
    crossings: int
    clashes: tuple[Clash, ...]
    bound: int
    press_open: tuple[PlannedSeam, ...]

    @property
    def proven(self) -> bool:
        """Whether no pressing has fewer clashes."""
        return len(self.clashes) == self.bound

    def block(self, name: str, layer: int) -> PressedBlock | None:
        """A finished block by its name and layer."""
        return next((block for block in self.blocks if (block.name, block.layer) == (name, layer)), None)

    def lumps(self) -> tuple[tuple[PressedBlock, tuple[Lump, ...]], ...]:
        """Layers of cloth wherever seams meet inside each block, with what opening or spinning would make of it."""
        return tuple(
            (
                block,
                tuple(
                    lump(block.work.lines, met, self.signs) for met in block.work.junctions if met.is_inside
                ),
            )
            for block in self.blocks
        )


def pressing_plan(
    making: Making, darker: Mapping[SewnSeam, str] | None = None, *, library: bool = True
) -> PressingPlan:
    """The plan for a making that was done to the end.

    `press` steps of the recipe are held to. Those "toward the darker" are settled by `darker` (a way in the sewing
    step's frame); seams it does not have neither nest nor clash. Without `library`, HiGHS is not asked. Raises
    MakingError as `finish` does.
    """
    return Planning(making, darker or {}).plan(library=library)


@lru_cache(maxsize=256)
def plan_of(recipe: Recipe, given: Given, darker: tuple[tuple[SewnSeam, str], ...] = ()) -> PressingPlan:
    """The plan of a recipe, as `pressing_plan`. Raises RecipeError and MakingError as `run` and `finish` do."""
    return pressing_plan(run(recipe, given), dict(darker))


class Planning:
    """The seams of one making, numbered in the order of sewing, as they are met in finished blocks."""

    def __init__(self, making: Making, darker: Mapping[SewnSeam, str]) -> None:
        self.stack = making.recipe.stack
        self.darker = darker
        self.finish = finish(making.recipe, making.table, making.names, claimed=False)
        self.decisions = decisions_of(making.outcomes)
        self.sewn = making.table.sewn
        sewing = (name for outcome in making.outcomes for name in outcome.sewn)
        self.order = {name: number for number, name in enumerate(sewing)}
        self.cloths: list[tuple[str, int, Cloth]] = [
            (name, layer, cloth)
            for name, pile in self.finish.blocks.items()
            for layer, cloth in enumerate(spread(pile, self.stack))
        ]
        seen = {self._as_sewn(seam, layer) for _, layer, cloth in self.cloths for seam in cloth.seams}
        self.seams = sorted(seen, key=lambda seam: (self.order[seam.step], seam.join, seam.layer))
        self.numbers = {seam: number for number, seam in enumerate(self.seams)}
        self.facings = [_facing(self.sewn[seam.step], seam.join) for seam in self.seams]

    def plan(self, *, library: bool) -> PressingPlan:
        """Nest what can be nested."""
        said = [self._said(seam) for seam in self.seams]
        fixed, aside = self._held(said)
        blocks = tuple(self._blocks())
        found = nest(
            len(self.seams),
            [block.work for block in blocks],
            fixed,
            aside,
            tuple(self._alike()),
            library=library,
        )
        signs = tuple(OPEN if number in aside else sign for number, sign in enumerate(found.signs))
        seams = tuple(self._planned(number, sign, said[number]) for number, sign in enumerate(signs))
        clashes = tuple(_clashes(blocks, found))
        to_open = opened((clash.one, clash.other) for clash in clashes)
        return PressingPlan(
            seams=seams,
            signs=signs,
            flips=tuple(group > 0 and number not in aside for number, group in enumerate(found.free)),
            blocks=blocks,
            finished=self.finish.finished,
            crossings=sum(len(block.work.crossings) for block in blocks),
            clashes=clashes,
            bound=found.bound,
            press_open=tuple(seams[number] for number in to_open),
        )

    def _as_sewn(self, seam: Seam, layer: int) -> SewnSeam:
        return SewnSeam(seam.step, seam.join, (layer + seam.layer) % self.stack)

    def _said(self, seam: SewnSeam) -> str | None:
        """The way that the recipe says, in the sewing step's frame; the last word counts."""
        for way, layers in reversed(self.decisions.ways.get((seam.step, seam.join), ())):
            if layers is None or seam.layer in layers:
                return self.darker.get(seam, way) if way == "darker" else way
        return None

    def _held(self, said: Sequence[str | None]) -> tuple[dict[int, int], set[int]]:
        """The signs that are given, and the seams that are pressed open or not known."""
        fixed: dict[int, int] = {}
        aside: set[int] = set()
        for number, way in enumerate(said):
            if way is not None and way in WAYS:
                fixed[number] = 1 if _dot(WAYS[way], self.facings[number]) > 0 else -1
            elif way is not None:
                aside.add(number)
        return fixed, aside

    def _planned(self, number: int, sign: int, said: str | None) -> PlannedSeam:
        seam = self.seams[number]
        only = len(self.sewn[seam.step].lines) == 1
        return PlannedSeam(seam, said or self.way(number, sign), said is not None, only)

    def way(self, number: int, sign: int) -> str:
        """The direction of a sign, in the frame of the step that sews the seam."""
        axis, facing = self.sewn[self.seams[number].step].axis, self.facings[number]
        if axis is not None:
            return TOWARD_END[axis][sign > 0]
        return nearest_way(sign * facing[0], sign * facing[1])

    def _blocks(self) -> Iterator[PressedBlock]:
        """Every block of every layer; where seams meet is worked out once for blocks that are one cloth."""
        known: dict[int, Seamwork] = {}
        for name, layer, cloth in self.cloths:
            lines = tuple(self.line(seam, layer) for seam in cloth.seams)
            work = known.get(id(cloth))
            if work is None:
                work = known[id(cloth)] = seamwork(lines)
            yield PressedBlock(name, layer, Seamwork(lines, work.junctions, work.crossings, work.bulks))

    def line(self, seam: Seam, layer: int) -> SeamLine:
        """A seam as it lies in the block of a layer."""
        number = self.numbers[self._as_sewn(seam, layer)]
        order = self.order[seam.step] * _MOST_JOINS + seam.join
        toward = Motion(seam.quarters, seam.degrees, seam.faced).direction(self.facings[number])
        ends = (_spot(seam.line.start), _spot(seam.line.end))
        return SeamLine(number, order, *ends, _spot(toward))

    def _alike(self) -> Iterator[tuple[int, int]]:
        """Seams one would like to press the same way: neighbors in a step, and the same in the next layer."""
        for one, number in self.numbers.items():
            for other in (one._replace(join=one.join + 1), one._replace(layer=one.layer + 1)):
                if other in self.numbers:
                    yield number, self.numbers[other]


def _spot(point: Point) -> Spot:
    return float(point[0]), float(point[1])


def _dot(one: Spot, other: Spot) -> float:
    return one[0] * other[0] + one[1] * other[1]


def _facing(sewn: Sewn, join: int) -> Spot:
    """Square to a seam in its step's frame, as sign 1 presses it: along the axis, or to the right, or down."""
    start, end = (_spot(point) for point in (sewn.lines[join - 1].start, sewn.lines[join - 1].end))
    line = right_hand(start, end)
    across, down = float(line.x_part), float(line.y_part)
    along = down if sewn.axis == "down" or (sewn.axis is None and abs(across) <= ALIKE) else across
    return (across, down) if along > 0 else (-across, -down)


def _clashes(blocks: Sequence[PressedBlock], found: Nesting) -> Iterator[Clash]:
    for number, index in found.clashes:
        block = blocks[number]
        crossing, lines = block.work.crossings[index], block.work.lines
        on, one, other = (lines[line].seam for line in (crossing.on, crossing.one, crossing.other))
        yield Clash(block.name, block.layer, crossing.point, on, one, other)

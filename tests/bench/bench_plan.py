"""Times the plan: one block dropped, to all numbers; and a whole plan against the bare work on the same patches.

Run as `python -m tests.bench.bench_plan`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import gc
import platform
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from statistics import median
from time import perf_counter, thread_time

import numpy as np
import shapely  # type: ignore[import-untyped] # it ships without types
from numpy.typing import NDArray

from piecewright.edit.placing import place_block, remove_blocks
from piecewright.edit.recoloring import set_block_fabrics
from piecewright.edit.registry import Cell
from piecewright.making.facts import Kind
from piecewright.making.shipped import shipped_recipes
from piecewright.model.block import Block
from piecewright.model.design import Design, RecipeEntry
from piecewright.model.fabric import Fabric
from piecewright.model.quilt import Backing, Binding, Border, Lattice, Placement, Quilt, Row, Turn
from piecewright.model.settings import Settings
from piecewright.model.value import Letters
from piecewright.plan.layout import layout
from piecewright.plan.materials import materials
from piecewright.plan.stage import RERUNS, forget
from piecewright.plan.workroom import workroom_of

RECIPE = "middle-end-for-end"  # 18 patches
FABRICS = 24
PAIRS = 300
SIZES = (10_000, 40_000)
BLOCK = "b90"


def colored(random: Random) -> Letters:
    """Two fabrics of their own for a block."""
    return Letters({letter: (f"f{random.randint(1, FABRICS)}",) for letter in "AB"})


def quilt_of(blocks: int, random: Random) -> Design:
    """A square quilt of about so many blocks, each colored and turned in its own way, bordered and bound."""
    side = round(blocks**0.5)
    turns: tuple[Turn, ...] = (0, 90, 180, 270)
    rows = tuple(
        Row(
            row,
            tuple(
                Placement(column, BLOCK, random.choice(turns), fabrics=colored(random))
                for column in range(side)
            ),
        )
        for row in range(side)
    )
    wall = Quilt(
        "Bench",
        Lattice(Fraction(12), side, side),
        rows,
        borders=(Border("f1", Fraction(3)),),
        binding=Binding("f2"),
        backing=Backing("f3"),
    )
    return Design(
        name="Bench",
        fabrics=tuple(Fabric(f"f{n}", f"Cloth {n}", "#808080") for n in range(1, FABRICS + 1)),
        recipes=(RecipeEntry("r80", shipped_recipes()[RECIPE]),),
        blocks=(Block(BLOCK, "Middle", "r80", fabrics=colored(random)),),
        arrangements=(wall,),
        settings=Settings(usable=Fraction(42)),
        next_id=100,
    )


def kind_of(found: Design) -> Kind:
    """The one kind of block in the bench's quilts."""
    return workroom_of(found).work(BLOCK).facts.kinds[0]


@dataclass
class Drops:
    """Edits of random blocks, one after another, each timed to all numbers and the layout."""

    design: Design
    random: Random

    def __post_init__(self) -> None:
        self.all_numbers()
        self.reruns: list[int] = []

    def all_numbers(self) -> None:
        """Everything the Materials panel and the wall need."""
        materials(self.design)
        layout(self.design)

    def timed(self) -> float:
        """Seconds of work for one block dropped or recolored, from the edit to the numbers.

        Time of this thread alone: what else the machine does does not count.
        """
        lattice = self.design.quilt.lattice
        cell = Cell(self.random.randrange(lattice.columns), self.random.randrange(lattice.rows))
        emptied = remove_blocks(self.design, cells=(cell,))
        fabrics = colored(self.random)
        RERUNS.clear()
        if self.random.random() < 0.5:
            materials(emptied)
            RERUNS.clear()
            begin = thread_time()
            self.design = place_block(emptied, block=BLOCK, cell=cell, fabrics=fabrics)
        else:
            begin = thread_time()
            self.design = set_block_fabrics(self.design, cells=(cell,), fabrics=fabrics)
        self.all_numbers()
        seconds = thread_time() - begin
        self.reruns.append(RERUNS.total())
        return seconds


def drops(patches: int) -> None:
    """One drop in a quilt of so many patches, and in one a tenth the size, in turns."""
    random = Random(1)
    per_block = len(kind_of(quilt_of(1, random)).patches)
    large = Drops(quilt_of(patches // per_block, random), random)
    small = Drops(quilt_of(patches // per_block // 10, random), random)
    gc.collect()
    gc.freeze()  # as the program does once a design is loaded
    pairs = [(large.timed(), small.timed()) for _ in range(PAIRS)]
    for name, times, reruns in (
        (f"{patches} patches", sorted(pair[0] for pair in pairs), large.reruns),
        (f"{patches // 10} patches", sorted(pair[1] for pair in pairs), small.reruns),
    ):
        p95 = times[int(len(times) * 0.95)]
        print(
            f"one drop, {name}: {shown(median(times))}, p95 {shown(p95)}; stages rerun {median(reruns):.0f}"
        )
    ratio = median(one for one, _ in pairs) / median(other for _, other in pairs)
    print(f"  ratio to a tenth the size: {ratio:.2f}")


def bare_numpy(corners: NDArray[np.float64], turns: NDArray[np.int64], at: NDArray[np.float64]) -> None:
    """Place, area, edge angles and area by fabric of every patch (blocks x patches x corners x 2), no more."""
    cosine, sine = np.cos(turns * np.pi / 2), np.sin(turns * np.pi / 2)
    turn = np.stack([cosine, sine, -sine, cosine], axis=-1).reshape(-1, 1, 2, 2)
    placed = corners[None] @ turn + at[:, None, None]
    following = np.roll(placed, -1, axis=2)
    area = 0.5 * np.abs((placed[..., 0] * following[..., 1] - following[..., 0] * placed[..., 1]).sum(axis=2))
    edge = following - placed
    np.degrees(np.arctan2(edge[..., 1], edge[..., 0]))
    np.bincount(np.arange(area.size) % FABRICS, weights=area.ravel(), minlength=FABRICS)


def bare_shapely(corners: NDArray[np.float64], at: NDArray[np.float64]) -> None:
    """Areas and insets of the same polygons."""
    polygons = shapely.polygons((corners[None] + at[:, None, None]).reshape(-1, corners.shape[1], 2))
    shapely.area(polygons)
    shapely.buffer(polygons, -0.25, join_style="mitre", mitre_limit=10)


def whole_plan(patches: int) -> None:
    """A whole plan from nothing (the blocks' facts known, as they are computed once) beside the bare work."""
    random = Random(2)
    per_block = len(kind_of(quilt_of(1, random)).patches)
    found = quilt_of(patches // per_block, random)
    laid_out = layout(found)
    corners = np.array(
        [[tuple(map(float, point)) for point in patch.points] for patch in kind_of(found).patches]
    )
    turns = np.array([block.laid.placement.turn // 90 for block in laid_out.blocks])

    def plan() -> None:
        forget()
        materials(found)
        layout(found)

    times = {
        "plan": best(plan),
        "numpy": best(lambda: bare_numpy(corners, turns, laid_out.rects[:, :2])),
        "shapely": best(lambda: bare_shapely(corners, laid_out.rects[:, :2])),
    }
    bare = times["numpy"] + times["shapely"]
    print(
        f"whole plan, {patches} patches: "
        + ", ".join(f"{name} {shown(time)}" for name, time in times.items())
    )
    print(f"  ratio to bare shapely and numpy work: {times['plan'] / bare:.2f}")


def best(work: Callable[[], None]) -> float:
    """The median of some runs, seconds."""
    return median(list(_runs(work)))


def _runs(work: Callable[[], None]) -> Iterator[float]:
    for _ in range(9):
        begin = perf_counter()
        work()
        yield perf_counter() - begin


def shown(seconds: float) -> str:
    """A time in milliseconds."""
    return f"{seconds * 1000:.2f} ms"


def main() -> None:
    """Print all figures."""
    print(f"{platform.machine()}, Python {platform.python_version()}, numpy {np.__version__}")
    for patches in SIZES:
        drops(patches)
    whole_plan(SIZES[-1])


if __name__ == "__main__":
    main()

"""Times the cutting table of whole designs: until its first answer, until its best, and what both save.

Run as `python -m tests.bench.bench_table`. Prints figures and the machine, asserts nothing: times are not tests.
"""

import platform
from collections.abc import Iterator
from fractions import Fraction
from importlib.resources import files
from pathlib import Path
from time import perf_counter

from piecewright.cutting.table import DesignCutting, best_cutting, cutting_plan
from piecewright.cutting.telling import in_short
from piecewright.cutting.verify import verify
from piecewright.files.design_file import load_design
from piecewright.making.shipped import shipped_recipes
from piecewright.model.design import Design
from piecewright.model.quilt import Backing, Binding, Border
from piecewright.model.setting import Sashing
from piecewright.plan.materials import materials
from piecewright.plan.stage import forget
from piecewright.render.cutting_picture import cutting_pages
from piecewright.render.recording_pen import record
from tests.core.plan.samples import BOLT, block, design, letters, quilt

EXAMPLES = Path(str(files("piecewright_data"))) / "examples"


def sashed(count: int, columns: int) -> Design:
    """Blocks of patches with sashing, two borders, binding and backing, five fabrics."""
    shelf = (block(shipped_recipes()["churn-dash"], letters(A="f1", B="f2")),)
    wall = quilt(
        count,
        columns,
        Fraction(12),
        borders=(Border("f3", Fraction(2)), Border("f1", Fraction(6))),
        sashing=Sashing("f2", Fraction(2), Fraction(2), cornerstones="f1"),
        binding=Binding("f2"),
        backing=Backing("f4"),
    )
    return design(shelf, wall, BOLT)


def cases() -> Iterator[tuple[str, Design]]:
    """The samples, and quilts of patches with sashing."""
    for path in sorted(EXAMPLES.glob("*.piecewright")):
        yield path.stem, load_design(path).design
    for count, columns in ((4, 2), (12, 3), (30, 5), (100, 10), (400, 20)):
        yield f"sashed {count}", sashed(count, columns)


def since(begun: float) -> float:
    """Milliseconds since then."""
    return (perf_counter() - begun) * 1e3


def measure(name: str, drawn: Design) -> None:
    """One design, from nothing but its materials."""
    forget()
    materials(drawn)
    begun = perf_counter()
    first = cutting_plan(drawn)
    first_ms = since(begun)
    begun = perf_counter()
    best = best_cutting(first)
    best_ms = since(begun)
    begun = perf_counter()
    for page in cutting_pages(best, drawn):
        record(page)
    drawn_ms = since(begun)
    pieces = sum(piece.count for each in first.fabrics for piece in each.plan.job.pieces)
    print(
        f"{name:16} {len(first.fabrics):3} fabrics {pieces:6} pieces | first {first_ms:7.1f} ms, "
        f"best {best_ms:6.0f} ms, drawn {drawn_ms:6.0f} ms | "
        f"plain {plain(first):8.1f} in, first {amount(first):8.1f}, best {amount(best):8.1f}"
    )
    for each in best.fabrics:
        for fault in verify(each.plan):
            print("FAULT", fault)
        if each.saved:
            print(f"    {each.name}: {in_short(each.plan, each.plain)}")


def plain(table: DesignCutting) -> float:
    """Inches off the bolt that plain cutting takes."""
    return float(sum(each.plain.amount for each in table.fabrics))


def amount(table: DesignCutting) -> float:
    """Inches off the bolt that the plans take."""
    return float(sum(each.plan.amount for each in table.fabrics))


if __name__ == "__main__":
    print(f"{platform.machine()} {platform.system()}, Python {platform.python_version()}")
    for name, drawn in cases():
        measure(name, drawn)

"""Reads the public packing instances of `packing/` (sources there) as jobs and problems of our own kind."""

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

from piecewright.cutting.job import Job
from piecewright.cutting.pieces import Piece
from piecewright.cutting.problem import Face, Lie, Problem
from piecewright.cutting.sheets import bolt

FOLDER = Path(__file__).with_name("packing")

LEAST_STRIPS = (
    51604, 77436, 80121, 196470, 91177, 168011, 243095, 332703, 122611, 272780, 314932, 573679,
)  # fmt: skip
"""The least cloth for gcut1d to gcut12d in two-stage strips as wide as the file's first bin, nothing turned.

Our own proofs, of another program; the instances are of Cintra and others 2008.
"""

PAPER_MILL = dict(
    zip(
        (1380, 1520, 1560, 1710, 1820, 1880, 1930, 2000, 2050, 2100, 2140, 2150, 2200),
        (22, 25, 12, 14, 18, 18, 20, 10, 12, 14, 16, 18, 20),
        strict=True,
    )
)
"""Widths and demands of the textbook's paper mill: rolls of 5600, of which 73 are needed."""
PAPER_ROLL, PAPER_ROLLS = 5600, 73


@dataclass(frozen=True)
class KnapsackInstance:
    """A two-stage knapsack: one sheet with the values of its items, and the published most."""

    name: str
    first_cuts: str
    problem: Problem
    values: tuple[int, ...]
    most: int


@dataclass(frozen=True)
class BinInstance:
    """Sizes into bins, as strips of height 1, and the fewest bins that are known."""

    name: str
    job: Job
    fewest: int


def strips_of_gcut(number: int) -> Job:
    """One of gcut1d to gcut12d as strips off a bolt, nothing turned or stacked."""
    path = f"twostage/cintra2008/gcut{number}d.txt"
    pieces = tuple(
        _piece(str(row["ID"]), row["WIDTH"], row["HEIGHT"], row["COPIES"])
        for row in _table(f"{path}_items.csv")
    )
    return Job(pieces, bolt(Fraction(_table(f"{path}_bins.csv")[0]["WIDTH"])), stack=1)


def paper_mill() -> Job:
    """Rolls as strips of height 1."""
    pieces = tuple(_piece(str(width), width, 1, count) for width, count in PAPER_MILL.items())
    return Job(pieces, bolt(Fraction(PAPER_ROLL)), stack=1)


def bins() -> Iterator[BinInstance]:
    """The twenty instances of binpack1."""
    words = iter((FOLDER / "binpack1.txt").read_text(encoding="utf-8").split())
    for _ in range(int(next(words))):
        name, capacity, items, fewest = next(words), next(words), int(next(words)), int(next(words))
        pieces = tuple(_piece(str(place), int(next(words)), 1, 1) for place in range(items))
        yield BinInstance(name, Job(pieces, bolt(Fraction(capacity)), stack=1), fewest)


def knapsacks() -> Iterator[KnapsackInstance]:
    """The 76 published optima: 38 instances, each with its first cuts either way."""
    with (FOLDER / "data_knapsack_2nho_2nvo_others.csv").open(encoding="utf-8") as file:
        for row in csv.DictReader(file):
            if row["Best known solution value"] != row["Best known bound"]:
                raise ValueError(f"{row['Path']} is not proven")
            yield _knapsack(row["Path"], row["Options"], int(row["Best known solution value"]))


def _knapsack(path: str, first_cuts: str, most: int) -> KnapsackInstance:
    items, sheet = _table(f"twostage/{path}_items.csv"), _table(f"twostage/{path}_bins.csv")[0]
    names = ("WIDTH", "HEIGHT") if first_cuts == "Horizontal" else ("HEIGHT", "WIDTH")
    width, length = (sheet[name] for name in names)
    sides = [(item[names[0]], item[names[1]]) for item in items]
    lies = tuple(
        Lie(place, across, along)
        for place, (across, along) in enumerate(sides)
        if across <= width and along <= length
    )
    areas = tuple(across * along for across, along in sides)
    values = tuple(item.get("PROFIT", area) for item, area in zip(items, areas, strict=True))
    demand = tuple(item.get("COPIES", 1) for item in items)
    face = Face(source=0, turned=False, width=width, length=length, lies=lies, stack=1)
    return KnapsackInstance(path, first_cuts, Problem(demand, areas, (face,), (None,)), values, most)


def _piece(key: str, width: int, height: int, count: int) -> Piece:
    return Piece(key, Fraction(width), Fraction(height), count, may_turn=False)


def _table(path: str) -> list[dict[str, int]]:
    with (FOLDER / path).open(encoding="utf-8") as file:
        return [{name: int(text) for name, text in row.items()} for row in csv.DictReader(file)]

"""Random cells of a quilt: of the lattice, and of blocks that hang on it."""

from random import Random

from piecewright.edit.registry import Cell
from piecewright.model.design import Design


def random_cell(random: Random, design: Design) -> Cell:
    """A cell of the lattice in view, now and then just outside."""
    lattice = design.quilt.lattice
    if random.random() < 0.05:
        return Cell(random.randint(-2, lattice.columns + 1), random.randint(-2, lattice.rows + 1))
    return Cell(random.randrange(lattice.columns), random.randrange(lattice.rows))


def random_cells(random: Random, design: Design, most: int = 5) -> tuple[Cell, ...]:
    """Cells of placed blocks: a few, or a neighborhood; now and then one that may be free, or none."""
    places = [(placement.column, row.row) for row in design.quilt.rows for placement in row.placements]
    if not places or random.random() < 0.03:
        return () if random.random() < 0.3 else (random_cell(random, design),)
    if random.random() < 0.5:
        column, row = random.choice(places)
        near = [place for place in places if abs(place[0] - column) <= 4 and abs(place[1] - row) <= 4]
        return tuple(Cell(*place) for place in near[:most])
    return tuple(Cell(*place) for place in random.sample(places, min(len(places), random.randint(1, most))))

"""Random sashing and setting triangles for walks over the edits."""

from fractions import Fraction
from random import Random
from typing import Any

from piecewright.model.setting import Sashing, Triangles


def random_sashing(random: Random, fabric: str) -> dict[str, Any]:
    """Arguments of `set-sashing`: sashing of a fabric or none, round spaces of some size."""
    if random.random() < 0.3:
        return {"sashing": None}
    wide = Fraction(random.randint(1, 8), 4)
    sashing = Sashing(
        fabric,
        wide,
        random.choice((wide, wide, Fraction(0))),
        random.choice((None, fabric)),
        random.choice(("rows", "columns")),
        random.random() < 0.5,
    )
    return {"sashing": sashing, "space_columns": random.choice((None, 1, 2, 6))}


def random_triangles(random: Random, fabric: str) -> Triangles:
    """Setting triangles of a fabric or of none yet."""
    return Triangles(
        random.choice((None, fabric)),
        Fraction(random.choice((0, 0, 1)), 2),
        random.choice(("chart", "exact")),
    )

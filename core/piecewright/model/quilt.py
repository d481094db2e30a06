"""One arrangement of a quilt: its lattice, what lies in it, and what goes round and behind it."""

from fractions import Fraction
from typing import Literal

from piecewright.model.value import Letters, Value

Turn = Literal[0, 90, 180, 270]


class Lattice(Value):
    """The setting: a grid of `columns` x `rows` square cells, each `unit` finished inches wide and high."""

    unit: Fraction
    columns: int
    rows: int
    kind: Literal["straight"] = "straight"


class Placement(Value):
    """A block on the wall. Its top left cell is `column` and the row it is stored in; it covers as many cells as it is large.

    `kind` and `layer` say which of the blocks that one batch of sewing yields (kind: index into the making's kinds; layer:
    of the stack); `turn` is clockwise; `fabrics` replaces the block's own letters, all or some.
    """

    column: int
    block: str
    turn: Turn = 0
    kind: int = 0
    layer: int = 0
    fabrics: Letters = Letters()


class Row(Value):
    """The placements whose top left cell lies in lattice row `row`, from left to right."""

    row: int
    placements: tuple[Placement, ...]


class Border(Value):
    """A butted border of one fabric, `width` finished; `first` tells which pair is sewn on first and so is the shorter."""

    fabric: str
    width: Fraction
    first: Literal["sides", "top and bottom"] = "sides"


class Binding(Value):
    """Double-fold straight binding cut `width` wide; no fabric: not chosen yet."""

    fabric: str | None = None
    width: Fraction = Fraction(5, 2)


class Backing(Value):
    """`overage` is added to width and height (both sides together) and `seam` is the allowance of a panel seam."""

    fabric: str | None = None
    overage: Fraction = Fraction(8)
    seam: Fraction = Fraction(1, 2)


class Batting(Value):
    """`overage` is added to width and height, both sides together."""

    overage: Fraction = Fraction(8)


class Quilt(Value):
    """One arrangement. `rows` holds only rows that have placements, in order; borders run from the inside out."""

    name: str
    lattice: Lattice
    rows: tuple[Row, ...] = ()
    borders: tuple[Border, ...] = ()
    binding: Binding = Binding()
    backing: Backing = Backing()
    batting: Batting = Batting()

"""One arrangement of a quilt: its lattice, what lies in it, and what goes round and behind it."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cached_property
from typing import Literal

from piecewright.model.limits import check_count, check_name, check_not_negative, check_positive, refuse
from piecewright.model.value import Letters, Value
from piecewright.units.sizes import Finished

Turn = Literal[0, 90, 180, 270]
_TURNS: tuple[Turn, ...] = (0, 90, 180, 270)
MOST_CELLS = 1000
"""The most columns, and the most rows, of a lattice."""
LARGEST_UNIT = Fraction(1000)
MOST_LAYERS = 1000
MOST_BORDERS = 50


def turned_by(turn: Turn, by: Turn) -> Turn:
    """Two clockwise quarter turns, one after the other, as one."""
    return _TURNS[(turn + by) // 90 % 4]


class Lattice(Value, frozen=True):
    """The setting: a grid of `columns` x `rows` square cells, each `unit` finished inches wide and high."""

    unit: Fraction
    columns: int
    rows: int
    kind: Literal["straight"] = "straight"

    def __post_init__(self) -> None:
        check_positive(self.unit, "grid unit", LARGEST_UNIT)
        check_count(self.columns, "columns", 1, MOST_CELLS)
        check_count(self.rows, "rows", 1, MOST_CELLS)


class Placement(Value, frozen=True, omit_defaults=True):
    """A block on the wall.

    Its top left cell is `column` and the row it is stored in; it covers as many cells as it is large.

    `kind` and `layer` say which of the blocks that one batch of sewing yields (kind: index into the making's
    kinds; layer: of the stack); `turn` is clockwise; `fabrics` replaces the block's own letters, all or some. A
    `locked` block stays where it lies, as it lies, whatever is moved or arranged round it.
    """

    column: int
    block: str
    turn: Turn = 0
    kind: int = 0
    layer: int = 0
    fabrics: Letters = Letters()
    locked: bool = False

    def __post_init__(self) -> None:
        if not (
            0 <= self.column < MOST_CELLS and 0 <= self.kind < MOST_LAYERS and 0 <= self.layer < MOST_LAYERS
        ):
            check_count(self.column, "column of a block", 0, MOST_CELLS - 1)
            check_count(self.kind, "kind of a block", 0, MOST_LAYERS - 1)
            check_count(self.layer, "layer of a block", 0, MOST_LAYERS - 1)
        if self.turn not in _TURNS:
            refuse("turn", turn=self.turn)


class Row(Value, frozen=True, dict=True):
    """The placements whose top left cell lies in lattice row `row`, from left to right."""

    row: int
    placements: tuple[Placement, ...]

    def __post_init__(self) -> None:
        check_count(self.row, "row", 0, MOST_CELLS - 1)
        if not self.placements:
            refuse("empty-row", row=self.row)
        last = -1
        for placement in self.placements:
            if placement.column <= last:
                refuse("row-order", row=self.row, column=placement.column)
            last = placement.column

    @cached_property
    def blocks(self) -> frozenset[str]:
        """The ids of the blocks here."""
        return frozenset(placement.block for placement in self.placements)

    @cached_property
    def fabrics(self) -> frozenset[str]:
        """The ids of fabrics that placements here bring of their own."""
        return frozenset[str]().union(*(one.fabrics.ids() for one in self.placements if one.fabrics))


class Border(Value, frozen=True):
    """A butted border of one fabric, `width` finished; the pair sewn on `first` ends short of the corners."""

    fabric: str
    width: Fraction
    first: Literal["sides", "top and bottom"] = "sides"

    def __post_init__(self) -> None:
        check_positive(self.width, "border width")


class Binding(Value, frozen=True):
    """Double-fold binding cut `width` wide; no fabric: not chosen yet.

    `cut` "straight": strips from selvage to selvage, joined end to end by `join`; "bias": one continuous strip
    from a square that is cut from corner to corner. `seam` is the allowance of a straight join and of the two
    seams of such a square; a diagonal join is sewn from corner to corner and takes the strip's width whatever
    its allowance. `extra` inches are counted beyond the way round, for the corners and the closing.
    """

    fabric: str | None = None
    width: Fraction = Fraction(5, 2)
    cut: Literal["straight", "bias"] = "straight"
    join: Literal["diagonal", "straight"] = "diagonal"
    seam: Fraction = Fraction(1, 4)
    extra: Fraction = Fraction(0)

    def __post_init__(self) -> None:
        check_positive(self.width, "binding strip width")
        check_positive(self.seam, "seam allowance of a binding join")
        check_not_negative(self.extra, "extra length of the binding")


class Sleeve(Value, frozen=True):
    """A sleeve to hang the quilt by, `depth` as seen; each end hemmed by `hem`, turned twice."""

    depth: Fraction = Fraction(4)
    hem: Fraction = Fraction(3, 2)

    def __post_init__(self) -> None:
        check_positive(self.depth, "depth of the sleeve")
        check_not_negative(self.hem, "hem of the sleeve")


class Label(Value, frozen=True):
    """A label for the back, as seen once its edges are turned under."""

    width: Fraction = Fraction(5)
    height: Fraction = Fraction(4)

    def __post_init__(self) -> None:
        check_positive(self.width, "width of the label")
        check_positive(self.height, "height of the label")


class Backing(Value, frozen=True):
    """`overage` is added to width and height, both sides together; `seam` is a panel seam's allowance.

    `lie` says which way whole widths may lie, "least": whichever takes less cloth; `pieced`: the last panel may
    be a strip pieced of crosswise strips. A wide backing is a fabric of that width. A `sleeve` and a `label` are
    cut from the backing's fabric.
    """

    fabric: str | None = None
    overage: Fraction = Fraction(8)
    seam: Fraction = Fraction(1, 2)
    lie: Literal["least", "up", "across"] = "least"
    pieced: bool = False
    sleeve: Sleeve | None = None
    label: Label | None = None

    def __post_init__(self) -> None:
        check_not_negative(self.overage, "backing overage")
        check_positive(self.seam, "seam allowance of a backing panel")


class Batting(Value, frozen=True):
    """`overage` is added to width and height, both sides together."""

    overage: Fraction = Fraction(8)

    def __post_init__(self) -> None:
        check_not_negative(self.overage, "batting overage")


class Quilt(Value, frozen=True, dict=True):
    """One arrangement.

    `rows` holds only rows that have placements, in order; borders run from the inside out.
    """

    name: str
    lattice: Lattice
    rows: tuple[Row, ...] = ()
    borders: tuple[Border, ...] = ()
    binding: Binding = Binding()
    backing: Backing = Backing()
    batting: Batting = Batting()

    def __post_init__(self) -> None:
        check_name(self.name, "arrangement")
        check_count(len(self.borders), "borders", 0, MOST_BORDERS)
        last, columns = -1, self.lattice.columns
        for row in self.rows:
            if row.row <= last:
                refuse("rows-order", row=row.row)
            last = row.row
            if row.placements[-1].column >= columns:
                refuse(
                    "outside",
                    row=row.row,
                    column=row.placements[-1].column,
                    columns=columns,
                    rows=self.lattice.rows,
                )
        if last >= self.lattice.rows:
            refuse("outside", row=last, column=0, columns=columns, rows=self.lattice.rows)

    @property
    def finished(self) -> Finished:
        """The quilt's finished size with its borders."""
        around = 2 * sum((border.width for border in self.borders), Fraction(0))
        lattice = self.lattice
        return Finished(lattice.columns * lattice.unit + around, lattice.rows * lattice.unit + around)

    @cached_property
    def by_row(self) -> Mapping[int, Row]:
        """The rows that have placements, by their number."""
        return {row.row: row for row in self.rows}

    @cached_property
    def blocks(self) -> frozenset[str]:
        """The ids of the blocks on the wall."""
        return frozenset[str]().union(*(row.blocks for row in self.rows))

    @property
    def fabrics_around(self) -> frozenset[str]:
        """The ids of fabrics of the borders, the binding and the backing."""
        around = {border.fabric for border in self.borders} | {self.binding.fabric, self.backing.fabric}
        return frozenset(fabric for fabric in around if fabric is not None)

    @cached_property
    def fabrics(self) -> frozenset[str]:
        """The ids of fabrics named here: by placements of their own, borders, binding and backing."""
        return self.fabrics_around.union(*(row.fabrics for row in self.rows))

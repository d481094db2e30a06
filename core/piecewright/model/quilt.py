"""One arrangement of a quilt: its lattice, what lies in it, and what goes round and behind it."""

from collections.abc import Mapping
from fractions import Fraction
from functools import cached_property
from typing import Literal

from piecewright.model.frame import Frame, frame_of
from piecewright.model.limits import check_count, check_name, check_not_negative, check_positive, refuse
from piecewright.model.note import MOST_NOTES, Note
from piecewright.model.setting import Pieced, Sashing, Triangles, ids
from piecewright.model.shape import Shape
from piecewright.model.value import Letters, Value
from piecewright.units.sizes import Finished

Turn = Literal[0, 90, 180, 270]
_TURNS: tuple[Turn, ...] = (0, 90, 180, 270)
MOST_CELLS = 1000
"""The most columns, and the most rows, of a lattice."""
LARGEST_UNIT = Fraction(1000)
MOST_LAYERS = 1000
MOST_BORDERS = 50
MOST_GROUP = 1_000_000
"""The highest number of a group."""


def turned_by(turn: Turn, by: Turn) -> Turn:
    """Two clockwise quarter turns, one after the other, as one."""
    return _TURNS[(turn + by) // 90 % 4]


class Lattice(Value, frozen=True):
    """The setting: a grid of square cells, each `unit` finished inches wide and high.

    Sashing runs round spaces of `space_columns` x `space_rows` cells; without sashing these mean nothing in a
    straight setting, which has `columns` x `rows` cells. On point the spaces are square, and `columns` x `rows` of
    them touch the edges: so many across and down, corner to corner, with (columns - 1) x (rows - 1) more between.
    Their cells are counted along the slanted rows: columns run down to the right and rows down to the left.
    """

    unit: Fraction
    columns: int
    rows: int
    kind: Literal["straight", "on point"] = "straight"
    space_columns: int = 1
    space_rows: int = 1

    def __post_init__(self) -> None:
        check_positive(self.unit, "grid unit", LARGEST_UNIT)
        check_count(self.columns, "columns", 1, MOST_CELLS)
        check_count(self.rows, "rows", 1, MOST_CELLS)
        check_count(self.space_columns, "columns of a space", 1, MOST_CELLS)
        check_count(self.space_rows, "rows of a space", 1, MOST_CELLS)
        if self.kind == "on point":
            if self.space_columns != self.space_rows:
                refuse("space-not-square", columns=self.space_columns, rows=self.space_rows)
            check_count(self.across, "cells along a slanted row", 1, MOST_CELLS)

    @property
    def across(self) -> int:
        """The number of the last column, counted from 1."""
        if self.kind == "straight":
            return self.columns
        return self.space_columns * (self.columns + self.rows - 1)

    @property
    def down(self) -> int:
        """The number of the last row, counted from 1."""
        return self.rows if self.kind == "straight" else self.across

    @property
    def cell_count(self) -> int:
        """How many cells there are."""
        if self.kind == "straight":
            return self.columns * self.rows
        spaces = self.columns * self.rows + (self.columns - 1) * (self.rows - 1)
        return spaces * self.space_columns**2

    def holds(self, column: int, row: int, columns: int = 1, rows: int = 1) -> bool:
        """Whether all of these cells are cells of the lattice."""
        right, bottom = column + columns - 1, row + rows - 1
        if not (column >= 0 and row >= 0 and right < self.across and bottom < self.down):
            return False
        return self.kind == "straight" or self._hold(column, row, right, bottom)

    def _hold(self, left: int, top: int, right: int, bottom: int) -> bool:
        """On point, that the corners of a rectangle of cells are: what is between then is too."""
        k, up = self.space_columns, self.columns - 1
        aside = left // k - bottom // k + up >= 0 and right // k - top // k + up <= 2 * up
        return aside and left // k + top // k >= up and right // k + bottom // k <= up + 2 * (self.rows - 1)


class Placement(Value, frozen=True, omit_defaults=True):
    """A block on the wall.

    Its top left cell is `column` and the row it is stored in; it covers as many cells as it is large.

    `kind` and `layer` say which of the blocks that one batch of sewing yields (kind: index into the making's
    kinds; layer: of the stack); `turn` is clockwise; `fabrics` replaces the block's own letters, all or some. A
    `locked` block stays where it lies, as it lies, whatever is moved or arranged round it. Blocks of one `group` are
    selected, moved and turned together; 0: of none.
    """

    column: int
    block: str
    turn: Turn = 0
    kind: int = 0
    layer: int = 0
    fabrics: Letters = Letters()
    locked: bool = False
    group: int = 0

    def __post_init__(self) -> None:
        if not (
            0 <= self.column < MOST_CELLS
            and 0 <= self.kind < MOST_LAYERS
            and 0 <= self.layer < MOST_LAYERS
            and 0 <= self.group <= MOST_GROUP
        ):
            check_count(self.column, "column of a block", 0, MOST_CELLS - 1)
            check_count(self.kind, "kind of a block", 0, MOST_LAYERS - 1)
            check_count(self.layer, "layer of a block", 0, MOST_LAYERS - 1)
            check_count(self.group, "group of a block", 0, MOST_GROUP)
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
    """A border `width` finished: of `fabric` alone, or `pieced`.

    `corners` "butted": the pair sewn on `first` ends short of the corners, which the other pair covers; "mitered":
    all four meet at a slant, and each strip is cut `spare` longer than edge and corners take; "squares": all four end
    short, and squares of the fabric `corner` (its own where that is None) are sewn to the ends of the second pair.
    Strips of one fabric are cut by `grain`: crosswise from selvage to selvage, and joined; lengthwise along the
    selvage, each in one piece.
    """

    fabric: str
    width: Fraction
    first: Literal["sides", "top and bottom"] = "sides"
    corners: Literal["butted", "mitered", "squares"] = "butted"
    corner: str | None = None
    spare: Fraction = Fraction(1)
    pieced: Pieced | None = None
    grain: Literal["crosswise", "lengthwise"] = "crosswise"

    def __post_init__(self) -> None:
        check_positive(self.width, "border width")
        check_not_negative(self.spare, "spare of a mitered border", Fraction(100))
        if self.pieced is not None and self.corners == "mitered":
            refuse("pieced-and-mitered")

    @property
    def fabrics(self) -> frozenset[str]:
        """The ids of its fabrics."""
        own = self.corners == "squares" and self.corner is not None
        pieces = self.pieced.fabrics if self.pieced else ()
        return ids((self.fabric,), (self.corner,) if own else (), pieces)

    @property
    def block(self) -> str | None:
        """The id of the block that it is pieced of; None where it is of cloth."""
        return self.pieced.block if self.pieced else None

    def renamed(self, names: Mapping[str, str]) -> "Border":
        """A copy in which fabric ids are exchanged as `names` says."""
        return self.changed(
            fabric=names.get(self.fabric, self.fabric),
            corner=self.corner and names.get(self.corner, self.corner),
            pieced=self.pieced and self.pieced.renamed(names),
        )


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

    `rows` holds only rows that have placements, in order; borders run from the inside out. `triangles` count on point
    only. `coping` is the fabric of the coping strips that fill what the blocks leave free; None: it stays free.
    `notes` are pinned to the wall and part of nothing that is made. `shape` is what the sewn cloth is cut to: only
    cells that it reaches have to be covered.
    """

    name: str
    lattice: Lattice
    rows: tuple[Row, ...] = ()
    borders: tuple[Border, ...] = ()
    binding: Binding = Binding()
    backing: Backing = Backing()
    batting: Batting = Batting()
    sashing: Sashing | None = None
    triangles: Triangles = Triangles()
    coping: str | None = None
    notes: tuple[Note, ...] = ()
    shape: Shape | None = None

    def __post_init__(self) -> None:
        check_name(self.name, "arrangement")
        check_count(len(self.notes), "notes", 0, MOST_NOTES)
        check_count(len(self.borders), "borders", 0, MOST_BORDERS)
        self._check_sashing()
        last, columns = -1, self.lattice.across
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
                    rows=self.lattice.down,
                )
        if last >= self.lattice.down:
            refuse("outside", row=last, column=0, columns=columns, rows=self.lattice.down)

    def _check_sashing(self) -> None:
        sashing = self.sashing
        if sashing is not None and self.lattice.kind == "on point" and sashing.columns != sashing.rows:
            refuse("unlike-sashing", columns=sashing.columns, rows=sashing.rows)

    @property
    def frame(self) -> Frame:
        """Where the cells lie."""
        return frame_of(self.lattice, self.sashing, self.triangles.float)

    def fits(self, column: int, row: int, columns: int, rows: int) -> bool:
        """Whether a block over these cells lies in the lattice and on no sash."""
        lattice, sashing = self.lattice, self.sashing
        if not lattice.holds(column, row, columns, rows):
            return False
        if sashing is None:
            return True
        wide, high = lattice.space_columns, lattice.space_rows
        beside = not sashing.columns or column // wide == (column + columns - 1) // wide
        return beside and (not sashing.rows or row // high == (row + rows - 1) // high)

    @property
    def finished(self) -> Finished:
        """The quilt's finished size with its borders."""
        around = 2 * sum((border.width for border in self.borders), Fraction(0))
        center = self.frame.size
        return Finished(center.width + around, center.height + around)

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
        """The ids of fabrics between and round the blocks, and behind them."""
        borders = frozenset[str]().union(*(border.fabrics for border in self.borders))
        between = self.sashing.fabrics if self.sashing else ()
        on_point = self.triangles.fabric if self.lattice.kind == "on point" else None
        rest = (self.binding.fabric, self.backing.fabric, self.coping, on_point)
        return borders | ids(between, rest)

    @property
    def blocks_around(self) -> tuple[str, ...]:
        """The ids of the blocks that borders are pieced of, one for each such border."""
        return tuple(border.block for border in self.borders if border.block is not None)

    @cached_property
    def fabrics(self) -> frozenset[str]:
        """The ids of fabrics named here: by placements of their own, and what lies between and round them."""
        return self.fabrics_around.union(*(row.fabrics for row in self.rows))

"""Where the cells of a setting lie: the one place that carries cells to finished inches and back."""

from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import floor, sqrt
from typing import TYPE_CHECKING

from piecewright.geometry.motion import STILL, Motion, Number, Point
from piecewright.model.setting import Sashing
from piecewright.units.rounding import up_to
from piecewright.units.sizes import Finished

if TYPE_CHECKING:
    from piecewright.model.quilt import Lattice

OUTLINE_STEP = Fraction(1, 8)
"""The outline of a setting on point, no fraction of an inch, is made whole to this: what is added is float."""
HAIR = Fraction(1, 64)
"""An outline longer than a step by no more than this, both sides together, is cut to the step."""
_ROOT = sqrt(2)


@dataclass(frozen=True, eq=False)
class Frame:
    """A lattice with its sashing, laid out.

    Cells lie in the lattice's own frame, exact inches, x along the columns and y down the rows, 0 at the top left of
    cell 0, 0 (left of it, above it, lies sashing where there is some outside). `motion` carries this frame to finished
    inches from the top left of the center, which the blocks and what lies between them cover: a plain move, and on
    point a turn by 45 degrees before it.
    """

    lattice: "Lattice"
    sashing: Sashing | None
    margin: Fraction

    @property
    def sash_columns(self) -> Fraction:
        """The width of the sashing between columns; 0 for none."""
        return self.sashing.columns if self.sashing else Fraction(0)

    @property
    def sash_rows(self) -> Fraction:
        """The width of the sashing between rows; 0 for none."""
        return self.sashing.rows if self.sashing else Fraction(0)

    @property
    def space_width(self) -> Fraction:
        """How wide a space between sashes is."""
        return self.lattice.space_columns * self.lattice.unit

    @property
    def space_height(self) -> Fraction:
        """How high a space between sashes is."""
        return self.lattice.space_rows * self.lattice.unit

    @property
    def on_point(self) -> bool:
        """Whether the lattice stands on a corner."""
        return self.lattice.kind == "on point"

    @property
    def whole_space(self) -> tuple[int, int]:
        """How many columns and rows a coping strip may cover: a space, where the quilt is parted into such.

        In a straight setting without sashing spaces of several columns are columns to be sewn each by itself.
        """
        lattice = self.lattice
        wide = self.on_point or self.sash_columns or lattice.space_columns > 1
        high = self.on_point or self.sash_rows
        return lattice.space_columns if wide else lattice.across, lattice.space_rows if high else lattice.down

    def x(self, column: int) -> Fraction:
        """Where a column begins."""
        return column * self.lattice.unit + column // self.lattice.space_columns * self.sash_columns

    def y(self, row: int) -> Fraction:
        """Where a row begins."""
        return row * self.lattice.unit + row // self.lattice.space_rows * self.sash_rows

    def width(self, column: int, columns: int) -> Fraction:
        """How wide so many columns are, with the sashing that lies between them."""
        return self.x(column + columns - 1) + self.lattice.unit - self.x(column)

    def height(self, row: int, rows: int) -> Fraction:
        """How high so many rows are, with the sashing that lies between them."""
        return self.y(row + rows - 1) + self.lattice.unit - self.y(row)

    @property
    def size(self) -> Finished:
        """The finished size of the center."""
        lattice, out = self.lattice, 2 if self.sashing and self.sashing.outside else 0
        if not self.on_point:
            return Finished(
                self.width(0, lattice.columns) + out * self.sash_columns,
                self.height(0, lattice.rows) + out * self.sash_rows,
            )
        wide, high = (
            count * self.step * _ROOT + 2 * self.margin for count in (lattice.columns, lattice.rows)
        )
        return Finished(_outline(wide), _outline(high))

    @property
    def step(self) -> Fraction:
        """From one space on point to the next along a row, sashing included."""
        return self.space_width + self.sash_columns

    @property
    def floats(self) -> tuple[float, float]:
        """How far the outer points of a setting on point stay inside: at left and right, at top and bottom."""
        size, lattice = self.size, self.lattice
        step = float(self.step) * _ROOT
        return (
            (float(size.width) - lattice.columns * step) / 2,
            (float(size.height) - lattice.rows * step) / 2,
        )

    @property
    def motion(self) -> Motion:
        """What carries the lattice's frame to the center's."""
        if not self.on_point:
            out = self.sashing is not None and self.sashing.outside
            return Motion(dx=self.sash_columns, dy=self.sash_rows) if out else STILL
        aside, down = self.floats
        columns, step = self.lattice.columns, float(self.step)
        return Motion(
            degrees=45.0,
            dx=columns * step / _ROOT + aside,
            dy=((2 - columns) * step - float(self.space_width)) / _ROOT + down,
        )

    def cell(self, point: Point) -> tuple[int, int]:
        """The column and row that a point of the lattice's frame belongs to; sashing to the cell before it.

        They may lie outside the lattice.
        """
        lattice = self.lattice
        return (
            _index(point[0], lattice.unit, lattice.space_columns, self.sash_columns),
            _index(point[1], lattice.unit, lattice.space_rows, self.sash_rows),
        )

    def is_sash(self, point: Point) -> bool:
        """Whether a point of the lattice's frame lies on sashing, inside the lattice or out."""
        across = float(point[0]) % float(self.space_width + self.sash_columns)
        down = float(point[1]) % float(self.space_height + self.sash_rows)
        return across >= float(self.space_width) or down >= float(self.space_height)


@lru_cache(maxsize=256)
def frame_of(lattice: "Lattice", sashing: Sashing | None = None, floating: Fraction = Fraction(0)) -> Frame:
    """The frame of a setting; `floating` counts on point only."""
    return Frame(lattice, sashing, floating)


def _outline(length: float) -> Fraction:
    return up_to(OUTLINE_STEP)(length - float(HAIR))


def _index(place: Number, unit: Fraction, cells: int, sash: Fraction) -> int:
    step = float(cells * unit + sash)
    space = floor(float(place) / step)
    inside = (float(place) - space * step) / float(unit)
    return space * cells + min(floor(inside), cells - 1)

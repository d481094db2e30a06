"""How light each place of the wall should be, for the ways of spreading blocks by value."""

from dataclasses import dataclass
from functools import cached_property
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.registry import Cell
from piecewright.model.value import Value

Targets = NDArray[np.float64]
"""0 for the darkest to 1 for the lightest, one for each place."""
_HAIR = 1e-6


@dataclass(frozen=True, eq=False)
class Places:
    """Where blocks hang: `cells` (n x 4: column, row, columns, rows), and their `middles` and `sizes` (n x 2).

    Middles and sizes are inches on the quilt, x right and y down; on point the size is that of the box round a
    block. `pitch` is how far neighboring cells lie apart.
    """

    cells: NDArray[np.int64]
    middles: NDArray[np.float64]
    sizes: NDArray[np.float64]
    pitch: float
    on_point: bool = False

    @cached_property
    def steps(self) -> NDArray[np.int64]:
        """Which place of its row and column each is, counted in places as large as itself."""
        found: NDArray[np.int64] = self.cells[:, :2] // self.cells[:, 2:]
        return found

    @cached_property
    def centered(self) -> NDArray[np.float64]:
        """Middles from the middle of all places, in halves of their width and height."""
        low, high = self.box
        found: NDArray[np.float64] = (self.middles - (low + high) / 2) / ((high - low) / 2)
        return found

    @cached_property
    def box(self) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """The top left and the bottom right of the box round all places."""
        return (self.middles - self.sizes / 2).min(axis=0), (self.middles + self.sizes / 2).max(axis=0)


class Toward(Value, frozen=True, tag="toward"):
    """Dark to light across the wall: lightest at `degrees`, clockwise from the right-hand side."""

    degrees: int = 90

    def targets(self, places: Places) -> Targets:
        """The way along that direction."""
        x, y = places.middles.T
        return _stretched(x * cos(radians(self.degrees)) + y * sin(radians(self.degrees)))


class FromCenter(Value, frozen=True, tag="from center"):
    """Dark in the middle, light at the edge; `inward` the other way."""

    inward: bool = False

    def targets(self, places: Places) -> Targets:
        """The way from the middle of the wall."""
        away = _stretched(np.hypot(*places.centered.T))
        return 1 - away if self.inward else away


class Rings(Value, frozen=True, tag="rings"):
    """Light and dark frames by turns, `width` cells wide, the outermost light."""

    width: int = 1

    def targets(self, places: Places) -> Targets:
        """By turns from the edge inward."""
        low, high = places.box
        inside = (places.middles - places.sizes / 2 - low, high - places.middles - places.sizes / 2)
        deep = np.minimum(*inside).min(axis=1) / places.pitch
        deep = np.floor((deep + _HAIR) / max(self.width, 1))
        return _by_turns(deep)


class Bands(Value, frozen=True, tag="bands"):
    """Light and dark bands by turns, `width` cells wide, lying at `degrees` to the rows."""

    degrees: int = 45
    width: int = 2

    def targets(self, places: Places) -> Targets:
        """By turns from one band to the next."""
        x, y = (places.middles / places.pitch).T
        turn = radians(self.degrees)
        across = (y * cos(turn) + x * sin(turn)) / max(abs(cos(turn)), abs(sin(turn)))
        return _by_turns(np.floor((across - across.min() + _HAIR) / max(self.width, 1)))


class Checker(Value, frozen=True, tag="checker"):
    """Light and dark by turns, like a checkerboard."""

    def targets(self, places: Places) -> Targets:
        """By turns along rows and columns."""
        return _by_turns(places.steps.sum(axis=1))


class Shape(Value, frozen=True, tag="shape"):
    """These cells lighter than the rest; `dark`: darker."""

    cells: tuple[Cell, ...] = ()
    dark: bool = False

    def targets(self, places: Places) -> Targets:
        """The share of each place that is painted."""
        painted = {(cell.column, cell.row) for cell in self.cells}
        share = np.array(
            [
                sum((column + dx, row + dy) in painted for dx in range(columns) for dy in range(rows))
                / (columns * rows)
                for column, row, columns, rows in places.cells.tolist()
            ]
        )
        return 1 - share if self.dark else share


Spread = Toward | FromCenter | Rings | Bands | Checker | Shape


def _by_turns(count: NDArray[np.int64] | Targets) -> Targets:
    """Light where a count is even, dark where it is odd."""
    return np.array(count % 2 == 0, np.float64)


def _stretched(values: Targets) -> Targets:
    low, high = values.min(), values.max()
    return (values - low) / (high - low) if high > low else np.full_like(values, 0.5)

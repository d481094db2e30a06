"""How light each place of the wall should be, for the ways of spreading blocks by value."""

from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from piecewright.edit.registry import Cell
from piecewright.model.value import Value

Targets = NDArray[np.float64]
"""0 for the darkest to 1 for the lightest, one for each place."""


class Toward(Value, frozen=True, tag="toward"):
    """Dark to light across the wall: lightest at `degrees`, clockwise from the right-hand side."""

    degrees: int = 90

    def targets(self, places: NDArray[np.int64]) -> Targets:
        """The way along that direction."""
        x, y = _middles(places)
        return _stretched(x * cos(radians(self.degrees)) + y * sin(radians(self.degrees)))


class FromCenter(Value, frozen=True, tag="from center"):
    """Dark in the middle, light at the edge; `inward` the other way."""

    inward: bool = False

    def targets(self, places: NDArray[np.int64]) -> Targets:
        """The way from the middle of the wall."""
        x, y = _centered(places)
        away = _stretched(np.hypot(x, y))
        return 1 - away if self.inward else away


class Rings(Value, frozen=True, tag="rings"):
    """Light and dark frames by turns, `width` cells wide, the outermost light."""

    width: int = 1

    def targets(self, places: NDArray[np.int64]) -> Targets:
        """By turns from the edge inward."""
        left, top = places[:, 0] - places[:, 0].min(), places[:, 1] - places[:, 1].min()
        right = (places[:, 0] + places[:, 2]).max() - places[:, 0] - places[:, 2]
        bottom = (places[:, 1] + places[:, 3]).max() - places[:, 1] - places[:, 3]
        deep = np.minimum.reduce((left, top, right, bottom)) // max(self.width, 1)
        return _by_turns(deep)


class Bands(Value, frozen=True, tag="bands"):
    """Light and dark bands by turns, `width` cells wide, lying at `degrees` to the rows."""

    degrees: int = 45
    width: int = 2

    def targets(self, places: NDArray[np.int64]) -> Targets:
        """By turns from one band to the next."""
        x, y = _middles(places)
        turn = radians(self.degrees)
        across = (y * cos(turn) + x * sin(turn)) / max(abs(cos(turn)), abs(sin(turn)))
        return _by_turns(np.floor((across - across.min() + 1e-9) / max(self.width, 1)))


class Checker(Value, frozen=True, tag="checker"):
    """Light and dark by turns, like a checkerboard."""

    def targets(self, places: NDArray[np.int64]) -> Targets:
        """By turns along rows and columns."""
        return _by_turns(steps(places).sum(axis=1))


class Shape(Value, frozen=True, tag="shape"):
    """These cells lighter than the rest; `dark`: darker."""

    cells: tuple[Cell, ...] = ()
    dark: bool = False

    def targets(self, places: NDArray[np.int64]) -> Targets:
        """The share of each place that is painted."""
        painted = {(cell.column, cell.row) for cell in self.cells}
        share = np.array(
            [
                sum((column + dx, row + dy) in painted for dx in range(columns) for dy in range(rows))
                / (columns * rows)
                for column, row, columns, rows in places.tolist()
            ]
        )
        return 1 - share if self.dark else share


Spread = Toward | FromCenter | Rings | Bands | Checker | Shape


def steps(places: NDArray[np.int64]) -> NDArray[np.int64]:
    """Which place of its row and column each is, counted in places as large as itself."""
    return np.stack((places[:, 0] // places[:, 2], places[:, 1] // places[:, 3]), axis=1)


def _by_turns(count: NDArray[np.int64] | Targets) -> Targets:
    """Light where a count is even, dark where it is odd."""
    return np.array(count % 2 == 0, np.float64)


def _middles(places: NDArray[np.int64]) -> tuple[Targets, Targets]:
    return places[:, 0] + places[:, 2] / 2, places[:, 1] + places[:, 3] / 2


def _centered(places: NDArray[np.int64]) -> tuple[Targets, Targets]:
    """Middles from the middle of the wall, in halves of its width and height."""
    x, y = _middles(places)
    low, high = places[:, :2].min(axis=0), (places[:, :2] + places[:, 2:]).max(axis=0)
    middle, half = (low + high) / 2, (high - low) / 2
    return (x - middle[0]) / half[0], (y - middle[1]) / half[1]


def _stretched(values: Targets) -> Targets:
    low, high = values.min(), values.max()
    return (values - low) / (high - low) if high > low else np.full_like(values, 0.5)

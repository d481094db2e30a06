"""What blocks leave free, as few rectangles of cells: each is filled by a coping strip."""

import numpy as np
from numpy.typing import NDArray

Cells = tuple[int, int, int, int]
"""Column, row, columns and rows."""


def gap_rects(free: NDArray[np.bool_], space_columns: int, space_rows: int) -> tuple[Cells, ...]:
    """Rectangles that cover every free cell (rows x columns) once.

    None reaches over an edge of the spaces, so many columns and rows each. Runs along the rows are put together where
    they lie below each other alike, and so are runs down the columns; whichever takes fewer rectangles is given.
    """
    if not free.any():
        return ()
    level = _stacked(free, space_columns, space_rows)
    upright = _stacked(free.T, space_rows, space_columns)
    if len(level) <= len(upright):
        return tuple(sorted(level, key=lambda cells: (cells[1], cells[0])))
    turned = [(row, column, rows, columns) for column, row, columns, rows in upright]
    return tuple(sorted(turned, key=lambda cells: (cells[1], cells[0])))


def _stacked(free: NDArray[np.bool_], space_columns: int, space_rows: int) -> list[Cells]:
    done: list[Cells] = []
    growing: dict[tuple[int, int], Cells] = {}
    for row in range(free.shape[0]):
        runs = _runs(free[row], space_columns)
        kept: dict[tuple[int, int], Cells] = {}
        for start, length in runs:
            above = growing.pop((start, length), None) if row % space_rows else None
            grown = (above[0], above[1], length, above[3] + 1) if above else (start, row, length, 1)
            kept[start, length] = grown
        done += growing.values()
        growing = kept
    return [*done, *growing.values()]


def _runs(line: NDArray[np.bool_], space: int) -> list[tuple[int, int]]:
    """Start and length of each run of free cells, broken at the edges of spaces."""
    if not line.any():
        return []
    edges = np.flatnonzero(np.diff(np.concatenate(([0], line.astype(np.int8), [0]))))
    runs: list[tuple[int, int]] = []
    for start, end in zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True):
        while start < end:
            stop = min(end, (start // space + 1) * space)
            runs.append((start, stop - start))
            start = stop
    return runs

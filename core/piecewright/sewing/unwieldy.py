"""What can be sewn together first where no straight seam runs through: the largest rectangles made of whole pieces."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from piecewright.sewing.lists import Bounds


def largest_groups(bounds: Sequence[Bounds]) -> list[list[int]]:
    """Rectangles in groups, each of which tiles a rectangle that is not the whole: the largest first.

    Every rectangle is in one group, perhaps alone, in the order of their first ones.
    """
    boxes = np.array(bounds, np.int64)
    found = _filled(boxes)
    area = (found[:, 2] - found[:, 0]) * (found[:, 3] - found[:, 1])
    left = found[np.argsort(-area, kind="stable")]
    groups: dict[int, list[int]] = {index: [index] for index in range(len(boxes))}
    while len(left):
        box = left[0]
        inside = np.flatnonzero(_within(boxes, box)).tolist()
        for index in inside[1:]:
            del groups[index]
        groups[inside[0]] = inside
        left = left[~_meets(left, box)]
    return list(groups.values())


def _within(boxes: NDArray[np.int64], box: NDArray[np.int64]) -> NDArray[np.bool_]:
    beyond = (boxes[:, :2] < box[:2]) | (boxes[:, 2:] > box[2:])
    return ~np.logical_or(beyond[:, 0], beyond[:, 1])


def _meets(boxes: NDArray[np.int64], box: NDArray[np.int64]) -> NDArray[np.bool_]:
    shared = (boxes[:, :2] < box[2:]) & (boxes[:, 2:] > box[:2])
    return np.logical_and(shared[:, 0], shared[:, 1])


def _filled(boxes: NDArray[np.int64]) -> NDArray[np.int64]:
    """Every rectangle, not the whole, that two or more of the rectangles tile.

    Its top left corner is that of one of them and its bottom right corner that of one of them; it is tiled by whole
    ones just where what they share with it adds up to it and no edge of it runs through one.
    """
    covers = _Table(boxes)
    whole = covers.whole
    found = []
    for left, top, _, _ in boxes.tolist():
        ends = boxes[(boxes[:, 2] > left) & (boxes[:, 3] > top)][:, 2:]
        tried = np.column_stack([np.full(len(ends), left), np.full(len(ends), top), ends])
        kept = tried[covers.tiled(tried)]
        found.append(kept[(kept != whole).any(axis=1)])
    rects = np.unique(np.concatenate(found), axis=0)
    single = set(map(tuple, boxes.tolist()))
    return rects[[tuple(rect) not in single for rect in rects.tolist()]]


class _Table:
    """Sums over a grid of all edges, by which a rectangle is asked whether it is tiled."""

    def __init__(self, boxes: NDArray[np.int64]) -> None:
        self._across, self._down = np.unique(boxes[:, [0, 2]]), np.unique(boxes[:, [1, 3]])
        self.whole = np.array([self._across[0], self._down[0], self._across[-1], self._down[-1]])
        owners = np.full((len(self._down) - 1, len(self._across) - 1), -1, np.int64)
        for index, (left, top, right, bottom) in enumerate(self._on_grid(boxes).tolist()):
            owners[top:bottom, left:right] = index
        self._gaps = _summed(owners < 0)
        upright = np.ones((owners.shape[0], owners.shape[1] + 1), np.bool_)
        upright[:, 1:-1] = owners[:, 1:] != owners[:, :-1]
        level = np.ones((owners.shape[0] + 1, owners.shape[1]), np.bool_)
        level[1:-1] = owners[1:] != owners[:-1]
        self._broken_upright = np.pad(np.cumsum(~upright, axis=0), ((1, 0), (0, 0)))
        self._broken_level = np.pad(np.cumsum(~level, axis=1), ((0, 0), (1, 0)))

    def _on_grid(self, boxes: NDArray[np.int64]) -> NDArray[np.int64]:
        across, down = (
            np.searchsorted(self._across, boxes[:, ::2]),
            np.searchsorted(self._down, boxes[:, 1::2]),
        )
        return np.stack([across[:, 0], down[:, 0], across[:, 1], down[:, 1]], axis=1)

    def tiled(self, boxes: NDArray[np.int64]) -> NDArray[np.bool_]:
        """Whether each rectangle has edges all round and no gap inside."""
        left, top, right, bottom = self._on_grid(boxes).T
        gaps, upright, level = self._gaps, self._broken_upright, self._broken_level
        empty = gaps[bottom, right] - gaps[top, right] - gaps[bottom, left] + gaps[top, left]
        sides = upright[bottom, left] - upright[top, left] + upright[bottom, right] - upright[top, right]
        ends = level[top, right] - level[top, left] + level[bottom, right] - level[bottom, left]
        tiled: NDArray[np.bool_] = np.equal(empty + sides + ends, 0)
        return tiled


def _summed(cells: NDArray[np.bool_]) -> NDArray[np.int64]:
    return np.pad(cells.astype(np.int64).cumsum(axis=0).cumsum(axis=1), ((1, 0), (1, 0)))
